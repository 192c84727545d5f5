"""What a phone must know to say by itself where the machine stands: what every row shows, packed, and the odds.

Rows follow on from each other by few different steps, and a second pass takes those of the first, so a
row is told as the number of its step. Unpacked by web/static/run_evidence.js.
"""

from collections.abc import Sequence
from dataclasses import asdict
from math import lcm
from typing import Any

from crankwise.exact.length import STRAIGHT_MM
from crankwise.exact.number import as_text
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.evidence import DIAL, RING, Evidence
from crankwise.run.faults import ARMS_OUT, REMEDIES, Kind
from crankwise.run.gear_at_hand import MOST_TIMES, Gear, gear_at
from crankwise.run.odds import SMALL_SLIP, SURE, USUAL
from crankwise.run.set_on import set_on
from crankwise.run.slips import crank_read_on, turns_a_unit
from crankwise.run.state import Anchor
from crankwise.run.watch import Watch
from crankwise.run.where_am_i import A_MARK, SLIP_WORTH_TELLING, WORTH_TELLING
from crankwise.wording.run_faults import ALONG_A_SLIDE, DO, UNITS, WHAT, WHY, pass_name
from crankwise.wording.run_page import scale_asks, scale_hint
from crankwise.wording.run_where import (
    COUNT_AGAIN,
    IF_AGAIN,
    LOST_STEPS,
    MEASURE_THE_TURN,
    OR_AT_THE_WORKSHOP,
    PUT_BACK,
    RE_READ,
    READ_THE_TURN,
    REST_BETWEEN,
    REST_TOLD,
    SET_BY,
    SET_BY_A_DIAL,
    STOP,
    STOP_THE_SLIDE,
)

OF_ONE_PLACE: tuple[Kind, ...] = (
    "miscount",
    "miscount of moves",
    "whole turn",
    "misread numeral",
    "miscount of holes",
    "miscount of notches",
    "wrong approach",
    "read backwards",
    "wrong arms",
)
"""The faults that what is left over at one place can be a sign of, a slip aside."""


def where_told(watch: Watch, anchor: Anchor) -> dict[str, Any]:
    """Return what a phone weighs readings by, in a run as it stands when so much has slipped."""
    evidence, plan, rows = watch.evidence(anchor), watch.plan, watch.rows
    crank = crank_read_on(evidence)
    gears = _gears(plan, rows)
    return {
        "odds": asdict(USUAL) | {"clean": USUAL.clean},
        "sure": as_text(SURE),
        "small_slip": as_text(SMALL_SLIP),
        "slip_chance": [as_text(USUAL.slip_chance(is_small)) for is_small in (False, True)],
        "worth_telling": as_text(WORTH_TELLING),
        "slip_worth_telling": as_text(SLIP_WORTH_TELLING),
        "a_mark": as_text(A_MARK),
        "most_times": MOST_TIMES,
        "scales": [
            {
                "name": scale.name,
                "full": scale.full,
                "least": scale.least,
                "most": scale.most,
                "within": as_text(scale.within),
                "numbered_every": scale.numbered_every,
                "turns": _text(turns_a_unit(evidence, scale.name, scale.full)),
                "asks": scale_asks(scale),
                "hint": scale_hint(scale),
            }
            for scale in evidence.readable
        ],
        **_packed(evidence),
        "ratio": _text(plan.way.crank_ratio),
        "grows": plan.head.ring_grows,
        "has_turns": bool(evidence.a_turn_off),
        "crank": None if crank is None else {"scales": list(crank[0]), "ratio": as_text(crank[1])},
        "anchor": {"work": as_text(anchor.work), "ring": as_text(anchor.ring)},
        "gears": [_gear_told(gear) for gear in dict.fromkeys(gears)],
        "gear_from": _changes(list(map(list(dict.fromkeys(gears)).index, gears))),
        "set_by": _changes([_set_by(evidence, row) for row in range(len(rows))]),
        "arms_out": ARMS_OUT,
        "passes": _changes([pass_name(row, rows) for row in rows]),
        "straight_mm": int(STRAIGHT_MM) if plan.part.is_straight else None,
    }


