"""The commands that size holes, flats and the rarer kinds of work: cards in both units, tables, JSON."""

import json
import re
import shlex
from math import cos, dist, pi, sin
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Typed

COMMANDS = {
    "holes": "7 --circle 60mm --hole 6mm",
    "flats": "6 --across-flats 17mm",
    "angles": "'0: top; 90: open'",
    "worm-wheel": "72 --module 1 --worm 20mm",
    "rack": "40 --module 1 --leadscrew 5mm --marks 100",
    "ratchet": "24 --outside 50mm --depth 3mm",
    "splines": "6x23x26",
    "sprocket": "19 --chain 08B",
    "clock-wheel": "60 --pinion 8 --module 0.5",
}


def words(command: str) -> list[str]:
    return [command, *shlex.split(COMMANDS[command])]


def answer(typed: Typed, *typed_words: str) -> dict[str, Any]:
    ran = typed(*typed_words, "--json")
    assert (ran.code, ran.err) == (0, "")
    told: dict[str, Any] = json.loads(ran.out)
    return told


@pytest.mark.parametrize("command", COMMANDS)
def test_the_text_is_cards_in_both_units_and_the_cautions(typed: Typed, command: str) -> None:
    ran = typed(*words(command))
    assert (ran.code, ran.err) == (0, "")
    assert "\nMeasuring\n" in ran.out
    assert ran.out.rstrip().endswith("come before this sheet.")
    if command != "angles":
        assert "\nPreparation\n" in ran.out
        assert " mm (" in ran.out


@pytest.mark.parametrize("command", COMMANDS)
def test_the_json_says_what_it_is(typed: Typed, command: str) -> None:
    told = answer(typed, *words(command))
    assert told["format"] == 1
    assert told["kind"] == ("list" if command == "angles" else command)
    assert told["cards"]
    assert isinstance(told["warnings"], list)


@pytest.mark.parametrize("command", COMMANDS)
def test_every_example_of_the_help_is_answered(typed: Typed, command: str) -> None:
    told = typed(command, "--help").out
    examples = [line.strip() for line in told.splitlines() if line.startswith("  crankwise ")]
    assert examples
    for example in examples:
        ran = typed(*shlex.split(example)[1:])
        assert (ran.code, ran.err) == (0, ""), example


def test_seven_holes(typed: Typed) -> None:
    told = answer(typed, *words("holes"))
    assert told["chord_mm"] == pytest.approx(60 * sin(pi / 7), abs=1e-9)
    assert len(told["coordinates_mm"]) == 7
    assert told["coordinates_mm"][1] == pytest.approx([30 * cos(2 * pi / 7), 30 * sin(2 * pi / 7)], abs=1e-9)
    assert told["opposite_mm"] == pytest.approx(dist(told["coordinates_mm"][0], told["coordinates_mm"][3]))
    assert told["coordinates_in"][0] == pytest.approx([30 / 25.4, 0])
    assert told["web_mm"] == pytest.approx(told["chord_mm"] - 6)
    assert told["circles"][0]["holes"] == 7


def test_the_datum_is_any_place_in_either_unit(typed: Typed) -> None:
    told = answer(typed, "holes", "4", "--circle", "2in", "--centre", "3in, 10mm", "--first-at", "top")
    assert told["coordinates_mm"][0] == pytest.approx([76.2, 35.4])


@pytest.mark.parametrize(
    ("place", "more", "angle"),
    [
        ("right", [], "0"),
        ("top", [], "90"),
        ("left", [], "180"),
        ("bottom", [], "270"),
        ("straddle", [], "60"),
        ("straddle", ["--clockwise"], "120"),
        ("-30deg", [], "330"),
        ("15", ["--clockwise"], "15"),
    ],
)
def test_where_the_first_hole_lies(typed: Typed, place: str, more: list[str], angle: str) -> None:
    told = answer(typed, "holes", "6", "--circle", "60mm", f"--first-at={place}", *more)
    assert told["angles_deg"][0] == angle


def test_straddling_holes_lie_either_side_of_the_top(typed: Typed) -> None:
    for more in ([], ["--clockwise"]):
        told = answer(typed, "holes", "6", "--circle", "60mm", "--first-at", "straddle", *more)
        (x, y), (other_x, other_y) = told["coordinates_mm"][:2]
        assert (x, y) == pytest.approx((-other_x, other_y))
        assert y > 0


