"""The table read back by the csv module and compared with brute force."""

import csv
import io
from fractions import Fraction
from math import isfinite

import pytest

from crankwise.exact.angle import read_angle
from crankwise.plan.passes import ONE_PASS, Pass, Passes, long_lines_first, rough_then_finish, with_trace
from crankwise.plan.plan import Plan
from crankwise.sheets.csv_table import csv_bytes, defused
from tests.gear import BENCH_HEAD, PLATE_HEAD
from tests.sheets.plans import degrees_out, every_run, half_marks_by_trying_all, plan, tide_ring


def read_back(planned: Plan, title: str = "Tide ring", passes: Passes = ONE_PASS) -> list[dict[str, str]]:
    text = csv_bytes(planned, title, passes).decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def test_every_row_of_the_tide_ring_is_what_brute_force_says() -> None:
    rows = read_back(tide_ring())
    assert len(rows) == 150
    for position, row in enumerate(rows):
        half_marks = half_marks_by_trying_all(position, 149, 72, 100)
        out = degrees_out(half_marks, position, 149, 72, 100)
        turns, reading = divmod(Fraction(half_marks, 2), 100)
        assert row["position"] == str(position)
        assert int(row["whole turns since zero"]) == turns
        assert Fraction(row["dial reading (marks)"]) == reading
        assert read_angle(row["target exact (degrees)"]) == Fraction(position, 149)
        assert abs(Fraction(row["target (degrees)"]) - Fraction(position * 360, 149)) <= Fraction(
            1, 2 * 10**8
        )
        assert abs(Fraction(row["error (arc seconds)"]) - out * 3600) <= Fraction(1, 2 * 10**4)
        assert abs(Fraction(row["ring check (degrees)"]) - half_marks * Fraction(1, 40) % 360) <= Fraction(
            1, 2 * 10**4
        )
        at_rim = float(out) / 360 * 3.141592653589793 * 150_000
        assert float(row["error at rim (µm)"]) == pytest.approx(at_rim, abs=0.0006)
        assert float(row["error at rim (thou)"]) == pytest.approx(at_rim / 25.4, abs=0.00006)


def test_a_reading_is_told_between_the_two_numerals_it_lies_between() -> None:
    rows = read_back(tide_ring())
    assert rows[1]["between numerals"] == "between 40 and 50: 8.5 past 40"
    assert rows[2]["between numerals"] == "between 90 and 0: 6.5 past 90"


def test_the_closing_row_says_which_position_it_is_again_and_what_must_be_seen() -> None:
    *_, last = read_back(tide_ring())
    assert (last["position"], last["whole turns since zero"], last["dial reading (marks)"]) == (
        "149",
        "72",
        "0",
    )
    assert last["what to do"].startswith(
        "0 = 149. Back at the beginning: the tool must fall in the first line."
    )


def test_a_run_of_several_passes_has_a_row_for_each_position_of_each_pass_in_the_order_worked() -> None:
    rows = read_back(tide_ring(), passes=with_trace(rough_then_finish(Fraction(3, 2), Fraction(9, 4))))
    assert len(rows) == 3 * 150
    assert [row["position"] for row in rows] == [str(count) for count in range(150)] * 3
    assert [(row["pass"], row["pass name"], row["depth from the rim (mm)"]) for row in rows[149::150]] == [
        ("1", "Trace", ""),
        ("2", "Roughing, 1.50 mm deep", "1.5"),
        ("3", "Finishing, 2.25 mm deep", "2.25"),
    ]
    assert [row["what to do"] for row in rows[1::150]] == [
        "lock, a faint mark only",
        "lock, scribe the line (rough)",
        "lock, scribe the line (finish)",
    ]
    # Turns count on from the start; what is read, and the angle of a position, are the same in every pass.
    for first, again in zip(rows[:150], rows[150:300], strict=True):
        assert int(again["whole turns since zero"]) == int(first["whole turns since zero"]) + 72
        assert again["dial reading (marks)"] == first["dial reading (marks)"]
        assert again["target exact (degrees)"] == first["target exact (degrees)"]


