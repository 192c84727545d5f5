"""Every method on a head that has everything: circles, arcs, and lists of uneven steps."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crankwise.files.head_toml import read_head, write_head
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan, planned
from crankwise.plan.schedule import schedule
from crankwise.ways.search import find_ways
from crankwise.ways.way import Setting, Way
from crankwise.wording.run import next_text, told
from crankwise.wording.settings import setting_text
from crankwise.wording.ways import METHODS, method_name, setup_text, working_text
from tests.laws.gear import divisions

EVERYTHING = """
name = "Everything"
[worm]
ratio = "{ratio}"
[dial]
marks = {marks}
read_to = "1/{read_to}"
[[plates]]
circles = {circles}
[ring]
graduations = 360
read_to = "1/2"
[[notched_wheels]]
notches = 24
[[notched_wheels]]
notches = {wheel}
detent_on = "worm"
[[notched_wheels]]
notches = 25
detent_on = "wheel"
[change_gears]
teeth = [24, 24, 28, 32, 40, 44, 48, 56]
[stepper]
steps = 400
"""


@st.composite
def heads(draw: st.DrawFn) -> Head:
    return read_head(
        EVERYTHING.format(
            ratio=draw(st.sampled_from(["40", "60", "90", "45/2"])),
            marks=draw(st.sampled_from([60, 100, 300])),
            read_to=draw(st.integers(1, 4)),
            circles=draw(st.lists(st.integers(5, 30), min_size=2, max_size=3, unique=True)),
            wheel=draw(st.sampled_from([12, 60, 64])),
        )
    )


def spindle(way: Way, setting: Setting) -> Fraction:
    """Where a setting puts the spindle, in turns, read off the head as an operator would; whole turns aside."""
    head, setup = way.head, way.setup
    ratio = head.ratio or Fraction(1)
    if setting.steps is not None:
        assert head.stepper is not None
        return setting.steps / (ratio * head.stepper.steps)
    if setting.turns is None and setting.reading is not None:
        assert head.ring is not None
        return setting.reading / head.ring.full_circle
    turns = Fraction(0)
    if setting.notches is not None:
        wheels = setup.get("wheels") or (setup["wheel"],)
        assert isinstance(wheels, tuple)
        turns += Fraction(setting.notches, wheels[0])
        if setting.second_notches is not None:
            turns += Fraction(setting.second_notches, wheels[1])
    crank = Fraction(setting.turns or 0)
    if setting.holes is not None:
        circles = (setting.circle,) if setting.circle else setup.get("circles") or (setup["circle"],)
        assert isinstance(circles, tuple)
        for holes, circle in zip(setting.holes, circles, strict=True):
            crank += Fraction(holes, circle)
    if setting.reading is not None:
        assert head.dial is not None
        crank += setting.reading / head.dial.marks
    return turns + crank / ratio


@settings(max_examples=60)
@given(head=heads(), wanted=divisions)
def test_every_setting_puts_the_work_where_it_says(head: Head, wanted: Divisions) -> None:
    targets = dict(wanted.targets())
    for way in find_ways(head, wanted):
        rows = list(way.reached())
        assert sorted(row.position for row in rows) == sorted(targets)
        assert max(abs(row.error) for row in rows) == way.worst_error
        assert way.exact == (way.worst_error == 0)
        for row in rows:
            assert (row.target - targets[row.position]).denominator == 1
            assert way.reach(row.position, targets[row.position]) == row
            off = spindle(way, row.setting) - row.achieved
            if way.method == "compound":  # the plate's whole turns are not counted
                assert (off * (head.ratio or 1)).denominator == 1
            elif way.method != "differential":  # the plate moves under the pin
                assert off.denominator == 1


@settings(max_examples=60)
@given(head=heads(), wanted=divisions)
def test_every_row_can_be_told_and_kept(head: Head, wanted: Divisions) -> None:
    again = read_head(write_head(head))
    assert again == head
    for way in find_ways(head, wanted):
        plan = Plan(Part(wanted), way)
        rows = schedule(plan)
        assert [row.index for row in rows] == list(range(len(rows)))
        for row in rows:
            assert told(plan, row).come_up_to.value
            assert next_text(plan, row)
            assert setting_text(head, row.reached.setting)
        assert method_name(way)
        assert setup_text(way)
        for step in way.working():
            assert working_text(step)
        kept = planned(again, Part(wanted), way.key)
        assert kept is not None
        assert kept.way == way


@pytest.mark.parametrize("kind", ["arc", "list"])
def test_no_constant_move_is_offered_for_an_arc_or_a_list(kind: str) -> None:
    head = read_head(EVERYTHING.format(ratio=40, marks=100, read_to=2, circles=[15, 17, 19], wheel=60))
    wanted: Divisions = (
        EqualDivisions(51, last=40)
        if kind == "arc"
        else AngleList((Fraction(0), Fraction(1, 51), Fraction(5, 51)))
    )
    methods = {way.method for way in find_ways(head, wanted)}
    assert not methods & {"compound", "differential", "block"}
    assert {"dial", "ring", "nearest-hole", "two-circle", "stepper", "two-wheels"} <= methods


def test_every_method_there_is_comes_up_somewhere() -> None:
    head = read_head(EVERYTHING.format(ratio=40, marks=300, read_to=2, circles=[15, 17, 19], wheel=60))
    asked: list[Divisions] = [EqualDivisions(count) for count in (24, 50, 57, 51, 96, 127)]
    asked.append(AngleList((Fraction(0), Fraction(1, 17), Fraction(3, 19))))
    assert {way.method for wanted in asked for way in find_ways(head, wanted)} == set(METHODS)
