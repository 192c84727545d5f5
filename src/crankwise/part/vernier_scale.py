"""Vernier scales: n parts on so many parts of the main scale, direct or folded, with or against it."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, get_args

from crankwise.errors import BadDivisions
from crankwise.exact.number import as_text
from crankwise.part.divisions import AngleList
from crankwise.part.scale_lines import Scale

Form = Literal["direct", "folded", "double"]
FORMS: tuple[Form, ...] = get_args(Form)
"""Direct: zero at one end. Folded: zero in the middle, the reading goes on from the other end, in half the
length to either side. Double: a whole vernier to either side of the zero, for a scale read both ways."""


@dataclass(frozen=True, slots=True)
class Vernier:
    """A vernier for a circular scale.

    parts  parts of the vernier, 2 to 100; an even number where it is folded
    over   parts of the main scale that they cover: one more or less than a whole multiple of `parts`
    part   one part of the main scale, in turns, above 0
    form   direct, folded or double

    Raises BadDivisions saying which numbers would read.
    """

    parts: int
    over: int
    part: Fraction
    form: Form = "direct"

    def __post_init__(self) -> None:
        if not 2 <= self.parts <= 100:
            raise BadDivisions("vernier", f"{self.parts} parts; a vernier has 2 to 100")
        if self.part <= 0:
            raise BadDivisions(
                "vernier", f"a part of the main scale of {as_text(self.part * 360)} degrees; it is above 0"
            )
        if self.over < 1 or abs(self.over - self.parts * self.multiple) != 1:
            less, more = self.parts - 1, self.parts + 1
            raise BadDivisions(
                "vernier",
                f"{self.parts} parts on {self.over} of the main scale do not read; {self.parts} read on "
                f"{less} (direct), on {more} (against the scale), or spread on {self.parts + less} or "
                f"{self.parts + more}",
            )
        if self.form not in FORMS:
            raise BadDivisions("vernier", f"{self.form!r} is not a form; there are {', '.join(FORMS)}")
        if self.form == "folded" and self.parts % 2:
            raise BadDivisions(
                "vernier",
                f"{self.parts} parts cannot be folded in the middle; take an even number, as {self.parts + 1}",
            )
        if self.arc >= 1:
            raise BadDivisions(
                "vernier",
                f"it covers {as_text(self.arc * 360)} degrees, a full circle or more; "
                "take fewer parts, a finer main scale, or fold it",
            )

    @property
    def multiple(self) -> int:
        """The whole multiple next to over / parts: 1 for a plain vernier, 2 for a spread one."""
        return max((self.over + self.parts // 2) // self.parts, 1)

    @property
    def runs_with(self) -> bool:
        """Whether it is numbered the way the main scale is: on n - 1 parts, but not on n + 1."""
        return self.over < self.parts * self.multiple

    @property
    def least_count(self) -> Fraction:
        """What it reads to, in turns. Source: derived; |multiple - over / parts| main parts, so 1/n of one."""
        return self.part * abs(self.multiple - Fraction(self.over, self.parts))

    @property
    def arc(self) -> Fraction:
        """The whole angle that it covers, in turns."""
        return self.part * self.over * (2 if self.form == "double" else 1)

    @property
    def zero(self) -> Fraction:
        """Angle from its first line to its zero, in turns, the way the main scale's numbers run."""
        if self.form != "direct":
            return self.arc / 2
        return Fraction(0) if self.runs_with else self.arc

    def scale(self) -> Scale:
        """Return its lines from one end to the other, the way the main scale's numbers run, in least counts."""
        step = self.part * self.over / self.parts
        half = {"direct": 0, "folded": self.parts // 2, "double": self.parts}[self.form]
        places = range(-half, (half if self.form == "double" else self.parts - half) + 1)
        counts = [Fraction(self._read(place)) for place in places]
        if not self.runs_with:
            counts.reverse()
        kind = f"{self.form} " if self.form != "direct" else ""
        return Scale(
            f"{kind}vernier, {self.parts} on {self.over}",
            AngleList(tuple(number * step for number in range(len(places)))),
            tuple(counts),
            note="numbered the way the main scale is"
            if self.runs_with
            else "numbered against the main scale",
        )

    def _read(self, place: int) -> int:
        if self.form == "double":
            return abs(place)
        return place if place >= 0 else place + self.parts
