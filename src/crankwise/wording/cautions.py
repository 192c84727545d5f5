"""The usual cautions, short, for the work at hand. Local rules and the machine's own come first.

Source: common practice in workshops; no single document. They are reminders, never permission.
"""

from crankwise.part.part import Part, Work
from crankwise.plan.plan import Plan

LOCAL_RULES = "The rules of your workshop, and the machine's own, come before this sheet."
SPINDLE = "Never crank against a locked spindle, never cut with it unlocked, never crank with the cutter in the work."
FREE_SPINDLE = (
    "While a tooth is cut the spindle is NOT locked and the plate's stop is out: the change gears turn the work. "
    "Never move the pin with the cutter in the work, never crank while the table feeds; read a ring only with the "
    "table at its start, for it turns with the table."
)
CLEARANCE = "Machine off: crank once round; cutter, jaws, clamps and tailstock must clear all the way."
TURNING_CUTTER = (
    "Glasses on; no gloves, rings, ties or loose sleeves near a turning cutter. "
    "Stop it before you measure or clear chips: brush, never a hand."
)
POWER_OFF = "POWER OFF: lines are planed with the motor isolated, the chuck key out, the spindle locked."
LINE_EDGES = "Glasses on; a planed line throws a curl, and its burr is sharp."
BREAKS = "A long run: take breaks, and only at a check line, after the tick."
NOT_FOR = (
    "Not for gears or parts that carry or lift people, nor for pressure, brakes, vehicles or flight: "
    "those need a competent designer and certified parts."
)

CHANGE_GEARS = (
    "Change gears turn while the table feeds: guard them, fingers and rags away; "
    "no rapid feed while they are in mesh."
)
TILTED = "Head tilted: its bolts tight, and cranked once round again, machine off, before the first cut."
DRILL = "A drill grabs as it breaks through: the work is clamped, never held, its clamps clear of every hole."
FLY_CUTTER = "A fly cutter: low speed, guarded, nobody in its plane; withdrawn before the crank is touched."

BY_HAND = {
    SPINDLE: (
        "Never turn against a locked spindle, never cut with it unlocked, never lift the detent with the cutter in the "
        "work."
    ),
    CLEARANCE: CLEARANCE.replace("crank once round", "turn the spindle once round by hand"),
    TILTED: TILTED.replace("cranked once round", "turned once round by hand"),
    FLY_CUTTER: FLY_CUTTER.replace("the crank is touched", "the detent is lifted"),
}
"""What is said instead on a wheel with a detent, where there is no crank."""

SLIDE = "Never wind a locked slide, never cut with it unlocked, never wind it with the cutter in the work."
SLIDE_CLEARANCE = (
    "Machine off: wind the slide over the whole length by hand; cutter, clamps and vice must clear all the way, "
    "and its travel must reach."
)

LONG_RUN = 100
"""Positions from which on breaks are advised. Source: judgement."""

_BY_WORK: dict[Work, tuple[str, ...]] = {
    "space": (CLEARANCE, TURNING_CUTTER, NOT_FOR),
    "line": (POWER_OFF, CLEARANCE, LINE_EDGES),
    "hole": (CLEARANCE, TURNING_CUTTER),
    "flat": (CLEARANCE, TURNING_CUTTER),
    "position": (CLEARANCE, TURNING_CUTTER),
}

_BY_KIND: dict[str, str] = {
    "helical": CHANGE_GEARS,
    "bevel": TILTED,
    "holes": DRILL,
    "clock-wheel": FLY_CUTTER,
}
"""What one kind of part adds to the cautions of its work, by its kind as in a job file."""


_ALONG_A_SLIDE = ("rack",)
"""The kinds that nothing turns for: a slide takes the place of the crank and the spindle."""


def part_cautions(part: Part) -> tuple[str, ...]:
    """Return the cautions for the work on a part, the most urgent first, where its kind is not known."""
    kind = "rack" if part.is_straight else "helical" if part.is_geared else ""
    return cautions(part.work, len(part.divisions), kind)


def plan_cautions(plan: Plan, usual: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Return the cautions for the work of a plan on its head, the most urgent first.

    usual  those of its kind of part; those of its work where none are given
    """
    told = usual or part_cautions(plan.part)
    head = plan.head
    by_hand = bool(head.notched_wheels) and not (head.worm or head.stepper or head.slide)
    return tuple(BY_HAND.get(caution, caution) for caution in told) if by_hand else told


def cautions(work: Work, positions: int = 0, kind: str = "") -> tuple[str, ...]:
    """Return the cautions for this kind of work, the most urgent first.

    positions  how many positions the run has; a long run advises breaks
    kind       the kind of part, where it is known
    """
    more: tuple[str, ...] = (_BY_KIND[kind],) if kind in _BY_KIND else ()
    more += (BREAKS,) if positions >= LONG_RUN else ()
    if kind in _ALONG_A_SLIDE:
        return (SLIDE, SLIDE_CLEARANCE, *_BY_WORK[work][1:], *more, LOCAL_RULES)
    first, *rest = _BY_WORK[work]
    if first == POWER_OFF:
        return (first, SPINDLE, *rest, *more, LOCAL_RULES)
    return (FREE_SPINDLE if kind == "helical" else SPINDLE, first, *rest, *more, LOCAL_RULES)
