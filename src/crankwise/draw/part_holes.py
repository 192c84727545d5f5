"""Holes on circles, to scale, seen from the side that is drilled: X to the right, Y away from you, as on the mill."""

from crankwise.draw.part_drawing import Circle, PartDrawing, Path, Tool, cross, under_tool
from crankwise.part.hole_circle import HoleCircle, HolePattern
from crankwise.wording.card import length_text
from crankwise.wording.hole_circle import MOST_NAMED, pattern_name

_CENTRE_MM = 3.0


def holes_drawing(pattern: HolePattern, run: int = 1, position: int | None = None) -> PartDrawing:
    """Return the pattern, the circle in hand marked where there are several.

    run       the circle that is drilled, from 1
    position  the hole of that circle under the tool; None for no tool

    Holes whose size was not told are drawn as centre crosses alone.
    """
    circles: list[Circle] = []
    paths: list[Path] = list(cross((0.0, 0.0), 10.0))
    if pattern.blank_mm is not None:
        circles.append(Circle((0.0, 0.0), float(pattern.blank_mm) / 2, "body"))
    are_several = len(pattern.circles) > 1
    for place, circle in enumerate(pattern.circles, 1):
        in_hand = are_several and place == run
        circles.append(Circle((0.0, 0.0), float(circle.circle_mm) / 2, "reference", None, is_in_hand=in_hand))
        for (number, _), middle in zip(circle.divisions.targets(), circle.coordinates_mm(), strict=True):
            if circle.hole_mm is not None:
                circles.append(Circle(middle, float(circle.hole_mm) / 2, "cut", number, is_in_hand=in_hand))
            paths += cross(middle, min(_CENTRE_MM, float(circle.hole_mm or _CENTRE_MM) / 2))
    told = " and ".join(
        f"{len(circle.divisions)} holes on {length_text(circle.circle_mm)}" for circle in pattern.circles
    )
    of_these = f"; circle {run} is in hand" if are_several else ""
    under = under_tool("hole", position)
    return PartDrawing(
        pattern_name(pattern) if len(pattern.circles) > MOST_NAMED else told,
        f"{told}, to scale{of_these}{under}",
        tuple(paths),
        tuple(circles),
        _tool(pattern.circles[run - 1], position),
    )


def _tool(drilled: HoleCircle, position: int | None) -> Tool | None:
    places = dict(
        zip((number for number, _ in drilled.divisions.targets()), drilled.coordinates_mm(), strict=True)
    )
    if position not in places:
        return None
    (x, y), radius = places[position], float(drilled.circle_mm) / 2
    return Tool((x, y), (x / radius, y / radius))
