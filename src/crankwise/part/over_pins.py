"""Measurement over two pins laid in opposite spaces: what a micrometer reads across them.

The pin touches a flank on either side; its centre lies on the involute that a point carried out by the
pin's radius would draw. With an odd count two spaces never lie quite opposite, and the reading is shorter.
A helical gear of an odd count is read over balls, which must be held in one plane across the shaft: pressed, they
would roll along the spaces and read less. Floats, good to about 1e-13.
Source: ISO 21771 (dimension over balls), from memory.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import acos, atan, cos, pi, tan

from crankwise.part.gear import Gear
from crankwise.part.involute import inverse_involute, involute


@dataclass(frozen=True, slots=True)
class OverPins:
    """Two pins in a gear.

    pin_mm      diameter of a pin
    over_mm     what is read across both
    contact_mm  diameter at which a pin touches the flanks
    centre_mm   diameter of the circle that the pins' centres stand on
    trouble     why this pin cannot be used: "deep" it lies too low or touches the bottom, "high" it rides on
                the tips, "sunk" it does not stand proud of the outside; empty when it can
    """

    pin_mm: Fraction
    over_mm: float
    contact_mm: float
    centre_mm: float
    trouble: str

    @property
    def is_usable(self) -> bool:
        """Whether the pin touches both flanks, clears the bottom and stands proud."""
        return not self.trouble


def over_pins(gear: Gear, pin_mm: Fraction) -> OverPins | None:
    """Return the measurement over two pins of this diameter; None where a pin falls through to the bottom.

    pin_mm  above 0

    Source: inv(angle at centre) = inv(pressure angle) + pin / (teeth x module x cos) - half the space.
    """
    centre_involute = float(pin_mm) / _teeth_times_base_module(gear) - _half_space_at_base(gear)
    if centre_involute <= 0:
        return None
    angle = inverse_involute(centre_involute)
    base = gear.base_diameter_mm
    centre = base / cos(angle)
    contact = base / cos(atan(tan(angle) - float(pin_mm) / _teeth_times_base_module(gear)))
    return OverPins(
        pin_mm,
        _across(gear, centre) + float(pin_mm),
        contact,
        centre,
        _trouble(gear, pin_mm, contact, centre),
    )


def best_pin_mm(gear: Gear) -> float:
    """Return the pin, in mm, that touches in the middle of the flank: at the reference circle and the shift.

    Source: derived; the pin's centre lies on the base tangent through the point touched.
    """
    middle = max(float(gear.pitch_diameter_mm + 2 * gear.shift_mm), gear.base_diameter_mm)
    return _pin_touching(gear, min(middle, float(gear.outside_diameter_mm)))


def pin_limits_mm(gear: Gear) -> tuple[float, float]:
    """Return the pins, in mm, that touch where the involute begins and at the tips: use one well between."""
    return _pin_touching(gear, gear.form_diameter_mm), _pin_touching(gear, float(gear.outside_diameter_mm))


def usable_pins_mm(gear: Gear) -> tuple[float, float]:
    """Return the thinnest and the thickest pin, in mm, that can be used.

    Such a pin touches the flanks within the involute, clears the bottom and stands proud. Both are 0 where none
    can. By halving, to a thousandth of the module: a thicker pin stands higher in every way.
    """
    _, most = pin_limits_mm(gear)
    if not _stands_proud(gear, most):
        return 0.0, 0.0
    low, high = 0.0, most
    while high - low > float(gear.normal_module_mm) / 1000:
        middle = (low + high) / 2
        low, high = (low, middle) if _stands_proud(gear, middle) else (middle, high)
    return high, most


def _stands_proud(gear: Gear, pin_mm: float) -> bool:
    pin = over_pins(gear, Fraction(pin_mm)) if pin_mm > 0 else None
    return pin is not None and pin.trouble in ("", "high")


def thickness_from_pins(gear: Gear, pin_mm: Fraction, read_mm: float) -> float | None:
    """Return the tooth thickness at the reference circle, normal section, in mm, that a reading means.

    None where the pins' centres would then stand inside the base circle: nobody can have read that.
    """
    centre = (read_mm - float(pin_mm)) / _across(gear, 1.0)
    if centre <= gear.base_diameter_mm:
        return None
    half_space = float(pin_mm) / _teeth_times_base_module(gear) - involute(
        acos(gear.base_diameter_mm / centre)
    )
    return gear.tooth_thickness_mm + (_half_space_at_base(gear) - half_space) * gear.teeth * float(
        gear.normal_module_mm
    )


def _across(gear: Gear, centre_mm: float) -> float:
    return centre_mm if gear.teeth % 2 == 0 else centre_mm * cos(pi / (2 * gear.teeth))


def _half_space_at_base(gear: Gear) -> float:
    """Half the angle that a space takes up at the base circle, in radians; below 0 where teeth meet there."""
    return pi / gear.teeth - gear.half_tooth_at_base


def _teeth_times_base_module(gear: Gear) -> float:
    return gear.base_diameter_mm * cos(gear.base_helix)


def _pin_touching(gear: Gear, diameter_mm: float) -> float:
    roll = tan(acos(min(1.0, gear.base_diameter_mm / diameter_mm)))
    angle = roll + _half_space_at_base(gear)
    return (
        _teeth_times_base_module(gear) * (involute(angle) + _half_space_at_base(gear)) if angle > 0 else 0.0
    )


def _trouble(gear: Gear, pin_mm: Fraction, contact: float, centre: float) -> str:
    if contact > float(gear.outside_diameter_mm):
        return "high"
    if contact < gear.form_diameter_mm or centre - float(pin_mm) <= float(gear.root_diameter_mm):
        return "deep"
    return "" if centre + float(pin_mm) > float(gear.outside_diameter_mm) else "sunk"
