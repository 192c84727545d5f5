"""The fold in the browser held to the one in Python: the same journals, the same states."""

import random
from dataclasses import asdict, replace
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from crankwise.exact.number import as_text
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.run.check_points import Checks, Promise, Return
from crankwise.run.entry import KINDS, Entry
from crankwise.run.first_line import (
    NEAR_MM,
    last_return,
    meets,
    near_turns,
    return_due,
    return_that_closed,
    usual_means,
    worked_since_met,
)
from crankwise.run.journal import RunState, after, counts, following
from crankwise.run.pace import pace
from crankwise.tasks.run_answer import entry_answer
from tests.browser.conftest import Opened
from tests.browser.serving import Server

pytestmark = pytest.mark.browser

JOURNALS = 400
FOLD = """
async ([rows, gates, journal, planned, first]) => {
  const { meets, returnThatClosed } = await import("/static/run_first.js");
  const engine = await import("/static/run_engine.js");
  let state = engine.freshState(rows, gates);
  const counted = [];
  for (const entry of journal) {
    counted.push(engine.counts(state, entry));
    state = engine.after(state, entry);
  }
  const own = engine.pace(state);
  return {
    counted,
    ...state,
    facts: state.facts.map((fact) => [fact.entry.tap, fact.steps, fact.suspect]),
    trail: state.trail.map((step) => [step.row, step.kind, step.came_back]),
    finished: engine.isFinished(state),
    done: engine.doneCount(state),
    last_done: engine.lastDone(state),
    at_first: engine.isAtFirst(state),
    following: engine.following(state),
    bad: Object.fromEntries(engine.badRows(state)),
    doubtful: engine.suspectRows(state),
    pace: own === null ? null : [own.row, own.left],
    return_due: engine.returnDue(state, planned),
    last_return: engine.lastReturn(state)?.tap ?? null,
    met: state.facts.filter(({ entry }) => entry.kind === "returned").map(({ entry }) => meets(entry, first)),
    closed: returnThatClosed({ state, told: { first }, row: (row) => ({ closing: gates.includes(row) }) })?.tap ?? null,
    since_met: engine.workedSinceMet(state, (entry) => meets(entry, first)),
  };
}
"""
ALL = f"async (runs) => {{ const one = {FOLD}; return Promise.all(runs.map(one)); }}"


PART = Part(EqualDivisions(30), Fraction(150), "line")
FIRST = {
    "means": usual_means(PART),
    "near_mm": {means: as_text(near) for means, near in NEAR_MM.items()},
    "near_turns": {means: as_text(near_turns(PART, means)) for means in NEAR_MM},
}


