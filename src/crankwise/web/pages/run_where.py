"""Where am I: what can be read at the machine, every position that agrees with it, and what has slipped."""

import secrets
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from crankwise.errors import BadTap, Fault, FaultsFound, Mendable
from crankwise.exact.length import along, read_length
from crankwise.exact.number import as_text, read_number
from crankwise.run.catch_up import steps_to
from crankwise.run.evidence import MEASURED, Evidence, Reading
from crankwise.run.faults import explain
from crankwise.run.first_line import MissedFirst, missed_first
from crankwise.run.gear_at_hand import gear_at
from crankwise.run.slips import Slip, residue_of
from crankwise.run.where_am_i import WhereAmI, where_am_i
from crankwise.tasks.workshop import KeptRun
from crankwise.web.answers import Answer, GoTo, Page
from crankwise.web.errors import sentences_of
from crankwise.web.objects import run_object
from crankwise.web.typed_tap import tapped_at, whole
from crankwise.web.visit import Visit
from crankwise.wording.figures import decimal
from crankwise.wording.run_faults import fault_text
from crankwise.wording.run_first import missed_text, since_met_text
from crankwise.wording.run_page import bring_text, entry_text, joints_of, left_at, scale_asks, scale_hint
from crankwise.wording.run_where import STOP, STOP_THE_SLIDE, surely_text, where_text

MOST_FAULTS = 2
MOST_TOLD = 12
READ_BY_EYE = Fraction(1, 3600)
"""A tenth of a degree: what is known no nearer is told to two places, and a return to the first line to four."""


def show(visit: Visit) -> Page:
    """Ask what the scales show; with what was read, answer it."""
    run = visit.workshop.run(visit.id("run_id"))
    evidence = run.watch.evidence(run.state.anchor)
    try:
        readings = _readings(evidence, visit)
    except Mendable as error:
        return _page(visit, run, evidence, error=error)
    found = where_am_i(evidence, readings, run.state) if readings else None
    return _page(visit, run, evidence, found)


def catch_up(visit: Visit) -> Answer:
    """Tick the positions that were done and not tapped, or reopen some, so that the run stands at a row."""
    run = visit.workshop.run(visit.id("run_id"))
    row, seen = whole(visit.typed("row"), "row"), whole(visit.typed("seen"), "seen")
    if row is None or not 0 <= row < len(run.rows):
        raise BadTap(f"row: the rows of this run are 0 to {len(run.rows) - 1}")
    if seen == run.state.entries:
        steps = steps_to(run.state, row, visit.typed("tap")[:80], tapped_at(visit.typed("at")))
        if steps is None:
            raise BadTap("row: the run cannot be brought there by ticking or reopening; it was passed over")
        run, _ = visit.workshop.take_in(run.id, steps, seen)
    return GoTo(f"/runs/{run.id}", run_object(run))


def _readings(evidence: Evidence, visit: Visit) -> list[Reading]:
    """Return what was typed; a scale left empty was not read. Raises FaultsFound with all that is wrong."""
    readings, faults = [], []
    for number, scale in enumerate(evidence.readable):
        typed = visit.query.get(f"scale{number}", "").strip()
        near = visit.query.get(f"near{number}", "").strip()
        if not typed:
            continue
        try:
            read = read_length if scale.name == MEASURED else read_number
            within = read(near, f"{scale.name} read to") / 2 if near else None
            readings.append(evidence.reading(scale.name, read(typed, scale.name), within))
        except Mendable as error:
            faults.append(Fault("", str(error)))
    if faults:
        raise FaultsFound(faults)
    return readings


def _page(
    visit: Visit,
    run: KeptRun,
    evidence: Evidence,
    found: WhereAmI | None = None,
    error: Mendable | None = None,
) -> Page:
    state = run.state
    last, slip_row = state.stands_at, min(state.at_row, len(run.rows) - 1)
    slip = found.slips[0] if found and found.verdict != "here" and found.slips else None
    missed = missed_first(run.watch, state) if found is None else None
    values: dict[str, Any] = {
        "run": run,
        "tap": f"web-{secrets.token_urlsafe(12)}",
        "seen": state.entries,
        "stop": STOP_THE_SLIDE if run.plan.part.is_straight else STOP,
        "asked": [
            {
                "name": scale.name,
                "asks": scale_asks(scale),
                "hint": scale_hint(scale),
                "typed": visit.query.get(f"scale{number}", ""),
                "near": visit.query.get(f"near{number}", ""),
                "counted": not scale.within,
                "usual": as_text(2 * scale.within),
            }
            for number, scale in enumerate(evidence.readable)
        ],
        "left": "" if last is None else f"position {_position(run, last)}: {left_at(evidence, last)}",
        "found": found,
        "sentences": sentences_of(error),
        "said": where_text(found, run.rows, run.plan.part.is_straight) if found else (),
        "faults": _faults(run, evidence, found),
        "bring": _bring(run, found),
        "joints": joints_of(run.plan),
        "slip": _slip(run, slip),
        "missed": missed and _missed(run, missed),
        "evidence": _told_before(run),
        "slip_row": slip_row,
        "slip_at": _position(run, slip_row),
        "began": state.began,
    }
    told = {**_object(run, found, values["said"]), **_first_object(missed), "told_before": values["evidence"]}
    return Page("run_where.html", values, told, error=error)


