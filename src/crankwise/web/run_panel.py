"""What the run page shows, for wherever the run stands; the words are `wording`'s."""

import secrets
from fractions import Fraction
from typing import Any

from crankwise.draw.move import hole_move, turning_arrow
from crankwise.draw.scale_window import dial_window, ring_window
from crankwise.exact.number import as_text
from crankwise.plan.passes import PassName
from crankwise.plan.schedule import Row
from crankwise.run.check_points import CheckPoint, due
from crankwise.run.evidence import RING
from crankwise.run.guide import Turn, direction_test
from crankwise.run.in_hand import in_hand, next_in_hand
from crankwise.run.pace import pace
from crankwise.run.ring_readings import disagreement
from crankwise.run.set_on import set_on
from crankwise.tasks.workshop import KeptRun
from crankwise.web.run_first import first_values, other_way, to_first_values
from crankwise.wording.cautions import plan_cautions
from crankwise.wording.run import (
    OVERSHOOT,
    OVERSHOOT_BY_HAND,
    asked_text,
    direction_question,
    finished_text,
    next_text,
    rhythm,
    trace_text,
)
from crankwise.wording.run import disagreement as head_disagrees
from crankwise.wording.run_checks import check_question, checks_text, pace_text, witness_text
from crankwise.wording.run_faults import fault_text
from crankwise.wording.run_first import first_name
from crankwise.wording.run_page import (
    CAME_BACK,
    FIRST_THE_CHECK,
    FROM_FIRST,
    NOT_LEFT,
    OVERSHOT,
    OVERSHOT_BY_HAND,
    REOPENED,
    RESUME,
    WHY_HERE,
    entry_text,
    left_at,
    repeat_text,
    shows_text,
    worse_off,
)
from crankwise.wording.run_row import RowWriter
from crankwise.wording.sheet import zero_text

MOST_FAULTS = 4
_BEFORE_THE_CUT: tuple[PassName, ...] = ("trace",)


def panel_values(
    run: KeptRun, doubted: bool | None, moved_on: bool, ring_zero: Fraction | None = None
) -> dict[str, Any]:
    """Return the values that the panel of the run page is filled with.

    ring_zero  what a ring that cannot be set shows where all else is at zero, once it was typed
    doubted   an answer to the direction test that goes against the head's description, asked once more
    moved_on  whether a tap came too late to count
    """
    state, head = run.state, run.plan.head
    test = direction_test(head)
    setting, closes = run.rows[0].reached.setting, run.rows[-1].closing
    values: dict[str, Any] = {
        "run": run,
        "guide": run.guide,
        "asked": asked_text(run.plan),
        "closes": False,
        "reopens": "",
        "finished": state.began and state.finished,
        "tap": f"web-{secrets.token_urlsafe(12)}",
        "seen": state.entries,
        "moved_on": moved_on,
        "last_back": state.trail[-1].row if state.trail else -1,
        "percent": 100 * run.guide.done // run.guide.of,
        "test": test,
        "question": direction_question(test),
        "zero": zero_text(run.plan, setting, on_paper=False),
        "witness": witness_text(run.watch.checks.witness_marks),
        "promise": checks_text(run.plan, run.watch.checks, run.rows),
        "trace": "" if run.rows[0].work.name in _BEFORE_THE_CUT else trace_text(run.plan),
        "cautions": plan_cautions(run.plan),
        "doubted": None if doubted is None else ("yes" if doubted else "no"),
        "disagreement": head_disagrees(test) if test.expected is not None else "",
        "rhythm": rhythm(run.plan.part),
        "overshoot": OVERSHOOT if head.ratio else OVERSHOOT_BY_HAND,
        "finished_text": finished_text(run.plan, len(run.plan.part.divisions) + closes, closes),
        "by": set_on(setting),
        "pace": pace_text(pace(state)),
        "bad": [(_position(run, row), note) for row, note in sorted(state.bad.items())],
        "suspect": [_position(run, row) for row in state.suspect],
        "last_fact": _last_fact(run),
    }
    now = in_hand(run.plan, run.rows, state)
    if state.began:
        values |= first_values(run)
    if now is not None:
        values |= _at_a_row(run, now.row) | {"repeat": repeat_text(now)}
        asks_ring = bool(values["check"] and values["check"]["ring"])
        if now.row.closing and asks_ring:
            values["first"] = None  # the ring first: what is found of the first line then ends the row
        values["closes"] = now.row.closing and not asks_ring and not state.paused
        if (values["first"] or values["missed"]) and not values["off"] and not now.row.closing:
            values |= to_first_values(run)
            values |= _overshot(run, values["told"].come_up_to.value)
        values["say"] = _spoken(values)
    if not state.began:
        values |= _ring_at_zero(run, ring_zero)
    if state.paused:
        values |= _paused(run)
    return values


def _ring_at_zero(run: KeptRun, reading: Fraction | None) -> dict[str, Any]:
    """What a ring shows at zero, and how far it so stands ahead; asked only where something else is set."""
    ring = run.plan.head.ring
    # Corrected settings hold from the zeros that the head was measured from, and from no others.
    if ring is None or run.plan.way.corrects or set_on(run.rows[0].reached.setting) == "ring":
        return {"asks_ring_zero": False, "ring_zero": "", "ring_ahead": ""}
    if reading is None:
        return {"asks_ring_zero": True, "ring_zero": "", "ring_ahead": ""}
    grows = 1 if run.plan.head.ring_grows else -1
    return {
        "asks_ring_zero": True,
        "ring_zero": as_text(reading),
        "ring_ahead": as_text(grows * reading / ring.full_circle),
    }


