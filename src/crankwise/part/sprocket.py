"""A sprocket for roller chain (ISO 606): diameters, the form of its gap, and what is measured over pins."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.part.card import Card, CardLine
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.part.pass_lines import pass_lines
from crankwise.part.polar import cosine, sine
from crankwise.part.suggestion import at_least, at_most, typed_mm
from crankwise.part.usual_lines import CENTRE, TRACE

LEAST_TEETH, MOST_TEETH = 6, 200


@dataclass(frozen=True, slots=True)
class Chain:
    """A roller chain.

    pitch_mm   from roller to roller
    roller_mm  diameter of a roller
    inner_mm   width between the inner plates; None when not told
    number     its number in ISO 606; empty for another chain

    Raises FaultsFound.
    """

    pitch_mm: Fraction
    roller_mm: Fraction
    inner_mm: Fraction | None = None
    number: str = ""

    def __post_init__(self) -> None:
        faults = []
        if self.pitch_mm <= 0:
            faults.append(
                Fault("pitch", f"{as_text(self.pitch_mm)} mm; a chain's pitch is above 0, as 12.7mm or 1/2in")
            )
        elif not self.pitch_mm / 4 <= self.roller_mm <= self.pitch_mm * Fraction(3, 4):
            faults.append(
                Fault(
                    "roller",
                    f"{typed_mm(self.roller_mm)} on a pitch of {typed_mm(self.pitch_mm)}; a roller is a quarter to "
                    "three quarters of the pitch, mostly five eighths",
                )
            )
        if self.inner_mm is not None and self.inner_mm <= 0:
            faults.append(Fault("inner width", f"{as_text(self.inner_mm)} mm; it is above 0"))
        if faults:
            raise FaultsFound(faults)


def _chain(number: str, pitch: str, roller: str, inner: str) -> tuple[str, Chain]:
    return number, Chain(Fraction(pitch), Fraction(roller), Fraction(inner), number)


CHAINS = dict(
    (
        _chain("04C", "6.35", "3.30", "3.10"),
        _chain("06C", "9.525", "5.08", "4.68"),
        _chain("05B", "8", "5", "3"),
        _chain("06B", "9.525", "6.35", "5.72"),
        _chain("08A", "12.7", "7.92", "7.85"),
        _chain("08B", "12.7", "8.51", "7.75"),
        _chain("10A", "15.875", "10.16", "9.40"),
        _chain("10B", "15.875", "10.16", "9.65"),
        _chain("12A", "19.05", "11.91", "12.57"),
        _chain("12B", "19.05", "12.07", "11.68"),
        _chain("16A", "25.4", "15.88", "15.75"),
        _chain("16B", "25.4", "15.88", "17.02"),
        _chain("20A", "31.75", "19.05", "18.90"),
        _chain("20B", "31.75", "19.05", "19.56"),
        _chain("24A", "38.1", "22.23", "25.22"),
        _chain("24B", "38.1", "25.4", "25.4"),
    )
)
"""Source: ISO 606:2004, table 1; from memory, so measure a roller of the chain."""


@dataclass(frozen=True, slots=True)
class Sprocket:
    """A sprocket wheel.

    teeth  6 to 200; under 9 the chain runs rough
    chain  the chain it carries

    Raises FaultsFound.
    Source of all formulas: ISO 606:2004, clause 5; from memory.
    """

    teeth: int
    chain: Chain

    def __post_init__(self) -> None:
        if not LEAST_TEETH <= self.teeth <= MOST_TEETH:
            raise FaultsFound(
                [
                    Fault(
                        "teeth",
                        f"{self.teeth:,}; a sprocket for roller chain has {LEAST_TEETH} to {MOST_TEETH} teeth, mostly "
                        "11 to 60; odd numbers wear more evenly",
                    )
                ]
            )

    @property
    def pitch_diameter_mm(self) -> float:
        """Diameter through the centres of the seated rollers, in mm. Source: p / sin(180/N)."""
        return float(self.chain.pitch_mm) / sine(Fraction(1, 2 * self.teeth))

    @property
    def root_diameter_mm(self) -> float:
        """Diameter over the bottoms of the gaps, in mm: pitch diameter less a roller."""
        return self.pitch_diameter_mm - float(self.chain.roller_mm)

    @property
    def root_tolerance_mm(self) -> Fraction:
        """How much smaller the root diameter may be, in mm: 0.25 to 127 mm, 0.3 to 250 mm, beyond it h11."""
        if self.root_diameter_mm <= 127:
            return Fraction(1, 4)
        if self.root_diameter_mm <= 250:
            return Fraction(3, 10)
        return Fraction(32 if self.root_diameter_mm <= 315 else 36, 100)

    @property
    def outside_limits_mm(self) -> tuple[float, float]:
        """Least and greatest outside diameter, in mm. Source: d + p (1 - 1.6/N) - d1 and d + 1.25 p - d1."""
        pitch, roller = float(self.chain.pitch_mm), float(self.chain.roller_mm)
        base = self.pitch_diameter_mm - roller
        return base + pitch * (1 - 1.6 / self.teeth), base + 1.25 * pitch

    @property
    def outside_diameter_mm(self) -> float:
        """Outside diameter to turn, in mm: the middle of its limits."""
        least, most = self.outside_limits_mm
        return (least + most) / 2

    @property
    def seating_radius_limits_mm(self) -> tuple[float, float]:
        """Least and greatest radius of the seat, in mm. Source: 0.505 d1, and 0.069 cube root of d1 more."""
        roller = float(self.chain.roller_mm)
        return 0.505 * roller, 0.505 * roller + 0.069 * roller ** (1 / 3)

    @property
    def seating_angle_limits(self) -> tuple[Fraction, Fraction]:
        """Least and greatest angle of the seat, in turns. Source: 120 degrees and 140 degrees, less 90/N."""
        less = Fraction(90, self.teeth)
        return (120 - less) / 360, (140 - less) / 360

    @property
    def flank_radius_limits_mm(self) -> tuple[float, float]:
        """Least and greatest radius of the flank, in mm. Source: 0.12 d1 (N + 2) and 0.008 d1 (N² + 180)."""
        roller = float(self.chain.roller_mm)
        small, large = 0.12 * roller * (self.teeth + 2), 0.008 * roller * (self.teeth**2 + 180)
        return min(small, large), max(small, large)

    @property
    def over_pins_mm(self) -> float:
        """Over two pins of the roller's diameter in opposite gaps, or the nearest to it, in mm."""
        apart = 1.0 if self.teeth % 2 == 0 else cosine(Fraction(1, 4 * self.teeth))
        return self.pitch_diameter_mm * apart + float(self.chain.roller_mm)

    @property
    def width_mm(self) -> Fraction | None:
        """Width of the teeth, in mm: 0.93 of the inner width to 12.7 mm of pitch, 0.95 beyond; None if not told."""
        if self.chain.inner_mm is None:
            return None
        share = Fraction(93, 100) if self.chain.pitch_mm <= Fraction("12.7") else Fraction(95, 100)
        return share * self.chain.inner_mm


