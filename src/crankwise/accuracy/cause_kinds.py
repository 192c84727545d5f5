"""The causes of error that are known by name: whose each is, its unit, what is typical of it.

Typical sizes are those of a home shop, from common practice and judgement; they are no standard.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from crankwise.head.error_sizes import Size
from crankwise.part.part import Work

Group = Literal["way", "head", "reading", "work"]
Unit = Literal["arcsec", "mm", "mark", "mm in 100"]

ROUNDING = "rounding"


@dataclass(frozen=True, slots=True)
class Kind:
    """One cause of error.

    name     its stable name, for programs
    size     its name among a head's error sizes
    group    whose it is: of the way, the head, the reading, or of the work and how it is held
    unit     of its size
    typical  low and high, of a home shop; judgement unless `source` says more
    best     what care or a cure can reach
    source   where the typical range is from
    """

    name: str
    size: str
    group: Group
    unit: Unit
    typical: tuple[str, str]
    best: str
    source: str = "common practice, no source"


KINDS: Mapping[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind("worm", "worm_arcsec", "head", "arcsec", ("10", "60"), "5"),
        Kind("worm-twice", "worm_twice_arcsec", "head", "arcsec", ("2", "15"), "1"),
        Kind("wheel", "wheel_arcsec", "head", "arcsec", ("20", "120"), "10"),
        Kind("wheel-teeth", "wheel_tooth_arcsec", "head", "arcsec", ("10", "40"), "5"),
        Kind("dial-off-centre", "dial_off_centre_mm", "head", "mm", ("0.02", "0.1"), "0.01"),
        Kind("ring-off-centre", "ring_off_centre_mm", "head", "mm", ("0.02", "0.1"), "0.01"),
        Kind("index-pin", "pin_mm", "head", "mm", ("0.01", "0.05"), "0.01"),
        Kind("detent", "detent_arcsec", "head", "arcsec", ("20", "120"), "10"),
        Kind("lock", "lock_arcsec", "head", "arcsec", ("2", "10"), "1"),
        Kind("backlash", "backlash_arcsec", "head", "arcsec", ("120", "1200"), "30"),
        Kind("reading", "reading_marks", "reading", "mark", ("0.05", "0.1"), "0.03"),
        Kind("reading-pull", "reading_pull_marks", "reading", "mark", ("0", "0.05"), "0.01"),
        Kind("parallax", "parallax_mm", "reading", "mm", ("0", "0.1"), "0.02"),
        Kind("work-off-centre", "work_off_centre_mm", "work", "mm", ("0.025", "0.05"), "0.0025"),
        Kind("tilt", "tilt_mm_in_100", "work", "mm in 100", ("0.02", "0.1"), "0.01"),
        Kind("tool", "tool_mm", "work", "mm", ("0.002", "0.005"), "0.001"),
    )
}

CALIBRATION = Kind(
    "calibration", "", "head", "arcsec", ("0", "5"), "0.5", "the fit's own covariance: derived"
)
"""What a correction leaves in doubt. No size of it is kept: it follows from the calibration."""

FURTHER_WAVES = Kind("further-waves", "", "head", "arcsec", ("2", "20"), "1", "as measured")
"""Waves that were measured beyond those with a name of their own, where settings do not make them good."""

USUAL_DIAMETERS = {"dial_diameter_mm": "60", "ring_diameter_mm": "120", "plate_diameter_mm": "120"}

HOLDINGS: Mapping[str, tuple[str, str]] = {
    "chuck": ("0.025", "0.05"),
    "collet": ("0.005", "0.015"),
    "arbor": ("0.0025", "0.005"),
    "turned-in-place": ("0", "0.0025"),
}
"""How far off centre work usually is, in mm: half of the total indicator reading. Common practice, no source."""

TOOLS: Mapping[Work, tuple[str, str]] = {
    "space": ("0.002", "0.005"),
    "line": ("0.01", "0.03"),
    "hole": ("0.01", "0.05"),
    "flat": ("0.002", "0.005"),
    "position": ("0.002", "0.005"),
}
"""How far beside its place a tool cuts, in mm: a cutter, a scriber, a drill. Common practice, no source."""

_TOOL_AT_BEST: Mapping[Work, str] = {"line": "0.005", "hole": "0.005"}
"""What care can reach with a scriber or a drill; a cutter is held nearer. Judgement."""


def best_of(kind: Kind, work: Work) -> Fraction:
    """Return what care or a cure can bring a cause down to, in its unit, where this is made."""
    return Fraction(_TOOL_AT_BEST.get(work, kind.best) if kind.name == "tool" else kind.best)


def size_of(low: str, high: str) -> Size:
    """Return a size from two decimal texts."""
    return Size(Fraction(low), Fraction(high))
