"""crankwise graduate: lines, what touches, what cures it, and sentences for what cannot be."""

import json
from fractions import Fraction
from pathlib import Path

import pytest

from crankwise.tasks.asked_scale import MOST_BYTES
from tests.cli.conftest import Typed

TIDE = (
    "graduate",
    "--period",
    "12h25m",
    "--per-line",
    "5m",
    "--across",
    "150mm",
    "--face",
    "10mm",
    "--classes",
    "1=3.25mm, 3=4.9mm, 12=6.5mm",
)


def test_json_tells_every_line_of_the_tide_ring(typed: Typed) -> None:
    ran = typed(*TIDE, "--height", "2.4mm", "--json")
    assert (ran.code, ran.err) == (0, "")
    answer = json.loads(ran.out)
    lines = answer["lines"]
    assert len(lines) == 149
    assert [Fraction(line["angle"]) for line in lines] == [Fraction(360 * k, 149) for k in range(149)]
    assert lines[12] == {
        "position": 12,
        "angle": "4320/149",
        "class": "long",
        "length_mm": 6.5,
        "count": "12",
        "numeral": "1",
    }
    assert [line["numeral"] for line in lines if line["numeral"]] == [str(hour) for hour in range(13)]
    # 12 is (0.35 + 0.15 + 0.65) x 2.4 = 2.76 mm wide, its 1 in the middle 0.96 mm to the left, its 2 0.6 to the right.
    # They stand on a circle of 150 - 2 x 8.15 mm, and the positions rise to the left.
    one, two = lines[144]["figure_offsets_deg"]
    assert one == pytest.approx(0.96 / (3.14159265 * 133.7) * 360)
    assert two == pytest.approx(-0.6 / (3.14159265 * 133.7) * 360)
    assert answer["collisions"] == []
    assert answer["largest_numeral_mm"] == 2.4
    assert answer["least_spacing_mm"] == pytest.approx(3.1627, abs=1e-4)
    assert [one["stop_piece_mm"] for one in answer["classes"]] == [3.25, 1.6, 0]
    assert [(one["order"], one["stop_changes"], one["spindle_turns"]) for one in answer["orders"]] == [
        ("class-by-class", 2, "442/149"),
        ("straight-round", 99, "148/149"),
    ]


def test_3_2_mm_stamps_touch_and_the_answer_is_no(typed: Typed) -> None:
    ran = typed(*TIDE, "--height", "3.2mm", "--json")
    assert ran.code == 1
    assert ran.err == (
        "crankwise: 13 collisions, the first: numeral 0 at line 0 overlaps the long line 0 by 0.50 mm (0.020 in); "
        "what works: numerals of 2.4 mm (0.0944 in) or less (of the usual stamps, 3/32 in); or lines of which the "
        "longest is 5.7 mm (0.2244 in) or less (all classes in proportion)\n"
    )
    answer = json.loads(ran.out)
    assert len(answer["collisions"]) == 13
    assert (
        answer["collisions"][1]["says"]
        == "numeral 1 at line 12 overlaps the long line 12 by 0.50 mm (0.020 in)"
    )
    assert [(fix["change"], fix["to"]) for fix in answer["fixes"]] == [
        ("smaller-numerals", 2.4),
        ("shorter-lines", 5.7),
    ]


def test_without_a_height_the_largest_usual_stamp_that_clears_is_taken(typed: Typed) -> None:
    answer = json.loads(typed(*TIDE, "--json").out)
    assert answer["numerals"]["height_mm"] == 2.38125


def test_a_dial_says_which_way_its_numbers_run_and_what_to_make(typed: Typed) -> None:
    ran = typed(
        "graduate", "--lead", "1.5mm", "--per-line", "0.01mm", "--on", "drum", "--across", "60mm", "--list"
    )
    assert ran.code == 0
    assert ran.out.startswith("150 equal lines on a drum, 60.000 mm (2.3622 in) across the reading edge\n")
    assert "the numbers run anticlockwise" in ran.out
    assert "they run to the left" in ran.out
    assert "stop piece for short lines              2.000 mm (0.0787 in)" in ran.out
    assert "POWER OFF" in ran.out
    assert ran.out.rstrip().splitlines()[-1].split() == ["149", "357°36'0.0\"", "357.60000°", "short", "2.00"]


