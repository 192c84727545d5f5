"""A setting in words that cannot be misread: turns, the reading, and the numerals it lies between."""

from fractions import Fraction

from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.ways.way import Setting
from crankwise.wording.figures import decimal


def whole_turns(turns: int) -> str:
    """Return 1 turn, 31 turns."""
    return f"{turns} turn{'' if turns == 1 else 's'}"


def reading_text(reading: Fraction) -> str:
    """Return a reading: exact where it is a short decimal or a fraction of a mark: 56.5, 56 1/3.

    A reading is one that can be set, so it is always short; a ring's in its own units may not be
    and is given to two decimals.
    """
    text = as_text(reading)
    if "/" not in text and len(text.partition(".")[2]) <= 3:
        return text
    whole, part = divmod(reading, 1)
    return f"{whole} {part}" if part.denominator <= 12 else decimal(reading, 2)


def between_numerals(head: Head, reading: Fraction) -> str:
    """Return where a dial reading lies: between 50 and 60: 6.5 past 50; at 50 exactly.

    The gross errors of dial reading are one numbered interval too many and reading backwards, so the
    two numerals are named in the order in which they are passed.
    """
    numerals = head.dial.between(reading) if head.dial else None
    if numerals is None:
        return ""
    lower, upper = numerals
    if reading == lower:
        return f"on the numeral {lower}"
    return f"between {lower} and {upper}: {reading_text(reading - lower)} past {lower}"


def setting_text(head: Head, setting: Setting) -> str:
    """Return a setting counted from the start, in one phrase: 31 turns and 56.5."""
    pieces = []
    if setting.turns is not None:
        pieces.append(whole_turns(setting.turns))
    if setting.reading is not None:
        pieces.append(reading_text(setting.reading))
    if setting.holes is not None:
        pieces.append(
            " and ".join(f"{holes} hole{'' if abs(holes) == 1 else 's'}" for holes in setting.holes)
        )
    if setting.notches is not None:
        pieces.append(f"{setting.notches} notch{'' if setting.notches == 1 else 'es'}")
    return " and ".join(pieces)
