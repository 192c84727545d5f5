"""Settings of a slide in words: turns of its screw, and what the dial then shows."""

from fractions import Fraction

from crankwise.exact.length import INCH
from crankwise.plan.leadscrew import SlideSetting
from crankwise.wording.figures import decimal
from crankwise.wording.settings import reading_text


def slide_cells(setting: SlideSetting, inch_first: bool = False) -> list[str]:
    """Return a setting as figures: whole turns from the start, the reading, the error as `error_cell` has it."""
    return [str(setting.turns), reading_text(setting.reading), error_cell(setting, inch_first)]


def error_cell(setting: SlideSetting, inch_first: bool = False) -> str:
    """Return how far out a setting is, in micrometres, or in thou for those who work in inches; 0 only where exact."""
    unit, least, places = ("thou", "0.01", 2) if inch_first else ("µm", "0.1", 1)
    if setting.error_mm == 0:
        return f"0 {unit}"
    error = setting.error_mm * 1000 / (INCH if inch_first else 1)
    text = decimal(error, places)
    return f"{text if text.strip('-0.') else f'under {least}'} {unit}"


def place_headings(*axes: str, inch_first: bool = False) -> list[str]:
    """Return the headings of `place_cells`: x, mm and y, mm, then both in inches, or the inches first."""
    told = [f"{axis}, " if axis else "" for axis in axes]
    units = ("in", "mm") if inch_first else ("mm", "in")
    return [f"{axis}{unit}" for unit in units for axis in told]


def place_cells(*lengths_mm: Fraction | float, inch_first: bool = False) -> list[str]:
    """Return lengths as figures, all of them in one unit and then in the other."""
    metric = [decimal(Fraction(length), 3) for length in lengths_mm]
    inch = [decimal(Fraction(length) / INCH, 4) for length in lengths_mm]
    return inch + metric if inch_first else metric + inch
