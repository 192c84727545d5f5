"""Runs in which one blunder is made at the machine, by every way to divide, until a reading of the ring shows it.

Where the work then stands is worked out from what was turned, hole by hole and turn by turn, and not from
what the run tells. Nobody notices anything before the ring disagrees.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row, schedule
from crankwise.run.faults import Kind
from crankwise.run.journal import Entry, RunState, after, fresh_state
from crankwise.run.ring_readings import disagreement
from crankwise.run.watch import Watch
from crankwise.ways.search import find_ways

DEGREE = Fraction(1, 360)


@dataclass(frozen=True)
class Blunder:
    """One blunder: what it is, and how far it puts the work ahead at each row."""

    kind: Kind
    ahead: Callable[[int], Fraction]


@dataclass(frozen=True)
class Named:
    """What was made of it: the kinds told, the likeliest first; None when no reading disagreed."""

    method: str
    blunder: Kind
    told: tuple[Kind, ...] | None


def runs_of_every_method(head: Head, counts: tuple[int, ...]) -> list[Watch]:
    """Return a run of each count by the first way of each method."""
    found = {}
    for count in counts:
        divisions = EqualDivisions(count)
        for way in find_ways(head, divisions):
            if (way.method, count) not in found:
                plan = Plan(Part(divisions), way)
                found[way.method, count] = Watch(plan, schedule(plan))
    return list(found.values())


def turn_of(plan: Plan) -> Fraction:
    """What one counted turn of the crank makes: of 40, a plate that goes with it by v leaves 40 - v to be counted."""
    setup, ratio = plan.way.setup, plan.head.ratio
    assert ratio is not None
    if "drivers" not in setup:
        return 1 / ratio
    plate = Fraction(str(setup["ratio"]))
    return 1 / (ratio - plate)


def holes_of(plan: Plan) -> list[Fraction]:
    """What one hole makes, on each circle."""
    setup = plan.way.setup
    circles = setup.get("circles") or ((setup["circle"],) if "circle" in setup else ())
    assert isinstance(circles, tuple)
    return [turn_of(plan) / int(str(circle)) for circle in circles]


def blunders(plan: Plan, rows: tuple[Row, ...], random: Random) -> Iterator[Blunder]:
    """Yield one of each blunder that can be made by this way."""
    since, side = random.randrange(1, len(rows)), random.choice((1, -1))
    stands = [row.reached.achieved for row in rows]

    def stays(size: Fraction) -> Callable[[int], Fraction]:
        return lambda row: size if row >= since else Fraction(0)

    def another_row(row: int) -> Fraction:
        other = min(max(row + side, 0), len(rows) - 1)
        return stands[other] - stands[row] if row >= since else Fraction(0)

    at_once = plan.way.setup.get("parts_at_once", 1)
    yield Blunder("miscount" if at_once == 1 else "miscount of moves", another_row)
    yield Blunder("slip", stays(side * DEGREE * random.randint(60, 400) / 100))
    if rows[1].reached.setting.turns is not None:
        yield Blunder("whole turn", stays(side * turn_of(plan)))
    if plan.way.method == "dial":
        assert plan.head.dial
        yield Blunder("misread numeral", stays(side * 10 * turn_of(plan) / plan.head.dial.marks))
    for hole in holes_of(plan):
        yield Blunder("miscount of holes", stays(side * random.choice((1, 1, 2)) * hole))
        if plan.way.method in ("plain", "block", "compound", "differential"):
            yield Blunder("wrong arms", lambda row, hole=hole: side * hole * row)  # type: ignore[misc]
    wheel = plan.way.setup.get("wheel")
    if wheel and len(rows) - 1 != wheel:
        yield Blunder("miscount of notches", stays(Fraction(side, int(str(wheel)))))


def named(watch: Watch, blunder: Blunder) -> Named:
    """Make a blunder, read the ring to the nearest half degree wherever the run asks for it, and see what is told."""
    rows, state = watch.rows, fresh_state(watch.rows)
    state = _tapped(state, "began", None, numbers_grow=True)
    asked = {point.row for point in watch.checks.points if "ring" in point.asks}
    for row in range(len(rows)):
        if row in asked:
            stands = (rows[row].reached.achieved + blunder.ahead(row)) * 360
            state = _tapped(state, "ring", row, reading=Fraction(round(stands * 2), 2) % 360)
            found = disagreement(watch, state)
            if found:
                return Named(watch.plan.way.method, blunder.kind, tuple(fault.kind for fault in found.faults))
        state = _tapped(state, "done", row)
    return Named(watch.plan.way.method, blunder.kind, None)


def _tapped(state: RunState, kind: str, row: int | None, **more: object) -> RunState:
    return after(state, Entry(kind, f"t{state.entries}", float(state.entries), row, **more))  # type: ignore[arg-type]
