"""Kept things as plain objects for JSON. Keys are promised: more may be added, none changes its meaning."""

from collections.abc import Iterable
from typing import Any

from crankwise.files.head_toml import write_head
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.in_hand import in_hand, next_in_hand
from crankwise.tasks.answers import position_answer, way_summary
from crankwise.tasks.first_answer import to_first_answer
from crankwise.tasks.runs_of_a_part import RunOfPart
from crankwise.tasks.workshop import KeptHead, KeptJob, KeptRun
from crankwise.ways.way import Setting, Way
from crankwise.wording.run import told
from crankwise.wording.run_page import repeat_text


def head_object(kept: KeptHead) -> dict[str, Any]:
    """Return a head: its number, its name, and the whole of it as a head file."""
    return {
        "id": kept.id,
        "name": kept.head.name,
        "is_demo": kept.is_demo,
        "toml": write_head(kept.head),
    }


def job_object(kept: KeptJob) -> dict[str, Any]:
    """Return a job: what was asked, the way chosen, its runs."""
    return {
        "id": kept.id,
        "name": kept.name,
        "head_id": kept.head_id,
        "head": kept.plan.head.name,
        "asked": {
            name: getattr(kept.asked, name)
            for name in (
                "count",
                "angles",
                "start",
                "first",
                "last",
                "every",
                "rim",
                "within",
                "work",
                "part",
            )
        },
        "way": way_object(kept.plan, kept.plan.way),
        "is_demo": kept.is_demo,
        "run_ids": list(kept.run_ids),
    }


def together_objects(runs: Iterable[RunOfPart]) -> list[dict[str, Any]]:
    """Return the jobs of a part that takes several runs, in the order of the runs; none for a part of one."""
    return [
        {
            "job_id": one.job.id,
            "run": one.number,
            "name": one.name,
            "sets": list(one.sets),
            "finished": one.is_finished,
        }
        for one in runs
    ]


def way_object(plan: Plan, way: Way) -> dict[str, Any]:
    """Return a way with the key by which it is chosen."""
    return {"key": way.key, **way_summary(way, plan.part)}


def run_object(kept: KeptRun) -> dict[str, Any]:
    """Return where a run stands, and what to do there."""
    guide, state = kept.guide, kept.state
    now = in_hand(kept.plan, kept.rows, state)
    then = next_in_hand(kept.plan, kept.rows, state)
    return {
        "id": kept.id,
        "job_id": kept.job_id,
        "job": kept.job_name,
        "is_demo": kept.is_demo,
        "began": state.began,
        "finished": state.began and state.finished,
        "done": guide.done,
        "of": guide.of,
        "entries": state.entries,
        "turn": guide.turn,
        "disagrees": guide.disagrees,
        "paused": state.paused,
        "row": {**row_object(kept.plan, now.row), "moves": now.moves, "repeat": repeat_text(now)}
        if now
        else None,
        "to_first": to_first_answer(kept),
        "next_row": row_object(kept.plan, then.row) if then else None,
    }


def row_object(plan: Plan, row: Row) -> dict[str, Any]:
    """Return one row: its exact figures, and the words that the page says."""
    words = told(plan, row)
    return {
        "row": row.index,
        "closing": row.closing,
        "goes_back": row.goes_back,
        "move": _move(row.move),
        **position_answer(plan, row.reached),
        "told": {
            "position": words.position,
            "come_up_to": f"{words.come_up_to.value} {words.come_up_to.unit}".strip(),
            "detail": words.detail,
            "ring_check": words.ring_check,
            "since_zero": words.since_zero,
            "work": words.work,
        },
    }


def _move(move: Setting) -> dict[str, Any]:
    return {
        "turns": move.turns,
        "reading": None if move.reading is None else str(move.reading),
        "holes": None if move.holes is None else list(move.holes),
        "notches": move.notches,
    }
