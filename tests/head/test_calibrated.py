from dataclasses import replace
from fractions import Fraction

import pytest

from crankwise.errors import UnknownThing
from crankwise.head.calibrated import keeps, with_calibration, with_in_force, without_calibration
from crankwise.head.error_sizes import ErrorSizes, Size
from crankwise.head.known_errors import Harmonic, KnownErrors
from tests.gear import BENCH_HEAD, head

ZERO = Fraction(0)


def measured(date: str, amplitude: int, backlash: int | None = None) -> KnownErrors:
    return KnownErrors(
        date,
        (Harmonic("wheel", 1, Fraction(amplitude), ZERO), Harmonic("worm", 2, ZERO, Fraction(3))),
        tuple((ZERO,) * (i + 1) for i in range(4)),
        10,
        Fraction(2),
        backlash=None if backlash is None else Fraction(backlash),
    )


def size(value: int) -> Size:
    return Size(Fraction(value), Fraction(value))


BENCH = replace(
    head(BENCH_HEAD), error_sizes=ErrorSizes((("wheel_arcsec", size(500)), ("lock_arcsec", size(4))))
)
SPRING, AUTUMN = measured("2026-03-14", 80, 200), measured("2026-10-01", 90)


def test_a_new_calibration_is_in_force_and_the_old_one_is_kept() -> None:
    once = with_calibration(BENCH, SPRING)
    twice = with_calibration(once, AUTUMN)
    assert (BENCH.calibrations, once.calibrations) == ((), (SPRING,))
    assert twice.calibrations == (SPRING, AUTUMN)
    assert twice.known_errors == AUTUMN
    assert twice.error_sizes is not None
    assert dict(twice.error_sizes.sizes) == {
        "worm_twice_arcsec": size(3),
        "wheel_arcsec": size(90),
        "backlash_arcsec": size(200),
        "lock_arcsec": size(4),
    }


def test_an_old_one_is_put_in_force_again_and_its_sizes_with_it() -> None:
    twice = with_calibration(with_calibration(BENCH, SPRING), AUTUMN)
    back = with_in_force(twice, 0)
    assert back.known_errors == replace(SPRING, in_force=True)
    assert back.error_sizes is not None
    assert back.error_sizes.of("wheel_arcsec") == size(80)
    forth = with_in_force(back, 1)
    assert [one.in_force for one in forth.calibrations] == [False, True]
    assert with_calibration(back, measured("2026-12-01", 70)).known_errors == measured("2026-12-01", 70)


def test_one_that_is_dropped_takes_its_sizes_along_and_the_latest_other_comes_in_force() -> None:
    twice = with_calibration(with_calibration(BENCH, SPRING), AUTUMN)
    assert without_calibration(twice, 1) == with_calibration(BENCH, SPRING)
    once = without_calibration(twice, 0)
    assert once.calibrations == (AUTUMN,)
    assert once.error_sizes is not None
    assert dict(once.error_sizes.sizes) == {
        "worm_twice_arcsec": size(3),
        "wheel_arcsec": size(90),
        "lock_arcsec": size(4),
    }
    bare = without_calibration(once, 0)
    assert bare.calibrations == ()
    assert bare.error_sizes is not None
    assert dict(bare.error_sizes.sizes) == {"lock_arcsec": size(4)}


def test_a_size_that_somebody_typed_since_stays() -> None:
    once = with_calibration(BENCH, SPRING)
    assert once.error_sizes is not None
    typed = replace(once, error_sizes=once.error_sizes.taking({"wheel_arcsec": size(33)}, ""))
    left = without_calibration(typed, 0).error_sizes
    assert left is not None
    assert left.of("wheel_arcsec") == size(33)
    assert left.of("worm_twice_arcsec") is None


def test_dropping_one_that_is_not_in_force_leaves_what_is_known_since() -> None:
    twice = with_calibration(
        with_calibration(BENCH, measured("2025-11-02", 70, 200)), measured("2026-03-14", 80)
    )
    assert twice.error_sizes is not None
    assert twice.error_sizes.of("backlash_arcsec") == size(200)
    learned = twice.error_sizes.taking({"wheel_arcsec": size(33)}, "5 measured parts")
    left = without_calibration(replace(twice, error_sizes=learned), 0).error_sizes
    assert left is not None
    assert left.of("wheel_arcsec") == size(33)
    assert dict(left.sources)["wheel_arcsec"] == "5 measured parts"
    assert left.of("worm_twice_arcsec") == size(3), "both of them found it"
    assert left.of("backlash_arcsec") is None, "only the one that went had measured it"


def test_readings_taken_earlier_do_not_take_over() -> None:
    later = with_calibration(BENCH, AUTUMN)
    assert with_calibration(later, SPRING).known_errors == AUTUMN
    assert with_calibration(later, measured("2026-10-01", 60)).known_errors == measured("2026-10-01", 60)


def test_the_same_measurement_is_not_kept_twice() -> None:
    twice = with_calibration(with_calibration(BENCH, SPRING), AUTUMN)
    back = with_in_force(twice, 0)
    assert keeps(back, SPRING)
    assert with_calibration(back, SPRING) is back
    assert not keeps(back, measured("2026-03-14", 81, 200))


@pytest.mark.parametrize("number", [-1, 1])
def test_a_calibration_that_is_not_there_is_not_put_in_force(number: int) -> None:
    once = with_calibration(BENCH, SPRING)
    with pytest.raises(UnknownThing, match=f"calibration {number + 1}: 'Bench head' has 1"):
        with_in_force(once, number)
    with pytest.raises(UnknownThing, match=f"calibration {number + 1}: 'Bench head' has 1"):
        without_calibration(once, number)
