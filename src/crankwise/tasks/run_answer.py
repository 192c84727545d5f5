"""A run as one JSON object: all that a device needs to carry it on with no server, and its journal.

The keys are promised on the page about JSON.
"""

from collections import Counter
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Any

from crankwise.exact.number import as_text
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.check_points import CheckPoint, due
from crankwise.run.evidence import RING
from crankwise.run.first_line import return_due
from crankwise.run.in_hand import InHand, in_hand
from crankwise.run.journal import Entry
from crankwise.run.merge import Merged
from crankwise.run.pace import pace
from crankwise.run.set_on import set_on
from crankwise.store.kept import KeptRun
from crankwise.tasks.first_answer import first_answer, move_answer, to_first_answer
from crankwise.wording.along import target_text
from crankwise.wording.run_checks import check_question, checks_text, conflict_text, return_text
from crankwise.wording.run_page import WHY_HERE, repeat_text
from crankwise.wording.run_row import RowWriter

TellTarget = Callable[[Plan, Fraction], str]
"""How a device likes to be told where the work is to stand, `Fraction` turns of the spindle from the start."""


def run_answer(
    run: KeptRun,
    journal: Sequence[Entry],
    since: int = 0,
    with_rows: bool = True,
    tell_target: TellTarget = target_text,
) -> dict[str, Any]:
    """Return the run as one object.

    journal      its entries after the first `since`
    tell_target  how its targets are written
    """
    rows = _Rows(run, tell_target)
    now = in_hand(run.plan, run.rows, run.state)
    answer: dict[str, Any] = {
        "run": run.id,
        "job": run.job_name,
        "schedule": run.identity,
        "row_count": len(run.rows),
        "gates": list(run.state.gates),
        "row_in_hand": None
        if now is None
        else {**rows.answer(now.row.index, now.row), "moves": now.moves, "repeat": repeat_text(now)},
        "to_first": to_first_answer(run),
        "state": state_answer(run),
        "journal": [entry_answer(entry) for entry in journal],
        "journal_length": since + len(journal),
        "promise": list(checks_text(run.plan, run.watch.checks, run.rows)),
        "scales": scales_answer(run),
        "first": first_answer(run),
    }
    if with_rows:
        answer["usual"], answer["rows"] = rows.all()
    return answer


def state_answer(run: KeptRun) -> dict[str, Any]:
    """Return where a run stands."""
    state = run.state
    own_pace = pace(state)
    return {
        "began": state.began,
        "finished": state.began and state.finished,
        "paused": state.paused,
        "at_row": state.at_row,
        "front": state.front,
        "skipped": list(state.skipped),
        "done": state.done,
        "of": len(run.rows),
        "entries": state.entries,
        "numbers_grow": state.numbers_grow,
        "turn": run.guide.turn,
        "bad": {str(row): note for row, note in state.bad.items()},
        "suspect": list(state.suspect),
        "overshot": state.overshot,
        "check_due": due(run.watch.checks, state) is not None,
        "return_due": return_due(run.watch.checks, state) is not None,
        "anchor": {"work": as_text(state.anchor.work), "ring_off": as_text(state.anchor.ring)},
        "seconds_a_row": None if own_pace is None else own_pace.row,
        "last_at": state.last_at,
    }


def scales_answer(run: KeptRun) -> dict[str, Any]:
    """Return what a page must know of the head to draw its scales and to compare a reading of the ring."""
    dial, ring = run.plan.head.dial, run.plan.head.ring
    return {
        "dial": None if dial is None else {"marks": dial.marks, "numbered_every": dial.numbered_every},
        "ring": None
        if ring is None
        else {
            "graduations": ring.graduations,
            "full_circle": ring.full_circle,
            "numbered": ring.numbered,
            "grows": run.plan.head.ring_grows,
            "within": as_text(Fraction(ring.full_circle, 2 * ring.places)),
            "is_set": set_on(run.rows[0].reached.setting) == "ring",
        },
        "circle": _one_circle(run),
    }


def _one_circle(run: KeptRun) -> int | None:
    """The circle that a single pin moves on all through, where there is one."""
    circle, holes = run.plan.way.setup.get("circle"), run.rows[0].reached.setting.holes
    return circle if isinstance(circle, int) and holes is not None and len(holes) == 1 else None