def test_a_spread_order_and_line_lengths_are_rows_in_the_order_worked() -> None:
    spread = read_back(tide_ring(), passes=(Pass(spread=3),))
    assert [int(row["position"]) for row in spread] == [
        *range(0, 149, 3),
        *range(1, 149, 3),
        *range(2, 149, 3),
        149,
    ]
    lengths = read_back(tide_ring(), passes=long_lines_first(10, 5))
    assert [int(row["position"]) for row in lengths[:16]] == [*range(0, 149, 10), 149]
    assert lengths[31]["what to do"].startswith("5 = 154. Back at the beginning")


def test_holes_are_counted_on_the_circle_that_the_heading_names() -> None:
    rows = read_back(plan(PLATE_HEAD, "plain", "48"))
    [heading] = [name for name in rows[0] if name.startswith("holes")]
    circle = int(heading.removeprefix("holes past the whole turn (").removesuffix(" circle)"))
    for position, row in enumerate(rows):
        turned = int(row["whole turns since zero"]) + Fraction(int(row[heading]), circle)
        assert turned == Fraction(40 * position, 48)


def test_the_two_pins_together_reach_the_place() -> None:
    rows = read_back(plan(PLATE_HEAD, "two-circle", "149"))
    first, second = (name for name in rows[0] if name.startswith("holes"))
    circles = [int(name.partition("(")[2].removesuffix(" circle)")) for name in (first, second)]
    for position, row in enumerate(rows):
        turned = int(row["whole turns since zero"]) + Fraction(int(row[first]), circles[0])
        turned += Fraction(int(row[second]), circles[1])
        out = (turned / 40 - Fraction(position, 149)) * 1_296_000
        assert abs(Fraction(row["error (arc seconds)"]) - out) <= Fraction(1, 2 * 10**4)


@pytest.mark.parametrize("kind", every_run())
def test_every_row_has_a_field_for_every_heading_and_figures_are_plain_numbers(kind: str) -> None:
    planned, passes = every_run()[kind]
    text = csv_bytes(planned, "Job", passes).decode("utf-8-sig")
    headings, *rows = csv.reader(io.StringIO(text, newline=""), strict=True)
    assert len(set(headings)) == len(headings)
    words = {"target exact (degrees)", "between numerals", "what to do", "job", "head", "way", "pass name"}
    left_empty = {"depth from the rim (mm)"}
    for row in rows:
        assert len(row) == len(headings)
        for heading, field in zip(headings, row, strict=True):
            assert heading in words or (heading in left_empty and not field) or isfinite(float(field))


def test_the_table_begins_with_a_byte_order_mark_and_ends_its_rows_as_the_standard_says() -> None:
    content = csv_bytes(tide_ring(), "Tide ring")
    assert content.startswith(b"\xef\xbb\xbfposition,")
    assert content.count(b"\r\n") == content.count(b"\n") == 151


def test_an_exact_target_is_never_taken_for_a_date() -> None:
    rows = read_back(plan(BENCH_HEAD, "dial", "216"))
    assert rows[1]["target exact (degrees)"] == "5/3°"


@pytest.mark.parametrize(
    "begins",
    [
        "=1+1",
        "+1",
        "-1",
        "@sum",
        "\t=1",
        "\r=1",
        "  =1",
        "\uff1d1+1",
        "\uff0b1",
        "\uff0d1",
        "\uff20sum",
        "\u3000=1",
        "\u00a0=1",
    ],
)
def test_no_text_is_taken_for_a_formula(begins: str) -> None:
    assert defused(begins) == f"'{begins}"
    [first, *_] = read_back(tide_ring(), begins)
    assert first["job"] == f"'{begins}"


def test_a_negative_error_stays_a_number() -> None:
    assert read_back(tide_ring())[2]["error (arc seconds)"] == "-25.9732"


def test_a_name_with_quotes_commas_and_line_breaks_comes_back_as_it_was() -> None:
    name = 'Tide "ring", 149\r\n<script>שלום 👍'
    assert {row["job"] for row in read_back(tide_ring(), name)} == {name}


def test_a_letter_that_no_file_can_hold_is_shown_as_missing() -> None:
    assert read_back(tide_ring(), "Ring \ud800")[0]["job"] == "Ring ?"
