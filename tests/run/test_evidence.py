"""Every way to divide shows something at every row, and what it shows there leads back to that row."""

from fractions import Fraction

import pytest

from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan
from crankwise.run.check_points import checks
from crankwise.run.evidence import RING, Evidence
from crankwise.run.where_am_i import where_am_i
from crankwise.ways.search import find_ways
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, ROUND_TABLE, head
from tests.run.machine import AtTheMachine

RING_TOO = '[ring]\ngraduations = 360\nread_to = "1/2"\n'
GEARS = "[change_gears]\nteeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]\n"
HEADS = {
    "bench head": head(BENCH_HEAD),
    "plate head": head(PLATE_HEAD + RING_TOO + GEARS),
    "round table": head(ROUND_TABLE),
    "bull wheel": head(BULL_WHEEL),
    "wheel on the worm": head(
        'name = "W"\n[worm]\nratio = "40"\n[dial]\nmarks = 100\n'
        '[[notched_wheels]]\nnotches = 24\ndetent_on = "worm"\n' + RING_TOO
    ),
    "two wheels": head(
        'name = "T"\n[[notched_wheels]]\nnotches = 24\n'
        '[[notched_wheels]]\nnotches = 25\ndetent_on = "wheel"\n' + RING_TOO
    ),
    "dial and plates": head(BENCH_HEAD + "[[plates]]\ncircles = [15, 17, 19, 21]\n"),
    "stepper": head('name = "S"\n[worm]\nratio = "40"\n[stepper]\nsteps = 3200\n' + RING_TOO),
}
DIVISIONS: tuple[Divisions, ...] = (
    EqualDivisions(12),
    EqualDivisions(51),
    EqualDivisions(60),
    EqualDivisions(85),
    EqualDivisions(127),
    EqualDivisions(40, Fraction(1, 16), 2, 30, 4),
    AngleList((Fraction(0), Fraction(1, 9), Fraction(1, 4), Fraction(5, 7))),
)


def first_of_each_method(named: Head) -> list[Plan]:
    found: dict[tuple[str, int], Plan] = {}
    for number, divisions in enumerate(DIVISIONS):
        for way in find_ways(named, divisions):
            found.setdefault((way.method, number), Plan(Part(divisions), way))
    return list(found.values())


@pytest.mark.parametrize("name", HEADS)
def test_what_each_row_shows_is_among_what_its_own_readings_lead_back_to(name: str) -> None:
    methods = set()
    for plan in first_of_each_method(HEADS[name]):
        run = AtTheMachine(plan)
        evidence = run.evidence
        methods.add(plan.way.method)
        for row in range(0, len(run.rows), 7):
            readings = [evidence.reading(name, value) for name, value in evidence.shown[row].items()]
            found = where_am_i(evidence, readings, run.state)
            agree = [one for candidate in found.candidates if candidate.agrees for one in candidate.alike]
            assert row in agree, (plan.way.key, row)
        assert checks(evidence).witness_marks
    assert methods


def test_every_method_there_is_was_met() -> None:
    methods = {plan.way.method for named in HEADS.values() for plan in first_of_each_method(named)}
    assert methods >= {
        "block",
        "circles",
        "compound",
        "dial",
        "dial-and-plate",
        "differential",
        "direct",
        "nearest-hole",
        "plain",
        "ring",
        "stepper",
        "two-circle",
        "two-wheels",
        "wheel-and-worm",
    }


def test_the_ring_is_read_last_and_a_scale_that_nobody_shows_is_not_there() -> None:
    evidence = AtTheMachine(first_of_each_method(HEADS["bench head"])[0]).evidence
    assert [scale.name for scale in evidence.scales][-1] == RING
    bare = Evidence(
        first_of_each_method(head('name = "S"\n[worm]\nratio = "40"\n[stepper]\nsteps = 3200\n'))[0], ()
    )
    assert bare.scales == ()
