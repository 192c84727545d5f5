"""The set-up of the further ways, and what is told at a row, as they are read at the machine."""

from fractions import Fraction

import pytest

from crankwise.part.divisions import AngleList, Divisions, EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import schedule
from crankwise.ways.search import find_ways
from crankwise.ways.way import Way
from crankwise.wording.run import Figure, Told, told
from crankwise.wording.settings import setting_text
from crankwise.wording.ways import setup_text
from tests.gear import head

STEPPER = "[worm]\nratio = 60\n[stepper]\nsteps = 3200\n"
WHEEL = '[worm]\nratio = 60\n[dial]\nmarks = 100\n[[notched_wheels]]\nnotches = 60\ndetent_on = "worm"\n'
WHEEL_AND_PLATE = WHEEL.replace("[dial]\nmarks = 100\n", "[[plates]]\ncircles = [16]\n")
VERNIER = '[[notched_wheels]]\nnotches = 24\n[[notched_wheels]]\nnotches = 25\ndetent_on = "wheel"\n'
DIAL_AND_PLATE = "[worm]\nratio = 40\n[dial]\nmarks = 300\n[[plates]]\ncircles = [19]\n"
PLATE = "[worm]\nratio = 40\n[[plates]]\ncircles = [15, 17]\n"
LIST = AngleList((Fraction(0), Fraction(1, 17), Fraction(2, 15)))


def way(toml: str, method: str, wanted: Divisions) -> Way:
    ways = find_ways(head(f'name = "Trial"\n{toml}'), wanted)
    return next(way for way in ways if way.method == method)


@pytest.mark.parametrize(
    ("toml", "method", "wanted", "words"),
    [
        (
            STEPPER,
            "stepper",
            EqualDivisions(127),
            "3200 steps in a turn of the crank, each count from the start",
        ),
        (
            WHEEL,
            "wheel-and-worm",
            EqualDivisions(96),
            "60-notch wheel, and the worm by the dial: 8 settings of it in all",
        ),
        (
            WHEEL_AND_PLATE,
            "wheel-and-worm",
            EqualDivisions(96),
            "60-notch wheel, and the worm on the 16 circle: 8 settings of it in all",
        ),
        (
            VERNIER,
            "two-wheels",
            EqualDivisions(150),
            "25-notch wheel, its detent carried by the 24-notch wheel",
        ),
        (
            DIAL_AND_PLATE,
            "dial-and-plate",
            EqualDivisions(57),
            "a hole of the 19 circle, the dial to zero there, and on by whole marks",
        ),
        (
            PLATE,
            "block",
            EqualDivisions(50),
            "15 circle, 7 turns and 3 holes each move; each move steps 9 parts, in 9 circuits",
        ),
        (
            PLATE,
            "block",
            EqualDivisions(5),
            "any circle, 16 turns each move; each move steps 2 parts, in 2 circuits",
        ),
        (PLATE, "circles", LIST, "15 and 17 circles of one plate, 1 change of circle"),
        (
            "[worm]\nratio = 40\n[dial]\nmarks = 100\nvernier = 10\n",
            "dial",
            EqualDivisions(127),
            "from the list, each reading counted from the start, the vernier read to 1/10 of a mark",
        ),
    ],
)
def test_the_set_up(toml: str, method: str, wanted: Divisions, words: str) -> None:
    assert setup_text(way(toml, method, wanted)) == words


def rows_told(toml: str, method: str, wanted: Divisions) -> list[Told]:
    plan = Plan(Part(wanted), way(toml, method, wanted))
    return [told(plan, row) for row in schedule(plan)]


def test_a_drive_is_sent_to_a_step_and_cranked_by_nobody() -> None:
    row = rows_told(STEPPER, "stepper", EqualDivisions(127))[1]
    assert row.turns is None
    assert row.come_up_to.value == "1512"
    assert row.come_up_to.unit == "steps from the start"


def test_the_worm_rests_while_the_wheel_goes_round_and_is_brought_back_at_the_end() -> None:
    rows = rows_told(WHEEL, "wheel-and-worm", EqualDivisions(96))
    assert rows[1].turns is None
    assert rows[1].come_up_to == Figure("Move on by", "5", "notches of the 60")
    assert rows[12].position == "5"
    assert rows[12].come_up_to.value == "12"
    assert "detent in notch 3" in rows[12].detail
    assert rows[-1].turns == Figure("Turn back", "1", "whole turn back first")


def test_the_pin_goes_to_a_hole_by_its_number_where_it_stands_in_none() -> None:
    rows = rows_told(DIAL_AND_PLATE, "dial-and-plate", EqualDivisions(57))
    assert rows[2].come_up_to == Figure("then to hole", "14", "of the 19 circle")
    assert "dial to 0 there, then on by 200 marks" in rows[2].detail
    assert rows[3].turns == Figure("Turn", "0", "whole turns")
    rows = rows_told(PLATE, "circles", LIST)
    assert rows[1].come_up_to == Figure("then to hole", "6", "of the 17 circle")
    assert rows[2].come_up_to == Figure("then to hole", "5", "of the 15 circle")
    assert rows[2].turns == Figure("Turn", "2", "whole turns")


def test_a_setting_names_what_it_is_on() -> None:
    two = way(VERNIER, "two-wheels", EqualDivisions(150))
    assert setting_text(two.head, two.reach(1, Fraction(1, 150)).setting) == (
        "21 notches and 20 against on the second wheel"
    )
    assert setting_text(two.head, two.reach(6, Fraction(6, 150)).setting) == (
        "1 notch and 0 on the second wheel"
    )
    listed = way(PLATE, "circles", LIST)
    assert setting_text(listed.head, listed.reach(2, Fraction(2, 15)).setting) == (
        "5 turns and 5 holes of the 15 circle"
    )
