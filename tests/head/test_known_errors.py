from fractions import Fraction
from math import pi, sqrt

import pytest

from crankwise.errors import FaultsFound
from crankwise.head.known_errors import Harmonic, KnownErrors, TablePoint, spread
from tests.gear import BENCH_HEAD, BULL_WHEEL, head

NONE = Fraction(0)
WORM = Harmonic("worm", 1, Fraction(3), Fraction(4))
WHEEL = Harmonic("wheel", 2, Fraction(0), Fraction(10))
DIAGONAL = ((Fraction(4),), (NONE, Fraction(9)))


def known(
    *harmonics: Harmonic,
    covariance: tuple[tuple[Fraction, ...], ...] = (),
    table: tuple[TablePoint, ...] = (),
) -> KnownErrors:
    return KnownErrors("2026-03-14", harmonics, covariance, 10, Fraction(2), table)


def table(*points: tuple[int, int]) -> tuple[TablePoint, ...]:
    return tuple(TablePoint(Fraction(degrees, 360), Fraction(seconds)) for degrees, seconds in points)


def zeros(harmonics: int) -> tuple[tuple[Fraction, ...], ...]:
    return tuple((NONE,) * (i + 1) for i in range(2 * harmonics))


def test_a_wave_has_its_height_at_its_phase() -> None:
    assert WORM.amplitude == 5
    errors = known(WORM, covariance=zeros(1))
    assert errors.at(NONE, Fraction(WORM.phase)) == pytest.approx(5)
    assert errors.at(NONE, Fraction(WORM.phase) + Fraction(1, 2)) == pytest.approx(-5)
    assert Harmonic("wheel", 1, Fraction(0), Fraction(-2)).phase == pytest.approx(0.75)


def test_wheel_and_worm_add_up_each_at_its_own_angle() -> None:
    errors = known(WORM, WHEEL, covariance=zeros(2))
    assert errors.at(Fraction(1, 8), Fraction(1, 4)) == pytest.approx(10 + 4)
    assert errors.at(Fraction(1, 8) + 5, Fraction(1, 4) + 360) == pytest.approx(14)


@pytest.mark.parametrize(
    ("degrees", "seconds"),
    [(0, 6), (10, 8), (20, 10), (25, 5), (30, 0), (350, 6 * 1 - 2), (340, 2), (330, 0)],
)
def test_a_table_is_read_by_straight_lines_round_the_zero_too(degrees: int, seconds: int) -> None:
    errors = known(table=table((20, 10), (30, 0), (330, 0)))
    assert errors.at(Fraction(degrees, 360), NONE) == pytest.approx(seconds)


def test_the_swing_is_that_of_the_whole_turn() -> None:
    errors = known(WORM, covariance=zeros(1), table=table((0, 0), (90, 12), (180, -3)))
    assert errors.swing("worm") == pytest.approx(10, abs=1e-3)
    assert errors.swing("wheel") == 15


def test_the_steepest_is_a_bound_of_the_slope() -> None:
    errors = known(WORM, WHEEL, covariance=zeros(2), table=table((0, 0), (180, 36)))
    bound = (2 * pi * 72 * 5 + 2 * pi * 2 * 10 + 72) / 1_296_000
    assert errors.steepest(Fraction(72)) == pytest.approx(bound)
    slopes = [
        abs(errors.at(s + Fraction(1, 10**6), 72 * (s + Fraction(1, 10**6))) - errors.at(s, 72 * s)) / 1.296
        for s in (Fraction(k, 997) for k in range(997))
    ]
    assert bound * 0.5 < max(slopes) <= bound


def test_uncertainty_is_seen_from_the_other_place() -> None:
    errors = known(Harmonic("wheel", 1, Fraction(1), Fraction(1)), covariance=DIAGONAL)
    assert errors.uncertainty(NONE, NONE, NONE, NONE) == 0
    # cos goes from 1 to -1, sin from 0 to 0: twice the cosine's own.
    assert errors.uncertainty(Fraction(1, 2), NONE, NONE, NONE) == pytest.approx(4)
    assert errors.uncertainty(Fraction(1, 4), NONE, NONE, NONE) == pytest.approx(sqrt(4 + 9))


