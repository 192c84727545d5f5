"""The closed form: exact where one wave, one scatter or the rounding stands alone."""

from math import pi, sin

import pytest

from crankwise.accuracy.bounds import bounds
from crankwise.accuracy.pitch_law import PitchLaw, Pull, Range, Scatter, Wave


def law(*parts: Wave | Pull | Scatter, count: int, goes_round: bool = True) -> PitchLaw:
    return PitchLaw((0.0,) * count, parts, goes_round)


def once_round(count: int) -> tuple[float, ...]:
    return tuple(index / count for index in range(count))


@pytest.mark.parametrize("count", [24, 127, 360])
def test_a_wave_once_round_is_twice_its_size_high_and_2_sin_pi_by_n_from_tooth_to_tooth(count: int) -> None:
    # common practice: total twice the amplitude, neighbours 2 sin(pi / N) times the amplitude
    found = bounds(law(Wave(Range(10, 10), once_round(count)), count=count))
    assert found.cumulative == pytest.approx(20, rel=0.005)
    assert found.single == pytest.approx(20 * sin(pi / count), rel=0.01)
    assert found.position == found.cumulative / 2


def test_a_worm_that_every_pitch_takes_whole_turns_of_does_no_harm() -> None:
    found = bounds(law(Wave(Range(30, 60), (0.0,) * 72), count=72))
    assert (found.single, found.cumulative) == (0, 0)


def test_a_size_that_is_only_a_range_counts_with_the_19_in_20_of_it() -> None:
    found = bounds(law(Wave(Range(0, 100), once_round(90)), count=90))
    assert found.cumulative == pytest.approx(2 * 95, rel=0.01)


def test_the_range_of_ten_normal_values_is_that_of_the_tables() -> None:
    # Studentized range with infinite degrees of freedom, 5 %: 4.474 for 10, 3.633 for 4, 2.772 for 2
    # (any table of it; from memory).
    for count, printed in ((10, 4.474), (4, 3.633), (2, 2.772)):
        scatter = Scatter(Range(1.959964, 1.959964), (1.0,) * count)
        assert bounds(law(scatter, count=count)).cumulative == pytest.approx(printed, rel=0.003)


def test_what_is_known_is_told_as_it_is() -> None:
    found = bounds(PitchLaw((0.0, 3.0, -1.0, 0.5), (), goes_round=True))
    assert (found.single, found.cumulative) == (4.0, 4.0)
    open_end = bounds(PitchLaw((0.0, 3.0, 6.0), (), goes_round=False))
    assert (open_end.single, open_end.cumulative) == (3.0, 6.0)


def test_a_pull_of_unknown_size_is_told_by_the_19_in_20_of_it() -> None:
    found = bounds(law(Pull(Range(0, 10), (1.0, 0.0, -1.0, 0.0)), count=4))
    assert found.cumulative == pytest.approx(19, rel=0.02)


def test_one_position_alone_has_nothing_to_be_out_against() -> None:
    found = bounds(law(Scatter(Range(5, 5), (1.0,)), count=1))
    assert (found.single, found.cumulative) == (0, 0)


def test_more_of_anything_is_never_better() -> None:
    parts: list[Wave | Scatter] = [Wave(Range(10, 20), once_round(31)), Scatter(Range(4, 6), (1.0,) * 31)]
    whole = bounds(law(*parts, count=31))
    for part in parts:
        alone = bounds(law(part, count=31))
        assert alone.single < whole.single
        assert alone.cumulative < whole.cumulative


def test_positions_one_by_one_and_in_rows_come_to_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    of_both = law(Wave(Range(5, 20), once_round(36)), Scatter(Range(2, 4), (1.0, 0.5) * 18), count=36)
    in_rows = bounds(of_both, 36 * 130)
    monkeypatch.setattr("crankwise.accuracy.bounds._FEW", 36)
    # The same 127 points of the lattice, and yet asked otherwise, so that nothing kept is given again.
    one_by_one = bounds(of_both, 36 * 131)
    assert one_by_one is not in_rows
    assert one_by_one.single == pytest.approx(in_rows.single, rel=1e-12)
    assert one_by_one.cumulative == pytest.approx(in_rows.cumulative, rel=1e-12)