def test_inches_first_on_request(typed: Typed) -> None:
    ran = typed("graduate", "100", "--on", "drum", "--across", "2in", "--inch")
    assert ran.out.startswith("100 equal lines on a drum, 2.0000 in (50.800 mm) across the reading edge\n")


def test_a_ring_read_from_behind_is_mirrored_and_work_that_turns_the_other_way_is_numbered_backwards(
    typed: Typed,
) -> None:
    front = json.loads(typed("graduate", "12", "--across", "90mm", "--json").out)
    rear = json.loads(typed("graduate", "12", "--across", "90mm", "--faces", "rear", "--json").out)
    assert front["direction"]["numbers_run"] == "anticlockwise"
    assert rear["direction"]["numbers_run"] == "clockwise"
    same = typed("graduate", "12", "--across", "90mm", "--work-turns", "clockwise", "--json")
    assert json.loads(same.out)["lines"] == front["lines"]
    other = json.loads(
        typed("graduate", "12", "--across", "90mm", "--work-turns", "anticlockwise", "--json").out
    )
    assert other["direction"]["numbered_backwards"] is True
    assert [line["count"] for line in other["lines"]] == ["0", *map(str, range(11, 0, -1))]


def test_a_vernier_tells_what_it_reads_to(typed: Typed) -> None:
    answer = json.loads(
        typed(
            "graduate",
            "--vernier",
            "12",
            "--over",
            "23",
            "--main-part",
            "1deg",
            "--across",
            "120mm",
            "--json",
        ).out
    )
    told = {line["what"]: line["note"] for line in answer["cards"][0]["lines"]}
    assert "the vernier's run in from it, the main scale's must run out" in told["main scale"]
    assert answer["vernier"] == {
        "parts": 12,
        "over": 23,
        "form": "direct",
        "least_count": "1/12",
        "arc": "23",
        "zero": "0",
        "runs_with": True,
    }
    assert answer["lines"][1]["angle"] == "23/12"


def test_a_logarithmic_scale_says_how_good_its_angles_are(typed: Typed) -> None:
    words = ("graduate", "--law", "log", "--values", "1:10:1", "--across", "200mm")
    answer = json.loads(typed(*words, "--json").out)
    assert answer["exact"] is False
    assert float(answer["lines"][1]["angle"]) == pytest.approx(108.371, abs=1e-3)
    assert "kept to 1e-12 turn" in typed(*words).out


def test_calibrated_points_come_from_a_file_too(typed: Typed, tmp_path: Path) -> None:
    file = tmp_path / "points.txt"
    file.write_text("# depth = angle\n0 = 0\n10 = 31.5\n20 = 64d30m\n", encoding="utf-8")
    answer = json.loads(
        typed("graduate", "--points-file", str(file), "--values", "0:20:5", "--across", "90mm", "--json").out
    )
    assert [line["angle"] for line in answer["lines"]] == ["0", "15.75", "31.5", "48", "64.5"]
    missing = typed("graduate", "--points-file", str(tmp_path / "none"), "--across", "90mm")
    assert missing.code == 2
    assert "there is no such file" in missing.err


def test_a_file_of_points_is_never_cut_short(typed: Typed, tmp_path: Path) -> None:
    file = tmp_path / "points.txt"
    ending = "10 = 31.5"
    file.write_text(
        "0 = 0\n" + "#" * (MOST_BYTES - len("0 = 0\n") - len(ending)) + "\n" + ending, encoding="utf-8"
    )
    assert file.stat().st_size == MOST_BYTES + 1, "the last figure would be lost"
    cut = typed("graduate", "--points-file", str(file), "--across", "90mm")
    assert (cut.code, cut.out) == (2, "")
    assert "points.txt: 200,001 bytes; a file of points is a few pages of text" in cut.err


