"""A setting in words that cannot be misread: turns, the reading, and the numerals it lies between."""

from fractions import Fraction

from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.head.ring import Ring
from crankwise.ways.way import Setting
from crankwise.wording.figures import decimal

FINEST_PART = 60
"""The smallest part of a mark that is told as a fraction: 1/60, the finest vernier in use."""

RING_DECIMALS = 2
"""Decimals of a ring check: the ring is compared by eye."""


def whole_turns(turns: int) -> str:
    """Return 1 turn, 31 turns."""
    return f"{turns} turn{'' if turns == 1 else 's'}"


def reading_text(reading: Fraction) -> str:
    """Return a reading: exact where it is a short decimal or a fraction of a mark: 56.5, 56 1/3.

    A reading is one that can be set, so it is a short decimal or a small part of a mark; a ring's in
    its own units may be neither and is given to two decimals.
    """
    text = as_text(reading)
    if "/" not in text and len(text.partition(".")[2]) <= 3:
        return text
    whole, part = divmod(reading, 1)
    if part.denominator > FINEST_PART:
        return decimal(reading, 2)
    return f"{whole} {part}" if whole else str(part)


def ring_reading_text(ring: Ring, reading: Fraction) -> str:
    """Return what the ring must show, to two decimals; 0.00 where rounding would come to the full circle."""
    text = decimal(reading, RING_DECIMALS)
    return decimal(Fraction(text) % ring.full_circle, RING_DECIMALS)


def between_numerals(head: Head, reading: Fraction) -> str:
    """Return where a dial reading lies: between 50 and 60: 6.5 past 50; on the numeral 50.

    reading  in marks of the dial, never a ring's; empty on a head without a dial or without numerals

    The gross errors of dial reading are one numbered interval too many and reading backwards, so the
    two numerals are named in the order in which they are passed.
    """
    dial = head.dial
    if dial is None or not dial.numbered_every:
        return ""
    assert 0 <= reading < dial.marks, f"{reading} is no reading of a dial of {dial.marks} marks"
    numerals = dial.between(reading)
    assert numerals is not None
    lower, upper = numerals
    if reading == lower:
        return f"on the numeral {lower}"
    if lower == upper:
        return f"{reading_text(reading)} past {lower}, the only numeral"
    return f"between {lower} and {upper}: {reading_text(reading - lower)} past {lower}"


def setting_text(head: Head, setting: Setting) -> str:
    """Return a setting counted from the start, in one phrase: 31 turns and 56.5 marks; 12.5° on the ring.

    A hole and a reading together are the dial with a plate: the dial is set to zero at the hole.
    """
    pieces = []
    if setting.notches is not None:
        pieces.append(notches_text(setting))
    if setting.turns is not None:
        pieces.append(whole_turns(setting.turns))
    if setting.holes is not None:
        circle = f" of the {setting.circle} circle" if setting.circle else ""
        pieces.append(" and ".join(_counted(holes, "hole", "holes") for holes in setting.holes) + circle)
    if setting.reading is not None:
        on = " on by the dial" if setting.holes is not None else ""
        on_crank = setting.turns is not None or setting.holes is not None
        pieces.append((_marks(setting.reading) if on_crank else _on_ring(head, setting.reading)) + on)
    if setting.steps is not None:
        pieces.append(_counted(setting.steps, "step", "steps"))
    return " and ".join(pieces)


def _marks(reading: Fraction) -> str:
    return f"{reading_text(reading)} mark{'' if reading == 1 else 's'}"


def _on_ring(head: Head, reading: Fraction) -> str:
    sign = "°" if head.ring and head.ring.full_circle == 360 else ""
    return f"{reading_text(reading)}{sign} on the ring"


def notches_text(setting: Setting) -> str:
    """Return the notches of a setting: 5 notches; of two wheels: 20 notches and 19 against."""
    text = _counted(setting.notches or 0, "notch", "notches")
    second = setting.second_notches
    if second is None:
        return text
    way = "" if not second else " against" if second < 0 else " with"
    return f"{text} and {abs(second)}{way} on the second wheel"


def notches_cell(setting: Setting) -> str:
    """Return the notches as figures: 5, or 20 - 19 on two wheels."""
    if setting.second_notches is None:
        return str(setting.notches)
    sign = "-" if setting.second_notches < 0 else "+"
    return f"{setting.notches} {sign} {abs(setting.second_notches)}"


def holes_cell(setting: Setting) -> str:
    """Return the holes as figures: 13, 7 + 11 on two circles, 13 of 19 where the circle changes."""
    text = " + ".join(map(str, setting.holes or ()))
    return f"{text} of {setting.circle}" if setting.circle else text


def _counted(count: int, one: str, many: str) -> str:
    return f"{count} {one if abs(count) == 1 else many}"
