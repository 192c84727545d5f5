"""The journal of a run: what was tapped, what is to be looked at, and how to take a thing back."""

import secrets

from crankwise.tasks.run_answer import entry_answer
from crankwise.tasks.workshop import KeptRun
from crankwise.web.answers import Page
from crankwise.web.visit import Visit
from crankwise.wording.run_page import entry_text

NEWEST = 60


def show(visit: Visit) -> Page:
    """Show the journal, the newest first; `?all` shows all of it."""
    run = visit.workshop.run(visit.id("run_id"))
    journal = visit.workshop.journal(run.id)[: run.state.entries]
    shown = journal if "all" in visit.query else journal[-NEWEST:]
    state = run.state
    values = {
        "run": run,
        "tap": f"web-{secrets.token_urlsafe(12)}",
        "seen": state.entries,
        "suspect": [(row, _position(run, row)) for row in state.suspect],
        "bad": [(row, _position(run, row), note) for row, note in sorted(state.bad.items())],
        "skipped": [_position(run, row) for row in state.skipped],
        "facts": [
            (fact.entry.tap, entry_text(fact.entry, run.rows, run.plan)) for fact in reversed(state.facts)
        ],
        "begun_by": state.begun_by if state.began and not state.trail else None,
        "lines": [(entry.at, entry_text(entry, run.rows, run.plan)) for entry in reversed(shown)],
        "left_out": len(journal) - len(shown),
    }
    return Page(
        "run_journal.html", values, {"run": run.id, "journal": [entry_answer(one) for one in journal]}
    )


def _position(run: KeptRun, row: int) -> str:
    return str(run.rows[row].reached.position)
