"""How deep to cut: corrected for the blank as it is, and what is left when a tooth still measures thick.

A cutter set by touching the rim goes wrong by half of what the blank is out: too deep on a small blank,
every tooth thin. And a tooth that measures thick is put right by going deeper on the same zero.
Source: derived; common practice says the same. A rack-shaped flank makes the rule exact; a form cutter's
flank follows it closely for the tenths of a millimetre that are in question.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import tan

from crankwise.part.card import Quantity
from crankwise.part.gear import Gear


def cutting_depth_mm(gear: Gear, outside_mm: Quantity | None = None) -> Quantity:
    """Return the depth from a touch on the rim, in mm: whole depth, thinning, and half the blank's excess.

    outside_mm  the blank's diameter as measured, in mm; None for the nominal one
    """
    over = Fraction(0) if outside_mm is None else (outside_mm - gear.outside_diameter_mm) / 2
    return gear.whole_depth_mm + gear.thinning_infeed_mm + over


def infeed_left_mm(gear: Gear, thickness_mm: float) -> float:
    """Return how much deeper to go, in mm, for a tooth whose thickness measures so; below 0, too deep already.

    thickness_mm  arc thickness at the reference circle, normal section, as a measurement gave it

    Both flanks move in by tan(pressure angle) for each millimetre of depth.
    """
    return (thickness_mm - gear.tooth_thickness_mm) / (2 * tan(gear.normal_pressure_angle))


def believed_infeed_mm(gear: Gear, thickness_mm: float | None) -> float | None:
    """Return how much deeper to go, as `infeed_left_mm` does, or None where no tooth that was cut measures so.

    That is over a module out of its thickness.

    thickness_mm  None where the reading belongs to no thickness at all

    Source: judgement; a module is most of a tooth, so that a reading beyond it is mistyped or in the wrong unit.
    """
    if thickness_mm is None or abs(thickness_mm - gear.tooth_thickness_mm) > float(gear.normal_module_mm):
        return None
    return infeed_left_mm(gear, thickness_mm)


@dataclass(frozen=True, slots=True)
class Cut:
    """One pass over all the spaces.

    name      rough or finish; the trace before them has no depth to speak of
    depth_mm  depth from the touch on the rim, in mm
    """

    name: str
    depth_mm: Fraction


def cuts(depth_mm: Quantity, module_mm: Quantity, deepest_cut_mm: Fraction = Fraction(2)) -> tuple[Cut, ...]:
    """Return the depths of the passes, all from the same zero: equal roughing cuts, then a light finish.

    depth_mm        the whole depth to reach, above 0
    module_mm       sets what is left for the finish: a fifth of it, held between 0.1 and 0.3 mm
    deepest_cut_mm  the deepest roughing cut that the machine takes in good order, above 0

    Source: common practice (a finish of 0.1 to 0.3 mm from the same zero); the fifth of a module is judgement.
    """
    assert depth_mm > 0
    assert deepest_cut_mm > 0
    whole = Fraction(depth_mm)
    finish = min(max(Fraction(module_mm) / 5, Fraction(1, 10)), Fraction(3, 10), whole / 3)
    count = -(-(whole - finish) // deepest_cut_mm)
    roughed = ((whole - finish) * number / count for number in range(1, count + 1))
    return (*(Cut("rough", depth) for depth in roughed), Cut("finish", whole))
