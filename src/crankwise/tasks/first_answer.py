"""Going back to the first line or space as plain objects: what is asked, and the move that leads there and on."""

from collections.abc import Iterator
from typing import Any

from crankwise.exact.number import as_text
from crankwise.run.first_line import NEAR_MM, near_turns, return_due, usual_means
from crankwise.run.set_on import set_on
from crankwise.run.to_first import ToFirst, from_anywhere, from_first, to_first, to_first_before
from crankwise.store.kept import KeptRun
from crankwise.wording.run import Told, next_text, told
from crankwise.wording.run_checks import return_text
from crankwise.wording.run_first import first_words
from crankwise.wording.run_page import repeat_text
from crankwise.wording.to_first import repeat_to_first, told_to_first


def first_answer(run: KeptRun) -> dict[str, Any]:
    """Return what a page must know of going back to the first line or space, and of what it found."""
    part, returns = run.plan.part, run.watch.checks.returns
    return {
        "rows": [back.row for back in returns],
        "how": return_text(returns[-1], run.plan) if returns else "",
        **first_words(part),
        "means": usual_means(part),
        "near_mm": {means: as_text(near) for means, near in NEAR_MM.items()},
        "near_turns": {means: as_text(near_turns(part, means)) for means in NEAR_MM},
        "place": _there(run, from_anywhere(run.plan, run.rows, 0, run.state.anchor)),
        "moves": dict(_moves(run)),
    }


def to_first_answer(run: KeptRun) -> dict[str, Any] | None:
    """Return the move that brings the tool to the first line or space, where that is to be done now; None else."""
    if return_due(run.watch.checks, run.state) is None:
        return None
    there = to_first(run.plan, run.rows, run.state)
    if there is None:
        return None
    words = told_to_first(run.plan, there)
    return {
        **_there(run, there),
        "position": words.position,
        "set_on": set_on(there.row.reached.setting),
        "ring": words.ring_check,
        "moves": there.moves,
        "goes_back": there.row.goes_back,
        "is_known": there.is_known,
    }


def move_answer(words: Told) -> dict[str, Any]:
    """Return the move of a row in words, as the page shows it."""
    turns, move = words.turns, words.come_up_to
    return {
        "lead_turns": turns.lead if turns else "",
        "turns": turns.value if turns else "",
        "turns_unit": turns.unit if turns else "",
        "turns_back": bool(turns and turns.lead == "Turn back"),
        "lead": move.lead,
        "reading": move.value,
        "unit": move.unit,
    }


def _there(run: KeptRun, there: ToFirst) -> dict[str, Any]:
    words = told_to_first(run.plan, there)
    return {
        **move_answer(words),
        "between": words.detail,
        "since_zero": words.since_zero,
        "work": words.work,
        "repeat": repeat_to_first(run.plan, there),
    }


def _moves(run: KeptRun) -> Iterator[tuple[str, dict[str, Any]]]:
    """The move to the first one before each row that asks for it, and the move on; a closing row is its own."""
    plan, rows, anchor = run.plan, run.rows, run.state.anchor
    usual = _there(run, from_anywhere(plan, rows, 0, anchor))
    for back in run.watch.checks.returns:
        if not rows[back.row].closing:
            on = from_first(plan, rows, back.row, anchor)
            place = _there(run, from_anywhere(plan, rows, back.row, anchor))
            yield (
                str(back.row),
                {
                    "there": _there(run, to_first_before(plan, rows, back.row, anchor)),
                    "on": {
                        **move_answer(told(plan, on.row)),
                        "short": next_text(plan, on.row),
                        "goes_back": on.row.goes_back,
                        "repeat": repeat_text(on),
                    },
                    **({} if place == usual else {"place": place}),
                },
            )
