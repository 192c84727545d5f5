"""Every slip of the pen in a closure run is named with its line; what is only a rough reading is not."""

from fractions import Fraction

import pytest

from crankwise.accuracy.closure_mistakes import Step, in_closure_run, odd_gauge, rounds

WAVE = (0, 20, 35, 41, 35, 20, 0, -20)


def steps(count: int = 8, again: int = 1) -> list[Step]:
    return [
        Step(2 + one * count + k, k + 1, Fraction(360 * k, count), Fraction(12 + WAVE[k]))
        for one in range(again)
        for k in range(count)
    ]


def faults(rows: list[Step]) -> list[tuple[int | None, str]]:
    return [(fault.line, fault.message) for fault in in_closure_run(rows)]


def test_a_sound_closure_run_has_no_mistakes() -> None:
    assert faults(steps()) == []
    two = [row._replace(gauge=row.gauge + (row.line > 9)) for row in steps(8, 2)]
    assert faults(two) == []
    assert [len(one) for one in rounds(two)] == [8, 8]


def test_a_step_left_out_is_named() -> None:
    assert faults([row for row in steps() if row.number != 4]) == [
        (6, "step 4 missing in this round of 8; closure needs every one")
    ]


def test_a_step_written_twice_is_named() -> None:
    rows = steps()
    rows.insert(3, rows[2]._replace(line=50))
    assert faults(rows) == [(50, "the same as line 4; written twice? leave one out")]


def test_a_step_that_begins_elsewhere_is_named() -> None:
    rows = steps()
    rows[3] = rows[3]._replace(start=Fraction(153))
    assert faults(rows) == [(5, "153; step 4 begins at 135")]
    rows[3] = rows[3]._replace(start=Fraction(495))
    assert faults(rows) == [(5, "495: 1 turn too far; step 4 begins at 135")]


def test_steps_that_do_not_make_one_round_are_named() -> None:
    rows = [row._replace(start=row.start / 2) for row in steps()]
    assert "do not begin 45 degrees apart" in faults(rows)[0][1]


@pytest.mark.parametrize(
    ("value", "message"),
    [
        ("5", "5; this looks like minutes of arc; write seconds of arc"),
        ("1296300", "1296300; 1 turn too far; mistyped?"),
        ("9000", "9000; the others are about 302; mistyped, or in the wrong unit? write seconds of arc"),
        ("400", None),
    ],
)
def test_an_odd_gauge_reading_is_named(value: str, message: str | None) -> None:
    rows = [(2 + k, Fraction(300 + (-1) ** k * k % 5)) for k in range(10)]
    rows[4] = (6, Fraction(value))
    assert [(one.line, one.message) for one in odd_gauge(rows, "gauge_arcsec")] == (
        [(6, message)] if message else []
    )
