"""How large the errors of a head are, as far as its owner knows: measured, or a range from low to high.

These are sizes only. Where on the circle an error stands is the matter of a calibration.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text

MOST: Mapping[str, int] = {
    "worm_arcsec": 36_000,
    "worm_twice_arcsec": 36_000,
    "wheel_arcsec": 36_000,
    "wheel_tooth_arcsec": 36_000,
    "backlash_arcsec": 36_000,
    "lock_arcsec": 36_000,
    "detent_arcsec": 36_000,
    "reading_marks": 1,
    "reading_pull_marks": 1,
    "parallax_mm": 10,
    "pin_mm": 10,
    "dial_off_centre_mm": 10,
    "ring_off_centre_mm": 10,
    "work_off_centre_mm": 10,
    "tilt_mm_in_100": 50,
    "tool_mm": 10,
    "dial_diameter_mm": 10_000,
    "ring_diameter_mm": 10_000,
    "plate_diameter_mm": 10_000,
}
"""Every size that can be known, with the largest that is believed, in the unit that its name ends in."""

DIAMETERS = ("dial_diameter_mm", "ring_diameter_mm", "plate_diameter_mm")
"""What turns a length on a scale into an angle: measured once, above 0."""


@dataclass(frozen=True, slots=True)
class Size:
    """One size, known to lie from `low` to `high`; the two are the same where it has been measured.

    Raises FaultsFound when low is below 0 or above high.
    """

    low: Fraction
    high: Fraction

    def __post_init__(self) -> None:
        if self.low < 0:
            raise FaultsFound([Fault("", f"{as_text(self.low)}; the size of an error is 0 or more")])
        if self.low > self.high:
            raise FaultsFound(
                [Fault("", f"from {as_text(self.low)} to {as_text(self.high)}; write the smaller one first")]
            )

    @property
    def is_known(self) -> bool:
        """Whether it is one figure and no range."""
        return self.low == self.high


@dataclass(frozen=True, slots=True)
class ErrorSizes:
    """What is known of a head's errors.

    sizes    each with its name, one of MOST, in the order of MOST, none twice
    sources  where some of them are from, in words, each with the name of its size, in the order of MOST

    Raises FaultsFound when a name is not known, a size is beyond belief, or a source has no size.
    """

    sizes: tuple[tuple[str, Size], ...]
    sources: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        faults = []
        for name, size in self.sizes:
            if name not in MOST:
                faults.append(Fault(name, "this is no error of a head that is known here"))
            elif size.high > MOST[name]:
                faults.append(Fault(name, f"{as_text(size.high)}; at most {MOST[name]:,} is believed"))
            elif name in DIAMETERS and not (size.is_known and size.low > 0):
                faults.append(Fault(name, "a diameter is one figure, above 0, in millimetres"))
        told = {name for name, _ in self.sizes}
        faults += [
            Fault(f"from.{name}", "this says where a size is from, and that size is not here")
            for name, _ in self.sources
            if name not in told
        ]
        if faults:
            raise FaultsFound(faults)

    def of(self, name: str) -> Size | None:
        """Return the size with this name, or None where nothing is known of it."""
        return dict(self.sizes).get(name)

    def taking(self, sizes: Mapping[str, Size], source: str) -> "ErrorSizes":
        """Return these sizes with others in the place of some, or beside them.

        source  where the others are from, in words; empty for nowhere that is told
        """
        now = dict(self.sizes) | dict(sizes)
        told = {name: text for name, text in self.sources if name not in sizes}
        told |= dict.fromkeys(sizes, source) if source else {}
        return ErrorSizes(
            tuple((name, now[name]) for name in MOST if name in now),
            tuple((name, told[name]) for name in MOST if name in told),
        )