def where_words(plan: Plan) -> dict[str, Any]:
    """Return the sentences that a phone says where the machine stands in, and what has gone wrong."""
    told = {kind: (WHAT[kind], WHY[kind]) for kind in OF_ONE_PLACE}
    if plan.part.is_straight:
        told |= {kind: texts for kind, texts in ALONG_A_SLIDE.items() if kind in told}
    return {
        "stop": STOP_THE_SLIDE if plan.part.is_straight else STOP,
        "read_the_turn": READ_THE_TURN,
        "measure_the_turn": MEASURE_THE_TURN,
        "re_read": RE_READ,
        "count_again": COUNT_AGAIN,
        "rest_told": REST_TOLD,
        "rest_between": REST_BETWEEN,
        "lost_steps": LOST_STEPS,
        "set_by": SET_BY | {"dial": SET_BY_A_DIAL},
        "kinds": {kind: [*texts, DO[REMEDIES[kind]]] for kind, texts in told.items()},
        "units": UNITS,
        "put_back": PUT_BACK,
        "if_again": IF_AGAIN,
        "or_home": OR_AT_THE_WORKSHOP,
    }


def _packed(evidence: Evidence) -> dict[str, Any]:
    """Return every row as the number of its step; a step says for each scale, and for the place, how far on."""
    columns = [evidence.column(scale.name) for scale in evidence.readable]
    wraps = [scale.full * bottom for scale, (bottom, _) in zip(evidence.readable, columns, strict=True)]
    places = [row.reached.achieved % 1 for row in evidence.rows]
    ratio = evidence.plan.way.crank_ratio
    bottom = lcm(ratio.numerator if ratio else 1, *(place.denominator for place in places))
    columns.append((bottom, [place.numerator * (bottom // place.denominator) for place in places]))
    wraps.append(bottom)
    at = [0] * len(columns)
    steps: dict[str, int] = {}
    rows = []
    for shown in zip(*(values for _, values in columns), strict=True):
        step = []
        for number, value in enumerate(shown):
            if value is None:
                step.append("")
                continue
            step.append(str((value - at[number]) % wraps[number]))
            at[number] = value
        rows.append(steps.setdefault(",".join(step), len(steps)))
    return {"bottoms": [str(bottom) for bottom, _ in columns], "steps": list(steps), "rows": rows}


def _gears(plan: Plan, rows: tuple[Row, ...]) -> list[Gear]:
    """Return what the faults of each row are measured by: the same for rows of a pass that are set in the same way."""
    known: dict[tuple[object, ...], Gear] = {}
    found = []
    for row in rows:
        setting = row.reached.setting
        told = (setting.turns, setting.reading, setting.holes, setting.notches)
        key = (row.pass_number, setting.circle, *(one is None for one in told))
        if key not in known:
            known[key] = gear_at(plan, rows, row.index)
        found.append(known[key])
    return found


def _set_by(evidence: Evidence, row: int) -> str | None:
    """Return the scale on which a row's reading is set; None where holes or notches are counted."""
    by = set_on(evidence.rows[row].reached.setting)
    return None if evidence.set_reading(row) is None else RING if by == "ring" else DIAL


def _gear_told(gear: Gear) -> dict[str, Any]:
    return {
        "part": _text(gear.part),
        "turn": _text(gear.turn),
        "mark": _text(gear.mark),
        "interval": gear.interval,
        "backlash": _text(gear.backlash),
        "move": _text(gear.move),
        "holes": [as_text(one) for one in gear.holes],
        "notches": [as_text(one) for one in gear.notches],
        "by_arms": gear.by_arms,
        "rounded": as_text(gear.rounded),
    }


def _changes(values: Sequence[Any]) -> list[tuple[int, Any]]:
    """Return each value that differs from the one before, with the row from which it holds."""
    return [(row, value) for row, value in enumerate(values) if row == 0 or value != values[row - 1]]


def _text(value: Any) -> str | None:
    return None if value is None else as_text(value)