def _at_a_row(run: KeptRun, row: Row) -> dict[str, Any]:
    state, guide = run.state, run.guide
    then = next_in_hand(run.plan, run.rows, state)
    turn: Turn = guide.turn or "clockwise"
    here = other_way(turn) if (row.move.turns or 0) < 0 else turn
    words = RowWriter(run.plan, run.rows).words(row)
    checks = run.watch.checks
    return {
        "row": row,
        "has_marks": bool(run.plan.part.marks),
        "told": words.told,
        "words": words,
        "say": words.say(here),
        "next": next_text(run.plan, then.row) if then else "",
        "turn_here": here,
        "arrow": turning_arrow(here),
        "window": _window(run, row),
        "check": _check(run, due(checks, state)),
        "off": _off(run),
        "first_the_check": FIRST_THE_CHECK,
        "target_row": row,
        "position": words.told.position,
        "heading": "position",
        "then": words.pass_text,
        **_overshot(run, words.told.come_up_to.value),
        "came_back": CAME_BACK if row.index != state.front else "",
        "reopened": ""
        if state.reopened is None or not (row.index or row.reached.achieved) or _is_from_first(run, row)
        else REOPENED.format(since_zero=words.told.since_zero),
        "from_first": FROM_FIRST.format(first=first_name(run.plan.part)) if _is_from_first(run, row) else "",
    }


def _overshot(run: KeptRun, reading: str) -> dict[str, str]:
    """What to do where the setting in hand was just gone past; empty where it was not."""
    told = OVERSHOT if run.plan.head.ratio else OVERSHOT_BY_HAND
    turn = run.guide.turn or "clockwise"
    return {"overshot": told.format(turn=turn, reading=reading) if run.state.overshot else ""}


def _spoken(values: dict[str, Any]) -> str:
    """Return what is said aloud: a fault alone, the way to the first line before the setting, else the setting."""
    missed, off, first, check = (values[name] for name in ("missed", "off", "first", "check"))
    if off:
        return f"You read {off['read']}; the ring should show {off['ring_told']}. Do not cut."
    if missed:
        return f"{missed['text']} Do not cut."
    if first and "say_there" in values:
        return f"{first['before']} {values['say_there']} {first['ask']}"
    asked = [first["ask"]] if first else list(check["lines"]) if check else []
    repeat, goes_back = values["repeat"], values["row"].goes_back
    pieces = (values["reopened"], repeat if goes_back else "", values["say"], "" if goes_back else repeat)
    return " ".join(filter(None, (*pieces, *asked)))


def _check(run: KeptRun, point: CheckPoint | None) -> dict[str, Any] | None:
    if point is None:
        return None
    evidence = run.watch.evidence(run.state.anchor)
    asks_ring = RING in point.asks
    shows = evidence.shown[point.row].get(RING)
    return {
        "lines": check_question(point, evidence),
        "why": WHY_HERE[point.why],
        "ring": as_text(shows) if asks_ring and shows is not None else "",
        "ring_told": shows_text(RING, shows) if asks_ring and shows is not None else "",
    }


def _off(run: KeptRun) -> dict[str, Any] | None:
    found = disagreement(run.watch, run.state)
    if found is None:
        return None
    return {
        "off": worse_off(found.off),
        "read": shows_text(RING, found.entry.reading or found.shows),
        "tap": found.entry.tap,
        "ring": as_text(found.shows),
        "ring_told": shows_text(RING, found.shows),
        "faults": [fault_text(fault, run.rows, run.plan.part) for fault in found.faults[:MOST_FAULTS]],
    }


def _paused(run: KeptRun) -> dict[str, Any]:
    last = run.state.stands_at
    if last is None:
        return {"resume": NOT_LEFT, "left_at": ""}
    evidence = run.watch.evidence(run.state.anchor)
    return {"resume": RESUME.format(position=_position(run, last)), "left_at": left_at(evidence, last)}


def _is_from_first(run: KeptRun, row: Row) -> bool:
    """Whether the move is made from the first line or space, since the tool was brought to it."""
    return run.state.at_first is not None and not row.closing


def _last_fact(run: KeptRun) -> dict[str, str] | None:
    if not run.state.facts:
        return None
    entry = run.state.facts[-1].entry
    return {"of": entry.tap, "text": entry_text(entry, run.rows, run.plan)}


def _position(run: KeptRun, row: int) -> str:
    return str(run.rows[row].reached.position)


def _window(run: KeptRun, row: Row) -> str:
    """The picture of what is set, as it should be seen; empty where a picture would say nothing."""
    head, setting = run.plan.head, row.reached.setting
    turn = run.guide.turn or "clockwise"
    if setting.holes is not None and len(setting.holes) == 1:
        circle = run.plan.way.setup.get("circle")
        last = 0 if _is_from_first(run, row) else run.state.last_done
        before = (0,) if last is None else run.rows[last].reached.setting.holes
        if isinstance(circle, int) and before is not None:
            return hole_move(circle, before[0], setting.holes[0], turn, "holes")
    if setting.reading is None:
        return ""
    if setting.turns is not None and head.dial:
        return dial_window(head.dial, setting.reading, turn == "clockwise")
    return ring_window(head.ring, setting.reading) if head.ring else ""
