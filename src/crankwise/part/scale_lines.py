"""The lines of a scale: where each stands, and what is counted there.

A *count* is what the scale counts: the line's number on a scale of equal parts, the value it stands for on
a scale from a formula or a table. Classes of lines and numerals go by it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import pairwise

from crankwise.errors import BadDivisions
from crankwise.exact.number import as_text
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions

MOST_LINES = 20_000
"""More lines than these have no room on anything that is read by eye."""


@dataclass(frozen=True, slots=True)
class Scale:
    """Where the lines stand and what they count.

    name       what it is: "150 equal lines", "vernier, 12 on 11"
    divisions  the positions; one for each count
    counts     what each line counts, in the order of the positions
    texts      a text of its own for each line, empty where it has none; () where none has
    is_exact   False where angles come from a formula in floats, good to 1e-12 turn (0.0000013")
    note       what else is to be known of the whole scale
    """

    name: str
    divisions: Divisions
    counts: tuple[Fraction, ...]
    texts: tuple[str, ...] = ()
    is_exact: bool = True
    note: str = ""
    _angles: tuple[Fraction, ...] = field(init=False, repr=False, compare=False)
    _spaces: tuple[Fraction, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        # Worked out once: the check of thousands of lines asks for them again and again.
        angles = tuple(angle for _, angle in self.divisions.targets())
        object.__setattr__(self, "_angles", angles)
        object.__setattr__(self, "_spaces", tuple(after - before for before, after in pairwise(angles)))

    def angles(self) -> tuple[Fraction, ...]:
        """Return the angle of each line, in turns."""
        return self._angles

    @property
    def spaces(self) -> tuple[Fraction, ...]:
        """The angle from each line to the next, in turns; the way from the last to the first is not one of them."""
        return self._spaces

    def gaps(self) -> Iterator[Fraction]:
        """Yield the angle from each line to the next, in turns; the last one to the first where it comes round."""
        yield from self._spaces
        if self.comes_round:
            yield self._angles[0] + 1 - self._angles[-1]

    @property
    def comes_round(self) -> bool:
        """Whether the lines fill the circle, so that the last one stands beside the first."""
        closing = self._angles[0] + 1 - self._angles[-1]
        return self.divisions.goes_round or closing <= max(self._spaces, default=Fraction(1))

    def the_other_way(self) -> "Scale":
        """Return the same scale with its positions met in the other order, for work that turns the other way."""
        if isinstance(self.divisions, EqualDivisions):
            counts = (self.counts[0], *reversed(self.counts[1:]))
            texts = (self.texts[0], *reversed(self.texts[1:])) if self.texts else ()
            return replace(self, counts=counts, texts=texts)
        first, *others = self.angles()
        if not self.comes_round:
            mirrored = (
                tuple(others[-1] - angle for angle in (*reversed(others), first)) if others else (first,)
            )
            return replace(
                self, divisions=AngleList(mirrored), counts=self.counts[::-1], texts=self.texts[::-1]
            )
        mirrored = (first, *(first + 1 - (angle - first) for angle in reversed(others)))
        counts = (self.counts[0], *reversed(self.counts[1:]))
        texts = (self.texts[0], *reversed(self.texts[1:])) if self.texts else ()
        return replace(self, divisions=AngleList(mirrored), counts=counts, texts=texts)


def check_count(lines: int) -> None:
    """Raise BadDivisions when there are no lines, or more than can be believed."""
    if lines < 1:
        raise BadDivisions("lines", f"{lines}; a scale has 1 line or more")
    if lines > MOST_LINES:
        raise BadDivisions(
            "lines",
            f"{lines:,}; at most {MOST_LINES:,} are graduated, finer ones cannot be told apart by eye",
        )


def equal_lines(parts: int, arc: Fraction | None = None, start: Fraction = Fraction(0)) -> Scale:
    """Return lines at equal parts of the circle, or of an arc.

    parts  parts, 1 to 20,000; an arc has one line more, since its last line is not its first
    arc    angle of the arc in turns, above 0 and below 1; None for the whole circle
    start  angle of line 0 in turns

    Raises BadDivisions.
    """
    check_count(parts)
    if arc is None:
        counts = tuple(Fraction(number) for number in range(parts))
        return Scale(f"{parts} equal lines", EqualDivisions(parts, start), counts)
    if not 0 < arc < 1:
        raise BadDivisions(
            "arc",
            f"{as_text(arc * 360)} degrees; an arc is above 0 and below 360, and the whole circle needs none",
        )
    counts = tuple(Fraction(number) for number in range(parts + 1))
    angles = AngleList(tuple(start + arc * number / parts for number in range(parts + 1)))
    return Scale(f"{parts} equal parts of {as_text(arc * 360)} degrees", angles, counts)


def listed_lines(points: Sequence[tuple[str, Fraction]]) -> Scale:
    """Return one line for each point of a table: its text, and its angle in turns.

    The counts are the texts where all are numbers, else the places in the list. Raises BadDivisions.
    """
    check_count(len(points))
    try:
        counts = tuple(Fraction(text.replace(" ", "")) for text, _ in points)
    except (ValueError, ZeroDivisionError):
        counts = tuple(Fraction(place) for place in range(len(points)))
    texts = tuple(text for text, _ in points)
    return Scale(f"{len(points)} listed lines", AngleList(tuple(angle for _, angle in points)), counts, texts)
