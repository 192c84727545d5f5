"""The head as a whole: what it must have, and which way its readings run."""

from fractions import Fraction

import pytest

from crankwise.errors import FaultsFound
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.plate import Plate
from crankwise.head.ring import Ring
from crankwise.head.worm import Worm
from crankwise.run.guide import direction_test
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head, worm_head


def faults_of(**parts: object) -> tuple[str, ...]:
    with pytest.raises(FaultsFound) as found:
        Head(**parts)  # type: ignore[arg-type]
    return found.value.lines()


def test_a_head_needs_a_way_to_divide() -> None:
    (line,) = faults_of(name="Bare", worm=Worm(Fraction(40)))
    assert line.startswith("this head has no way to divide; give it a [dial], [[plates]]")


def test_what_belongs_to_the_crank_needs_a_worm() -> None:
    lines = faults_of(name="Bare", dial=Dial(100), plates=(Plate((15,)),))
    assert [line.partition(":")[0] for line in lines] == ["dial", "plates"]
    assert all("there is no [worm]" in line for line in lines)


def test_a_head_has_a_name() -> None:
    assert faults_of(name=" ", ring=Ring(360)) == ("name: empty; give the head a name to know it by",)


def test_the_circles_of_all_plates_are_told_once_each_in_rising_order() -> None:
    both = worm_head("40", "[[plates]]\ncircles = [20, 15]\n[[plates]]\ncircles = [15, 7]\n")
    assert both.circles == (7, 15, 20)


def test_the_ratio_is_the_worms() -> None:
    assert head(BENCH_HEAD).ratio == 72
    assert head(BULL_WHEEL).ratio is None


RING = "[ring]\ngraduations = 360\n"
FALLING_DIAL = '[dial]\nmarks = 100\nclockwise = "decreases"\n'
RISING_DIAL = "[dial]\nmarks = 100\n"
REVERSED_WORM = 'name = "x"\n[worm]\nratio = 40\nclockwise = "decreases"\n'
WORM = 'name = "x"\n[worm]\nratio = 40\n'
PLATES = "[[plates]]\ncircles = [15]\n"


@pytest.mark.parametrize(
    ("toml", "clockwise", "ring_grows"),
    [
        (WORM + RISING_DIAL + RING, True, True),
        (WORM + FALLING_DIAL + RING, False, False),  # turned the way the dial grows: the ring then falls
        (REVERSED_WORM + RISING_DIAL + RING, True, False),
        (REVERSED_WORM + FALLING_DIAL + RING, False, True),
        (WORM + PLATES + RING, True, True),
        (REVERSED_WORM + PLATES + RING, False, True),  # no dial: turned the way the ring grows
        (REVERSED_WORM + PLATES, True, True),  # no scale to read either: nothing says otherwise
        ('name = "x"\n' + RING + 'numbered = "anticlockwise"\n', True, True),
        ('name = "x"\n' + RING, False, True),  # turned by hand, anticlockwise brings the higher numbers up
        (BULL_WHEEL, True, True),
    ],
)
def test_the_crank_is_turned_the_way_its_numbers_grow(toml: str, clockwise: bool, ring_grows: bool) -> None:
    gear = head(toml)
    assert gear.advance_is_clockwise == clockwise
    assert gear.ring_grows == ring_grows
    # The test before a run must expect what the head's own arrow says.
    assert direction_test(gear).expected in (None, clockwise)


def test_plates_alone_leave_nothing_to_watch_but_the_work() -> None:
    assert direction_test(head(PLATE_HEAD)).watched == "work"
