"""Read the size of a tooth as typed: a module, a diametral pitch, or a pitch; a pressure angle; a hand."""

import re
from fractions import Fraction

from crankwise.errors import BadLength, BadNumber, Fault, FaultsFound
from crankwise.exact.angle import read_angle
from crankwise.exact.length import INCH, read_diameter, read_length
from crankwise.exact.number import PI, as_text, read_number, shown
from crankwise.part.gear import TWENTY_DEGREES, Hand
from crankwise.wording.figures import short


def asked_module(module: str, dp: str, pitch: str = "") -> Fraction:
    """Return the module in mm from the one of the three that was typed. Raises Mendable.

    module  in mm
    dp      diametral pitch, teeth to an inch of pitch diameter
    pitch   from tooth to tooth along the pitch line, a length
    """
    given = {"module": module, "dp": dp, "pitch": pitch}
    told = [name for name, text in given.items() if text.strip()]
    if len(told) != 1:
        what = f"{' and '.join(told)} are given" if told else "none is given"
        raise BadNumber(
            "size",
            f"{what}; the size of a tooth is told by one of them: --module 1, --dp 24 or --pitch 1/8in",
        )
    if module:
        return read_module(module)
    if pitch:
        return read_diameter(pitch, "pitch") / PI
    return INCH / read_pitch(dp)


_A_PITCH = re.compile(r"(?:dp)?\s*([\d./ ]+?)\s*(?:dp)?", re.IGNORECASE)
_A_MODULE = re.compile(r"(?:mod(?:ule)?|m)?\s*([\d./ ]+?)\s*(?:mm)?", re.IGNORECASE)


def read_module(typed: str) -> Fraction:
    """Return the module that was typed, in mm; what it may be is the gear's to say. Raises BadNumber.

    A diametral pitch, or a length in inches, is told how it is to be written.
    """
    plain = typed.strip().removesuffix("mm")
    try:
        return read_number(plain, "module")
    except BadNumber:
        found = _A_PITCH.fullmatch(typed.strip())
        if found and "dp" in typed.lower():
            raise BadNumber(
                "module", f"{shown(typed)} is a diametral pitch; give it as --dp {found[1]}, without a module"
            ) from None
        try:
            length = read_length(plain, "module")
        except BadLength:
            raise BadNumber(
                "module", f"{shown(typed)} is not a number; write it in mm, as 1 or 1.25"
            ) from None
        raise BadNumber(
            "module",
            f"{shown(typed)} is {short(length)} mm; give it so, for a module is told in mm; in inches a tooth is told "
            "by its diametral pitch, as --dp 24",
        ) from None


def read_pitch(typed: str) -> Fraction:
    """Return the diametral pitch that was typed, above 0. Raises BadNumber.

    A module is told how it is to be written.
    """
    try:
        value = read_number(typed, "dp")
    except BadNumber:
        plain = typed.strip().lower()
        if (inner := _A_PITCH.fullmatch(plain)) and "dp" in plain:
            raise BadNumber("dp", f"{shown(typed)}; write the bare number, as {inner[1]}") from None
        if found := _A_MODULE.fullmatch(plain):
            raise BadNumber(
                "dp",
                f"{shown(typed)} is a module; give it as --module {found[1]}, without a diametral pitch",
            ) from None
        raise BadNumber(
            "dp", f"{shown(typed)} is not a number; it is teeth to an inch of diameter, as 24"
        ) from None
    if value <= 0:
        raise BadNumber(
            "dp", f"{as_text(value)}; a diametral pitch is above 0: teeth to an inch of diameter, as 24"
        )
    return value


def asked_pitch(dp: str) -> Fraction | None:
    """Return the diametral pitch that was typed, for the name of the work; None where it was told otherwise."""
    return read_pitch(dp) if dp.strip() else None


def asked_angle(typed: str, what: str, default: Fraction = TWENTY_DEGREES) -> Fraction:
    """Return the angle that was typed, in turns, or the default. Raises BadAngle naming what it is."""
    if not typed.strip():
        return default
    return read_angle(typed, what)


def asked_hand(typed: str, of: str = "a thread") -> Hand:
    """Return the hand of a thread, or of what else `of` names. Raises FaultsFound."""
    word = typed.strip().lower()
    if word == "left":
        return "left"
    if word in ("", "right"):
        return "right"
    raise FaultsFound([Fault("hand", f"{typed.strip()[:40]!r}; {of} is right or left")])