def test_a_thread_dial_tells_where_to_close(typed: Typed) -> None:
    words = (
        "graduate",
        "--thread-dial",
        "16",
        "--lead",
        "4tpi",
        "--threads",
        "6tpi,11tpi",
        "--across",
        "40mm",
    )
    answer = json.loads(typed(*words, "--json").out)
    assert len(answer["lines"]) == 8
    assert [one["places"] for one in answer["threads"]] == ["8", "4"]
    assert "every 2 lines, from the one it was closed at" in typed(*words).out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("100",), "across: missing; say the diameter of the reading edge, as --across 150mm or 3in"),
        (("--across", "9mm"), "scale: nothing given; say one of: a number of lines, lead,"),
        (("10", "--lead", "1mm", "--across", "9mm"), "scale: lines and lead given; say one of"),
        (("10", "--values", "1:2:1", "--across", "9mm"), "values: goes with law or points, not with lines"),
        (("--lead", "1mm", "--across", "9mm"), "per-line: missing; say what one line is worth"),
        (("10", "--arc", "400", "--across", "9mm"), "arc: 400 degrees; an arc is above 0 and below 360"),
        (("0", "--across", "9mm"), "lines: 0; a scale has 1 line or more"),
        (("30000", "--across", "9mm"), "lines: 30,000; at most 20,000 are graduated"),
        (
            ("--law", "x +", "--values", "1:2:1", "--across", "90mm"),
            "formula: 'x +' cannot be read; write it with",
        ),
        (
            ("--law", "log10(x)", "--values", "0:2:1", "--across", "90mm"),
            "formula: 'log10(x)' has no value at x = 0: it divides by 0 there, takes a root or a logarithm",
        ),
        (
            ("--law", "90 - x", "--values", "0:9:1", "--across", "90mm"),
            "scale: from 0 to 1 the angle falls, by 1 degrees",
        ),
        (
            ("--law", "x*100", "--values", "0:9:1", "--across", "90mm"),
            "scale: at 4 it is 400 degrees past 0, a full circle or more",
        ),
        (
            ("10", "--across", "90mm", "--on", "sphere"),
            "on: 'sphere' is not known; it is ring or drum or cone",
        ),
        (
            ("10", "--across", "90mm", "--on", "drum", "--stand", "level"),
            "stand: numerals stand level on a flat ring",
        ),
        (
            ("10", "--across", "90mm", "--on", "drum", "--numerals", "inside"),
            "numerals: a drum has no inside",
        ),
        (
            ("10", "--across", "90mm", "--classes", "1=2mm:0.2mm:1mm:1mm"),
            "classes: '1=2mm:0.2mm:1mm:1mm' is no",
        ),
        (
            ("10", "--across", "90mm", "--widths", "10=2mm"),
            "widths: '10=2mm'; write each figure and its width",
        ),
        (("10", "--across", "90mm", "--shoulder"), "shoulder: how far off it is is not known"),
        (
            ("59", "--across", "150mm", "--height", "12mm", "--face", "10mm"),
            "numerals: 12 mm high they take 12.30 mm with their burr, and the whole face has 10 mm",
        ),
        (("--points", "1=0, 2", "--across", "90mm"), "points: point 2 is '2'; write value = angle"),
        (
            ("--period", "noon", "--per-line", "5m", "--across", "9mm"),
            "period: 'noon' is not a time; write it as",
        ),
    ],
)
def test_what_cannot_be_earns_one_sentence_that_says_what_would_work(
    typed: Typed, words: tuple[str, ...], says: str
) -> None:
    ran = typed("graduate", *words)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(f"crankwise: {says}")
    assert ran.err.count("\n") == 1


@pytest.mark.parametrize(
    ("vernier", "numerals"),
    [
        ("12 --over 23 --main-part 1deg", ["0", "15", "30", "45", "60"]),
        ("30 --over 29 --main-part 1deg", ["0", "20", "40", "60"]),
        ("10 --main-part 1deg", ["0", "5", "10"]),
        ("12 --over 23 --main-part 1deg --numeral-step 1", ["0", "3", "6", "9", "12"]),
    ],
)
def test_a_vernier_of_whole_minutes_is_numbered_in_minutes(
    typed: Typed, vernier: str, numerals: list[str]
) -> None:
    words = f"graduate --vernier {vernier} --on ring --across 120mm --json".split()
    told = json.loads(typed(*words).out)
    assert [line["numeral"] for line in told["lines"] if line["numeral"]] == numerals
    if "--numeral-step" not in words:
        assert "counts-oddly" not in [one["code"] for one in told["findings"]]
