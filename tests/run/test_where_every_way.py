"""Where am I, by ways other than the dial: what is counted, told against, or turned by gears."""

from fractions import Fraction

import pytest

from crankwise.errors import BadNumber
from crankwise.run.faults import explain
from crankwise.run.gear_at_hand import gear_at
from crankwise.run.slips import residue_of
from crankwise.wording.run_where import where_text
from tests.gear import BULL_WHEEL, PLATE_HEAD, head
from tests.run.machine import AtTheMachine, plan_on
from tests.run.test_where_am_i import asked

RING = '[ring]\ngraduations = 360\nread_to = "1/2"\n'
GEARS = "[change_gears]\nteeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]\n"
STEPPER = 'name = "Driven"\n[worm]\nwheel_teeth = 90\n[stepper]\nsteps = 3200\n'
WHEEL_AND_WORM = (
    'name = "Lathe"\n[worm]\nwheel_teeth = 60\n[dial]\nmarks = 100\n'
    '[[notched_wheels]]\nnotches = 24\ndetent_on = "worm"\n' + RING
)


def test_the_count_of_a_drive_says_where_it_stands() -> None:
    run = AtTheMachine(plan_on(head(STEPPER), 12)).done_to(4)
    assert [scale.name for scale in run.evidence.scales] == ["step"]
    assert asked(run, step="96000").row == 4
    assert asked(run, step=str(96000 + 288000)).row == 4  # once round already
    found = asked(run, step="97000")
    assert found.off_a_row is not None
    assert found.off_a_row.odds > Fraction(9, 10)
    assert found.off_a_row.ahead == Fraction(1000, 288000)


def test_a_drive_that_lost_steps_shows_on_the_ring() -> None:
    run = AtTheMachine(plan_on(head(STEPPER + RING), 12, "stepper:steps=3200:per_turn_of=crank")).done_to(4)
    found = asked(run, step="96000", ring="119")
    assert found.verdict == "slipped"
    assert (found.slips[0].joint, found.slips[0].angle) == ("spindle", Fraction(-1, 360))


def test_a_wheel_in_the_wrong_notch_is_told_by_the_notch_alone() -> None:
    run = AtTheMachine(plan_on(head(BULL_WHEEL), 12)).done_to(4)
    found = asked(run, notch="22")
    assert found.off_a_row is not None
    assert (found.off_a_row.row, found.off_a_row.ahead) == (4, Fraction(2, 60))
    named = explain((residue_of(found.off_a_row, run.evidence),), gear_at(run.plan, run.rows, 4))
    assert (named[0].kind, named[0].times) == ("miscount of notches", 2)


@pytest.mark.parametrize("typed", ["-11", "38"])
def test_a_pin_that_is_told_against_may_be_typed_as_it_is_told(typed: str) -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD), 59, "two-circle:circles=(47, 49)")).done_to(4)
    assert asked(run, hole="44", back_hole=typed).row == 4


def test_what_no_scale_shows_is_refused() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD), 59, "two-circle:circles=(47, 49)")).done_to(4)
    with pytest.raises(BadNumber, match="back hole: -49; it shows from -48 to below 49"):
        asked(run, back_hole="-49")
    with pytest.raises(BadNumber, match="hole: -1; it shows from 0 to below 47"):
        asked(run, hole="-1")


@pytest.mark.parametrize(("turns", "sign"), [(1, 1), (-1, -1)])
def test_a_whole_turn_past_the_plate_is_told_where_gears_turn_it(turns: int, sign: int) -> None:
    """The plate of 59 goes with the crank: a turn counted past it is 118/3 of a circle, 9.15 degrees and not 9."""
    way = (
        "differential:near_number=60:circle=15:turns=0:holes=10:ratio=2/3:drivers=(32,):driven=(48,):idlers=1"
    )
    run = AtTheMachine(plan_on(head(PLATE_HEAD + GEARS + RING), 59, f"{way}:plate=with")).done_to(7)
    ring = 360 * (Fraction(7, 59) + sign * Fraction(3, 118))
    found = asked(run, hole="10", ring=str(round(ring, 1)))
    assert found.verdict == "off a row"
    assert found.off_a_row is not None
    assert (found.off_a_row.row, found.off_a_row.turns) == (7, turns)
    named = explain((residue_of(found.off_a_row, run.evidence),), gear_at(run.plan, run.rows, 7))
    assert (named[0].kind, named[0].times) == ("whole turn", turns)


def test_a_whole_turn_of_the_worm_is_told_beside_a_wheel() -> None:
    way = "wheel-and-worm:wheel=24:dial=100:worm_settings=5"
    run = AtTheMachine(plan_on(head(WHEEL_AND_WORM), 60, way)).done_to(4)
    shown = run.evidence.shown[4]
    read = {name: str(shown[name]) for name in ("dial", "notch")}
    found = asked(run, **read, ring=str(shown["ring"] + 6))
    assert found.off_a_row is not None
    assert (found.off_a_row.row, found.off_a_row.turns) == (4, 1)
    assert found.off_a_row.ahead == Fraction(1, 60)


def test_what_is_counted_is_counted_again_and_not_read_between_numerals() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD + RING), 59, "two-circle:circles=(47, 49)")).done_to(4)
    shown = run.evidence.shown[4]
    found = asked(run, hole="45", back_hole="38", ring=str(round(shown["ring"] * 2) / 2))
    assert found.verdict == "misread"
    assert where_text(found, run.rows)[1] == (
        "The hole would show 44, and was read wrongly by one in counting. Count it again before you go on."
    )


def test_where_a_plate_does_not_agree_no_dial_is_blamed() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD + RING), 12, "plain:circle=15:turns=3:holes=5")).done_to(4)
    said = " ".join(where_text(asked(run, hole="8", ring="120"), run.rows))
    assert "The plate has turned, or the holes were miscounted: count them again first" in said
    assert "dial" not in said


def test_a_drive_may_have_lost_steps() -> None:
    run = AtTheMachine(plan_on(head(STEPPER + RING), 12, "stepper:steps=3200:per_turn_of=crank")).done_to(4)
    said = " ".join(where_text(asked(run, step="96000", ring="119"), run.rows))
    assert "The wheel has slipped on its spindle, or the ring on it, or the drive has lost steps" in said
