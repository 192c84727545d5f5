"""Span over some teeth: what a calliper or disc micrometer reads across their outer flanks.

The jaws touch two flanks along a tangent of the base cylinder, so the blank's own diameter does not come
in, and a jaw that is a little high or low reads the same. Floats, good to about 1e-13 of the span.
Source: ISO 21771 (base tangent length), from memory; the count of teeth is derived, and is the handbooks' rule.
"""

from dataclasses import dataclass
from math import cos, floor, pi, sin, sqrt

from crankwise.part.gear import Gear

_A_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class Span:
    """One span.

    teeth       teeth that it covers
    length_mm   what is read
    contact_mm  diameter at which the jaws touch the flanks
    is_usable   whether they touch on the flank: within its involute, and inside the outside diameter
    face_mm     a helical gear must be wider than this, or one jaw falls off the end; 0 for a spur gear
    """

    teeth: int
    length_mm: float
    contact_mm: float
    is_usable: bool
    face_mm: float


def span(gear: Gear, teeth: int) -> Span:
    """Return the span over so many teeth, 1 or more.

    Source: (k - 1) base pitches and one tooth thickness at the base cylinder, in the normal section.
    """
    assert teeth >= 1
    length = (teeth - 1) * base_pitch_mm(gear) + _tooth_at_base(gear)
    contact = sqrt(gear.base_diameter_mm**2 + (length * cos(gear.base_helix)) ** 2)
    on_flank = gear.form_diameter_mm <= contact <= float(gear.outside_diameter_mm)
    return Span(teeth, length, contact, on_flank and 2 <= teeth < gear.teeth, length * sin(gear.base_helix))


def best_span(gear: Gear) -> Span | None:
    """Return the span whose jaws touch nearest to the middle of the flank; None where none can be measured.

    The middle is the reference circle, carried out by the profile shift. Halves go to more teeth.
    """
    middle = float(gear.pitch_diameter_mm + 2 * gear.shift_mm)
    length = sqrt(max(0.0, middle**2 - gear.base_diameter_mm**2)) / cos(gear.base_helix)
    best = max(2, floor((length - _tooth_at_base(gear)) / base_pitch_mm(gear) + 1.5 + _A_HAIR))
    near = (span(gear, teeth) for teeth in (best, best - 1, best + 1) if teeth >= 2)
    return next((one for one in near if one.is_usable), None)


def spans_about(gear: Gear, teeth: int) -> tuple[Span, ...]:
    """Return a span and its two neighbours, as far as they can be measured at all."""
    return tuple(
        one
        for one in (span(gear, count) for count in (teeth - 1, teeth, teeth + 1) if count >= 2)
        if one.teeth == teeth or one.is_usable
    )


def thickness_from_span(gear: Gear, teeth: int, read_mm: float) -> float:
    """Return the tooth thickness at the reference circle, normal section, in mm, that a read span means."""
    return gear.tooth_thickness_mm + (read_mm - span(gear, teeth).length_mm) / cos(gear.normal_pressure_angle)


def base_pitch_mm(gear: Gear) -> float:
    """Return how far one flank is from the next, square to both, normal section, in mm: a tooth more of a span.

    Source: ISO 21771, normal base pitch.
    """
    return pi * float(gear.normal_module_mm) * cos(gear.normal_pressure_angle)


def _tooth_at_base(gear: Gear) -> float:
    return gear.base_diameter_mm * gear.half_tooth_at_base * cos(gear.base_helix)