def test_the_dials_of_the_mill_stand_where_the_holes_are(typed: Typed) -> None:
    told = answer(
        typed, "holes", "5", "--circle", "80mm", "--leadscrew", "1/10in", "--marks", "100", "--read-to", "1/2"
    )
    for (x, y), dials in zip(told["coordinates_mm"], told["dials"], strict=True):
        for place, dial in ((x, dials["x"]), (y, dials["y"])):
            stands = (dial["turns"] + float(dial["reading"]) / 100) * 2.54
            assert stands == pytest.approx(place, abs=0.0064)
            assert dial["error_um"] == pytest.approx((stands - place) * 1000, abs=1e-6)


def test_a_hole_plate_has_its_circles(typed: Typed) -> None:
    told = answer(
        typed, "holes", "37", "--circle", "80mm", "--hole", "3mm", "--also", "41 on 90mm, 49 @ 4in hole 1/8in"
    )
    assert [circle["holes"] for circle in told["circles"]] == [37, 41, 49]
    assert told["circles"][2]["hole_mm"] == pytest.approx(3.175)
    assert told["circles"][2]["circle_mm"] == pytest.approx(101.6)


def test_a_hexagon(typed: Typed) -> None:
    told = answer(typed, *words("flats"))
    assert told["bar_mm"] == pytest.approx(17 / cos(pi / 6), abs=1e-9)
    assert told["depth_mm"] == pytest.approx((17 / cos(pi / 6) - 17) / 2, abs=1e-9)
    assert told["across_corners_mm"] == pytest.approx(told["bar_mm"])
    assert len(told["each"]) == 6


@pytest.mark.parametrize(
    "size",
    [
        ["--across-flats", "20mm"],
        ["--height", "10mm"],
        ["--side", "20mm"],
        ["--across-corners", f"{20 * 2**0.5:.12f}mm"],
        ["--depth", "2.5mm", "--bar", "25mm"],
    ],
    ids=lambda size: size[0],
)
def test_a_square_is_told_in_many_ways(typed: Typed, size: list[str]) -> None:
    assert answer(typed, "flats", "4", *size)["across_flats_mm"] == pytest.approx(20)


def test_inches_come_first_where_inches_were_typed(typed: Typed) -> None:
    assert "0.5000 in (12.700 mm) across flats" in typed("flats", "4", "--across-flats", "1/2in").out
    assert "12.700 mm (0.5000 in) across flats" in typed("flats", "4", "--across-flats", "12.7mm").out


def test_tables_have_the_unit_first_that_was_typed(typed: Typed) -> None:
    dials = ("--leadscrew", "1/10in", "--marks", "100")
    inch = typed("holes", "7", "--circle", "4in", "--hole", "1/4in", *dials).out
    assert re.search(r"position +angle +x, in +y, in +x, mm +y, mm", inch)
    assert re.search(r"1 +51\.4286° +1\.2470 +1\.5637 +31\.673 +39\.717 +12 +47 +0\.02 thou", inch)
    metric = typed("holes", "7", "--circle", "60mm", "--hole", "6mm", *dials).out
    assert re.search(r"position +angle +x, mm +y, mm +x, in +y, in", metric)
    rack = typed("rack", "12", "--dp", "24", *dials).out
    assert re.search(r"position +in +mm +turns +dial +error", rack)
    assert re.search(r"5 +0\.6545 +16\.624 +6 +54 +-0\.50 thou", rack)


