"""What holds of every run along a slide, whatever its lead, its dial and its rack."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from crankwise.exact.length import INCH, STRAIGHT_MM, along
from crankwise.exact.number import PI
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.slide import Slide
from crankwise.part.divisions import EqualSteps
from crankwise.plan.passes import with_trace
from crankwise.plan.schedule import schedule
from crankwise.run.evidence import DIAL
from crankwise.run.in_hand import in_hand
from crankwise.run.where_am_i import where_am_i
from tests.run.machine import AtTheMachine, plan_on

slides = st.builds(
    lambda lead, marks, part: Head("Mill table", dial=Dial(marks, Fraction(1, part), 0), slide=Slide(lead)),
    st.sampled_from([Fraction(5), Fraction(3), Fraction("2.5"), INCH / 10, INCH / 8]),
    st.integers(20, 250),
    st.integers(1, 4),
)
racks = st.builds(
    EqualSteps,
    st.integers(2, 60),
    st.sampled_from([PI, PI / 2, PI * INCH / 24, Fraction("2.54"), Fraction(3)]),
)


def finest(slide: Head) -> Fraction:
    """Half of the least that its dial can be set to, in mm."""
    assert slide.slide is not None
    assert slide.dial is not None
    return slide.slide.lead_mm / (2 * slide.dial.places)


@given(slides, racks)
def test_moves_lead_from_each_row_to_the_next_and_never_add_an_error(slide: Head, rack: EqualSteps) -> None:
    plan = plan_on(slide, rack, work="space")
    stands = Fraction(0)
    for row in schedule(plan):
        assert row.move.turns is not None
        assert row.move.reading is not None
        assert slide.dial is not None
        stands += (row.move.turns + row.move.reading / slide.dial.marks) * STRAIGHT_MM / (slide.ratio or 1)
        assert stands == along(row.reached.achieved)
        assert abs(stands - rack.step_mm * row.reached.position) <= finest(slide)
        assert not row.closing


@given(slides, racks)
def test_a_second_pass_goes_back_and_meets_the_first(slide: Head, rack: EqualSteps) -> None:
    rows = schedule(plan_on(slide, rack, work="space"), with_trace())
    half = len(rows) // 2
    assert [row.reached.setting for row in rows[:half]] == [row.reached.setting for row in rows[half:]]
    assert rows[half].goes_back


@given(slides, racks, st.fractions(-3, 3, max_denominator=40), st.data())
def test_a_slip_is_made_good_from_the_row_in_hand_on(
    slide: Head, rack: EqualSteps, slip_mm: Fraction, data: st.DataObject
) -> None:
    run = AtTheMachine(plan_on(slide, rack, work="space"))
    run.done_to(data.draw(st.integers(0, rack.count - 1)))
    run.tap("slipped", run.state.at_row, angle=slip_mm / STRAIGHT_MM, joint="work")
    now = in_hand(run.plan, run.rows, run.state)
    assert now is not None
    assert slide.dial is not None
    setting = now.row.reached.setting
    set_to = (
        ((setting.turns or 0) + (setting.reading or 0) / slide.dial.marks) * STRAIGHT_MM / (slide.ratio or 1)
    )
    wanted = rack.step_mm * run.rows[run.state.at_row].reached.position - slip_mm
    assert abs(set_to - wanted) <= finest(slide)
    assert abs(along(now.row.reached.error)) <= finest(slide)


@given(slides, racks, st.data())
def test_where_am_i_holds_the_row_that_is_read(slide: Head, rack: EqualSteps, data: st.DataObject) -> None:
    run = AtTheMachine(plan_on(slide, rack, work="space"))
    row = data.draw(st.integers(0, rack.count - 1))
    run.done_to(row)
    shows = run.rows[row].reached.setting.reading
    assert shows is not None
    found = where_am_i(run.evidence, [run.evidence.reading(DIAL, shows)], run.state)
    assert row in [one.row for one in found.candidates if one.agrees]
    assert not found.turn_shown, "a dial alone never says which turn this is"
    assert found.slips == ()
    assert found.off_a_row is None
