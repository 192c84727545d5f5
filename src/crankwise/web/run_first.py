"""What the run page shows of going back to the first line or space; the words are `wording`'s."""

from typing import Any

from crankwise.draw.move import turning_arrow
from crankwise.exact.number import as_text
from crankwise.run.first_line import missed_first, return_due, return_that_closed, usual_means
from crankwise.run.guide import Turn
from crankwise.run.to_first import from_anywhere, from_first, to_first
from crankwise.tasks.workshop import KeptRun
from crankwise.wording.run import next_text
from crankwise.wording.run_checks import return_text
from crankwise.wording.run_faults import fault_text
from crankwise.wording.run_first import NO_RIM, first_words, missed_text, since_met_text
from crankwise.wording.sheet_cells import row_label
from crankwise.wording.to_first import (
    HEADING,
    THEN,
    repeat_to_first,
    sentence_to_first,
    told_to_first,
)

MOST_FAULTS = 3


def first_values(run: KeptRun) -> dict[str, Any]:
    """Return what the panel is filled with where a return is due, or has found the first line off.

    `reopens` is the tap that ended the closing row, where that is the last one done: Back takes it back too.
    """
    closed = return_that_closed(run.plan.part, run.rows, run.state)
    return {"first": _asked(run), "missed": _missed(run), "reopens": closed.tap if closed else ""}


def to_first_values(run: KeptRun) -> dict[str, Any]:
    """Return what is shown large while the tool is to be brought to the first one: the move there, and the next.

    Where it was found off, the setting alone: it is come up to once more when it is mended. Empty where it
    stands there already. What is tapped is still about the row in hand.
    """
    there = to_first(run.plan, run.rows, run.state)
    if missed_first(run.watch, run.state) is not None:
        there = from_anywhere(run.plan, run.rows, run.state.at_row, run.state.anchor)
    if there is None:
        return {}
    turn: Turn = run.guide.turn or "clockwise"
    goes_back = there.back is not None or (there.row.move.turns or 0) < 0
    here = other_way(turn) if goes_back else turn
    told = told_to_first(run.plan, there)
    repeat = repeat_to_first(run.plan, there)
    on = from_first(run.plan, run.rows, run.state.at_row, run.state.anchor)
    figure = told.come_up_to
    moves = f"{told.turns.value} {told.turns.unit}, " if told.turns else ""
    then = next_text(run.plan, on.row)
    return {
        "told": told,
        "has_marks": False,
        "turn_here": here,
        "arrow": turning_arrow(here),
        "window": "",
        "target_row": run.rows[0],
        "next": f"{then}, {on.moves} times" if on.moves > 1 else then,
        "repeat": repeat,
        "heading": HEADING.format(first=first_words(run.plan.part)["what"]),
        "then": THEN.format(position=row_label(run.plan.part, run.rows[run.state.at_row])),
        "say_there": " ".join(
            filter(None, [f"{here.capitalize()}. {moves}{figure.lead} {figure.value} {figure.unit}.", repeat])
        ),
    }


def other_way(turn: Turn) -> Turn:
    """Return the way to turn where it is turned back before it is come up to."""
    return "anticlockwise" if turn == "clockwise" else "clockwise"


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
        "to": sentence_to_first(run.plan, to_first(run.plan, run.rows, run.state)) if is_again else "",
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
