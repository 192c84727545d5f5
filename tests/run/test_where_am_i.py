"""Where am I: the stories of the shed, and what each kind of way can tell."""

from fractions import Fraction

import pytest

from crankwise.errors import BadNumber
from crankwise.exact.length import STRAIGHT_MM, along
from crankwise.exact.number import PI
from crankwise.part.divisions import AngleList, EqualDivisions, EqualSteps
from crankwise.plan.passes import with_trace
from crankwise.run.check_points import checks
from crankwise.run.evidence import Evidence
from crankwise.run.faults import explain
from crankwise.run.gear_at_hand import gear_at
from crankwise.run.slips import residue_of
from crankwise.run.where_am_i import WhereAmI, where_am_i
from tests.gear import BENCH_HEAD, BULL_WHEEL, MILL_TABLE, PLATE_HEAD, head
from tests.run.machine import AtTheMachine, plan_on


def asked(run: AtTheMachine, **read: str) -> WhereAmI:
    """Ask with what is read: dial="0.7", ring="215", back_hole="3"."""
    evidence = run.evidence
    readings = [evidence.reading(name.replace("_", " "), Fraction(value)) for name, value in read.items()]
    return where_am_i(evidence, readings, run.state)


@pytest.fixture
def tide_ring() -> AtTheMachine:
    """149 lines on the bench head."""
    return AtTheMachine(plan_on(head(BENCH_HEAD), 149))


def test_the_telephone_rang_at_88_and_he_had_already_moved_on(tide_ring: AtTheMachine) -> None:
    tide_ring.done_to(89)
    found = asked(tide_ring, dial="0.7", ring="215")
    assert (found.verdict, found.row) == ("here", 89)
    assert [candidate.row for candidate in found.candidates] == [89]


def test_at_88_the_dial_would_have_shown_52_and_the_ring_212(tide_ring: AtTheMachine) -> None:
    tide_ring.done_to(89)
    assert asked(tide_ring, dial="52.35", ring="212.6").row == 88


def test_the_crank_was_forced_with_the_lock_on_at_120_and_it_is_found_at_125(tide_ring: AtTheMachine) -> None:
    tide_ring.done_to(120)
    tide_ring.tap("ring", 120, reading=Fraction("290"))
    tide_ring.done_to(126)
    row = tide_ring.rows[125]
    dial, ring = row.reached.setting.reading, row.ring_check
    assert dial is not None
    assert ring is not None
    found = asked(tide_ring, dial=str(dial), ring=str(round(ring + Fraction("0.31"), 2)))
    assert (found.verdict, found.none_agrees, found.row) == ("slipped", True, None)
    slip = found.slips[0]
    assert (slip.joint, slip.row, slip.since) == ("spindle", 125, 120)
    assert abs(slip.angle - Fraction("0.31") / 360) <= Fraction(1, 200) / 360
    assert slip.suspect == (120, 121, 122, 123, 124, 125)
    # Re-anchored, the same readings agree again, and the next line comes where it belongs.
    tide_ring.tap("slipped", 126, angle=slip.angle, joint=slip.joint, since=slip.since)
    assert tide_ring.state.suspect == slip.suspect
    again = asked(
        tide_ring, dial=str(tide_ring.evidence.shown[126]["dial"]), ring=str(row.ring_check and 304.43)
    )
    assert (again.verdict, again.row) == ("here", 126)


def test_a_second_pass_one_position_out_is_seen(tide_ring: AtTheMachine) -> None:
    run = AtTheMachine(tide_ring.plan, with_trace()).done_to(150 + 40)
    shown = run.evidence.shown[150 + 41]
    found = asked(run, dial=str(shown["dial"]), ring=str(round(shown["ring"], 1)))
    assert (found.verdict, found.row) == ("here", 191)
    assert found.candidates[0].alike == (41, 191)


def test_two_readings_all_round_cannot_tell_and_the_ring_can() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 144, "dial")).done_to(50)
    found = asked(run, dial="50")
    assert (found.verdict, found.row) == ("cannot tell", None)
    assert {candidate.row for candidate in found.candidates} >= {49, 51, 47, 53}
    assert (asked(run, dial="50", ring="122.5").verdict, asked(run, dial="50", ring="122.5").row) == (
        "here",
        49,
    )


def test_nothing_read_cannot_tell(tide_ring: AtTheMachine) -> None:
    tide_ring.done_to(20)
    found = asked(tide_ring)
    assert found.verdict == "cannot tell"
    assert len(found.candidates) == 149


