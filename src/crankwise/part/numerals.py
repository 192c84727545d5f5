"""Numerals: which lines have one, what it says, how large it is, and how it stands.

Proportions of a figure as shares of its height. Source: common practice in workshops, typical; judgement.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Literal, get_args

from crankwise.errors import BadDivisions, BadLength
from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.part.scale_lines import Scale

Stand = Literal["upright", "radial", "level"]
STANDS: tuple[Stand, ...] = get_args(Stand)
"""Upright: stands along its line. Radial: reads along its line, a quarter turned. Level: as on a clock face,
every numeral level when line 0 is at the top; on a flat ring only."""

FIGURE_WIDTH = Fraction(65, 100)
NARROW_WIDTHS = {
    "1": Fraction(35, 100),
    ".": Fraction(30, 100),
    ",": Fraction(30, 100),
    "/": Fraction(45, 100),
}
BETWEEN_FIGURES = Fraction(15, 100)
BURR_MM = Fraction(15, 100)
SHANK_MM = Fraction(6)
STAMPS_MM = {
    "1/16 in": INCH / 16,
    "2 mm": Fraction(2),
    "3/32 in": INCH * 3 / 32,
    "3 mm": Fraction(3),
    "1/8 in": INCH / 8,
    "4 mm": Fraction(4),
    "5 mm": Fraction(5),
}
"""Heights of the usual sets of stamps."""


@dataclass(frozen=True, slots=True)
class Lettering:
    """The stamps or the font.

    height_mm  height of a figure, above 0
    burr_mm    width of the raised metal round a stamped figure; 0 for an engraved one
    shank_mm   side of a stamp's square shank; 0 where there is none
    widths_mm  real widths of figures, as measured; others are taken from the usual proportions

    A figure is 0.65 heights wide, 1 and the point less, and 0.15 heights of space lie between two.
    """

    height_mm: Fraction
    burr_mm: Fraction = BURR_MM
    shank_mm: Fraction = SHANK_MM
    widths_mm: Mapping[str, Fraction] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if self.height_mm <= 0:
            raise BadLength(
                "height", f"{as_text(self.height_mm)} mm; a numeral is above 0 high, as 2.4mm or 3/32in"
            )
        if self.burr_mm < 0 or self.shank_mm < 0:
            raise BadLength("stamps", "a burr or a shank is 0 or more wide")
        for figure, width in self.widths_mm.items():
            if width <= 0:
                raise BadLength("widths", f"{figure!r} is {as_text(width)} mm wide; a figure is above 0 wide")

    def width_of(self, figure: str) -> Fraction:
        """Return the width of one figure in mm."""
        if figure in self.widths_mm:
            return self.widths_mm[figure]
        return self.height_mm * NARROW_WIDTHS.get(figure, FIGURE_WIDTH)

    def text_width(self, text: str) -> Fraction:
        """Return the width of a whole numeral in mm, without its burr.

        >>> Lettering(Fraction(10)).text_width("28")
        Fraction(29, 2)
        """
        spaces = max(len(text) - 1, 0) * BETWEEN_FIGURES * self.height_mm
        return sum(map(self.width_of, text), spaces)

    def figure_middles(self, text: str) -> tuple[Fraction, ...]:
        """Return how far the middle of each figure lies from the middle of the numeral, in mm, the first below 0."""
        middles, at = [], -self.text_width(text) / 2
        for figure in text:
            width = self.width_of(figure)
            middles.append(at + width / 2)
            at += width + BETWEEN_FIGURES * self.height_mm
        return tuple(middles)

    def of_height(self, height_mm: Fraction) -> "Lettering":
        """Return the same lettering in another height, measured widths and all."""
        scale = height_mm / self.height_mm
        widths = {figure: width * scale for figure, width in self.widths_mm.items()}
        return replace(self, height_mm=height_mm, widths_mm=widths)


@dataclass(frozen=True, slots=True)
class Numerals:
    """The numerals of a scale.

    every      at lines whose count is a multiple of this; above 0
    lettering  the stamps or the font
    first      what the numeral at count 0 says
    per_count  how much more it says for one count more: 0.01 for a dial read in mm
    texts      texts in the order of the numbered lines' counts, instead of numbers
    own        a text for each of some counts, instead of all that; the other lines have none
    stand      upright, radial or level
    feet_out   whether the feet of an upright numeral point away from the reading edge, not to it
    behind     whether it stands on the other side of the reading edge from the lines
    middle_mm  from the reading edge to the middle of the numerals; None for as near as the lines let it
    """

    every: Fraction
    lettering: Lettering
    first: Fraction = Fraction(0)
    per_count: Fraction = Fraction(1)
    texts: Sequence[str] = ()
    own: Sequence[tuple[Fraction, str]] = ()
    stand: Stand = "upright"
    feet_out: bool = False
    behind: bool = False
    middle_mm: Fraction | None = None

    def __post_init__(self) -> None:
        if self.every <= 0:
            raise BadDivisions(
                "numerals", f"every {as_text(self.every)}; they stand at every 10 lines or so, above 0"
            )
        if self.stand not in STANDS:
            raise BadDivisions("numerals", f"{self.stand!r} is not known; they stand {', '.join(STANDS)}")
        if self.middle_mm is not None and self.middle_mm <= 0:
            raise BadLength("numerals", "their middle lies above 0 mm from the reading edge")

    def on(self, scale: Scale) -> tuple[str, ...]:
        """Return the numeral of each line of a scale, empty where there is none.

        A scale with texts of its own has those. Raises BadDivisions when there are texts left over, or too few.
        """
        if any(scale.texts):
            return scale.texts
        if self.own:
            return self._own_on(scale)
        # A count is a multiple where it divides without rest; in whole numbers, for there may be thousands.
        over, under = self.every.numerator, self.every.denominator
        numbered = [
            place
            for place, count in enumerate(scale.counts)
            if not count.numerator * under % (count.denominator * over)
        ]
        numbered.sort(key=scale.counts.__getitem__)
        if self.texts and len(self.texts) != len(numbered):
            raise BadDivisions(
                "numerals",
                f"{len(self.texts)} texts for {len(numbered)} numbered lines; give one text for each",
            )
        texts = self.texts or [
            as_text(self.first + scale.counts[place] * self.per_count) for place in numbered
        ]
        told = dict(zip(numbered, texts, strict=True))
        return tuple(told.get(place, "") for place in range(len(scale.counts)))

    def _own_on(self, scale: Scale) -> tuple[str, ...]:
        told: dict[Fraction, str] = {}
        for count, text in self.own:
            if count in told:
                raise BadDivisions("texts", f"line {as_text(count)} has two texts; give each line one")
            told[count] = text
        lines = set(scale.counts)
        for count, text in self.own:
            if count not in lines:
                raise BadDivisions(
                    "texts",
                    f"{text!r} is for line {as_text(count)}, and this scale has none; its lines are counted "
                    f"from {as_text(min(lines))} to {as_text(max(lines))}",
                )
        return tuple(told.get(count, "") for count in scale.counts)
