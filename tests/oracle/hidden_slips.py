"""Runs in which the work turns on its arbor too little for the ring: what the returns to the first line show.

The work is a disc with a line at nought, cut when the run began. It is turned by so many millimetres at its
rim between two rows; from then on the first line stands off the tool by that, and whoever looks is out by as
much as a loupe or an indicator may be. The ring is read where the run asks, and never sees it. Nothing here
is worked out by the package: lengths are lengths, and whoever looks writes down what is seen.
"""

from dataclasses import dataclass
from fractions import Fraction
from random import Random

from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part, Work
from crankwise.plan.plan import planned
from crankwise.plan.schedule import schedule
from crankwise.run.check_points import due
from crankwise.run.entry import Entry
from crankwise.run.first_line import missed_first, return_due
from crankwise.run.journal import after
from crankwise.run.ring_readings import disagreement
from crankwise.run.state import RunState, fresh_state
from crankwise.run.watch import Watch
from tests.gear import BENCH_HEAD, head

LOUPE_MM, INDICATOR_MM = Fraction(2, 100), Fraction(5, 1000)
HEAD: Head = head(BENCH_HEAD)


@dataclass(frozen=True)
class Slipped:
    """What became of one small slip.

    returned     returns that were looked at after it, up to the one that showed it
    worked       rows worked from it to that return, in order; None when no return showed it
    suspect      rows that were then said to be in doubt
    off_mm       how far off the first line was seen
    alarms       returns that found fault before there was any
    rings        ring readings that found fault at all
    """

    returned: int
    worked: tuple[int, ...] | None
    suspect: tuple[int, ...]
    off_mm: Fraction
    alarms: int
    rings: int


def hidden_slip(random: Random) -> Slipped:
    """Let the work turn a little once, in a run that is else without fault, and go on until it is seen."""
    work: Work = random.choice(["line", "space"])
    rim = Fraction(random.randint(60, 300))
    plan = planned(HEAD, Part(EqualDivisions(random.randint(20, 70)), rim, work), "dial")
    assert plan is not None
    rows = schedule(plan)
    watch = Watch(plan, rows)
    near = INDICATOR_MM if work == "space" else LOUPE_MM
    # From just above twice as near as it is seen to a twentieth of a degree at the rim, a fifth of what the ring shows.
    largest = rim * Fraction(22, 7) / 7200
    slip = 2 * near + Fraction(random.randint(1, 1000), 1000) * max(largest - 2 * near, near / 10)
    slip *= random.choice([1, -1])
    since = random.randint(1, len(rows) - 2)  # the work may turn while the last row is come up to
    state = _began(rows_state := fresh_state(rows))
    assert rows_state.at_row == 0
    returned = alarms = rings = taps = 0
    worked: list[int] = []

    def tap(kind: str, **more: object) -> None:
        nonlocal state, taps
        taps += 1
        state = after(state, Entry(kind, f"t{taps}", 100.0 * taps, **more))  # type: ignore[arg-type]

    def look(row: int) -> bool:
        """Look at the first line; return whether the run says that it is off."""
        nonlocal returned
        stands = slip if state.at_row > since or state.finished else Fraction(0)
        seen = stands + near * Fraction(random.randint(-100, 100), 100)
        tap("returned", row=row, off_mm=seen, means="indicator" if work == "space" else "loupe")
        returned += bool(stands)
        return missed_first(watch, state) is not None

    while True:
        is_slipped = state.at_row > since or state.finished
        row = return_due(watch.checks, state)
        if row is not None and not state.paused and not state.finished and random.random() < 0.3:
            tap("returned", row=row)
            if random.random() < 0.5:
                tap("paused")
            continue
        if row is not None and look(row):
            if is_slipped:
                break
            alarms += 1
            tap("returned", row=row, angle=Fraction(0))
        if state.finished:
            return Slipped(returned, None, (), Fraction(0), alarms, rings)
        if state.paused:
            tap("resumed")
        point = due(watch.checks, state)
        if point is not None and point.asks[0] == "ring":
            shown = watch.evidence().shown[point.row]["ring"]
            tap("ring", row=point.row, reading=(shown + Fraction(random.randint(-24, 24), 100)) % 360)
            rings += disagreement(watch, state) is not None
        if state.at_row > since:
            worked.append(state.at_row)
        tap("done", row=state.at_row)
    found = missed_first(watch, state)
    assert found is not None
    assert found.slip is not None
    return Slipped(
        returned, tuple(worked), found.slip.suspect, found.entry.off_mm or Fraction(0), alarms, rings
    )


def _began(state: RunState) -> RunState:
    return after(state, Entry("began", "began", 0.0, numbers_grow=True))