def test_a_whole_turn_out_stands_between_positions_with_nothing_slipped(tide_ring: AtTheMachine) -> None:
    tide_ring.done_to(60)
    shown = tide_ring.evidence.shown[60]
    found = asked(tide_ring, dial=str(shown["dial"]), ring=str(round(shown["ring"] + 5, 1)))
    assert found.verdict == "off a row"
    assert found.off_a_row is not None
    assert abs(found.off_a_row.ahead - Fraction(1, 72)) <= found.off_a_row.within
    assert (found.off_a_row.row, found.off_a_row.turns) == (60, 1)
    named = explain(
        [residue_of(found.off_a_row, tide_ring.evidence)], gear_at(tide_ring.plan, tide_ring.rows, 60)
    )
    assert named[0].kind == "whole turn"
    assert named[0].times == 1


def test_a_whole_turn_short_of_the_row_done_last_is_told_from_there(tide_ring: AtTheMachine) -> None:
    tide_ring.done_to(60)
    shown = tide_ring.evidence.shown[59]
    found = asked(tide_ring, dial=str(shown["dial"]), ring=str(round(shown["ring"] - 5, 1)))
    assert found.off_a_row is not None
    assert (found.off_a_row.row, found.off_a_row.turns) == (59, -1)


def test_one_numbered_interval_too_many_is_asked_to_be_read_again() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 144, "dial")).done_to(50)
    found = asked(run, dial="60", ring="122.5")
    assert (found.verdict, found.row, found.none_agrees) == ("misread", 49, True)
    (misread,) = found.candidates[0].misread
    assert (misread.scale, misread.how, int(misread.shows)) == ("dial", "interval", 50)


def test_the_dial_knocked_on_its_shaft_is_told_from_the_spindle(tide_ring: AtTheMachine) -> None:
    tide_ring.done_to(30)
    shown = tide_ring.evidence.shown[30]
    found = asked(tide_ring, dial=str(shown["dial"] + 4), ring=str(round(shown["ring"], 1)))
    assert found.none_agrees
    dial = next(slip for slip in found.slips if slip.joint == "dial")
    assert (dial.row, dial.angle) == (30, Fraction(-4, 7200))


def test_holes_tell_the_position_of_a_plain_division() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD), 49)).done_to(11)
    holes = run.evidence.shown[11]["hole"]
    assert (asked(run, hole=str(holes)).verdict, asked(run, hole=str(holes)).row) == ("here", 11)


def test_two_holes_tell_the_position_of_a_compound_division() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD), 51, "compound:circles=(15, 17):holes=(10, 2)")).done_to(7)
    shown = run.evidence.shown[8]
    found = asked(run, hole=str(shown["hole"]), back_hole=str(shown["back hole"]))
    assert (found.verdict, found.row) == ("here", 8)


def test_notches_tell_the_position_of_a_direct_division() -> None:
    run = AtTheMachine(plan_on(head(BULL_WHEEL), 12)).done_to(4)
    assert [scale.name for scale in run.evidence.scales] == ["notch"]
    found = asked(run, notch="20")
    assert (found.verdict, found.row) == ("here", 4)
    assert asked(run, notch="21").verdict != "here"


def test_two_circles_each_position_from_the_start_and_a_list_of_angles_are_told_too() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD), 127, "two-circle:circles=(47, 49)")).done_to(60)
    shown = run.evidence.shown[60]
    found = asked(run, hole=str(shown["hole"]), back_hole=str(shown["back hole"]))
    assert (found.verdict, found.row) == ("here", 60)
    listed = AtTheMachine(plan_on(head(BENCH_HEAD), AngleList((Fraction(0), Fraction(1, 7), Fraction(4, 9)))))
    listed.done_to(1)
    shown = listed.evidence.shown[1]
    found = asked(listed, dial=str(shown["dial"]), ring=str(round(shown["ring"], 1)))
    assert found.row == 1


def test_a_ring_that_falls_is_read_as_it_falls() -> None:
    falling = BENCH_HEAD.replace("wheel_teeth = 72", 'wheel_teeth = 72\nclockwise = "decreases"')
    run = AtTheMachine(plan_on(head(falling), 149)).done_to(89)
    assert asked(run, dial="0.7", ring="145").row == 89
    slipped = asked(run, dial="0.7", ring="144.5")
    assert slipped.slips[0].angle > 0  # the ring falls as the work advances


def test_an_arc_and_a_start_angle_are_told_as_the_ring_shows_them() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), EqualDivisions(100, Fraction(1, 8), 5, 20, 5)))
    run.done_to(2)
    shown = run.evidence.shown[2]
    found = asked(run, ring=str(round(shown["ring"], 2)))
    assert (found.verdict, found.row) == ("here", 2)


