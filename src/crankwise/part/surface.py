"""What a scale is engraved on: a flat ring, a drum, or a cone, with its lines laid out in the flat.

A cone is unrolled: seen square to its slant it is a sector of a flat ring, in which a full turn covers only
2 pi x sin(cone angle). A ring is that with 90 degrees, a drum with 0. So one layout serves all three, and
whatever touches in it touches on the work. Floats, good to a micrometre over any size that is turned.
Source: derived; the development of a cone.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import cos, hypot, pi, sin
from typing import Literal, get_args

from crankwise.errors import BadDivisions, BadLength
from crankwise.exact.number import as_text

SurfaceKind = Literal["ring", "drum", "cone"]
SURFACE_KINDS: tuple[SurfaceKind, ...] = get_args(SurfaceKind)
Run = Literal["in", "out"]
RIM_LEFT_MM = Fraction(1, 2)
"""What stays free between a numeral and the end of the face. Common practice, typical."""


@dataclass(frozen=True, slots=True)
class Surface:
    """What is graduated.

    kind         ring (a flat face), drum (a collar or any cylinder) or cone (a bevelled dial)
    diameter_mm  of the reading edge, where the lines begin and are read
    lines_run    in: from the reading edge towards the axis (on a cone towards its small end), out: away from it
    face_mm      room from the reading edge the way the lines run, along the slant of a cone; None: not limited
    has_shoulder whether the face ends at a wall that the shank of a stamp can hit
    cone_angle   of a cone: between its slant and its axis, in turns, above 0 and below a quarter

    Raises BadLength or BadDivisions.
    """

    kind: SurfaceKind
    diameter_mm: Fraction
    lines_run: Run = "in"
    face_mm: Fraction | None = None
    has_shoulder: bool = False
    cone_angle: Fraction = Fraction(1, 8)

    def __post_init__(self) -> None:
        if self.kind not in SURFACE_KINDS:
            raise BadDivisions("surface", f"{self.kind!r} is not known; there are {', '.join(SURFACE_KINDS)}")
        if self.diameter_mm <= 0:
            raise BadLength("across", f"{as_text(self.diameter_mm)} mm; a diameter is above 0")
        if self.kind == "cone" and not 0 < self.cone_angle < Fraction(1, 4):
            raise BadDivisions(
                "cone angle",
                f"{as_text(self.cone_angle * 360)} degrees between slant and axis; it is above 0 (a drum) "
                "and below 90 (a ring), usually 30 to 60",
            )
        if self.face_mm is not None and self.face_mm <= 0:
            raise BadLength("face", f"{as_text(self.face_mm)} mm; the room for lines and numerals is above 0")
        if self.has_shoulder and self.face_mm is None:
            raise BadLength("shoulder", "how far off it is is not known; give the face's width too")

    @property
    def slant(self) -> float:
        """How much an angle on the work keeps in the flat: 1 on a ring, 0 on a drum, sin(cone angle) on a cone."""
        if self.kind == "cone":
            return sin(2 * pi * float(self.cone_angle))
        return 1.0 if self.kind == "ring" else 0.0

    @property
    def to_axis_mm(self) -> float | None:
        """From the reading edge to the axis, along the slant of a cone; None on a drum, where it is never met."""
        return float(self.diameter_mm) / 2 / self.slant if self.slant else None

    def circle_mm(self, along_mm: float = 0.0) -> float:
        """Return the length of the circle so far along the lines from the reading edge; below 0 on its other side."""
        sign = 1 if self.lines_run == "out" else -1
        return pi * (float(self.diameter_mm) + 2 * sign * along_mm * self.slant)

    def spot(self, turns: float, along_mm: float) -> tuple[float, float, float]:
        """Return a spot of the work in the flat: across and along in mm, and how far its line leans, in radians.

        turns     angle from a chosen line, which stands upright at 0, 0
        along_mm  from the reading edge along the lines

        The lean is positive where the line's free end leans away from the chosen line.
        """
        if not self.slant:
            return self.circle_mm() * turns, along_mm, 0.0
        angle = 2 * pi * turns * self.slant
        edge = float(self.diameter_mm) / 2 / self.slant
        if self.lines_run == "out":
            out = edge + along_mm
            return out * sin(angle), out * cos(angle) - edge, angle
        out = edge - along_mm
        return out * sin(angle), edge - out * cos(angle), -angle

    def along(self, x: float, y: float) -> float:
        """Return how far along the lines from the reading edge a spot in the flat lies, in mm."""
        if not self.slant:
            return y
        edge = float(self.diameter_mm) / 2 / self.slant
        return hypot(x, edge + y) - edge if self.lines_run == "out" else edge - hypot(x, edge - y)
