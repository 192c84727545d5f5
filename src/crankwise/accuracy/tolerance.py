"""Published tolerances of a gear's pitch: how far out a class allows, and which class was reached.

The formulas of ISO 1328-1 were recalled, not read; so were the limits of its older ranges. What the edition
of 2013 holds for (teeth, diameter, module, helix) was read, in its scope as a catalogue prints it. Whoever
relies on a class must look it up in the standard. Floats are right here: a root of two and a root of
the diameter come in, and the standards print two or three figures.

The pitch of a helical gear is that across its shaft, half-way along the face, and its tolerance goes by the normal
module and the reference diameter (from memory): one formula serves both. The slant of the teeth along the face
has classes of its own, which are not reckoned here.
"""

from bisect import bisect_left
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import cbrt, cos, pi, sqrt

from crankwise.errors import BadNumber

RECALLED = "formula recalled, not read; look it up in the standard before you rely on it"


@dataclass(frozen=True, slots=True)
class GearSize:
    """A spur or helical gear as far as its pitch tolerance depends on it.

    module_mm  the normal one, in millimetres
    helix      helix angle at the reference circle, in turns; 0 for a spur gear
    """

    teeth: int
    module_mm: Fraction
    helix: Fraction = Fraction(0)

    @property
    def diameter_mm(self) -> Fraction:
        """Reference diameter: module times teeth, exactly; over the cosine of a helix, to a millionth of a micrometre.

        >>> float(GearSize(30, Fraction(2), helix=Fraction(30, 360)).diameter_mm)
        69.282032303
        """
        across = self.teeth * self.module_mm
        return round(across / Fraction(cos(float(self.helix) * 2 * pi)), 9) if self.helix else across


@dataclass(frozen=True, slots=True)
class Allowed:
    """What one class allows, in micrometres.

    single_pitch      of any one pitch, to either side
    cumulative_pitch  height of the cumulative curve over the whole circle
    """

    single_pitch: float
    cumulative_pitch: float


@dataclass(frozen=True, slots=True)
class Standard:
    """A standard for the pitch of a gear.

    name     as it is cited
    source   where the formula is from, and how far it is to be trusted
    classes  the classes it has, the finest first
    limits   what it holds for: name, unit, least, greatest
    formula  reference diameter in mm, module in mm and class, to what is allowed
    rounding what the standard rounds its values to, as printed
    """

    name: str
    source: str
    classes: tuple[int, ...]
    limits: tuple[tuple[str, str, float, float], ...]
    formula: Callable[[float, float, int], Allowed]
    rounding: Callable[[float], float]

    def allowed(self, gear: GearSize, grade: int) -> Allowed:
        """Return what a class allows a gear, unrounded. Raises BadNumber when there is no such class."""
        if grade not in self.classes:
            known = ", ".join(map(str, self.classes))
            raise BadNumber("class", f"{grade}; {self.name} has the classes {known}")
        return self.formula(float(gear.diameter_mm), float(gear.module_mm), grade)

    def printed(self, allowed: Allowed) -> Allowed:
        """Return what is allowed as the standard's own tables print it, rounded by its rule."""
        return Allowed(self.rounding(allowed.single_pitch), self.rounding(allowed.cumulative_pitch))

    def outside(self, gear: GearSize) -> tuple[str, ...]:
        """Return what of a gear lies outside the range of the standard, a sentence each."""
        values = {
            "teeth": Fraction(gear.teeth),
            "reference diameter": gear.diameter_mm,
            "module": gear.module_mm,
            "helix angle": gear.helix * 360,
        }
        return tuple(
            f"{what} {float(values[what]):g}{unit} is outside {self.name}, which holds from {least:g} to {most:g}{unit}"
            for what, unit, least, most in self.limits
            if not least <= values[what] <= most
        )


@dataclass(frozen=True, slots=True)
class Reached:
    """The classes that a gear reaches; None where it is rougher than the roughest class.

    gear is the rougher of the two.
    """

    single_pitch: int | None
    cumulative_pitch: int | None

    @property
    def gear(self) -> int | None:
        """The class of the gear: the rougher of the two."""
        if self.single_pitch is None or self.cumulative_pitch is None:
            return None
        return max(self.single_pitch, self.cumulative_pitch)


def class_reached(standard: Standard, gear: GearSize, single_um: float, cumulative_um: float) -> Reached:
    """Return the finest class whose tolerance a gear keeps, as measured or as predicted.

    single_um      largest deviation of a single pitch, either way, in micrometres, 0 or more
    cumulative_um  total cumulative pitch deviation, in micrometres, 0 or more

    The tolerance is taken unrounded. Source: derived; tolerances rise with the class.
    """
    allowed = [standard.allowed(gear, grade) for grade in standard.classes]

    def finest(value: float, limits: list[float]) -> int | None:
        index = bisect_left(limits, value)
        return standard.classes[index] if index < len(limits) else None

    return Reached(
        finest(single_um, [one.single_pitch for one in allowed]),
        finest(cumulative_um, [one.cumulative_pitch for one in allowed]),
    )


def allowed_as_reached(standard: Standard, gear: GearSize | None, reached: Reached | None) -> Allowed | None:
    """Return what the class that a gear reaches allows; None for no gear, or one rougher than every class."""
    if gear is None or reached is None or reached.gear is None:
        return None
    return standard.allowed(gear, reached.gear)


