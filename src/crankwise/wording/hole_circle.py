"""Circles of holes in words, and the table of their coordinates."""

from collections.abc import Sequence

from crankwise.part.hole_circle import HoleCircle, HolePattern
from crankwise.part.polar import Point
from crankwise.plan.leadscrew import SlideSetting
from crankwise.wording.angle import decimal_degrees
from crankwise.wording.card import length_text
from crankwise.wording.division import Table
from crankwise.wording.leadscrew import place_cells, place_headings, slide_cells

THIN_WEB_SHARE = 0.25
"""Metal between two holes, by their diameter, from which on a drill breaks through. Typical, judgement."""


def circle_name(circle: HoleCircle, inch_first: bool = False) -> str:
    """Return 7 holes of 6.000 mm (0.2362 in) on a circle of 60.000 mm (2.3622 in)."""
    count = len(circle.divisions)
    size = f" of {length_text(circle.hole_mm, inch_first)}" if circle.hole_mm is not None else ""
    part = "" if circle.is_full_circle or count < 2 else ", part of the circle or unequal"
    holes = "1 hole" if count == 1 else f"{count} holes"
    return f"{holes}{size} on a circle of {length_text(circle.circle_mm, inch_first)}{part}"


MOST_NAMED = 2
"""Circles named one by one; more of them in one blank are a hole plate."""


def pattern_name(pattern: HolePattern, inch_first: bool = False) -> str:
    """Return what a blank with its circles is."""
    if len(pattern.circles) > MOST_NAMED:
        counts = ", ".join(str(len(circle.divisions)) for circle in pattern.circles)
        largest = max(circle.circle_mm for circle in pattern.circles)
        return f"hole plate with circles of {counts} holes, the largest {length_text(largest, inch_first)}"
    names = [circle_name(circle, inch_first) for circle in pattern.circles]
    return names[0] if len(names) == 1 else f"{len(names)} circles in one blank: {'; '.join(names)}"


def web_warnings(pattern: HolePattern) -> list[tuple[str, str]]:
    """Return what to beware of where little metal is left between two holes."""
    return [
        ("thin-web", _thin_web(circle, circle.web_mm))
        for circle in pattern.circles
        if circle.web_mm is not None and circle.web_mm < THIN_WEB_SHARE * float(circle.hole_mm or 0)
    ]


def _thin_web(circle: HoleCircle, web_mm: float) -> str:
    return (
        f"only {length_text(web_mm)} of metal are left between two holes on the circle of "
        f"{length_text(circle.circle_mm)}: drill every other hole first, or the drill wanders into its neighbour"
    )


def coordinate_table(
    circle: HoleCircle,
    points_mm: Sequence[Point],
    settings: Sequence[tuple[SlideSetting, SlideSetting]] = (),
    inch_first: bool = False,
) -> Table:
    """Return headings and a row a hole: its angle, x and y in both units, and the dials' settings where asked.

    points_mm  of each hole, from the datum
    settings   of both slides for each hole; empty where no leadscrew was told
    inch_first whether the inches stand before the millimetres, and errors are told in thou
    """
    headings = ["position", "angle", *place_headings("x", "y", inch_first=inch_first)]
    if settings:
        headings += ["x turns", "x dial", "x error", "y turns", "y dial", "y error"]
    rows = []
    for index, ((number, target), (x, y)) in enumerate(
        zip(circle.divisions.targets(), points_mm, strict=True)
    ):
        row = [str(number), decimal_degrees(circle.angle_of(target))]
        row += place_cells(x, y, inch_first=inch_first)
        for setting in settings[index] if settings else ():
            row += slide_cells(setting, inch_first)
        rows.append(row)
    return headings, rows