def test_a_list_comes_from_a_file_as_well(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "list.txt"
    path.write_text("\ufeff# cam\n0: top\n 1/7 turn: a seventh\n", encoding="utf-8")
    told = answer(typed, "angles", "--file", str(path))
    assert told["positions"] == [
        {"position": 0, "angle_deg": "0", "text": "top"},
        {"position": 1, "angle_deg": "360/7", "text": "a seventh"},
    ]


def test_a_list_that_is_no_text_is_refused_with_its_line(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "list.txt"
    path.write_bytes(b"0: top\n90: \xff\n")
    ran = typed("angles", "--file", str(path))
    assert (ran.code, ran.out) == (2, "")
    assert "list.txt, line 2: this is not text in UTF-8" in ran.err


def test_a_rack_is_set_by_its_dial(typed: Typed) -> None:
    told = answer(typed, *words("rack"))
    assert told["pitch_mm"] == pytest.approx(pi)
    assert (told["dial"][39]["turns"], told["dial"][39]["reading"]) == (24, "50")
    assert told["worst_error_um"] <= 25
    assert told["spaces_in_travel"] is None


def test_a_rack_too_long_for_the_slide_says_how_far_it_goes(typed: Typed) -> None:
    told = answer(typed, "rack", "200", "--module", "1.5", "--travel", "400mm")
    assert told["spaces_in_travel"] == 85
    assert [warning["code"] for warning in told["warnings"]] == ["travel"]


def test_the_travel_of_a_slide_is_taken_from_its_file_where_none_is_typed(
    typed: Typed, tmp_path: Path
) -> None:
    head = tmp_path / "table.toml"
    head.write_text(
        'name = "T"\n[slide]\nlead = "5mm"\ntravel = "400mm"\n[dial]\nmarks = 100\n', encoding="utf-8"
    )
    rack = ("rack", "200", "--module", "1.5", "--head", str(head))
    assert answer(typed, *rack)["spaces_in_travel"] == 85
    assert answer(typed, *rack, "--travel", "500mm")["spaces_in_travel"] == 107
    job = tmp_path / "rack.toml"
    assert typed(*rack, "--job", str(job)).code == 0
    assert "the slide travels 400.000 mm" in typed("divide", "--job", str(job)).out.lower()


def test_holes_close_together_are_warned_of(typed: Typed) -> None:
    told = answer(typed, "holes", "28", "--circle", "60mm", "--hole", "6mm")
    assert [warning["code"] for warning in told["warnings"]] == ["thin-web"]


def test_what_was_recalled_says_so(typed: Typed) -> None:
    for command in ("sprocket", "splines", "clock-wheel"):
        assert [warning["code"] for warning in answer(typed, *words(command))["warnings"]] == ["from-memory"]


@pytest.mark.parametrize(
    "command", ["worm-wheel 72 --dp 24 --worm 5/8in", "clock-wheel 60 --pinion 8 --dp 24"]
)
def test_a_wheel_is_called_by_the_pitch_it_was_asked_by(typed: Typed, command: str) -> None:
    name = answer(typed, *shlex.split(command))["name"]
    assert "DP 24" in name
    assert "module" not in name


@pytest.mark.parametrize(
    ("command", "told"),
    [
        (
            f"holes {'--plate 15,16,17,18 --circle 110mm --apart 7mm'}",
            "circle 1 (18 holes), the first of 4 runs from one zero",
        ),
        ("splines 6x23x26", "keys, the first of 2 runs from one zero"),
        ("clock-wheel 60 --pinion 8 --module 0.5", "the wheel, the first of 2 pieces of work"),
    ],
)
def test_a_job_of_several_runs_says_which_of_them_it_is(
    typed: Typed, tmp_path: Path, command: str, told: str
) -> None:
    ran = typed(*shlex.split(command), "--job", str(tmp_path / "job.toml"))
    assert f"it is {told}; which = 2 under [part] is the next" in ran.err


@pytest.mark.parametrize(
    ("command", "told"),
    [
        ("holes --plate 15,16,17 --circle 20mm --hole 3mm", "less than 3.333 mm (0.1312 in) does"),
        (
            "splines 6x26x23",
            "the diameter over the floors, 26.000 mm (1.0236 in), goes first and is the smaller",
        ),
    ],
)
def test_what_cannot_be_says_what_would(typed: Typed, command: str, told: str) -> None:
    ran = typed(*shlex.split(command))
    assert ran.code == 2
    assert told in ran.err


def test_a_rack_asked_by_its_pitch_is_called_by_it(typed: Typed) -> None:
    name = answer(typed, "rack", "40", "--pitch", "1/8in")["name"]
    assert name == "rack, 40 spaces, pitch 3.175 mm (0.1250 in), 20°"


@pytest.mark.parametrize(
    ("size", "name"),
    [
        ("6x23x26", "splined shaft 6 x 23 x 26 mm, keys 6 mm wide"),
        ("4x3/4inx1inx1/4in", "splined shaft 4 x 0.75 x 1 in, keys 0.25 in wide"),
    ],
)
def test_splines_are_called_by_their_size_as_the_trade_writes_it(typed: Typed, size: str, name: str) -> None:
    assert answer(typed, "splines", size)["name"] == name
