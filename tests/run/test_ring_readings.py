"""What the ring readings of a run leave over."""

from fractions import Fraction

import pytest

from crankwise.run.evidence import RING
from crankwise.run.ring_readings import disagreement, ring_residues
from crankwise.run.watch import Watch
from tests.gear import BENCH_HEAD, head
from tests.run.machine import AtTheMachine, plan_on


@pytest.fixture
def run() -> AtTheMachine:
    return AtTheMachine(plan_on(head(BENCH_HEAD), 149)).done_to(25)


def watch(run: AtTheMachine) -> Watch:
    return Watch(run.plan, run.rows)


def read(run: AtTheMachine, off_degrees: str, row: int = 25) -> None:
    shows = watch(run).evidence(run.state.anchor).shown[row][RING]
    run.tap("ring", row, reading=shows + Fraction(off_degrees))


@pytest.mark.parametrize(("off", "agrees"), [("0", True), ("0.25", True), ("-0.25", True), ("0.26", False)])
def test_a_reading_agrees_within_what_can_be_read(run: AtTheMachine, off: str, agrees: bool) -> None:
    assert disagreement(watch(run), run.state) is None
    read(run, off)
    assert (disagreement(watch(run), run.state) is None) is agrees


def test_a_reading_that_is_off_is_named_with_its_sign(run: AtTheMachine) -> None:
    read(run, "-5")
    found = disagreement(watch(run), run.state)
    assert found is not None
    assert found.off == Fraction(-5, 360)
    assert (found.faults[0].kind, found.faults[0].times) == ("whole turn", -1)


def test_another_reading_a_step_or_an_offset_settles_it(run: AtTheMachine) -> None:
    read(run, "0.4")
    before = run.state
    read(run, "0.1")
    assert disagreement(watch(run), run.state) is None
    run.state = before
    run.tap("slipped", 25, angle=Fraction(4, 3600), joint="spindle")
    assert disagreement(watch(run), run.state) is None
    run.state = before
    run.tap("done", 25)
    assert disagreement(watch(run), run.state) is None


def test_older_readings_tell_since_when(run: AtTheMachine) -> None:
    read(run, "0")
    run.done_to(50)
    read(run, "0.7", row=50)
    found = disagreement(watch(run), run.state)
    assert found is not None
    slip = next(fault for fault in found.faults if fault.kind == "slip")
    assert (slip.since, slip.clear) == (50, 25)


def test_after_an_offset_only_what_was_read_since_counts(run: AtTheMachine) -> None:
    read(run, "0.4")
    run.tap("slipped", 25, angle=Fraction(4, 3600), joint="spindle")
    assert ring_residues(watch(run), run.state) == ()
    run.done_to(30)
    read(run, "0.3", row=30)
    (residue,) = ring_residues(watch(run), run.state)
    assert (residue.row, residue.found) == (30, Fraction(3, 3600))
