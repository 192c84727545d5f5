"""Graduated work to scale: every line as long and as wide as it is cut, every numeral in its real size.

A ring is drawn looking straight at its face, angle 0 at the top. A drum is unrolled: a strip as long as it is
round, with the end that is looked at below, where its reading edge is; or above, where its numerals would stand
on their heads else. A cone is unrolled into the sector that wraps it.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, pi

from crankwise.draw.part_drawing import Circle, PartDrawing, Path, Point, Tool, at, cross, moved, under_tool
from crankwise.draw.part_figures import STROKE_SHARE, figure_strokes
from crankwise.draw.part_reading_arrow import reading_arrow
from crankwise.exact.number import as_text
from crankwise.part.graduated import Graduated, Line
from crankwise.part.scale_direction import ScaleDirection, Sense
from crankwise.part.surface import Surface
from crankwise.wording.graduate import arrow_text

_SECTOR_STEP = 0.5 / 360
"""Pieces of a cone's rim, in turns: half a degree bulges by 0.001 of a per cent of the radius."""
STRIP_MM = 2.0
"""Room on a drum's strip past what stands on it, where its face is not told."""


def graduated_drawing(
    work: Graduated,
    advances: Sense,
    position: int | None = None,
    direction: ScaleDirection | None = None,
) -> PartDrawing:
    """Return the work.

    advances  which way the positions follow one another, looking straight at the face; at a drum, at its end
    position  the line that is under the tool; None for no tool
    direction what goes which way as the reading grows, shown by an arrow; None for no arrow
    """
    lines = work.lines()
    layout = _Layout(work, 1 if advances == "clockwise" else -1, _cut(work, lines))
    paths, circles = _blank(layout)
    for line in lines:
        spot = layout.spot(float(line.angle))
        paths.append(_line(line, spot))
        paths += _numeral(work, line, spot)
    if direction:
        amid = layout.up * layout.sense * work.surface.circle_mm() / 2
        paths += reading_arrow(work, direction, layout.up, amid)
    tool, told = None, ""
    under = next((line for line in lines if line.position == position), None)
    if under:
        spot = layout.spot(float(under.angle))
        tool = Tool(spot.edge, (-spot.along[0], -spot.along[1]))
        told = under_tool("line", position)
    kind = {"ring": "ring", "drum": "drum, unrolled", "cone": "cone, unrolled"}[work.surface.kind]
    across = f"{as_text(round(work.surface.diameter_mm, 3))} mm"
    name = f"{kind}, {work.scale.name}, {across} across"
    label = f"{kind[0].upper()}{kind[1:]}: {work.scale.name}, {across} across; positions run {advances}{told}"
    return PartDrawing(name, label, tuple(paths), tuple(circles), tool, tuple(_notes(work, direction)))


@dataclass(frozen=True, slots=True)
class _Spot:
    """Where a line begins on the reading edge, and the direction that it runs in, a length of 1."""

    edge: Point
    along: Point

    def out(self, along_mm: float) -> Point:
        return self.edge[0] + self.along[0] * along_mm, self.edge[1] + self.along[1] * along_mm


@dataclass(frozen=True, slots=True)
class _Layout:
    """How the surface lies on the drawing; sense is 1 where angles grow clockwise, looking at the face.

    cut  where a strip or a sector begins and ends, in turns
    """

    work: Graduated
    sense: int
    cut: float

    @property
    def is_strip(self) -> bool:
        return not self.work.surface.slant

    @property
    def up(self) -> int:
        """1 where a strip's end that is looked at lies below, -1 where it is turned round to read its numerals."""
        return -1 if self.is_strip and _stands_on_its_head(self.work) else 1

    def spot(self, turns: float) -> _Spot:
        surface = self.work.surface
        if self.is_strip:
            # Seen from its end below, what runs clockwise round the end runs to the right on the strip.
            along = self.sense * ((turns - self.cut) % 1) * surface.circle_mm()
            return _Spot((self.up * along, 0.0), (0.0, float(self.up)))
        radius = float(surface.diameter_mm) / 2 / surface.slant
        sign = -1 if surface.lines_run == "in" else 1
        place = self.place(turns)
        x, y = at(place, 1.0)
        return _Spot(at(place, radius), (sign * x, sign * y))

    def place(self, turns: float) -> float:
        """Where an angle of the work lies on a ring or a sector, in turns clockwise from the top."""
        slant = self.work.surface.slant
        return self.sense * turns if slant == 1 else self.across((turns - self.cut) % 1)

    def across(self, share: float) -> float:
        """Where a share of a sector lies, in turns clockwise from the top, which is its middle."""
        return self.sense * (share - 0.5) * self.work.surface.slant


def _cut(work: Graduated, lines: Sequence[Line]) -> float:
    """Return where to cut what is unrolled: amid two lines, clear of numerals, as near before angle 0 as it can.

    Of a flat ring, which is not cut, 0.
    """
    if work.surface.slant == 1:
        return 0.0
    angles = sorted({float(line.angle) % 1 for line in lines})
    numbered = _numbered(work, lines)
    places = [place for place, _ in numbered]
    widest = max((half for _, half in numbered), default=0.0)
    best, room = 0.0, -1.0
    for before, after in pairwise([*angles, angles[0] + 1]):
        middle = (before + after) / 2
        free = min((after - before) / 2, 1.0)
        # Only numerals so near that the widest of them could reach in.
        for near in range(bisect_left(places, middle - free - widest), len(numbered)):
            place, half = numbered[near]
            if place - widest > middle + free:
                break
            free = min(free, abs(place - middle) - half)
        if round(free, 9) >= room:
            best, room = middle, round(free, 9)
    return best


