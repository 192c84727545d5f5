"""What the faults of a run are measured by is what its way turns, reads and counts, and nothing else."""

from fractions import Fraction

import pytest

from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.run.gear_at_hand import Gear
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head
from tests.run.machine import gear_on

DEGREE = Fraction(1, 360)
GEARED = PLATE_HEAD + "[change_gears]\nteeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]\n"
BACKLASH = "[errors]\nbacklash_arcsec = 600\n"


def test_a_dial_has_marks_and_numerals_and_no_holes() -> None:
    gear = gear_on(head(BENCH_HEAD), 149, "dial")
    assert (gear.part, gear.turn, gear.mark, gear.interval) == (
        Fraction(1, 149),
        5 * DEGREE,
        DEGREE / 20,
        10,
    )
    assert (gear.holes, gear.notches, gear.by_arms) == ((), (), False)


def test_a_plate_has_holes_and_no_dial_to_be_misread() -> None:
    gear = gear_on(
        head(BENCH_HEAD + PLATE_HEAD.partition("[[plates]]")[1] + "\ncircles = [20]\n"),
        36,
        "plain:circle=20:turns=2:holes=0",
    )
    assert (gear.mark, gear.interval) == (None, None)
    assert gear.holes == (Fraction(1, 72 * 20),)
    assert gear.by_arms
    assert gear.rounded_step is None


def test_the_nearest_holes_are_not_counted_by_arms() -> None:
    gear = gear_on(head(PLATE_HEAD), 127, "nearest-hole:circle=49")
    assert (gear.holes, gear.by_arms) == ((Fraction(1, 40 * 49),), False)
    assert gear.rounded_step == gear.holes[0] / 2


def test_two_circles_have_two_sizes_of_holes() -> None:
    gear = gear_on(head(PLATE_HEAD), 77, "compound:circles=(21, 33):holes=(9, 3)")
    assert gear.holes == (Fraction(1, 40 * 21), Fraction(1, 40 * 33))
    assert gear.by_arms


def test_with_the_plate_turned_by_gears_a_turn_is_told_past_the_plate() -> None:
    """The plate goes 7/3 of a turn against the crank in a turn of the spindle, so that 127/3 turns are counted."""
    gear = gear_on(
        head(GEARED),
        127,
        "differential:near_number=120:circle=15:turns=0:holes=5:ratio=-7/3:drivers=(56,):driven=(24,):idlers=2:plate=against",
    )
    assert gear.turn == Fraction(3, 127)
    assert gear.holes == (Fraction(3, 127 * 15),)


def test_a_wheel_has_notches_and_no_crank() -> None:
    gear = gear_on(head(BULL_WHEEL + BACKLASH), 12)
    assert gear == Gear(Fraction(1, 12), None, None, None, move=Fraction(1, 12), notches=(Fraction(1, 60),))


@pytest.mark.parametrize(("clockwise", "sign"), [("increases", 1), ("decreases", -1)])
def test_a_ring_that_is_set_has_the_marks_that_are_read(clockwise: str, sign: int) -> None:
    ring = head(BENCH_HEAD.replace("wheel_teeth = 72", f'wheel_teeth = 72\nclockwise = "{clockwise}"'))
    gear = gear_on(ring, 77, "ring:ring=360")
    assert (gear.mark, gear.interval, gear.turn) == (sign * DEGREE, 10, None)


def test_a_list_has_no_part_and_no_usual_move() -> None:
    angles = AngleList((Fraction(0), Fraction(1, 7), Fraction(1, 3), Fraction(9, 10)))
    gear = gear_on(head(BENCH_HEAD), angles, "dial")
    assert (gear.part, gear.move) == (None, None)


def test_the_backlash_is_the_one_that_was_measured() -> None:
    assert gear_on(head(BENCH_HEAD + BACKLASH), 149, "dial").backlash == DEGREE / 6
    assert gear_on(head(BENCH_HEAD), 149, "dial").backlash is None


def test_every_third_is_three_parts_at_a_move() -> None:
    gear = gear_on(head(BENCH_HEAD), EqualDivisions(150, every=3), "dial")
    assert (gear.part, gear.move) == (Fraction(1, 150), Fraction(1, 50))