@pytest.mark.parametrize(
    ("name", "value", "sentence"),
    [
        ("dial", "101", "dial: 101; it shows from 0 to below 100"),
        ("ring", "-1", "ring: -1; it shows from 0 to below 360"),
        ("hole", "3", "hole: this way is not read on it; what can be read here: dial, ring"),
    ],
)
def test_a_reading_that_the_scale_cannot_show_is_refused(
    tide_ring: AtTheMachine, name: str, value: str, sentence: str
) -> None:
    with pytest.raises(BadNumber, match=sentence):
        tide_ring.evidence.reading(name, Fraction(value))


def test_a_count_with_a_fraction_is_refused() -> None:
    run = AtTheMachine(plan_on(head(BULL_WHEEL), 12))
    with pytest.raises(BadNumber, match=r"notch: 20\.5; a notch is counted in whole numbers"):
        run.evidence.reading("notch", Fraction("20.5"))


def test_the_whole_dial_is_its_zero(tide_ring: AtTheMachine) -> None:
    assert tide_ring.evidence.reading("dial", Fraction(100)).value == 0


def test_reading_more_nearly_tells_more_apart() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 251)).done_to(100)
    evidence: Evidence = run.evidence
    shown = evidence.shown[100]["dial"]
    coarse = where_am_i(evidence, [evidence.reading("dial", shown, Fraction(1))], run.state)
    fine = where_am_i(evidence, [evidence.reading("dial", shown)], run.state)
    agree = [sum(one.agrees for one in found.candidates) for found in (coarse, fine)]
    assert agree[0] > agree[1]


@pytest.fixture
def sluice_rack() -> AtTheMachine:
    """60 spaces of module 1, on a table whose screw moves it 5 mm a turn."""
    return AtTheMachine(plan_on(head(MILL_TABLE), EqualSteps(60, PI), work="space"))


def test_a_dial_alone_does_not_say_which_turn_of_the_screw_it_is(sluice_rack: AtTheMachine) -> None:
    sluice_rack.done_to(23)
    found = asked(sluice_rack, dial="45")
    assert (found.verdict, found.row, found.turn_shown) == ("here", 23, False)


def test_what_is_measured_from_the_first_space_says_the_turn(sluice_rack: AtTheMachine) -> None:
    sluice_rack.done_to(23)
    found = asked(sluice_rack, dial="45", measured="72.4")
    assert (found.verdict, found.row, found.turn_shown) == ("here", 23, True)
    alone = asked(sluice_rack, measured="72.4")
    assert [one.row for one in alone.candidates] == [23], "steps are further apart than it is measured"


def test_a_turn_of_the_screw_too_few_is_found_by_measuring(sluice_rack: AtTheMachine) -> None:
    """He was to make 14 turns and made 13: the dial shows what it should, 5 mm short of it."""
    sluice_rack.done_to(23)
    found = asked(sluice_rack, dial="45", measured="67.1")
    assert (found.verdict, found.row) == ("off a row", None)
    assert found.off_a_row is not None
    assert (found.off_a_row.row, found.off_a_row.turns) == (23, -1)
    assert abs(along(found.off_a_row.ahead) + 5) < Fraction(1, 20)
    named = explain(
        (residue_of(found.off_a_row, sluice_rack.evidence),), gear_at(sluice_rack.plan, sluice_rack.rows, 23)
    )
    assert (named[0].kind, named[0].times) == ("whole turn", -1)


def test_a_step_of_a_rack_is_what_a_miscount_is_measured_by(sluice_rack: AtTheMachine) -> None:
    part = gear_at(sluice_rack.plan, sluice_rack.rows, 23).part
    assert part is not None
    assert along(part) == PI


def test_after_a_slip_is_made_good_the_rack_is_measured_on_the_work(sluice_rack: AtTheMachine) -> None:
    sluice_rack.done_to(10)
    sluice_rack.tap("slipped", 10, angle=Fraction(2) / STRAIGHT_MM, joint="work")
    row = sluice_rack.evidence.shown[10]
    assert abs(row["measured"] - 10 * PI) < Fraction(1, 40)
    found = asked(sluice_rack, dial=str(row["dial"]), measured="31.4")
    assert (found.verdict, found.row) == ("here", 10)


def test_no_check_asks_for_what_must_be_measured(sluice_rack: AtTheMachine) -> None:
    assert [scale.name for scale in sluice_rack.evidence.scales] == ["dial"]
    assert [scale.name for scale in sluice_rack.evidence.readable] == ["dial", "measured"]
    assert {name for point in checks(sluice_rack.evidence).points for name in point.asks} == {"dial"}
