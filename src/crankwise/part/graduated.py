"""Graduated work: a scale on a ring, a drum or a cone, with its classes of lines and its numerals."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from math import hypot, tau

from crankwise.errors import BadLength
from crankwise.exact.number import as_text
from crankwise.part.box import Box
from crankwise.part.line_classes import LineClass, LineClasses
from crankwise.part.numerals import Lettering, Numerals
from crankwise.part.part import Mark, Part
from crankwise.part.scale_lines import Scale
from crankwise.part.surface import RIM_LEFT_MM, Surface

CLEAR_OF_LINES_MM = Fraction(3, 10)
"""From the end of a line to the raised edge of a numeral. Common practice: 0.3 to 0.5 mm."""
CLEAR_OF_NUMERALS_MM = Fraction(1, 2)
"""Between two numerals. Common practice."""
FINEST_MM = Fraction(1, 20)
"""From line to line at the reading edge: no tool leaves metal between lines that stand nearer. Judgement."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line: its position, its angle in turns, its class, what it counts, and its numeral or nothing."""

    position: int
    angle: Fraction
    line_class: LineClass
    count: Fraction
    numeral: str = ""


@dataclass(frozen=True, slots=True)
class Graduated:
    """Work to be graduated.

    scale     where the lines stand
    surface   what they are cut on
    classes   how long, wide and deep they are
    numerals  which lines are numbered, and how; None where none is

    Raises BadLength when the lines or the numerals do not go on the surface at all.
    """

    scale: Scale
    surface: Surface
    classes: LineClasses
    numerals: Numerals | None = None
    _lines: tuple[Line, ...] = field(init=False, repr=False, compare=False)
    _widths_mm: Mapping[str, float] = field(init=False, repr=False, compare=False)
    _middle_mm: float = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        # Worked out once: the check of thousands of lines asks for them again and again.
        object.__setattr__(self, "_lines", _lines_of(self.scale, self.classes, _told_by(self.numerals)))
        object.__setattr__(self, "_widths_mm", self._text_widths_mm())
        object.__setattr__(self, "_middle_mm", self._placed_mm())
        longest, face = self.classes.longest.length_mm, self.surface.face_mm
        if face is not None and longest > face:
            raise BadLength(
                "classes",
                f"{self.classes.longest.name} lines of {as_text(longest)} mm do not go on a face of "
                f"{as_text(face)} mm; make them shorter, or the face wider",
            )
        room = self.surface.to_axis_mm
        if self.surface.lines_run == "in" and room is not None and float(longest) >= room:
            raise BadLength(
                "classes",
                f"{self.classes.longest.name} lines of {as_text(longest)} mm reach the axis, "
                f"{room:.2f} mm in; make them shorter, or let them run outward",
            )
        if self.least_spacing_mm < FINEST_MM:
            raise BadLength(
                "across",
                f"the lines of this scale would stand {self.least_spacing_mm:.4f} mm apart on "
                f"{as_text(self.surface.diameter_mm)} mm, where {as_text(FINEST_MM)} mm is the least that can be cut; "
                "take fewer lines or a larger diameter",
            )
        self._check_numerals()

    def _check_numerals(self) -> None:
        if self.numerals is None:
            return
        tall, face = self.numeral_along_mm, self.surface.face_mm
        height = as_text(self.numerals.lettering.height_mm)
        if face is not None and not self.numerals.behind and tall + float(RIM_LEFT_MM) > float(face):
            left = float(face - RIM_LEFT_MM - self.classes.longest.length_mm)
            raise BadLength(
                "numerals",
                f"{height} mm high they take {tall:.2f} mm with their burr, and the whole face has "
                f"{as_text(face)} mm of which the last {as_text(RIM_LEFT_MM)} mm stay free; past the longest lines "
                f"there are {max(left, 0):.2f} mm: take smaller numerals, shorter lines or a wider face",
            )
        to_axis = self.surface.to_axis_mm
        if self.numerals_lie_inward and to_axis is not None and abs(self.middle_mm) + tall / 2 >= to_axis:
            raise BadLength(
                "numerals",
                f"{height} mm high they reach the axis, {to_axis:.2f} mm from the reading edge; "
                "take smaller numerals, or put them outside",
            )

    @property
    def numerals_lie_inward(self) -> bool:
        """Whether the numerals lie from the reading edge towards the axis, or a cone's small end."""
        return (self.surface.lines_run == "in") != (self.numerals is not None and self.numerals.behind)

    def lines(self) -> tuple[Line, ...]:
        """Return every line in the order of the positions."""
        return self._lines

    def part(self) -> Part:
        """Return the part that is divided, with the class and the numeral of every line."""
        is_one = len(self.classes.classes) == 1
        marks = tuple(Mark("" if is_one else line.line_class.name, line.numeral) for line in self.lines())
        return Part(self.scale.divisions, self.surface.diameter_mm, "line", marks)

    @property
    def least_spacing_mm(self) -> float:
        """Least distance from a line to the next, round the reading edge; a short last space is not counted."""
        return float(min(self.scale.spaces, default=Fraction(1))) * self.surface.circle_mm()

    @property
    def numeral_along_mm(self) -> float:
        """How much room the numerals take the way the lines run, their burr included."""
        if self.numerals is None:
            return 0.0
        wide, tall = self._widest_mm
        return {"upright": tall, "radial": wide, "level": hypot(wide, tall)}[self.numerals.stand]

    def _text_widths_mm(self) -> dict[str, float]:
        if self.numerals is None:
            return {}
        texts = {line.numeral for line in self._lines if line.numeral}
        return {text: float(self.numerals.lettering.text_width(text)) for text in texts}

    @property
    def _widest_mm(self) -> tuple[float, float]:
        """The widest numeral and the height of all, burr included."""
        if self.numerals is None:
            return 0.0, 0.0
        lettering, burr = self.numerals.lettering, 2 * float(self.numerals.lettering.burr_mm)
        widest = max(self._widths_mm.values(), default=0.0)
        return widest + burr, float(lettering.height_mm) + burr

    @property
    def middle_mm(self) -> float:
        """From the reading edge to the middle of the numerals; below 0 on the side away from the lines.

        Where it is not told, they stand as near to the longest lines as is clear, but never over the free
        rim of the face: then they are pushed back, and the check says what they touch.
        """
        return self._middle_mm

    def _placed_mm(self) -> float:
        if self.numerals is None:
            return 0.0
        half, clear = self.numeral_along_mm / 2, float(CLEAR_OF_LINES_MM)
        if self.numerals.behind:
            asked = self.numerals.middle_mm
            return -(float(asked) if asked else clear + half + self._sagging_mm(clear))
        if self.numerals.middle_mm:
            return float(self.numerals.middle_mm)
        foot = float(self.classes.longest.length_mm) + clear
        middle = foot + half + self._sagging_mm(foot)
        if self.surface.face_mm is not None:
            middle = min(middle, float(self.surface.face_mm - RIM_LEFT_MM) - half)
        return middle

    def _sagging_mm(self, foot_mm: float) -> float:
        """How much nearer to the lines the corners of a numeral's straight foot are than its middle.

        Only towards the axis, where the circle of the lines' ends curves round the numeral.
        """
        to_axis = self.surface.to_axis_mm
        if to_axis is None or not self.numerals_lie_inward:
            return 0.0
        if self.numerals is None or self.numerals.stand == "level":
            return 0.0
        across = self._widest_mm[1 if self.numerals.stand == "radial" else 0]
        radius = to_axis - foot_mm
        return radius - (radius**2 - across**2 / 4) ** 0.5 if radius > across / 2 else 0.0

    def line_box(self, line: Line, turns: float) -> Box:
        """Return a line in the flat, at so many turns from the line that stands upright."""
        length = float(line.line_class.length_mm)
        x, y, lean = self.surface.spot(turns, length / 2)
        return Box(x, y, float(line.line_class.width_mm), length, lean)

    def numeral_box(self, line: Line, turns: float) -> Box:
        """Return a line's numeral in the flat, its burr included, at so many turns from the upright line."""
        if self.numerals is None:
            raise ValueError("there are no numerals")
        lettering, stand = self.numerals.lettering, self.numerals.stand
        burr = 2 * float(lettering.burr_mm)
        wide, tall = self._widths_mm[line.numeral] + burr, float(lettering.height_mm) + burr
        x, y, lean = self.surface.spot(turns, self.middle_mm)
        if stand == "radial":
            wide, tall = tall, wide
        if stand == "level":
            # Square to the page: turned back by the angle of the upright line, which is this line less `turns`.
            upright = float(line.angle) - turns
            lean = (1 if self.surface.lines_run == "in" else -1) * tau * upright
        return Box(x, y, wide, tall, lean)


_Told = tuple[Fraction, Fraction, Fraction, tuple[str, ...], tuple[tuple[Fraction, str], ...]]


def _told_by(numerals: Numerals | None) -> _Told | None:
    """Return what says which line has which numeral, alike for every size and place of figure."""
    if numerals is None:
        return None
    texts, own = tuple(numerals.texts), tuple(numerals.own)
    return numerals.every, numerals.first, numerals.per_count, texts, own


@lru_cache(4)
def _lines_of(scale: Scale, classes: LineClasses, told: _Told | None) -> tuple[Line, ...]:
    """Return every line; kept, since the search for a height that fits asks for the same lines twenty times."""
    texts: tuple[str, ...] = ("",) * len(scale.counts)
    if told:
        every, first, per_count, in_order, own = told
        texts = Numerals(every, Lettering(Fraction(1)), first, per_count, in_order, own).on(scale)
    return tuple(
        Line(number, angle, classes.class_of(count), count, numeral)
        for (number, angle), count, numeral in zip(
            scale.divisions.targets(), scale.counts, texts, strict=True
        )
    )
