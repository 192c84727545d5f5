"""Flats on a bar: squares, hexagons, any polygon, and flats of unequal height.

A flat is told by where it faces and how high it stands over the centre; from that follow its depth from
the bar, its width, and what is measured. Lengths are exact where the asking was, else floats of geometry.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import sqrt

from crankwise.errors import Fault, FaultsFound
from crankwise.part.card import Quantity
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.part.part import Mark, Part
from crankwise.part.polar import cosine, sine
from crankwise.part.suggestion import at_least, at_most, typed_mm

MOST_FLATS, MOST_UNEQUAL = 1000, 100


@dataclass(frozen=True, slots=True)
class Flat:
    """One flat.

    angle      where it faces, in turns from the first position, 0 to below 1
    height_mm  from the centre of the bar to the flat, above 0
    """

    angle: Fraction
    height_mm: Quantity


@dataclass(frozen=True, slots=True)
class Flats:
    """Flats round one bar.

    flats   rising in angle, one or more
    bar_mm  diameter of the bar, larger than twice the height of every flat

    Raises FaultsFound when the bar is too small, or a flat is cut away by the others.
    """

    flats: tuple[Flat, ...]
    bar_mm: Quantity

    def __post_init__(self) -> None:
        AngleList(tuple(flat.angle for flat in self.flats))
        if not self.is_regular and len(self.flats) > MOST_UNEQUAL:
            raise FaultsFound([Fault("flats", f"{len(self.flats):,} unequal ones; at most {MOST_UNEQUAL}")])
        faults = list(self._faults())
        if faults:
            raise FaultsFound(faults)

    def _faults(self) -> Iterator[Fault]:
        highest = max(flat.height_mm for flat in self.flats)
        if min(flat.height_mm for flat in self.flats) <= 0:
            yield Fault("flats", "a flat at or below the centre leaves no bar to hold; its height is above 0")
        elif self.bar_mm <= 2 * highest:
            yield Fault(
                "bar",
                f"{typed_mm(self.bar_mm)}; too small: the highest flat stands {at_least(highest)} over the centre, so "
                f"the bar is over {at_least(2 * highest)}",
            )
        else:
            for number, flat in enumerate(self.flats[:1] if self.is_regular else self.flats, 1):
                if self.width_mm(flat) <= 0:
                    yield Fault(
                        f"flat {number}",
                        f"nothing of it is left by its neighbours; {self._cure(flat)}",
                    )

    def _cure(self, flat: Flat) -> str:
        """Say how low a flat must be for its neighbours to leave something of it, found by halving."""
        low, high = 0.0, float(flat.height_mm)
        for _ in range(60):
            middle = (low + high) / 2
            if self.width_mm(Flat(flat.angle, middle)) > 0:
                low = middle
            else:
                high = middle
        return f"make it lower than {at_most(low)}, or leave it out" if low > 1e-3 else "leave it out"

    def depth_mm(self, flat: Flat) -> Quantity:
        """Return how deep a flat is cut from the bar, in mm. Source: half the bar less the height."""
        return _sum(_half(self.bar_mm), -flat.height_mm)

    def width_mm(self, flat: Flat) -> float:
        """Return how wide a flat comes out between its neighbours or the round of the bar, in mm; a float.

        Source: derived. Along the flat a point is h n + t u, with n where it faces and u along it; the round
        bounds t by sqrt(R² - h²), and another flat, d turns on with height k, by h cos d + t sin d <= k.
        """
        height, radius = float(flat.height_mm), float(self.bar_mm) / 2
        high = sqrt(max(radius * radius - height * height, 0.0))
        low = -high
        for other in self.flats:
            slope = sine(other.angle - flat.angle)
            if abs(slope) > 1e-12:
                bound = (float(other.height_mm) - height * cosine(other.angle - flat.angle)) / slope
                if slope > 0:
                    high = min(high, bound)
                else:
                    low = max(low, bound)
        return high - low

    @property
    def is_regular(self) -> bool:
        """Whether the flats are alike and equally spaced: a polygon, or two or one flat."""
        step = Fraction(1, len(self.flats))
        alike = all(flat.height_mm == self.flats[0].height_mm for flat in self.flats)
        return alike and all(after.angle - before.angle == step for before, after in pairwise(self.flats))

    @property
    def across_flats_mm(self) -> Quantity | None:
        """Over two opposite flats, in mm, where they are regular and even in number; else None."""
        if self.is_regular and len(self.flats) % 2 == 0:
            return 2 * self.flats[0].height_mm
        return None

    @property
    def sharp_corners_mm(self) -> float | None:
        """Diameter through the corners of the polygon were they sharp, in mm; None where it is no polygon.

        Source: twice the height / cos(180/N).
        """
        if not self.is_regular or len(self.flats) < 3:
            return None
        return 2 * float(self.flats[0].height_mm) / cosine(Fraction(1, 2 * len(self.flats)))

    @property
    def across_corners_mm(self) -> float | None:
        """Diameter through the corners as they come out on this bar, in mm; None where it is no polygon."""
        sharp = self.sharp_corners_mm
        return None if sharp is None else min(sharp, float(self.bar_mm))

    @property
    def corners_are_sharp(self) -> bool:
        """Whether the bar is large enough for sharp corners, to a thousandth of a millimetre."""
        sharp = self.sharp_corners_mm
        return sharp is not None and sharp <= float(self.bar_mm) + 1e-3

    @property
    def flat_to_corner_mm(self) -> float | None:
        """From a flat to the corner opposite, in mm: what is measured on an odd polygon; else None."""
        corners = self.across_corners_mm
        if corners is None or len(self.flats) % 2 == 0:
            return None
        return float(self.flats[0].height_mm) + corners / 2

    def opposite(self, flat: Flat) -> Flat | None:
        """Return the flat that faces the other way, or None."""
        wanted = (flat.angle + Fraction(1, 2)) % 1
        return next((other for other in self.flats if other.angle % 1 == wanted), None)


def polygon(count: int, height_mm: Quantity, bar_mm: Quantity | None = None) -> Flats:
    """Return equal flats all round.

    count      3 or more without a bar; 1 or more with one
    height_mm  from the centre to each flat, above 0: half the distance across flats
    bar_mm     diameter of the bar; None for the smallest one with sharp corners

    Raises FaultsFound.
    """
    if not 1 <= count <= MOST_FLATS:
        raise FaultsFound(
            [Fault("flats", f"{count}; a bar has 1 to {MOST_FLATS} flats: a square 4, a hexagon 6")]
        )
    if bar_mm is None:
        if count < 3:
            raise FaultsFound(
                [
                    Fault(
                        "flats",
                        f"{count}; fewer than 3 flats have no corners, so they do not say which bar they are cut on; "
                        "give it too, as --bar 20mm",
                    )
                ]
            )
        bar_mm = 2 * float(height_mm) / cosine(Fraction(1, 2 * count))
    return Flats(tuple(Flat(Fraction(number, count), height_mm) for number in range(count)), bar_mm)


def height_of_corners(count: int, across_corners_mm: Quantity) -> float:
    """Return the height of each flat of a polygon from its sharp corners, in mm. Source: half x cos(180/N)."""
    return float(across_corners_mm) / 2 * cosine(Fraction(1, 2 * count))


def height_of_side(count: int, side_mm: Quantity) -> float:
    """Return the height of each flat of a polygon from the length of its side, in mm. Source: side / 2 tan(180/N)."""
    half = Fraction(1, 2 * count)
    return float(side_mm) / 2 * cosine(half) / sine(half)


def part_of(flats: Flats) -> Part:
    """Return the flats as a part to divide; unequal ones tell the depth of each in its note."""
    if flats.is_regular:
        return Part(EqualDivisions(len(flats.flats)), Fraction(flats.bar_mm), "flat")
    marks = tuple(Mark(note=f"depth {at_most(flats.depth_mm(flat))}") for flat in flats.flats)
    return Part(AngleList(tuple(flat.angle for flat in flats.flats)), Fraction(flats.bar_mm), "flat", marks)


def _half(length: Quantity) -> Quantity:
    return length / 2


def _sum(one: Quantity, two: Quantity) -> Quantity:
    return one + two if isinstance(one, Fraction) and isinstance(two, Fraction) else float(one) + float(two)