@dataclass(frozen=True, slots=True)
class Judged:
    """A gear held against a standard.

    grade     the class asked for; None where none was
    allowed   what it allows; None without a class
    measured  single and cumulative pitch deviation as measured, in micrometres; None where not
    """

    gear: GearSize
    standard: Standard
    grade: int | None
    allowed: Allowed | None
    measured: Allowed | None

    @property
    def reached(self) -> Reached | None:
        """The classes that the measured gear reaches; None where nothing was measured."""
        if self.measured is None:
            return None
        return class_reached(
            self.standard, self.gear, self.measured.single_pitch, self.measured.cumulative_pitch
        )

    @property
    def outside(self) -> tuple[str, ...]:
        """What of the gear lies outside the standard's range, a sentence each."""
        return self.standard.outside(self.gear)

    @property
    def keeps_it(self) -> bool:
        """Whether the measured gear keeps the class asked for; true where either was not given."""
        if self.allowed is None or self.measured is None:
            return True
        return (
            self.measured.single_pitch <= self.allowed.single_pitch
            and self.measured.cumulative_pitch <= self.allowed.cumulative_pitch
        )


def adjacent_pitch(single_um: float) -> float:
    """Return the tolerance of the difference of two neighbouring pitches, in micrometres.

    Source: ISO 1328-1:2013, annex, recalled: root of 2 times the single pitch tolerance.
    """
    return sqrt(2) * single_um


def runout(cumulative_um: float) -> float:
    """Return the tolerance of the runout, in micrometres.

    Source: ISO 1328-1:2013, annex, recalled: 0.9 times the cumulative pitch tolerance.
    """
    return 0.9 * cumulative_um


def _iso_2013(d: float, m: float, grade: int) -> Allowed:
    """Source: ISO 1328-1:2013, 5.3, from memory, not checked."""
    step = sqrt(2) ** (grade - 5)
    return Allowed((0.001 * d + 0.4 * m + 5) * step, (0.002 * d + 0.55 * sqrt(d) + 0.7 * m + 12) * step)


def _iso_1995(d: float, m: float, grade: int) -> Allowed:
    """Source: ISO 1328-1:1995, annex, from memory, not checked: d and m are the geometric means of their ranges."""
    d, m = _mean_of_range(d, _D_LIMITS), _mean_of_range(m, _M_LIMITS)
    step = sqrt(2) ** (grade - 5)
    return Allowed((0.3 * (m + 0.4 * sqrt(d)) + 4) * step, (0.3 * m + 1.25 * sqrt(d) + 7) * step)


_D_LIMITS = (5, 20, 50, 125, 280, 560, 1000, 1600, 2500, 4000, 6000, 8000, 10000)
_M_LIMITS = (0.5, 2, 3.5, 6, 10, 16, 25, 40, 70)


def _mean_of_range(value: float, limits: tuple[float, ...]) -> float:
    """Return the geometric mean of the range (over .. to) that a value falls in; of the nearest beyond them."""
    index = min(max(bisect_left(limits, value), 1), len(limits) - 1)
    return sqrt(limits[index - 1] * limits[index])


_JIS_1976: Mapping[int, tuple[float, float, float, float]] = {
    1: (0.71, 2, 2.8, 8),
    3: (1.4, 4, 5.6, 16),
    5: (2.8, 8, 11.2, 31.5),
    6: (4, 11.2, 16, 45),
    7: (8, 22.4, 32, 90),
    8: (16, 45, 64, 180),
}


def _jis_1976(d: float, m: float, grade: int) -> Allowed:
    """Source: Elements of Metric Gear Technology, table 15-1; W = cube root of d + 0.65 m, in micrometres."""
    single, single_more, total, total_more = _JIS_1976[grade]
    w = cbrt(d) + 0.65 * m
    return Allowed(single * w + single_more, total * w + total_more)


def _iso_rounding(value: float) -> float:
    """Source: ISO 1328-1, from memory: above 10 to 1, from 5 to 10 to 0.5, below 5 to 0.1 micrometre."""
    unit = 1.0 if value > 10 else 0.5 if value >= 5 else 0.1
    return round(round(value / unit) * unit, 1)


_ISO_LIMITS = (("module", " mm", 0.5, 70.0),)
STANDARDS: Mapping[str, Standard] = {
    "iso-2013": Standard(
        "ISO 1328-1:2013",
        f"ISO 1328-1:2013, 5.3; {RECALLED}",
        tuple(range(1, 12)),
        (
            ("teeth", "", 5, 1000),
            ("reference diameter", " mm", 5, 15000),
            *_ISO_LIMITS,
            ("helix angle", "°", 0, 45),
        ),
        _iso_2013,
        _iso_rounding,
    ),
    "iso-1995": Standard(
        "ISO 1328-1:1995",
        f"ISO 1328-1:1995, annex; {RECALLED}",
        tuple(range(13)),
        (("reference diameter", " mm", 5, 10000), *_ISO_LIMITS),
        _iso_1995,
        _iso_rounding,
    ),
    "jis-1976": Standard(
        "JIS B 1702-1976",
        "Elements of Metric Gear Technology, table 15-1 (JIS B 1702-1976), read",
        tuple(_JIS_1976),
        (),
        _jis_1976,
        lambda value: round(value, 2),
    ),
}
"""By the name that is typed; the first is the one used where none is asked."""