def _missed(run: KeptRun, missed: MissedFirst) -> dict[str, Any]:
    """What the last return found, and the slip that it may be."""
    suspect = missed.slip.suspect if missed.slip else ()
    return {
        "text": missed_text(run.plan, missed.entry),
        "faults": [fault_text(fault, run.rows, run.plan.part) for fault in missed.faults[:MOST_FAULTS]],
        "suspect": since_met_text([_position(run, row) for row in suspect]),
        "slip": _slip(run, missed.slip) if missed.slip else None,
    }


def _told_before(run: KeptRun) -> list[str]:
    """What the ring was read to show, and what the returns to the first line found, the newest first."""
    told = [fact.entry for fact in run.state.facts if fact.entry.kind in ("ring", "returned")]
    return [entry_text(entry, run.rows, run.plan) for entry in reversed(told[-MOST_TOLD:])]


def _faults(run: KeptRun, evidence: Evidence, found: WhereAmI | None) -> list[tuple[str, str, str]]:
    if found is None or found.off_a_row is None or found.verdict != "off a row":
        return []
    gear = gear_at(run.plan, run.rows, found.off_a_row.row)
    named = explain((residue_of(found.off_a_row, evidence),), gear)
    named = tuple(fault for fault in named if fault.kind != "slip")
    return [fault_text(fault, run.rows, run.plan.part) for fault in named[:MOST_FAULTS]]


def _bring(run: KeptRun, found: WhereAmI | None) -> dict[str, Any] | None:
    """What brings the run to where the machine stands, when it stands surely at a row of no business now."""
    state = run.state
    if found is None or found.row is None or not state.began or state.paused:
        return None
    if state.at_row in found_rows(found):
        return {"kind": "here", "position": _position(run, state.at_row)}
    if state.stands_at is not None and state.stands_at in found_rows(found):
        kind = "last" if state.at_first is None else "first"
        return {"kind": kind, "position": _position(run, state.stands_at)}
    steps = steps_to(state, found.row, "", 0.0)
    if steps is None:
        return None
    kind = "back" if steps[0].kind == "back" else "on"
    return {
        "kind": kind,
        "row": found.row,
        "count": len(steps),
        "text": bring_text(found.row, state.at_row, run.rows),
        "position": _position(run, found.row),
    }


def found_rows(found: WhereAmI) -> tuple[int, ...]:
    """Return every row at the place where the machine surely stands."""
    return found.candidates[0].alike


def _slip(run: KeptRun, slip: Slip | None) -> dict[str, Any]:
    if slip is None:
        return {"far": "", "side": "ahead", "joint": "work", "since": None}
    far = along(abs(slip.angle)) if run.plan.part.is_straight else abs(slip.angle) * 360
    return {
        "far": decimal(far, 2 if slip.within > READ_BY_EYE else 4),
        "side": "ahead" if slip.angle > 0 else "behind",
        "joint": slip.joint,
        "since": slip.since,
    }


def _object(run: KeptRun, found: WhereAmI | None, said: Sequence[str]) -> dict[str, Any]:
    if found is None:
        return {"run": run.id, "verdict": None}
    return {
        "run": run.id,
        "verdict": found.verdict,
        "row": found.row,
        "candidates": [
            {
                "row": one.row,
                "position": _position(run, one.row),
                "alike": list(one.alike),
                "surely": surely_text(one.odds),
                "agrees": one.agrees,
            }
            for one in found.candidates
        ],
        "slips": [
            {
                "joint": one.joint,
                "row": one.row,
                "angle": as_text(one.angle),
                "within": as_text(one.within),
                "since": one.since,
                "suspect": list(one.suspect),
                "surely": surely_text(one.odds),
            }
            for one in found.slips
        ],
        "said": list(said),
    }


def _first_object(missed: MissedFirst | None) -> dict[str, Any]:
    if missed is None:
        return {}
    slip = missed.slip
    return {
        "first_missed": {
            "tap": missed.entry.tap,
            "off": None if missed.off is None else as_text(missed.off),
            "within": None if slip is None else as_text(slip.within),
            "since": slip and slip.since,
            "suspect": list(slip.suspect) if slip else [],
        }
    }


def _position(run: KeptRun, row: int) -> str:
    return str(run.rows[row].reached.position)
