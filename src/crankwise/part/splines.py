"""Straight-sided splines on a shaft (ISO 14): keys of parallel sides, cut by their two sides and the floor between.

Every key is met three times, at two offsets of the cutter and then at the floor: it is the passes that get
lost, not the positions, so each pass is a circuit of its own.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import acos, asin, atan, ceil, cos, pi, sin, sqrt, tan

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.part.card import Card, CardLine
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.part.suggestion import at_most, typed_mm
from crankwise.part.usual_lines import CLOSING, TRACE

LIGHT: dict[tuple[int, int, int], int | Fraction] = {
    (6, 23, 26): 6, (6, 26, 30): 6, (6, 28, 32): 7, (8, 32, 36): 6, (8, 36, 40): 7, (8, 42, 46): 8, (8, 46, 50): 9,
    (8, 52, 58): 10, (8, 56, 62): 10, (8, 62, 68): 12, (10, 72, 78): 12, (10, 82, 88): 12, (10, 92, 98): 14,
    (10, 102, 108): 16, (10, 112, 120): 18,
}  # fmt: skip
MEDIUM: dict[tuple[int, int, int], int | Fraction] = {
    (6, 11, 14): Fraction(3), (6, 13, 16): Fraction(7, 2), (6, 16, 20): 4, (6, 18, 22): 5, (6, 21, 25): 5,
    (6, 23, 28): 6, (6, 26, 32): 6, (6, 28, 34): 7, (8, 32, 38): 6, (8, 36, 42): 7, (8, 42, 48): 8, (8, 46, 54): 9,
    (8, 52, 60): 10, (8, 56, 65): 10, (8, 62, 72): 12, (10, 72, 82): 12, (10, 82, 92): 12, (10, 92, 102): 14,
    (10, 102, 112): 16, (10, 112, 125): 18,
}  # fmt: skip
"""Keys, minor and major diameter in mm: width of the key in mm. Source: ISO 14:1982, table 1; from memory."""

HIGH_MM = Fraction(1, 50)
"""How high the ridges between two cuts of the floor may stand, in mm. Typical, judgement: a file takes them off."""


@dataclass(frozen=True, slots=True)
class Splines:
    """A splined shaft.

    keys      3 to 100
    minor_mm  diameter over the floors, above 0
    major_mm  diameter over the keys, larger
    key_mm    width of a key; each leaves room for the floor beside it

    Raises FaultsFound.
    """

    keys: int
    minor_mm: Fraction
    major_mm: Fraction
    key_mm: Fraction

    def __post_init__(self) -> None:
        faults = list(self._faults())
        if faults:
            raise FaultsFound(faults)

    def _faults(self) -> Iterator[Fault]:
        if not 3 <= self.keys <= 100:
            yield Fault("keys", f"{self.keys}; a splined shaft has 3 to 100 keys, mostly 6, 8 or 10")
            return
        for what, length in (("minor", self.minor_mm), ("major", self.major_mm), ("key", self.key_mm)):
            if length <= 0:
                yield Fault(what, f"{as_text(length)} mm; it is above 0")
                return
        if self.minor_mm >= self.major_mm:
            yield Fault(
                "minor",
                f"{typed_mm(self.minor_mm)} over the floors and {typed_mm(self.major_mm)} over the keys; the first is "
                "the smaller one",
            )
        elif self.major_mm > 2 * self.minor_mm:
            yield Fault(
                "minor",
                f"{typed_mm(self.minor_mm)}; so deep between keys of {typed_mm(self.major_mm)} no core is left; it is "
                "at least half of that",
            )
        widest = float(self.minor_mm) * sin(pi / self.keys)
        if self.key_mm >= widest:
            yield Fault(
                "key",
                f"{typed_mm(self.key_mm)}; {self.keys} keys so wide meet at the floor: up to "
                f"{at_most(widest * 0.95)} or so",
            )

    @property
    def series(self) -> str:
        """The series of ISO 14 that it belongs to: light or medium; empty where it is in neither."""
        size = (self.keys, int(self.minor_mm), int(self.major_mm))
        if self.minor_mm.denominator != 1 or self.major_mm.denominator != 1:
            return ""
        return next(
            (
                name
                for name, table in (("light", LIGHT), ("medium", MEDIUM))
                if table.get(size) == self.key_mm
            ),
            "",
        )

    @property
    def side_offset_mm(self) -> Fraction:
        """From the centre to the cutter's side that cuts a key's flank, in mm: half the key, to either hand."""
        return self.key_mm / 2

    @property
    def side_height_mm(self) -> float:
        """Height over the centre at which a flank meets the floor, in mm. Source: sqrt((d/2)² - (B/2)²)."""
        return sqrt(float(self.minor_mm) ** 2 - float(self.key_mm) ** 2) / 2

    @property
    def side_depth_mm(self) -> float:
        """Infeed for the flanks, from a touch on the top of the shaft, in mm."""
        return float(self.major_mm) / 2 - self.side_height_mm

    @property
    def floor_depth_mm(self) -> Fraction:
        """Infeed for the floors, from a touch on the top of the shaft, in mm."""
        return (self.major_mm - self.minor_mm) / 2

    @property
    def widest_side_cutter_mm(self) -> float | None:
        """Widest cutter that cuts a flank without touching the next key, in mm; None where any width may be used.

        Source: derived. The next key's near flank lies at x cos a - y sin a = -B/2, with a = 360/N between the
        keys, out to its corner on the major diameter. A cutter whose bottom is above that corner passes
        over it; else its far side must stay short of the flank at the height of the bottom.
        """
        turn, half = 2 * pi / self.keys, float(self.key_mm) / 2
        corner = sqrt(float(self.major_mm) ** 2 / 4 - half * half) * cos(turn) + half * sin(turn)
        if corner <= self.side_height_mm:
            return None
        return (self.side_height_mm * sin(turn) - half) / cos(turn) - half

    @property
    def floor_width_mm(self) -> float:
        """Between two neighbouring flanks where the middle of the floor is, in mm: no floor cutter is wider.

        Source: derived; a flank lies B/2 beside its key's axis, which is 180/N from the floor's.
        """
        turn = pi / self.keys
        return float(self.minor_mm) * tan(turn) - float(self.key_mm) / cos(turn)

    def floor_settings(self, cutter_mm: Fraction, high_mm: Fraction = HIGH_MM) -> tuple[float, ...]:
        """Return where the floor is cut, in turns to either side of the middle between two keys, rising.

        cutter_mm  width of the flat-ended cutter
        high_mm    how high the ridges between two cuts may stand, above 0

        Source: derived. Two flats at the minor radius r, a turned apart, leave a ridge of r / cos(a/2) - r;
        neighbouring flats must overlap; and the cutter's corner keeps off the key's flank.
        Raises FaultsFound when the cutter is wider than the floor.
        """
        radius, half = float(self.minor_mm) / 2, float(cutter_mm) / 2
        corner = sqrt(radius * radius + half * half)
        swing = pi / self.keys - asin(float(self.key_mm) / 2 / corner) - atan(half / radius)
        if cutter_mm <= 0 or swing < 0:
            raise FaultsFound(
                [
                    Fault(
                        "floor cutter",
                        f"{typed_mm(cutter_mm)}; the floor between two keys is {at_most(self.floor_width_mm)} wide: a "
                        f"cutter of {at_most(self.floor_width_mm)} at most",
                    )
                ]
            )
        step = min(2 * acos(1 / (1 + float(high_mm) / radius)), 2 * atan(half / radius))
        cuts = ceil(2 * swing / step - 1e-9) + 1 if swing > 1e-12 else 1
        if cuts == 1:
            return (0.0,)
        return tuple((-swing + 2 * swing * index / (cuts - 1)) / (2 * pi) for index in range(cuts))


def standard_key(keys: int, minor_mm: Fraction, major_mm: Fraction) -> Fraction | None:
    """Return the width of the key that ISO 14 has for these, in mm; None where it has none."""
    if minor_mm.denominator != 1 or major_mm.denominator != 1:
        return None
    size = (keys, int(minor_mm), int(major_mm))
    found = LIGHT.get(size) or MEDIUM.get(size)
    return None if found is None else Fraction(found)


def parts_of(splines: Splines) -> tuple[Part, Part]:
    """Return the keys, whose two sides are a circuit each, and the floors, half a division on, as parts to divide."""
    floors = EqualDivisions(splines.keys, start=Fraction(1, 2 * splines.keys))
    return (
        Part(EqualDivisions(splines.keys), splines.major_mm, "space"),
        Part(floors, splines.minor_mm, "space"),
    )


def preparation_card(splines: Splines, cutter_mm: Fraction | None = None) -> Card:
    """Return what to have ready before the first cut, in the order of work.

    cutter_mm  width of the cutter for the floors, in mm; None when not told
    """
    return Card("Preparation", tuple(_preparation(splines, cutter_mm)))


def _preparation(splines: Splines, cutter_mm: Fraction | None) -> Iterator[CardLine]:
    yield CardLine("major diameter", splines.major_mm, "mm", note="turn it between centres, where it is cut")
    yield CardLine("minor diameter", splines.minor_mm, "mm")
    if splines.series:
        yield CardLine(
            "size", note=f"ISO 14, {splines.series} series (from memory: check before it must fit)"
        )
    yield CardLine("material", note="steel; a shaft that springs when it is cut is roughed all round first")
    yield CardLine(
        "holding",
        note="between centres with a carrier that has no shake, a long shaft on a steady; the tailstock as high as the "
        "head, or the keys taper",
    )
    yield CardLine(
        "side cutter on centre", note="touch off both sides of the shaft, and halve; an error leans every key"
    )
    widest = splines.widest_side_cutter_mm
    if widest is not None:
        yield CardLine("side cutter, up to", widest, "mm", note="wider touches the next key")
    yield CardLine(
        "circuit 1, side of the cutter off centre",
        splines.side_offset_mm,
        "mm",
        note="cutter to the right of the key, its left side set so; all positions",
        set_in=(1,),
    )
    yield CardLine(
        "circuit 2, side of the cutter off centre",
        splines.side_offset_mm,
        "mm",
        note="cutter to the left of the key, its right side set so; all positions",
        set_in=(1,),
    )
    yield CardLine(
        "infeed for the sides",
        splines.side_depth_mm,
        "mm",
        note="from a touch on the top of the shaft",
        set_in=(1,),
    )
    yield CardLine(
        "circuit 3, the floors",
        Fraction(1, 2 * splines.keys),
        "turn",
        note="half a division on, cutter on centre",
        set_in=(2,),
    )
    yield CardLine(
        "infeed for the floors",
        splines.floor_depth_mm,
        "mm",
        note="from a touch on the top of the shaft",
        set_in=(2,),
    )
    yield CardLine(
        "between two keys at the floor", splines.floor_width_mm, "mm", note="the floor's cutter is narrower"
    )
    if cutter_mm is not None:
        settings = splines.floor_settings(cutter_mm)
        for setting in settings:
            yield CardLine("floor, from its middle", setting, "turn", set_in=(2,))
        yield CardLine(
            "flats for each floor", Fraction(len(settings)), "count", note="the ridges left are filed off"
        )
    yield TRACE
    yield CardLine("order", note="after the first key's two sides measure it, before going on round")


def measuring_card(splines: Splines, key_less_mm: Fraction = Fraction(1, 20)) -> Card:
    """Return what to measure, its limits, and what to do if it is off.

    key_less_mm  how much narrower a key may come out, in mm; typical, judgement
    """
    key = splines.key_mm
    lines = [
        CardLine(
            "key",
            key,
            "mm",
            key - key_less_mm,
            key,
            using="micrometer",
            note="wide: half the rest from each side",
        )
    ]
    if splines.keys % 2 == 0:
        lines.append(CardLine("over opposite floors", splines.minor_mm, "mm", using="blade micrometer"))
    lines.append(
        CardLine("spaces", note="all alike; one wide beside one narrow: a position was missed in one circuit")
    )
    lines.append(CLOSING)
    return Card("Measuring", tuple(lines))
