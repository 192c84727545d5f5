"""A calibration in words, beside what its file says."""

from fractions import Fraction

import pytest

from crankwise.files.head_toml import read_head
from crankwise.head.known_errors import REFERENCES
from crankwise.wording.calibration import (
    REFERENCE_NAMES,
    calibration_lines,
    how_measured,
    kept_lines,
    readings_table,
    remains_text,
    waves_table,
)
from tests.gear import BENCH_HEAD, head

TWICE = (
    BENCH_HEAD
    + """
[[calibrations]]
date = "2025-10-01"
method = "closure"
table = [[0, 0], [90, 12], [180, 3]]
readings = [[72, 5.5, 0], [144, 17, 72]]

[[calibrations]]
date = "2026-03-14"
reference = "mirror"
left_out = 2
residual_arcsec = 2.1
freedom = 27
backlash_arcsec = 241.5
harmonics = [{ of = "worm", order = 2, cosine_arcsec = 3, sine_arcsec = 4 }]
covariance = [[0.3], [0, 0.3]]
readings = [[0, 1.5], ["7/2", 12.25, "back"]]
"""
)
CLOSED, MIRROR = read_head(TWICE).calibrations


def test_how_it_was_measured() -> None:
    assert how_measured(CLOSED) == "by closure, one fixed angle stepped round, 2 readings"
    assert how_measured(MIRROR) == "against a mirror and a light spot, 2 readings, 2 more left out"
    assert set(REFERENCE_NAMES) == {*REFERENCES, "closure"}


def test_the_readings_say_where_a_step_began_or_that_it_was_turned_back() -> None:
    assert readings_table(CLOSED, []) == (
        ["from", "setting", "gauge"],
        [["0.0000°", "72.0000°", '5.5"'], ["72.0000°", "144.0000°", '17.0"']],
    )
    assert readings_table(MIRROR, [0.25, -1.0]) == (
        ["setting", "measured", "come to it", "left of it"],
        [["0.0000°", '1.5"', "going on", '0.3"'], ["3.5000°", '12.3"', "turning back", '-1.0"']],
    )


def test_the_waves_are_told_with_the_bound_of_19_in_20() -> None:
    headings, rows = waves_table(MIRROR, [0.5])
    assert headings == ["error", "to either side", "known to, 19 in 20", "phase"]
    # Student's t at 27 degrees of freedom is 2.052.
    assert rows == [["worm, twice per turn of the crank", '5.0"', '±1.0"', "53°"]]


def test_what_else_it_says() -> None:
    lines = calibration_lines(MIRROR, 10.0, 2.0)
    assert lines == [
        "The head's error goes over 10.0\" in all, wherever the crank stands.",
        'As seen from the zero, the curve is known to ±2.0" at worst, 19 times in 20.',
        'One reading scattered by 2.1" about it (standard deviation).',
        'Turned back to a setting, the spindle stood 241.5" further on: the backlash.',
    ]
    assert "A table of 3 points belongs to it" in "".join(calibration_lines(CLOSED, 12.0, 0.0))
    assert "known to" not in "".join(calibration_lines(CLOSED, 12.0, 0.0))


def test_what_remains_is_told_beside_what_is_not_known() -> None:
    told = remains_text(185.1, 45.3, 2.2, 359)
    for figure in ("359 places", '185.1"', '45.3"', '±2.2"'):
        assert figure in told


def test_all_that_a_head_keeps() -> None:
    assert kept_lines(read_head(TWICE)) == [
        "1  2025-10-01  by closure, one fixed angle stepped round, 2 readings",
        "     a table of 3 points",
        "2  2026-03-14  against a mirror and a light spot, 2 readings, 2 more left out; in force",
        '     worm, twice per turn of the crank 5.0"',
    ]
    assert kept_lines(head(BENCH_HEAD)) == [
        "never measured: crankwise measure plan says which settings to take"
    ]


@pytest.mark.parametrize("count", [1, 2])
def test_one_reading_is_one(count: int) -> None:
    known = CLOSED.__class__(
        "2026-01-01", (), (), 1, Fraction(0), CLOSED.table, readings=MIRROR.readings[:count]
    )
    assert how_measured(known) == f"against a reference, {count} reading{'' if count == 1 else 's'}"
