"""A straight bevel gear to scale: its face seen from the small end, and beside it the section along its axis."""

from collections.abc import Iterator
from math import cos, pi, sin

from crankwise.draw.part_drawing import Circle, PartDrawing, Path, Point, at, cross, tool_over
from crankwise.part.bevel import BevelGear
from crankwise.part.bevel_form import bevel_outline, half_space
from crankwise.part.scale_direction import Sense
from crankwise.wording.card import length_text
from crankwise.wording.gear import drawn_size_text

_APART = 0.12
"""Room between the two views, as a share of the outside diameter."""
MOST_TEETH_DRAWN = 2000
"""Of a finer gear the teeth are a grey band on any picture and too many for any file."""
MOST_TOPS_DRAWN = 150
"""Of a finer gear the edges of the tops would be a grey band."""


def bevel_drawing(
    gear: BevelGear, chord_mm: float, position: int | None = None, advances: Sense = "clockwise"
) -> PartDrawing:
    """Return the gear with the middle of space 0 at the top, its apex towards the one who looks.

    chord_mm  how far a curve may bulge out of the straight pieces that draw it, in mm, above 0
    position  the space under the tool; None for no tool
    advances  which way the positions follow one another on the drawing

    In the section the axis lies level and the apex to the left; it goes through the middle of a tooth.
    """
    share = gear.small_to_large
    half = half_space(gear, chord_mm)
    root = half[0][0]
    section = _Section(gear, float(gear.outside_diameter_mm) * (0.5 + _APART))
    circles = [Circle((0.0, 0.0), float(gear.pitch_diameter_mm) / 2, "reference")]
    paths: list[Path] = []
    if gear.teeth <= MOST_TEETH_DRAWN:
        large = bevel_outline(gear, chord_mm)
        small = tuple((x * share, y * share) for x, y in large)
        paths += [Path(large, "body", is_closed=True), Path(small, "reference", is_closed=True)]
    else:
        circles += [
            Circle((0.0, 0.0), half[-1][0], "body"),
            Circle((0.0, 0.0), half[-1][0] * share, "reference"),
        ]
    paths += [
        *(_tops(gear, half) if gear.teeth <= MOST_TOPS_DRAWN else ()),
        *cross((0.0, 0.0), min(10.0, root * share / 2)),
        *section.paths(),
    ]
    tool, under = tool_over("space", position, gear.teeth, root, advances)
    name = f"bevel gear of {gear.teeth} teeth, {drawn_size_text(gear.module_mm)}"
    depth = float(gear.whole_depth_mm)
    notes = (
        "Left: seen from the small end; right: the section along the axis, apex to the left.",
        (
            f"A space is {length_text(depth)} deep at the large end and {length_text(depth * share)} at the small end, "
            "square to the pitch cone."
        ),
        (
            "Form cutters come near this form; the rounding of the roots is the cutter's. Hub and bore are not told: "
            "the section is drawn solid, with a rim as thick as a space is deep."
        ),
    )
    return PartDrawing(
        name,
        f"{name[0].upper()}{name[1:]}, its face and its section to scale{under}",
        tuple(paths),
        tuple(circles),
        tool,
        notes,
    )


def _tops(gear: BevelGear, half: list[Point]) -> Iterator[Path]:
    """Yield the edges of every tooth's top, from the large end to the small one."""
    tip = half[-1][0]
    corner = next(angle for radius, angle in half if radius > tip * (1 - 1e-12))
    for number in range(gear.teeth):
        for angle in (corner, -corner):
            ends = at(number / gear.teeth + angle / (2 * pi), tip)
            yield Path((ends, (ends[0] * gear.small_to_large, ends[1] * gear.small_to_large)), "reference")


class _Section:
    """The section along the axis, its apex at x = apex_mm and y = 0."""

    def __init__(self, gear: BevelGear, apex_mm: float) -> None:
        self.apex_mm = apex_mm
        angle, cone = gear.pitch_angle, gear.cone_distance_mm
        self.pitch = cone * cos(angle), cone * sin(angle)
        # Square to the pitch cone, outward.
        self.out = -sin(angle), cos(angle)
        self.share = gear.small_to_large
        self.addendum, self.dedendum = float(gear.addendum_mm), float(gear.dedendum_mm)
        small_root = self.share * (self.pitch[1] - self.dedendum * self.out[1])
        self.rim = min(float(gear.whole_depth_mm), 0.4 * small_root / max(self.out[1], 1e-9))

    def at(self, out_mm: float, is_small: bool = False, rim_mm: float = 0.0) -> Point:
        """Return a point of the large or the small end, so far outside the pitch cone as at the large end."""
        share = self.share if is_small else 1.0
        out = out_mm * share - rim_mm
        return (
            self.apex_mm + self.pitch[0] * share + out * self.out[0],
            self.pitch[1] * share + out * self.out[1],
        )

    def paths(self) -> list[Path]:
        back, front = (
            self.at(-self.dedendum, is_small, self.rim * (self.share if is_small else 1.0))
            for is_small in (False, True)
        )
        upper = [
            (front[0], 0.0),
            front,
            self.at(self.addendum, is_small=True),
            self.at(self.addendum),
            back,
            (back[0], 0.0),
        ]
        outline = [*upper[1:-1], *(_mirrored(point) for point in reversed(upper[1:-1]))]
        apex = self.apex_mm, 0.0
        found = [Path(tuple(outline), "body", is_closed=True)]
        for sign in (1, -1):
            for out in (self.addendum, 0.0, -self.dedendum):
                x, y = self.at(out)
                found.append(Path((apex, (x, sign * y)), "reference"))
        overhang = (back[0] - self.apex_mm) * 0.06
        found.append(Path(((self.apex_mm - overhang, 0.0), (back[0] + overhang, 0.0)), "reference"))
        return found


def _mirrored(point: Point) -> Point:
    return point[0], -point[1]