def chain_for_roller(pitch_mm: Fraction, roller_mm: Fraction | None, inner_mm: Fraction | None) -> Chain:
    """Return a chain by its measures. Raises FaultsFound when the roller is not told."""
    if roller_mm is None:
        alike = [number for number, chain in CHAINS.items() if chain.pitch_mm == pitch_mm]
        known = f", or name the chain: {' or '.join(alike)}" if alike else ""
        raise FaultsFound(
            [Fault("roller", f"not told; measure the diameter of a roller, as --roller 8.51mm{known}")]
        )
    return Chain(pitch_mm, roller_mm, inner_mm)


def part_of(sprocket: Sprocket) -> Part:
    """Return the gaps as a part to divide; errors are told as lengths at the pitch circle."""
    return Part(EqualDivisions(sprocket.teeth), Fraction(sprocket.pitch_diameter_mm), "space")


def preparation_card(sprocket: Sprocket) -> Card:
    """Return what to have ready before the first gap, in the order of work."""
    return Card("Preparation", tuple(_preparation(sprocket)))


def _preparation(sprocket: Sprocket) -> Iterator[CardLine]:
    least, most = sprocket.outside_limits_mm
    seat, wide_seat = sprocket.seating_radius_limits_mm
    narrow, broad = sprocket.seating_angle_limits
    small, large = sprocket.flank_radius_limits_mm
    if sprocket.chain.number:
        yield CardLine("chain", note=f"{sprocket.chain.number} of ISO 606 (from memory: measure a roller)")
    yield CardLine(
        "material", note="steel plate or bar; thick enough for the width of the teeth, no thicker there"
    )
    yield CardLine("roller", sprocket.chain.roller_mm, "mm")
    yield CardLine("outside diameter", sprocket.outside_diameter_mm, "mm", least, most)
    if sprocket.width_mm is not None:
        yield CardLine("width of the teeth", sprocket.width_mm, "mm", note="at most; chamfer both sides")
    yield CardLine("pitch diameter", sprocket.pitch_diameter_mm, "mm", note="the circle of the seats")
    yield CardLine(
        "radius of the seats",
        seat,
        "mm",
        seat,
        wide_seat,
        using=f"drill or end mill of {at_least(2 * seat)} to {at_most(2 * wide_seat)}",
        note="drilled on the pitch circle before the blank is turned to size, or plunged at the depth below",
    )
    yield CardLine("angle of the seats", (narrow + broad) / 2, "turn", narrow, broad)
    yield CardLine(
        "radius of the flanks",
        (small + large) / 2,
        "mm",
        small,
        large,
        note="filed or milled from the seat out",
    )
    yield CardLine(
        "depth",
        (sprocket.outside_diameter_mm - sprocket.root_diameter_mm) / 2,
        "mm",
        note="from a touch on the outside diameter, as above; correct it for what the blank measures",
    )
    yield from pass_lines((sprocket.outside_diameter_mm - sprocket.root_diameter_mm) / 2)
    yield CENTRE
    yield TRACE
    yield CardLine(
        "holding",
        note="on an arbor through its bore; back a thin plate with scrap, out to under the gaps",
    )


def measuring_card(sprocket: Sprocket) -> Card:
    """Return what to measure, its limits, and what to do if it is off."""
    over, less = sprocket.over_pins_mm, float(sprocket.root_tolerance_mm)
    return Card(
        "Measuring",
        (
            CardLine("pins", sprocket.chain.roller_mm, "mm", note="two, of the roller's diameter"),
            CardLine(
                "over pins",
                over,
                "mm",
                over - less,
                over,
                using="micrometer",
                note=(
                    "in opposite gaps" if sprocket.teeth % 2 == 0 else "in the two gaps nearest to opposite"
                )
                + "; over: go half the rest deeper; under: the chain lies too deep, its pitch does not fit",
            ),
            CardLine(
                "root diameter",
                sprocket.root_diameter_mm,
                "mm",
                sprocket.root_diameter_mm - less,
                sprocket.root_diameter_mm,
            ),
            CardLine("chain", note="wrap it on: it must lie down in every gap all round, without climbing"),
        ),
    )