def entry_answer(entry: Entry) -> dict[str, Any]:
    """Return one line of the journal, without the keys that say nothing."""
    told = {
        "kind": entry.kind,
        "tap": entry.tap,
        "at": entry.at,
        "row": entry.row,
        "numbers_grow": entry.numbers_grow,
        "seen": entry.seen,
        "reading": None if entry.reading is None else as_text(entry.reading),
        "angle": None if entry.angle is None else as_text(entry.angle),
        "joint": entry.joint,
        "since": entry.since,
        "note": entry.note,
        "of": entry.of,
        "off_mm": None if entry.off_mm is None else as_text(entry.off_mm),
        "means": entry.means,
    }
    return {key: value for key, value in told.items() if value is not None}


def merged_answer(run: KeptRun, merged: Merged) -> dict[str, Any]:
    """Return what came of the taps of a device that was away."""
    return {
        "counted": [entry.tap for entry in merged.added],
        "said_twice": [entry.tap for entry in merged.said_twice],
        "conflicts": [
            {
                "reason": conflict.reason,
                "row": conflict.row,
                "text": conflict_text(conflict, run.rows),
                "ours": [entry_answer(entry) for entry in conflict.ours],
                "theirs": [entry_answer(entry) for entry in conflict.theirs],
            }
            for conflict in merged.conflicts
        ],
    }


class _Rows:
    """The rows of a run as objects."""

    def __init__(self, run: KeptRun, tell_target: TellTarget) -> None:
        self._run = run
        self._tell_target = tell_target
        self._evidence = run.watch.evidence(run.state.anchor)
        self._writer = RowWriter(run.plan, run.rows)
        self._circle = _one_circle(run)
        checks = run.watch.checks
        self._points = {point.row: point for point in checks.points}
        self._returns = {back.row: return_text(back, run.plan) for back in checks.returns}

    def all(self) -> tuple[dict[str, Any], list[dict[str, Any]]]:
        """Return what rows usually say, and every row with only what it says otherwise."""
        whole = [self.answer(row.index, row) for row in self._run.watch.rows_at(self._run.state.anchor)]
        usual = {key: Counter(_hashable(row[key]) for row in whole).most_common(1)[0][0] for key in whole[0]}
        usual = {key: list(value) if isinstance(value, tuple) else value for key, value in usual.items()}
        return usual, [
            {key: value for key, value in row.items() if key == "row" or value != usual[key]} for row in whole
        ]

    def answer(self, index: int, row: Row) -> dict[str, Any]:
        """Return one row, whole."""
        words = self._writer.words(row)
        point = self._points.get(index)
        shows = self._evidence.shown[index].get(RING)
        return {
            "row": index,
            "position": words.told.position,
            "closing": row.closing,
            "pass_text": words.pass_text,
            **move_answer(words.told),
            "set_on": set_on(row.reached.setting),
            "hole": self._hole(row),
            "goes_back": row.goes_back,
            "repeat": repeat_text(InHand(row)),
            "between": words.told.detail,
            "ring": words.told.ring_check,
            "ring_exact": "" if shows is None else as_text(shows),
            "since_zero": words.told.since_zero,
            "target": self._tell_target(self._run.plan, row.reached.target),
            "work": words.told.work,
            "mark": words.mark,
            "numeral": words.numeral,
            "is_long": words.is_long,
            "short": words.short,
            "check": [] if point is None else list(check_question(point, self._evidence)),
            "check_ring": self._ring_asked(point),
            "check_why": "" if point is None else WHY_HERE[point.why],
            "return_to_first": self._returns.get(index, ""),
        }

    def _hole(self, row: Row) -> int | None:
        holes = row.reached.setting.holes
        return holes[0] % self._circle if self._circle and holes else None

    def _ring_asked(self, point: CheckPoint | None) -> str:
        if point is None or RING not in point.asks:
            return ""
        return as_text(self._evidence.shown[point.row][RING])


def _hashable(value: object) -> object:
    return tuple(value) if isinstance(value, list) else value