def planned(state: RunState) -> list[int]:
    """Return the rows before which the first line is gone back to: in the middle and at the end."""
    return sorted({state.rows // 2, state.rows - 1})


def told(state: RunState, counted: list[bool]) -> dict[str, Any]:
    own = pace(state)
    returns = tuple(Return(row, None) for row in planned(state))
    missed = last_return(state)
    closing = [SimpleNamespace(closing=row in state.gates) for row in range(state.rows)]
    closed = return_that_closed(PART, closing, state)  # type: ignore[arg-type]
    plain = asdict(state)
    return {
        **{name: list(value) if isinstance(value, tuple) else value for name, value in plain.items()},
        "counted": counted,
        "ring_zero": as_text(state.ring_zero),
        "facts": [[fact.entry.tap, fact.steps, list(fact.suspect)] for fact in state.facts],
        "trail": [list(step) for step in state.trail],
        "finished": state.finished,
        "done": state.done,
        "last_done": state.last_done,
        "at_first": state.at_first is not None,
        "following": following(state),
        "bad": {str(row): note for row, note in state.bad.items()},
        "doubtful": list(state.suspect),
        "pace": None if own is None else [own.row, own.left],
        "return_due": return_due(Checks((), returns, Promise(None, None, (), None), ()), state),
        "last_return": None if missed is None else missed.tap,
        "met": [meets(PART, entry) for entry in state.of_kind("returned")],
        "closed": None if closed is None else closed.tap,
        "since_met": list(worked_since_met(PART, state)),
    }


def likely_entry(chance: random.Random, state: RunState, number: int, at: float) -> Entry:
    """Return a tap that mostly makes sense, and now and then does not."""
    kind = chance.choice(KINDS) if chance.random() < 0.45 else "done"
    if not state.began and chance.random() < 0.8:
        kind = "began"
    row: int | None = state.at_row
    if kind == "back" and state.trail:
        row = state.trail[-1].row
    if chance.random() < 0.12:
        row = chance.choice([None, 0, state.rows, chance.randrange(state.rows)])
    taps = [fact.entry.tap for fact in state.facts] or ["nobody"]
    entry = Entry(
        kind,
        chance.choice(taps) if chance.random() < 0.02 else f"t{number}",
        at,
        row,
        numbers_grow=chance.choice([True, False, None]) if kind == "began" else None,
        seen=chance.choice([None, None, None, state.entries, state.entries - 1]),
        reading=Fraction(97, 4) if kind == "ring" and chance.random() < 0.8 else None,
        angle=Fraction(1, 360) if kind in ("slipped", "began") and chance.random() < 0.8 else None,
        joint="spindle" if kind == "slipped" else None,
        note=chance.choice([None, "a nick", "<script>"]) if kind in ("bad", "note") else None,
        since=chance.choice([None, 0, 1]) if kind == "slipped" else None,
        of=chance.choice([*taps, state.begun_by]) if kind == "undone" else None,
    )
    return replace(entry, **found_at_the_first(chance)) if kind == "returned" else entry


def found_at_the_first(chance: random.Random) -> dict[str, Any]:
    """Return what a return says: met, off by a length or an angle of either side of what can be seen, or put off."""
    near = NEAR_MM["loupe"] * chance.choice([-1, 1])
    off = chance.choice([Fraction(0), near / 4, near, near + Fraction(1, 10**6), 20 * near])
    found = {"off_mm": off} if chance.random() < 0.5 else {"angle": off / 471}
    told = chance.choice([{"angle": Fraction(0)}, found, found, {}])
    return {**told, "means": chance.choice([None, *NEAR_MM])}


def journal_of(chance: random.Random) -> tuple[RunState, list[Entry], RunState, list[bool]]:
    rows = chance.choice([1, 2, 5, 12, 30])
    gates = tuple(sorted(chance.sample(range(rows), chance.randint(0, min(2, rows)))))
    start = state = RunState(rows, gates=gates)
    at, entries, counted = 1_750_000_000.0, [], []
    for number in range(chance.randint(1, 90)):
        at += chance.choice([12.5, 30.25, 31.0, 33.5, 600.0, -3600.0])
        entry = likely_entry(chance, state, number, at)
        entries.append(entry)
        counted.append(counts(state, entry))
        state = after(state, entry)
    return start, entries, state, counted


def test_a_journal_comes_to_the_same_state_in_the_browser(demo_server: Server, opened: Opened) -> None:
    chance = random.Random(149)
    runs = [journal_of(chance) for _ in range(JOURNALS)]
    kinds = {
        entry.kind
        for _, entries, _, counted in runs
        for entry, took in zip(entries, counted, strict=True)
        if took
    }
    assert kinds == set(KINDS), "every kind counts somewhere"
    page = opened()
    page.goto(f"{demo_server.address}/about")
    given = [
        [
            start.rows,
            list(start.gates),
            [entry_answer(entry) for entry in entries],
            planned(start),
            FIRST,
        ]
        for start, entries, _, _ in runs
    ]
    found = page.evaluate(ALL, given)
    for (_, _, state, counted), folded in zip(runs, found, strict=True):
        expected = told(state, counted)
        assert {name: folded.get(name) for name in expected} == expected
