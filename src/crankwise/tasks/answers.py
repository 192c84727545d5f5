"""The answers of the command line and the web as plain objects, ready for JSON.

The keys are promised; more may be added, none changes its meaning. Exact values are texts that lose
nothing ("56.5", "360/127"); numbers named `..._arcsec` or `..._um` are floats for convenience, good
to a float's sixteen digits, beside an exact text.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from crankwise.exact.angle import ARCSECONDS
from crankwise.exact.length import INCH, along
from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.head.ring import Ring
from crankwise.part.divisions import AngleList, EqualSteps
from crankwise.part.part import Part
from crankwise.plan.plan import Plan, ring_check
from crankwise.ways.choosing import Work, on_the_front, work
from crankwise.ways.way import Reached, Setting, Way
from crankwise.wording.settings import ring_reading_text

FORMAT = 1


def division_answer(
    head: Head, part: Part, ways: Sequence[Way], listed: int, working: bool = False
) -> dict[str, Any]:
    """Return the answer to a division: every way, the best first.

    listed   how many of the ways, from the best on, list their positions
    working  whether each way shows its working
    """
    costs = [work(way) for way in ways]
    shown = [
        way_answer(way, part, index < listed)
        | {
            "settings_on_lines": way.settings_on_lines(),
            "unbeaten": unbeaten,
            "work": work_answer(cost),
        }
        for index, (way, cost, unbeaten) in enumerate(
            zip(ways, costs, on_the_front(ways, costs), strict=True)
        )
    ]
    if working:
        for way, told in zip(ways, shown, strict=True):
            told["working"] = [step._asdict() | {"value": as_text(step.value)} for step in way.working()]
    divisions = part.divisions
    return {
        "format": FORMAT,
        "divisions": len(divisions) if isinstance(divisions, AngleList) else divisions.count,
        "ratio": as_text(head.ratio) if head.ratio and not head.slide else None,
        **({"lead_mm": as_text(head.slide.lead_mm)} if head.slide else {}),
        "ways": shown,
        "warnings": warnings_answer(head, part),
    }


def warnings_answer(head: Head, part: Part) -> list[dict[str, Any]]:
    """Return the traps of this number of parts on this head, each with its stable code and its words."""
    from crankwise.ways.traps import traps
    from crankwise.wording.traps import trap_text

    found = [(trap.code, trap_text(trap)) for trap in traps(head, part.divisions)]
    if head.slide and isinstance(part.divisions, EqualSteps):
        from crankwise.wording.part_names import travel_warnings

        steps = part.divisions
        told = travel_warnings(steps.count, steps.step_mm, head.slide.travel_mm)
        found += [(code, f"{text[0].upper()}{text[1:]}.") for code, text in told]
    return [{"code": code, "text": text} for code, text in found]


def way_answer(way: Way, part: Part, positions: bool) -> dict[str, Any]:
    """Return one way: its summary, and its positions if asked."""
    answer = way_summary(way, part)
    if way.corrects:
        from crankwise.tasks.corrected import correction_answer

        answer["corrected"] = correction_answer(way, positions)
    answer["positions"] = answer["closure"] = None
    if positions:
        plan = Plan(part, way)
        closure = way.closure()
        answer["positions"] = [position_answer(plan, reached) for reached in way.reached()]
        answer["closure"] = position_answer(plan, closure) if closure else None
    return answer


def work_answer(cost: Work) -> dict[str, Any]:
    """Return what one way costs over the whole run; the odds behind `mistakes` are judgement (ways/choosing.py)."""
    return cost._asdict() | {"crank_turns": as_text(cost.crank_turns), "mistakes": float(cost.mistakes)}


def way_summary(way: Way, part: Part) -> dict[str, Any]:
    """Return one way without its positions: its method, set-up and worst error."""
    answer: dict[str, Any] = {
        "method": way.method,
        "exact": way.exact,
        "worst_error_arcsec": None if part.is_straight else float(way.worst_error * ARCSECONDS),
        "worst_error_turns": None if part.is_straight else as_text(way.worst_error),
        "setup": {
            name: list(value) if isinstance(value, tuple) else value for name, value in way.setup.items()
        },
    }
    at_work = part.length_of(way.worst_error)
    if at_work is not None:
        answer["worst_error_um"] = float(at_work * 1000)
        answer["worst_error_thou"] = float(at_work / INCH * 1000)
    return answer


def position_answer(plan: Plan, reached: Reached) -> dict[str, Any]:
    """Return one position: its setting from the start, its ring check, its exact target and its error."""
    setting = reached.setting
    answer: dict[str, Any] = {
        "position": reached.position,
        "turns": setting.turns,
        "reading": as_text(setting.reading) if setting.reading is not None else None,
        "holes": _one_or_list(setting.holes),
        "notches": _notches(setting),
        "steps": setting.steps,
        "ring": _ring_text(plan.head.ring, ring_check(plan, reached)),
        **(_along(reached) if plan.part.is_straight else _round(reached)),
    }
    if setting.circle is not None:
        answer["circle"] = setting.circle
    at_work = plan.part.length_of(reached.error)
    if at_work is not None:
        answer["error_um"] = float(at_work * 1000)
    return answer


def _round(reached: Reached) -> dict[str, Any]:
    error = reached.error
    return {
        "target_deg": _degrees(reached.target),
        "achieved_deg": _degrees(reached.achieved),
        "error_arcsec": error.numerator * ARCSECONDS / error.denominator,
    }


def _along(reached: Reached) -> dict[str, Any]:
    """A place along a slide has no angle; its length loses nothing either."""
    return {
        "target_deg": None,
        "achieved_deg": None,
        "error_arcsec": None,
        "target_mm": as_text(along(reached.target)),
        "achieved_mm": as_text(along(reached.achieved)),
    }


def _degrees(turns: Fraction) -> str:
    return as_text(Fraction(turns.numerator * 360, turns.denominator))


def _one_or_list(holes: tuple[int, ...] | None) -> int | list[int] | None:
    if holes is None:
        return None
    return holes[0] if len(holes) == 1 else list(holes)


def _notches(setting: Setting) -> int | list[int] | None:
    if setting.notches is None or setting.second_notches is None:
        return setting.notches
    return [setting.notches, setting.second_notches]


def _ring_text(ring: Ring | None, reading: Fraction | None) -> str | None:
    """The ring is compared by eye: two decimals; `achieved_deg` beside it loses nothing."""
    return None if ring is None or reading is None else ring_reading_text(ring, reading)
