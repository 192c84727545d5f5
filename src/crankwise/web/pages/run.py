"""The run: one position at a time, one tap a position."""

import secrets
import time
from dataclasses import replace
from typing import Any

from crankwise.draw.move import hole_move, turning_arrow
from crankwise.draw.scale_window import dial_window, ring_window
from crankwise.errors import BadTap
from crankwise.plan.schedule import Row
from crankwise.run.guide import Turn, direction_test
from crankwise.run.journal import Entry, Kind
from crankwise.tasks.workshop import KeptRun
from crankwise.ways.way import Setting
from crankwise.web.answers import Answer, GoTo, Page
from crankwise.web.objects import run_object
from crankwise.web.pages import run_json
from crankwise.web.visit import Visit
from crankwise.wording.cautions import cautions
from crankwise.wording.run import (
    OVERSHOOT,
    OVERSHOOT_BY_HAND,
    RHYTHM,
    TRACE_FIRST,
    WITNESS_MARKS,
    asked_text,
    direction_question,
    disagreement,
    finished_text,
    next_text,
    told,
)
from crankwise.wording.sheet import zero_text

_ANSWERS = {"yes": True, "no": False, "": None}
_KINDS: tuple[Kind, ...] = ("began", "done", "back")


def begin(visit: Visit) -> GoTo:
    """Make a new run of a job, and go to it."""
    kept = visit.workshop.begin_run(visit.id("job_id"))
    return GoTo(f"/runs/{kept.id}", run_object(kept))


def show(visit: Visit) -> Page:
    """Show where the run stands."""
    return _page(visit, visit.workshop.run(visit.id("run_id")))


def tap(visit: Visit) -> Answer:
    """Keep one tap, and show where the run then stands.

    An answer to the direction test that goes against the head's description is asked once more
    before it is kept: it holds for the whole run.
    """
    run_id = visit.id("run_id")
    if visit.sent_json is not None:
        return run_json.take_in(visit)
    entry = _entry(visit)
    if entry.kind == "began" and "sure" not in visit.form:
        kept = visit.workshop.run(run_id)
        expected = direction_test(kept.plan.head).expected
        if (
            not kept.state.began
            and None not in (expected, entry.numbers_grow)
            and expected != entry.numbers_grow
        ):
            return _page(visit, kept, doubted=entry.numbers_grow)
    kept, counted = visit.workshop.tap(run_id, entry)
    if visit.is_fragment or visit.wants_json:
        page = _page(visit, kept, moved_on=not counted and not _is_where_it_leads(kept, entry))
        return replace(page, as_json={**run_object(kept), "counted": counted})
    return GoTo(f"/runs/{run_id}", run_object(kept))


def _entry(visit: Visit) -> Entry:
    kind = next((one for one in _KINDS if one == visit.typed("kind")), None)
    if kind is None or visit.typed("answer") not in _ANSWERS:
        raise BadTap("tap: it does not say what was tapped; a tap is began, done or back")
    return Entry(
        kind,
        visit.typed("tap"),
        _tapped_at(visit.typed("at")),
        _whole(visit.typed("row"), "row"),
        _ANSWERS[visit.typed("answer")] if kind == "began" else None,
        _whole(visit.typed("seen"), "seen"),
    )


def _whole(typed: str, what: str) -> int | None:
    if not typed:
        return None
    if not typed.isascii() or not typed.isdecimal() or len(typed) > 9:
        raise BadTap(f"tap: {what} {typed[:20]!r} is not a whole number")
    return int(typed)


def _tapped_at(typed: str) -> float:
    """The time the device said; the server's where it says none, as without script."""
    if not typed:
        return time.time()
    try:
        return float(typed[:30])
    except ValueError:
        raise BadTap(f"tap: the time {typed[:30]!r} is not in seconds since 1970") from None


def _is_where_it_leads(kept: KeptRun, entry: Entry) -> bool:
    """Whether the run stands where this tap would have brought it: then a repeat needs no remark."""
    if entry.kind == "began" or entry.row is None:
        return kept.state.began
    return kept.state.at_row == entry.row + (1 if entry.kind == "done" else 0)


def _page(visit: Visit, kept: KeptRun, doubted: bool | None = None, moved_on: bool = False) -> Page:
    shown = kept.guide
    head = kept.plan.head
    test = direction_test(head)
    setting = kept.rows[0].reached.setting
    row = shown.row
    goes_round = kept.rows[-1].closing
    mark = "" if doubted is not None else f'"{kept.id}-{kept.state.entries}-{visit.preferences.written()}"'
    values: dict[str, Any] = {
        "run": kept,
        "mark": mark,
        "guide": shown,
        "asked": asked_text(kept.plan),
        "finished": kept.state.began and kept.state.finished,
        "tap": f"web-{secrets.token_urlsafe(12)}",
        "seen": kept.state.entries,
        "moved_on": moved_on,
        "last_back": kept.state.at_row - 1,
        "percent": 100 * shown.done // shown.of,
        "test": test,
        "question": direction_question(test),
        "zero": zero_text(kept.plan, setting),
        "witness": WITNESS_MARKS,
        "trace": TRACE_FIRST,
        "cautions": cautions(kept.plan.part.work, len(kept.plan.part.divisions)),
        "doubted": None if doubted is None else ("yes" if doubted else "no"),
        "disagreement": disagreement(test) if test.expected is not None else "",
        "rhythm": RHYTHM,
        "overshoot": OVERSHOOT if head.worm else OVERSHOOT_BY_HAND,
        "finished_text": finished_text(kept.plan, len(kept.rows), goes_round),
        "by": _set_on(setting),
    }
    if row is not None:
        turn: Turn = shown.turn or "clockwise"
        here = _other_way(turn) if (row.move.turns or 0) < 0 else turn
        values |= {
            "told": told(kept.plan, row),
            "next": next_text(kept.plan, shown.next_row) if shown.next_row else "",
            "turn_here": here,
            "arrow": turning_arrow(here),
            "window": _window(kept, row),
        }
    return Page("run.html", values, run_object(kept), "run_panel.html", mark=mark)


def _other_way(turn: Turn) -> Turn:
    """A few ways turn back before they come up again: the arrow must say so."""
    return "anticlockwise" if turn == "clockwise" else "clockwise"


def _set_on(setting: Setting) -> str:
    """The scale that is watched last, which the page lays itself out for."""
    if setting.holes is not None:
        return "holes"
    if setting.reading is not None:
        return "ring" if setting.turns is None else "dial"
    return "notches" if setting.steps is None else "steps"


def _window(kept: KeptRun, row: Row) -> str:
    """The picture of what is set, as it should be seen; empty where a picture would say nothing."""
    head, setting = kept.plan.head, row.reached.setting
    turn = kept.guide.turn or "clockwise"
    if setting.holes is not None and len(setting.holes) == 1:
        circle = kept.plan.way.setup.get("circle")
        before = kept.rows[row.index - 1].reached.setting.holes if row.index else (0,)
        if isinstance(circle, int) and before is not None:
            return hole_move(circle, before[0], setting.holes[0], turn, "holes")
    if setting.reading is None:
        return ""
    if setting.turns is not None and head.dial:
        return dial_window(head.dial, setting.reading, turn == "clockwise")
    return ring_window(head.ring, setting.reading) if head.ring else ""
