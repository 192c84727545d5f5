"""The traps of a number of parts, each in a sentence or two that can be acted on."""

from crankwise.exact.number import as_text
from crankwise.ways.missing import MOST_HOLES
from crankwise.ways.traps import (
    MissingFactor,
    NearMiss,
    PlainSetting,
    RowNeedsGears,
    SetByEye,
    Trap,
    WormStarts,
)
from crankwise.wording.angle import short_angle
from crankwise.wording.figures import short


def trap_text(trap: Trap) -> str:
    """Return a trap in the trade's words."""
    match trap:
        case RowNeedsGears():
            return _row_needs_gears(trap)
        case NearMiss():
            return _near_miss(trap)
        case MissingFactor():
            return _missing_factor(trap)
        case WormStarts():
            return _worm_starts(trap)
        case SetByEye():
            return _set_by_eye(trap)


def _row_needs_gears(trap: RowNeedsGears) -> str:
    cuts = "; ".join(f"{number} by {_any_of(settings)}" for number, settings in trap.cuts)
    return (
        f"A chart's row for {trap.divisions} that names change gears must not be used without them. "
        f"Used plain, such settings cut other numbers: {cuts}."
    )


def _near_miss(trap: NearMiss) -> str:
    cuts = ", ".join(f"{_in_words(setting)} cut {number}" for number, setting in trap.cuts)
    return (
        f"One hole miscounted makes another whole number: {cuts}, not {trap.divisions}. "
        "Count the spaces; the hole that the pin stands in is nought."
    )


def _missing_factor(trap: MissingFactor) -> str:
    count = trap.divisions
    factors = " x ".join(map(str, trap.factors))
    prime = "a prime" if len(trap.factors) == 1 else f"{factors}, no prime"
    turns = f"{as_text(trap.turns)} {'of a turn' if trap.turns < 1 else 'turns'}"
    needs = (
        f"{count} is {prime}. One part is {turns} of the crank, "
        f"so a circle must have {trap.circle} holes or a multiple of it"
    )
    if trap.missing:
        lacks = "no circle here has the factor " + " or ".join(map(str, trap.missing))
    else:
        lacks = "each of its factors is on some circle here, but no circle has them all"
    too_many = f"; {trap.circle} holes are more than a plate takes" if trap.circle > MOST_HOLES else ""
    return f"{needs}; {lacks}{too_many}."


def _worm_starts(trap: WormStarts) -> str:
    ratio, other = as_text(trap.ratio), as_text(trap.other_ratio)
    cuts = short(trap.cuts, 2)
    turn = f"Turn the crank {ratio} times and see that the spindle comes round once."
    if trap.starts > 1:
        return (
            f"This worm has {trap.starts} starts: the ratio is {ratio}:1, not {other}:1. A setting "
            f"for {trap.divisions} from a chart for {other}:1 cuts {cuts} here. {turn}"
        )
    return (
        f"{ratio}:1 is what a two-start worm makes of {other}:1. If this worm has one start after all, "
        f"the settings here cut {cuts}. {turn}"
    )


def _set_by_eye(trap: SetByEye) -> str:
    ring, out = short_angle(trap.ring_read_to), short_angle(trap.ring_read_to / 2)
    told = (
        f"The ring's graduations meet every position, and the ring is set by eye: read to {ring}, it can leave each "
        f"of them up to {out} out. "
    )
    if trap.dial_read_to is None:
        return (
            f"{told}A pin in a hole leaves that to no eye: for close work choose a way on a circle of holes."
        )
    return f"{told}The dial is read to {short_angle(trap.dial_read_to)}: for close work choose a way that sets by it."


def _any_of(settings: tuple[PlainSetting, ...]) -> str:
    *others, last = map(_fraction, settings)
    return f"{', '.join(others)} or {last}" if others else last


def _fraction(setting: PlainSetting) -> str:
    turns = f"{setting.turns} + " if setting.turns and setting.holes else ""
    if not setting.holes:
        return f"{setting.turns} turn{'' if setting.turns == 1 else 's'}"
    return f"{turns}{setting.holes}/{setting.circle}"


def _in_words(setting: PlainSetting) -> str:
    turns = f"{setting.turns} turn{'' if setting.turns == 1 else 's'}" if setting.turns else ""
    holes = (
        f"{setting.holes} hole{'' if setting.holes == 1 else 's'} on the {setting.circle}"
        if setting.holes
        else ""
    )
    return " and ".join(filter(None, (turns, holes)))
