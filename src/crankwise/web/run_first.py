"""What the run page shows of going back to the first line or space; the words are `wording`'s."""

from typing import Any

from crankwise.exact.number import as_text
from crankwise.run.first_line import missed_first, return_due, usual_means
from crankwise.tasks.workshop import KeptRun
from crankwise.wording.run_checks import return_text
from crankwise.wording.run_faults import fault_text
from crankwise.wording.run_first import NO_RIM, first_words, missed_text, since_met_text

MOST_FAULTS = 3


def first_values(run: KeptRun) -> dict[str, Any]:
    """Return what the panel is filled with where a return is due, or has found the first line off."""
    return {"first": _asked(run), "missed": _missed(run)}


def _named(run: KeptRun) -> dict[str, str]:
    """Return what every question about the first line says."""
    return {**first_words(run.plan.part), "means": usual_means(run.plan.part)}


def _asked(run: KeptRun) -> dict[str, Any] | None:
    row = return_due(run.watch.checks, run.state)
    if row is None:
        return None
    back = next((one for one in run.watch.checks.returns if one.row == row), run.watch.checks.returns[-1])
    is_again = run.state.paused or run.state.finished
    return {
        **_named(run),
        "row": row,
        "how": "" if run.rows[row].closing and not is_again else return_text(back, run.plan),
        "is_again": is_again,
    }


def _missed(run: KeptRun) -> dict[str, Any] | None:
    found = missed_first(run.watch, run.state)
    if found is None:
        return None
    return {
        **_named(run),
        "row": min(run.state.at_row, len(run.rows) - 1),
        "text": missed_text(run.plan, found.entry),
        "tap": found.entry.tap,
        "angle": "" if found.slip is None else as_text(found.slip.angle),
        "suspect": since_met_text([_position(run, row) for row in found.slip.suspect] if found.slip else []),
        "no_rim": NO_RIM if found.off is None else "",
        "faults": [fault_text(fault, run.rows, run.plan.part) for fault in found.faults[:MOST_FAULTS]],
    }


def _position(run: KeptRun, row: int) -> str:
    return str(run.rows[row].reached.position)
