"""A worm wheel to scale: its middle section as the gashes leave it, and beside it the section of its rim."""

from math import asin, ceil, cos, pi, sin, sqrt

from crankwise.draw.part_drawing import Circle, PartDrawing, Path, Point, cross, tool_over, turned
from crankwise.part.gear import Gear
from crankwise.part.gear_system import GearSystem
from crankwise.part.scale_direction import Sense
from crankwise.part.tooth_form import tooth_form
from crankwise.part.worm_wheel import ADDENDUM, DEDENDUM, WormWheel
from crankwise.wording.card import length_text
from crankwise.wording.gear import drawn_size_text

_HOBBED = GearSystem("worm", "worm gearing", ADDENDUM, DEDENDUM)
_APART = 0.08
"""Room between the two views, as a share of the outside diameter."""
MOST_TEETH_DRAWN = 1000


def worm_wheel_drawing(
    wheel: WormWheel, chord_mm: float, position: int | None = None, advances: Sense = "clockwise"
) -> PartDrawing:
    """Return the wheel with the middle of gash 0 at the top; the teeth that the hob makes of the gashes beside them.

    chord_mm  how far a curve may bulge out of the straight pieces that draw it, in mm, above 0
    position  the gash under the tool; None for no tool
    advances  which way the positions follow one another on the drawing

    A wheel of more than 1,000 teeth is drawn as its circles.
    """
    throat, bottom = float(wheel.throat_diameter_mm) / 2, _gash_bottom(wheel)
    circles = [
        Circle((0.0, 0.0), float(radius), "reference")
        for radius in (wheel.pitch_diameter_mm / 2, wheel.outside_diameter_mm / 2)
    ]
    paths: list[Path] = []
    if wheel.teeth <= MOST_TEETH_DRAWN:
        paths.append(Path(_gashed(wheel, throat, bottom, chord_mm), "body", is_closed=True))
        gear = Gear(wheel.teeth, wheel.module_mm, wheel.pressure_angle, system=_HOBBED)
        paths.append(Path(tooth_form(gear, chord_mm).outline(), "reference", is_closed=True))
    else:
        circles += [Circle((0.0, 0.0), radius, "body") for radius in (throat, bottom)]
    paths += [*cross((0.0, 0.0), min(10.0, bottom / 2)), *_rim_section(wheel, chord_mm)]
    tool, under = tool_over("gash", position, wheel.teeth, bottom, advances)
    name = f"worm wheel of {wheel.teeth} teeth, {drawn_size_text(wheel.module_mm)}"
    notes = [
        (
            f"Left: the middle section, gashed {length_text(wheel.gash_depth_mm)} deep and "
            f"{length_text(wheel.gash_width_mm)} wide square to the thread; the broken line is what the hob makes of "
            "it."
        ),
        (
            "Right: the section of the rim along the axis; broken: how deep the gash goes, and the hob. Hub and bore "
            "are not told: it is drawn solid."
        ),
    ]
    if wheel.teeth > MOST_TEETH_DRAWN:
        notes.append(f"More than {MOST_TEETH_DRAWN:,} gashes are drawn as the circles of throat and bottom.")
    label = f"{name[0].upper()}{name[1:]}, gashed, its middle section and its rim to scale{under}"
    return PartDrawing(name, label, tuple(paths), tuple(circles), tool, tuple(notes))


def _gash_bottom(wheel: WormWheel) -> float:
    return float(wheel.throat_diameter_mm / 2 - wheel.gash_depth_mm)


def _gashed(wheel: WormWheel, throat: float, bottom: float, chord_mm: float) -> tuple[Point, ...]:
    """Return the middle section: straight-sided slots, as wide across as a cutter tilted by the lead angle leaves."""
    half = max(wheel.gash_width_mm, 0.0) / cos(2 * pi * wheel.lead_angle) / 2
    edge, next_edge = asin(half / throat), 2 * pi / wheel.teeth - asin(half / throat)
    height = sqrt(throat * throat - half * half)
    pieces = max(1, ceil((next_edge - edge) / sqrt(8 * chord_mm / throat)))
    land = [edge + (next_edge - edge) * piece / pieces for piece in range(1, pieces)]
    slot = [(-half, height), (-half, bottom), (half, bottom), (half, height)]
    slot += [(throat * sin(angle), throat * cos(angle)) for angle in land]
    return tuple(turned(point, number / wheel.teeth) for number in range(wheel.teeth) for point in slot)


def _rim_section(wheel: WormWheel, chord_mm: float) -> list[Path]:
    """Return the section along the axis, which lies level; the worm's axis stands square to the paper, above."""
    outside, centres = float(wheel.outside_diameter_mm) / 2, float(wheel.centres_mm)
    half_face = wheel.face_mm / 2
    middle = outside * (1 + 2 * _APART) + half_face
    hollow = float(wheel.throat_radius_mm)
    top = _hollow(centres, hollow, outside, half_face, chord_mm)
    outline = [
        (middle - half_face, outside),
        *((middle + x, y) for x, y in top),
        (middle + half_face, outside),
    ]
    outline += [(x, -y) for x, y in reversed(outline)]
    found = [Path(tuple(outline), "body", is_closed=True)]
    for depth in (float(wheel.gash_depth_mm), float(wheel.whole_depth_mm)):
        cut = _hollow(centres, hollow + depth, outside, half_face, chord_mm)
        found += [Path(tuple((middle + x, sign * y) for x, y in cut), "reference") for sign in (1, -1)]
    over = half_face * 0.3
    found.append(Path(((middle - half_face - over, 0.0), (middle + half_face + over, 0.0)), "reference"))
    found.append(Path(((middle, outside + over), (middle, -outside - over)), "reference"))
    return found


def _hollow(centres: float, radius: float, outside: float, half_face: float, chord_mm: float) -> list[Point]:
    """Return an arc round the worm's axis from left to right, as far as it lies in the rim."""
    over = centres - outside
    reach = min(sqrt(max(radius * radius - over * over, 0.0)), half_face, radius)
    end = asin(reach / radius)
    pieces = max(2, ceil(2 * end / sqrt(8 * chord_mm / radius)))
    angles = [end * (2 * piece / pieces - 1) for piece in range(pieces + 1)]
    return [(radius * sin(angle), centres - radius * cos(angle)) for angle in angles]
