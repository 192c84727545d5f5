"""Points that fill every size and phase evenly."""

from math import hypot

import pytest

from crankwise.accuracy.lattice import evenly, lengths, outcomes, squares
from crankwise.accuracy.pitch_law import PitchLaw, Range, Scatter, Wave


@pytest.mark.parametrize(("asked", "given"), [(31, 31), (100, 61), (503, 503), (9999, 503), (5, 31)])
def test_each_dimension_alone_is_filled_as_evenly_as_can_be(asked: int, given: int) -> None:
    points = list(evenly(9, asked))
    assert len(points) == given
    for dimension in zip(*points, strict=True):
        assert sorted(dimension) == pytest.approx([(index + 0.5) / given for index in range(given)])


def test_no_two_dimensions_are_alike() -> None:
    for count in (31, 61, 127, 251, 503):
        assert len(set(zip(*evenly(9, count), strict=True))) == 9


def test_one_point_is_the_middle() -> None:
    assert list(evenly(3, 1)) == [(0.5, 0.5, 0.5)]


def test_two_waves_of_known_size_are_together_between_their_difference_and_their_sum() -> None:
    length = lengths([Range(3, 3), Range(4, 4)])
    assert 1 <= length(0) < 1.1
    assert 6.9 < length(1) <= 7
    # At right angles, half of all phases are wider apart and half closer.
    assert length(0.5) == pytest.approx(hypot(3, 4), rel=0.01)


def test_sizes_that_are_ranges_keep_the_mean_of_their_squares() -> None:
    square = squares([Range(0, 3), Range(1, 1)])
    mean = sum(square((index + 0.5) / 200) for index in range(200)) / 200
    assert mean == pytest.approx(3 + 1, rel=0.01)


def test_known_scatter_needs_one_outcome_only_and_a_wave_many() -> None:
    scatter = Scatter(Range(2, 2), (1.0, 0.5))
    [(errors, variances)] = outcomes(PitchLaw((1.0, 2.0), (scatter,), True), 127)
    assert errors == [1.0, 2.0]
    assert variances[0] == pytest.approx((2 / 1.959964) ** 2, rel=1e-6)
    assert variances[1] == pytest.approx(variances[0] / 4)
    wave = Wave(Range(2, 2), (0.0, 0.5))
    found = list(outcomes(PitchLaw((0.0, 0.0), (wave,), True), 127))
    assert len(found) == 127
    assert all(one[0] == pytest.approx(-one[1]) for one, _ in found)
