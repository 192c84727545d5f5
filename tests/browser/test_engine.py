"""The fold in the browser held to the one in Python: the same journals, the same states."""

import random
from dataclasses import asdict
from fractions import Fraction
from typing import Any

import pytest

from crankwise.exact.number import as_text
from crankwise.run.entry import KINDS, Entry
from crankwise.run.journal import RunState, after, counts, following
from crankwise.run.pace import pace
from crankwise.tasks.run_answer import entry_answer
from tests.browser.conftest import Opened
from tests.browser.serving import Server

pytestmark = pytest.mark.browser

JOURNALS = 400
FOLD = """
async ([rows, gates, journal]) => {
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
    following: engine.following(state),
    bad: Object.fromEntries(engine.badRows(state)),
    doubtful: engine.suspectRows(state),
    pace: own === null ? null : [own.row, own.left],
  };
}
"""
ALL = f"async (runs) => {{ const one = {FOLD}; return Promise.all(runs.map(one)); }}"


def told(state: RunState, counted: list[bool]) -> dict[str, Any]:
    own = pace(state)
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
        "following": following(state),
        "bad": {str(row): note for row, note in state.bad.items()},
        "doubtful": list(state.suspect),
        "pace": None if own is None else [own.row, own.left],
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
    return Entry(
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
        [start.rows, list(start.gates), [entry_answer(entry) for entry in entries]]
        for start, entries, _, _ in runs
    ]
    found = page.evaluate(ALL, given)
    for (_, _, state, counted), folded in zip(runs, found, strict=True):
        expected = told(state, counted)
        assert {name: folded.get(name) for name in expected} == expected
