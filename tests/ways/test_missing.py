from fractions import Fraction

import pytest

from crankwise.files.head_toml import read_head
from crankwise.ways.missing import MOST_HOLES, circles_that_help, least_circle

HEAD = read_head(
    'name = "Plate head"\n[worm]\nwheel_teeth = 40\n[[plates]]\ncircles = [15, 16, 17, 18, 19, 20]'
)


@pytest.mark.parametrize(("count", "holes"), [(57, 57), (7, 7), (20, 1), (12, 3), (127, 127)])
def test_the_least_circle_is_the_fewest_holes_that_divide(count: int, holes: int) -> None:
    dividing = [circle for circle in range(1, 200) if 40 * circle % count == 0]

    assert least_circle(Fraction(40), count) == holes == dividing[0]


def test_a_circle_helps_the_numbers_it_divides_and_no_others() -> None:
    missing = [7, 11, 13, 21, 22, 23, 77]
    found = circles_that_help(HEAD, missing, most=MOST_HOLES)

    assert len(found) > 1
    for helped in found:
        assert helped.makes_exact == tuple(n for n in missing if 40 * helped.circle % n == 0), helped.circle


def test_no_circle_helps_more_than_the_first() -> None:
    missing = [7, 11, 13, 21, 22, 23, 77]
    counts = {circle: sum(40 * circle % n == 0 for n in missing) for circle in range(2, MOST_HOLES + 1)}

    first = circles_that_help(HEAD, missing)[0]

    assert (len(first.makes_exact), -first.circle) == max(
        (count, -circle) for circle, count in counts.items()
    )


def test_a_circle_owned_is_not_proposed() -> None:
    assert all(helped.circle not in HEAD.circles for helped in circles_that_help(HEAD, [3, 9, 19], most=99))


def test_a_head_without_a_worm_is_not_helped_by_a_circle() -> None:
    wheel = read_head('name = "Bull wheel"\n[[notched_wheels]]\nnotches = 60')

    assert circles_that_help(wheel, [7]) == ()
