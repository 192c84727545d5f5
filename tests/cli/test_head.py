"""crankwise head check: what was understood, and what is worth a second look."""

import json
from pathlib import Path

from tests.cli.conftest import Typed


def test_the_bench_head_is_told_back_in_the_words_of_the_trade(typed: Typed) -> None:
    ran = typed("head", "check", "examples/bench-head.toml")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines() == [
        "Bench head",
        "  worm: 72 turns of the crank for one of the spindle; one turn is 5°",
        "  direction: the crank is turned clockwise, the way the dial's numbers grow (a clockwise turn increases them)",
        "  dial: 100 marks, numbered every 10; one mark is 3' at the spindle",
        (
            "  reading limit: the dial is read to 1/2 of a mark by eye, so the reading alone can put the work "
            "out by up to 45.0\"; the head's own error comes on top"
        ),
        "  ring: 360 graduations in degrees, read to 30'",
        "  the ring tells which turn of the crank this is: one turn moves it 5°",
    ]


def test_as_json_each_finding_has_its_code_and_place(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "head.toml"
    path.write_text(
        'name = "Odd"\n[worm]\nwheel_teeth = 40\nstarts = 2\n[dial]\nmarks = 100\nnumbered_every = 7\n'
        "[[plates]]\ncircles = [15, 16]\n[[plates]]\ncircles = [16, 17]\n[ring]\ngraduations = 20\n",
        encoding="utf-8",
    )
    ran = typed("head", "check", str(path), "--json")
    found = json.loads(ran.out)
    assert (ran.code, found["ratio"], found["circles"]) == (0, "20", [15, 16, 17])
    assert [(finding["code"], finding["place"]) for finding in found["findings"]] == [
        ("ratio-is-half-a-usual-one", "worm"),
        ("numerals-unusual", "dial.numbered_every"),
        ("circle-on-two-plates", "plates[1].circles[0]"),
        ("ring-too-coarse", "ring.read_to"),
    ]


def test_a_wrong_head_is_2_with_a_sentence_a_fault(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "my-head.toml"
    path.write_text('name = "x"\n[worm]\nwheel_teeth = 0\n[dial]\nmarks = 1\n', encoding="utf-8")
    ran = typed("head", "check", str(path), "--json")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.splitlines() == [
        "crankwise: worm.wheel_teeth (my-head.toml, line 3): 0; a worm wheel has 1 or more",
        "crankwise: dial.marks (my-head.toml, line 5): 1 mark; a dial has 2 or more",
    ]


def test_a_slide_has_a_lead_and_no_ratio(typed: Typed) -> None:
    told = json.loads(typed("head", "check", "examples/mill-table.toml", "--json").out)
    assert (told["ratio"], told["lead_mm"], told["travel_mm"]) == (None, "5", "400")
    assert told["dial_places"] == 200
    assert told["findings"] == []
