"""How good a job's part will be: its error budget, at the rim that it is told at."""

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from crankwise.accuracy.budget import Budget, budget
from crankwise.accuracy.other_way import other_way
from crankwise.accuracy.tolerance import GearSize
from crankwise.errors import BadDivisions, BadLength
from crankwise.exact.length import read_diameter
from crankwise.head.error_sizes import Size
from crankwise.part.gear import Gear
from crankwise.plan.corrected import corrected_ways
from crankwise.plan.plan import Plan
from crankwise.tasks.divide import Division
from crankwise.tasks.part_kinds import MadePart
from crankwise.tasks.what_if import AS_IT_IS, WhatIf
from crankwise.ways.ranking import is_within


def gear_of(made: MadePart) -> Gear | None:
    """Return the spur or helical gear that a part is; None for any other part."""
    return made.value if isinstance(made.value, Gear) else None


def gear_size(gear: Gear | None) -> GearSize | None:
    """Return a gear as far as its class depends on it; None for any other part."""
    if gear is None:
        return None
    module_mm = gear.normal_module_mm
    if not isinstance(module_mm, Fraction):
        # Of a gear told across its shaft it is no exact figure: to a millionth of a micrometre.
        module_mm = round(Fraction(module_mm), 9)
    return GearSize(gear.teeth, module_mm, gear.helix)


def needs_rim(plan: Plan, gear: Gear | None) -> bool:
    """Return whether a diameter must be typed before errors round the part can be told as lengths."""
    return plan.part.rim_mm is None and not plan.part.is_straight and gear_size(gear) is None


def job_rim(plan: Plan, gear: GearSize | None, typed: str = "") -> Fraction:
    """Return the diameter at which errors are told, in mm: of the gear, of the part, or as typed.

    Raises BadLength when there is none, or it cannot be read; BadDivisions for work along a slide.
    """
    if plan.part.is_straight:
        raise BadDivisions(
            "accuracy",
            "this job steps along a line; the errors reckoned here are those of a circle that is divided. "
            "What counts along a line is the screw: measure its pitch over the length of the work",
        )
    if gear:
        return gear.diameter_mm
    if typed:
        return read_diameter(typed, "rim")
    if plan.part.rim_mm is None:
        raise BadLength(
            "rim", "this job names none, and errors are told as lengths there; write the diameter, as 150mm"
        )
    return plan.part.rim_mm


def job_budget(plan: Plan, gear: Gear | None = None, rim: str = "", what_if: WhatIf = AS_IT_IS) -> Budget:
    """Return the error budget of a job.

    gear     that the part is, from which its class follows; None for any other part
    rim      as typed, for a part that has none
    what_if  sizes to reckon with in place of the head file's and the typical ones

    Raises BadLength, BadDivisions.
    """
    size = gear_size(gear)
    sizes = tuple(sorted(what_if.sizes.items(), key=lambda one: one[0]))
    return _reckoned(plan, job_rim(plan, size, rim), size, sizes, what_if.both_sides)


def beside_other_ways(found: Budget, division: Division, what_if: WhatIf = AS_IT_IS) -> Budget:
    """Return the budget with the other way of the same job that would do much better, where there is one.

    Of a head that was measured, settings corrected for what was found are tried too.
    """
    head, tolerance = division.head, division.tolerance
    ways = [way for way in division.ways if tolerance is None or is_within(way, tolerance)]
    if head.known_errors and not found.plan.way.corrects:
        ways += division.left_of(corrected_ways(head, division.part.divisions, tolerance))[:1]
    return replace(found, other=other_way(found, ways, what_if.sizes, what_if.both_sides))


@lru_cache(8)
def _reckoned(
    plan: Plan, rim_mm: Fraction, gear: GearSize | None, sizes: tuple[tuple[str, Size], ...], both_sides: bool
) -> Budget:
    """Return the budget, kept for the next page that asks the same: it takes half a second."""
    return budget(plan, float(rim_mm), gear, dict(sizes), both_sides)
