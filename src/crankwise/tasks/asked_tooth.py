"""Read the size of a tooth as typed: a module, a diametral pitch, or a pitch; a pressure angle; a hand."""

from fractions import Fraction

from crankwise.errors import BadNumber, Fault, FaultsFound
from crankwise.exact.angle import read_angle
from crankwise.exact.length import INCH, read_diameter
from crankwise.exact.number import PI, as_text, read_number
from crankwise.part.gear import TWENTY_DEGREES, Hand


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
        return read_number(module.strip().removesuffix("mm"), "module")
    if pitch:
        return read_diameter(pitch, "pitch") / PI
    value = read_number(dp, "dp")
    if value <= 0:
        raise BadNumber(
            "dp", f"{as_text(value)}; a diametral pitch is above 0: teeth to an inch of diameter, as 24"
        )
    return INCH / value


def asked_pitch(dp: str) -> Fraction | None:
    """Return the diametral pitch that was typed, for the name of the work; None where it was told otherwise."""
    return read_number(dp, "dp") if dp.strip() else None


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
