"""Settings of a slide in words: turns of its screw, and what the dial then shows."""

from crankwise.plan.leadscrew import SlideSetting
from crankwise.wording.figures import decimal
from crankwise.wording.settings import reading_text


def slide_cells(setting: SlideSetting) -> list[str]:
    """Return a setting as figures: whole turns from the start, the reading, the error in micrometres."""
    return [str(setting.turns), reading_text(setting.reading), error_cell(setting)]


def error_cell(setting: SlideSetting) -> str:
    """Return how far out a setting is, in micrometres; 0 only where it is exact."""
    if setting.error_mm == 0:
        return "0 µm"
    text = decimal(setting.error_mm * 1000, 1)
    return f"{text if text.strip('-0.') else 'under 0.1'} µm"
