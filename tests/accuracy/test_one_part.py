"""One part with a wrong position, looked at from every side."""

import pytest

from crankwise.accuracy.one_part import OnePart

ERRORS = (0.0, 3.0, -4.0, 1.0, 2.0)


def part(*, goes_round: bool) -> OnePart:
    return OnePart(1, (10, 20, 30, 40, 50), ERRORS, goes_round)


def test_pitches_go_from_each_position_to_the_next_and_back_to_the_first_where_it_goes_round() -> None:
    assert part(goes_round=False).pitches == (3, -7, 5, 1)
    assert part(goes_round=True).pitches == (3, -7, 5, 1, -2)
    assert part(goes_round=True).height == 7


def test_a_wrong_position_leaves_all_others_where_they_are() -> None:
    wrong = part(goes_round=True).with_wrong(2, 10.0)
    assert list(wrong.errors) == [0, 3, 6, 1, 2]
    assert wrong.wrong == 2
    assert wrong.too_far == 10


@pytest.mark.parametrize("goes_round", [True, False])
@pytest.mark.parametrize("too_far", [10.0, -10.0, 1.5, -6.0])
def test_no_other_place_makes_a_larger_pitch_than_the_worst(too_far: float, goes_round: bool) -> None:
    found = part(goes_round=goes_round)
    largest = [max(map(abs, found.with_wrong(place, too_far).pitches)) for place in range(len(ERRORS))]
    touched = largest[found.worst_place(too_far)]
    assert touched == max(largest)