def test_a_table_is_as_unsure_as_its_readings_at_both_ends() -> None:
    errors = known(table=table((0, 0), (90, 12)))
    assert errors.uncertainty(Fraction(1, 4), NONE, NONE, NONE) == pytest.approx(2 * sqrt(2))
    assert errors.uncertainty(Fraction(1), NONE, NONE, NONE) == 0


def test_covariance_counts_both_ways() -> None:
    assert spread(((Fraction(4),), (Fraction(1), Fraction(9))), [1.0, 2.0]) == 4 + 36 + 2 * 2 * 1


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"date": "14.3.2026"}, "date: '14.3.2026'; a date is written as 2026-03-14"),
        ({"date": "2026-02-29"}, "date: '2026-02-29'; a date is written"),
        ({"freedom": 0}, "freedom: 0; at least 1 reading more"),
        ({"residual": Fraction(-1)}, "residual_arcsec: -1; from 0 to 36,000"),
        ({"backlash": Fraction(40_000)}, "backlash_arcsec: 40000; at most 36,000"),
        ({"harmonics": (), "covariance": ()}, "neither harmonics nor a table"),
        ({"harmonics": (WORM, WORM)}, r"harmonics\[1\]: the worm's order 1 stands here twice"),
        ({"harmonics": (WORM._replace(order=0),)}, r"harmonics\[0\].order: 0; from 1 to 60"),
        ({"harmonics": (WORM._replace(sine=Fraction(10**6)),)}, r"harmonics\[0\]: at most 36,000"),
        ({"covariance": ((NONE,),)}, "covariance: rows of 1; 1 harmonics have 2 rows"),
        ({"covariance": ((Fraction(-1),), (NONE, NONE))}, "a variance, 0 or more"),
        ({"table": table((0, 1))}, "table: 1 points; a table has 2"),
        ({"table": table((90, 1), (0, 1))}, "table: its angles rise from 0 to below 360 degrees"),
        ({"table": table((0, 1), (360, 1))}, "table: its angles rise"),
        ({"table": table((0, 1), (90, 10**6))}, "table: at most 36,000"),
    ],
)
def test_a_wrong_one_is_refused_with_its_place(change: dict[str, object], message: str) -> None:
    given: dict[str, object] = {
        "date": "2026-03-14",
        "harmonics": (WORM,),
        "covariance": DIAGONAL,
        "freedom": 10,
        "residual": Fraction(2),
    }
    with pytest.raises(FaultsFound, match=message):
        KnownErrors(**(given | change))  # type: ignore[arg-type]


def test_a_leap_day_is_a_day() -> None:
    assert KnownErrors("2024-02-29", (WORM,), DIAGONAL, 1, NONE).date == "2024-02-29"


CALIBRATION = """
[[calibrations]]
date = "{date}"
residual_arcsec = 1
harmonics = [{{ of = "{of}", order = 1, cosine_arcsec = {cosine} }}]
covariance = [[1], [0, 1]]
"""


def test_the_latest_date_counts_and_the_last_of_one_day() -> None:
    rows = [("2026-05-01", 1), ("2026-05-02", 2), ("2026-05-02", 3), ("2025-12-31", 4)]
    text = "".join(CALIBRATION.format(date=date, of="worm", cosine=cosine) for date, cosine in rows)
    found = head(BENCH_HEAD + text).known_errors
    assert found is not None
    assert found.harmonics[0].cosine == 3
    assert head(BENCH_HEAD).known_errors is None


def test_a_worms_errors_need_a_worm() -> None:
    with pytest.raises(FaultsFound, match=r"errors of the worm, but there is no \[worm\]"):
        head(BULL_WHEEL + CALIBRATION.format(date="2026-05-01", of="worm", cosine=1))


def test_errors_that_turn_the_spindle_back_are_not_believed() -> None:
    with pytest.raises(FaultsFound, match="the spindle would go back while the crank goes on"):
        head(BENCH_HEAD + CALIBRATION.format(date="2026-05-01", of="worm", cosine=3000))
