"""A run of a head at hand, written briefly: what the tests of this folder begin from."""

from fractions import Fraction

from crankwise.head.head import Head
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.part.part import Part, Work
from crankwise.plan.passes import ONE_PASS, Passes
from crankwise.plan.plan import Plan, planned
from crankwise.plan.schedule import Row, schedule
from crankwise.run.evidence import Evidence
from crankwise.run.gear_at_hand import Gear, gear_at
from crankwise.run.journal import Entry, Kind, RunState, after, fresh_state


def plan_on(
    head: Head,
    divisions: Divisions | int,
    way: str | None = None,
    rim_mm: Fraction | None = None,
    work: Work = "line",
) -> Plan:
    parts = EqualDivisions(divisions) if isinstance(divisions, int) else divisions
    plan = planned(head, Part(parts, rim_mm, work), way)
    assert plan, "there is no such way"
    return plan


def gear_on(head: Head, divisions: Divisions | int, way: str | None = None) -> Gear:
    """Return what the faults of such a run are measured by at its first row."""
    plan = plan_on(head, divisions, way)
    return gear_at(plan, schedule(plan), 0)


class AtTheMachine:
    """A run and its journal, tapped in words."""

    def __init__(self, plan: Plan, passes: Passes = ONE_PASS) -> None:
        self.plan = plan
        self.rows: tuple[Row, ...] = schedule(plan, passes)
        self.start: RunState = fresh_state(self.rows)
        self.state: RunState = self.start
        self.journal: list[Entry] = []
        self.at = 1000.0

    def tap(self, kind: Kind, row: int | None = None, name: str = "", **more: object) -> bool:
        """Tap once; return whether it counted."""
        self.at += 30
        tap = name or f"t{len(self.journal)}"
        entry = Entry(kind, tap, self.at, row, **more)  # type: ignore[arg-type]
        before = self.state
        self.state = after(before, entry)
        if self.state != before:
            self.journal.append(entry)
        return self.state != before

    def done_to(self, row: int) -> "AtTheMachine":
        """Do every row before this one."""
        if not self.state.began:
            self.tap("began", numbers_grow=True)
        while self.state.at_row < row:
            assert self.tap("done", self.state.at_row)
        return self

    @property
    def evidence(self) -> Evidence:
        return Evidence(self.plan, self.rows, self.state.anchor)