def _numbered(work: Graduated, lines: Sequence[Line]) -> list[tuple[float, float]]:
    """Return where each numeral stands and half its width, in turns, in order; each once more a turn either way."""
    if work.numerals is None:
        return []
    lettering, found = work.numerals.lettering, []
    circle = min(work.surface.circle_mm(), work.surface.circle_mm(work.middle_mm))
    for line in lines:
        if line.numeral:
            half = float(lettering.text_width(line.numeral)) / 2 / circle
            found += [(float(line.angle) % 1 + turn, half) for turn in (-1, 0, 1)]
    return sorted(found)


def _line(line: Line, spot: _Spot) -> Path:
    ends = spot.edge, spot.out(float(line.line_class.length_mm))
    return Path(ends, "cut", width_mm=float(line.line_class.width_mm), position=line.position)


def _numeral(work: Graduated, line: Line, spot: _Spot) -> Iterator[Path]:
    numerals = work.numerals
    if numerals is None or not line.numeral:
        return
    x, y = spot.along
    if numerals.stand == "level":
        lean = 0.0
    elif numerals.stand == "radial":
        lean = atan2(-y, x)  # it reads away from the reading edge, so its head is a quarter to the left
        if numerals.feet_out:
            lean += pi
    else:
        head = -1 if _stands_on_its_head(work) else 1
        lean = atan2(head * x, head * y)
    middle = spot.out(work.middle_mm)
    width = float(numerals.lettering.height_mm) * STROKE_SHARE
    for stroke in figure_strokes(line.numeral, numerals.lettering):
        yield Path(moved(stroke, middle, lean), "numeral", width_mm=width, position=line.position)


def _stands_on_its_head(work: Graduated) -> bool:
    """Whether the heads of upright numerals point against the way that the lines run from the reading edge."""
    numerals = work.numerals
    return numerals is not None and numerals.stand == "upright" and numerals.feet_out != numerals.behind


def _blank(layout: _Layout) -> tuple[list[Path], list[Circle]]:
    surface = layout.work.surface
    if layout.is_strip:
        return _strip(layout), []
    radius = float(surface.diameter_mm) / 2 / surface.slant
    sign = -1 if surface.lines_run == "in" else 1
    far = None if surface.face_mm is None else radius + sign * float(surface.face_mm)
    radii = [radius] if far is None or far <= 0 else [radius, far]
    if surface.slant == 1:
        return [*cross((0.0, 0.0), min(10.0, radius / 4))], [
            Circle((0.0, 0.0), each, "body") for each in radii
        ]
    return _sector(layout, radii), []


def _strip(layout: _Layout) -> list[Path]:
    work, surface = layout.work, layout.work.surface
    length = layout.sense * surface.circle_mm()
    half = work.numeral_along_mm / 2
    deepest = max(float(work.classes.longest.length_mm), work.middle_mm + half) + STRIP_MM
    far = deepest if surface.face_mm is None else float(surface.face_mm)
    near = min(0.0, work.middle_mm - half - STRIP_MM if work.numerals else 0.0)
    length, near, far = (layout.up * size for size in (length, near, far))
    corners = ((0.0, near), (length, near), (length, far), (0.0, far))
    # The strip is cut and joined on these two.
    ends = [Path(((x, near), (x, near - layout.up * 3.0)), "reference") for x in (0.0, length)]
    return [Path(corners, "body", is_closed=True), *ends]


def _sector(layout: _Layout, radii: list[float]) -> list[Path]:
    """The outline that wraps a cone: its two rims and the cut that is joined."""
    pieces = max(8, round(layout.work.surface.slant / _SECTOR_STEP))
    outer, inner = max(radii), min(radii)
    if len(radii) == 1:
        inner = max(
            0.0, outer - 2 * float(layout.work.classes.longest.length_mm) - layout.work.numeral_along_mm
        )
    rim = [layout.across(piece / pieces) for piece in range(pieces + 1)]
    points = [at(place, outer) for place in rim] + [at(place, inner) for place in reversed(rim)]
    edge = [at(place, radii[0]) for place in rim]
    return [Path(tuple(points), "body", is_closed=True), Path(tuple(edge), "reference")]


def _notes(work: Graduated, direction: ScaleDirection | None) -> Iterator[str]:
    surface: Surface = work.surface
    if direction:
        yield arrow_text(direction)
    if surface.kind == "drum":
        yield (
            f"Unrolled at the surface: {surface.circle_mm():.3f} mm round; paper 0.1 mm thick that is glued round it "
            f"comes {0.1 * pi:.2f} mm short. The end that is looked at is "
            f"{'above' if _stands_on_its_head(work) else 'below'}."
        )
    elif surface.kind == "cone":
        yield "Unrolled: cut along the outline and wrap it round the cone, the two straight sides together."
