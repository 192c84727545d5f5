"""Classes of lines on a scale: which lines are short, middle or long, and how each class is cut.

Proportions short : middle : long of about 1 : 1.5 : 2, at most three lengths, equal widths, lines centred
on their positions. Source: common practice in workshops, typical and not a standard; judgement.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import pi, tan

from crankwise.errors import BadDivisions, BadLength
from crankwise.exact.number import as_text

MOST_LENGTHS = 3
"""More lengths than these are not told apart at a glance. Common practice."""
V_TOOL = Fraction(1, 6)
"""Included angle of the usual V tool, 60 degrees, in turns."""
_NAMES = {1: ("single",), 2: ("short", "long"), 3: ("short", "middle", "long")}


@dataclass(frozen=True, slots=True)
class LineClass:
    """One class of lines.

    name       what it is called on the sheet: short, middle, long; single where all are alike
    every      stands at counts that are a multiple of this; above 0. The finest class takes all that is left
    length_mm  length of a line, above 0
    width_mm   width at the surface, above 0
    depth_mm   depth of the tool; None where it is not said
    """

    name: str
    every: Fraction
    length_mm: Fraction
    width_mm: Fraction
    depth_mm: Fraction | None = None


@dataclass(frozen=True, slots=True)
class LineClasses:
    """All classes of a scale, the finest first: each coarser one stands at whole multiples of the finer.

    Raises BadDivisions or BadLength naming the class that is wrong.
    """

    classes: tuple[LineClass, ...]

    def __post_init__(self) -> None:
        if not self.classes:
            raise BadDivisions("classes", "none given; write one or more, as 1=3mm, 5=4.5mm, 10=6mm")
        for one in self.classes:
            which = f"every {as_text(one.every)}"
            if one.every <= 0:
                raise BadDivisions("classes", f"{which}; a class stands at every 1, 5 or 10 lines, above 0")
            if one.length_mm <= 0 or one.width_mm <= 0:
                raise BadLength("classes", f"{which}: a line's length and width are above 0, as 1=3mm")
        for finer, coarser in zip(self.classes, self.classes[1:], strict=False):
            if coarser.every <= finer.every or (coarser.every / finer.every).denominator != 1:
                raise BadDivisions(
                    "classes",
                    f"every {as_text(coarser.every)} after every {as_text(finer.every)}; each class stands "
                    "at a whole multiple of the one before, as 1, 5, 10",
                )
            if coarser.length_mm <= finer.length_mm:
                raise BadLength(
                    "classes",
                    f"the lines of every {as_text(coarser.every)} are not longer than those of every "
                    f"{as_text(finer.every)}; a coarser class has longer lines, as 1=3mm, 5=4.5mm, 10=6mm",
                )

    def class_of(self, count: Fraction) -> LineClass:
        """Return the class of the line with this count: the coarsest one that stands there.

        >>> classes = default_classes((1, 5, 10), Fraction(2))
        >>> [classes.class_of(Fraction(count)).name for count in (0, 1, 5, 20)]
        ['long', 'short', 'middle', 'long']
        """
        for one in reversed(self.classes):
            if not count.numerator * one.every.denominator % (one.every.numerator * count.denominator):
                return one
        return self.classes[0]

    @property
    def longest(self) -> LineClass:
        """The class with the longest lines."""
        return self.classes[-1]


def names(count: int) -> tuple[str, ...]:
    """Return what so many classes are called, the finest first."""
    return _NAMES.get(count) or ("short", *(f"middle {n}" for n in range(1, count - 1)), "long")


def default_classes(
    every: Sequence[int | Fraction], spacing_mm: Fraction, width_mm: Fraction | None = None
) -> LineClasses:
    """Return classes with the lengths of a machine's dial, read at 300 to 400 mm.

    every       every how many counts each class stands, the finest first
    spacing_mm  least spacing of the lines at the reading edge
    width_mm    width of all lines; None for 10 % of the spacing, 0.1 to 0.25 mm

    Lengths are 2, 3 and 4 mm, or 2.5, 3.75 and 5 mm where the lines are 1.5 mm apart or more.
    Source: common practice, typical; judgement.
    """
    shortest = Fraction(2) if spacing_mm < Fraction(3, 2) else Fraction(5, 2)
    width = width_mm or min(max(round(spacing_mm / 10, 2), Fraction(1, 10)), Fraction(1, 4))
    steps = max(len(every) - 1, 1)
    return LineClasses(
        tuple(
            LineClass(
                name, Fraction(each), shortest * (1 + Fraction(place, steps)), width, depth_for(width, V_TOOL)
            )
            for place, (name, each) in enumerate(zip(names(len(every)), every, strict=True))
        )
    )


def depth_for(width_mm: Fraction, v_angle: Fraction) -> Fraction:
    """Return how deep a V tool must go for a line of this width, in mm, to a tenth of a micrometre.

    v_angle  included angle of the tool, in turns, above 0 and below half a turn

    Source: derived; width = 2 x depth x tan(half the angle), so 1.15 x depth at 60 degrees.

    >>> depth_for(Fraction(1155, 10_000), Fraction(1, 6))
    Fraction(1, 10)
    """
    if not 0 < v_angle < Fraction(1, 2):
        raise BadDivisions(
            "tool angle", f"{as_text(v_angle * 360)} degrees; a V tool has above 0 and below 180, usually 60"
        )
    return Fraction(round(float(width_mm) / (2 * tan(pi * float(v_angle))) * 10_000), 10_000)
