"""The error budget of a plan: three figures kept apart, the causes ranked, and what would help most."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from crankwise.accuracy.bounds import WORK, Bounds, Deviations, bounds, coarse_bounds, standard_deviations
from crankwise.accuracy.cause_kinds import ROUNDING, best_of
from crankwise.accuracy.pitch_law import PitchLaw
from crankwise.accuracy.sources import SizedCause, causes, laws
from crankwise.accuracy.tolerance import STANDARDS, GearSize, Reached, class_reached
from crankwise.errors import BadDivisions
from crankwise.head.error_sizes import Size
from crankwise.plan.plan import Plan
from crankwise.ways.way import Way

MOST_POSITIONS = 5_000
"""More would take a minute in plain Python, and no rim holds so many that could be measured."""

_WORK_ON_ONE = WORK // 3
"""A few causes have few ranges to fill: within a hundredth of what the whole work gives."""
_CAUSES_TRIED = 2
_LawOf = Callable[[Sequence[SizedCause]], PitchLaw]
_ROUND_SIZES = tuple(
    Fraction(step) * Fraction(10) ** power for power in range(3, -5, -1) for step in (5, 2, 1)
)


@dataclass(frozen=True, slots=True)
class Share:
    """What one cause would do alone.

    name    the cause's name; "rounding" for the way's own
    cause   its size and where that is from; None for the rounding, which is known exactly
    bounds  what 19 parts in 20 would keep if there were nothing else
    """

    name: str
    cause: SizedCause | None
    bounds: Bounds


@dataclass(frozen=True, slots=True)
class Advice:
    """What would help most: bring one cause down to `size`, and the part becomes so good.

    gear_class  the class reached then; None where there is none, or it is no gear
    """

    cause: SizedCause
    size: Fraction
    bounds: Bounds
    gear_class: int | None


@dataclass(frozen=True, slots=True)
class OtherWay:
    """A way of the same job that makes the part better than the one chosen; see `crankwise.accuracy.other_way`.

    bounds      what 19 parts in 20 would keep, divided so
    gear_class  the class reached then; None where there is none, or it is no gear
    """

    way: Way
    bounds: Bounds
    gear_class: int | None


@dataclass(frozen=True, slots=True)
class Budget:
    """How good a part will be, before it is cut.

    rounding    the way's own worst error in turns of the spindle, exact
    head        what the head alone would do; unknown until it is measured
    part        the finished part at the rim: everything together
    deviations  standard deviations, exact
    shares      each cause alone, the largest first
    law         the law that all of this follows from; it can be simulated
    reached     classes of ISO 1328-1:2013 that 19 parts in 20 reach; None when it is no gear
    outside     what of the gear lies outside the range of that standard, a sentence each
    advice      what would help most; empty where nothing would help by a tenth
    other       another way that would do much better; None where there is none, or none was looked for
    """

    plan: Plan
    rim_mm: float
    rounding: Fraction
    head: Bounds
    part: Bounds
    deviations: Deviations
    shares: tuple[Share, ...]
    law: PitchLaw
    gear: GearSize | None
    reached: Reached | None
    outside: tuple[str, ...]
    advice: tuple[Advice, ...]
    other: OtherWay | None = None


def budget(
    plan: Plan,
    rim_mm: float,
    gear: GearSize | None = None,
    asked: Mapping[str, Size] | None = None,
    both_sides: bool = False,
) -> Budget:
    """Return the error budget of a plan.

    rim_mm      diameter at which errors are told, in millimetres, above 0; the pitch diameter of a gear
    gear        what its class depends on; None for a part that is no gear
    asked       sizes of causes by their name, in place of the head file's or the typical ones
    both_sides  whether settings are come up to from either side, so that the backlash counts

    Raises BadDivisions when there are more positions than MOST_POSITIONS.
    """
    count = len(plan.part.divisions)
    if count > MOST_POSITIONS:
        raise BadDivisions("budget", f"{count:,} positions; at most {MOST_POSITIONS:,} are reckoned through")
    found = causes(plan, asked, both_sides)
    law_of = laws(plan, rim_mm)
    law = law_of(found)
    whole = bounds(law)
    standard = STANDARDS["iso-2013"]
    head = [cause for cause in found if cause.kind.group == "head"]
    shares = _shares(law_of, found, law)
    return Budget(
        plan,
        rim_mm,
        plan.way.worst_error,
        bounds(replace(law_of(head), known=(0.0,) * count), _WORK_ON_ONE),
        whole,
        standard_deviations(law),
        shares,
        law,
        gear,
        _class(gear, whole),
        standard.outside(gear) if gear else (),
        tuple(_advice(plan, law_of, found, shares, gear)),
    )


def _class(gear: GearSize | None, part: Bounds) -> Reached | None:
    if gear is None:
        return None
    return class_reached(STANDARDS["iso-2013"], gear, part.single, part.cumulative)


def _shares(law_of: _LawOf, found: tuple[SizedCause, ...], law: PitchLaw) -> tuple[Share, ...]:
    shares = [Share(ROUNDING, None, bounds(replace(law, parts=())))]
    nothing = (0.0,) * len(law.known)
    for cause in found:
        alone = replace(law_of((cause,)), known=nothing)
        shares.append(Share(cause.kind.name, cause, bounds(alone, _WORK_ON_ONE)))
    return tuple(sorted(shares, key=lambda share: -max(share.bounds.cumulative, share.bounds.single)))


def _advice(
    plan: Plan,
    law_of: _LawOf,
    found: tuple[SizedCause, ...],
    shares: tuple[Share, ...],
    gear: GearSize | None,
) -> list[Advice]:
    """Return for the largest causes how far each must come down to help, the most helpful first.

    The largest round size that gains a class is told; where none does, the size that care can reach, if
    either deviation falls by a tenth or more. Before and after are reckoned on the same coarse
    lattice, so that they can be compared.
    """

    def tried(sizes: tuple[SizedCause, ...]) -> tuple[Bounds, int]:
        part = coarse_bounds(law_of(sizes))
        reached = _class(gear, part)
        return part, (reached.gear if reached and reached.gear is not None else 99)

    before, class_before = tried(found)
    if not before.cumulative:
        return []
    advice = []
    for cause in _worst_causes(shares):
        best = best_of(cause.kind, plan.part.work)
        if best >= cause.size.high:
            continue

        def with_size(size: Fraction, cause: SizedCause = cause) -> Advice:
            cured = replace(cause, size=Size(min(cause.size.low, size), size), known_from="asked")
            part, reached = tried(tuple(cured if one is cause else one for one in found))
            return Advice(cause, size, part, reached if reached < 99 else None)

        last = with_size(best)
        if (last.gear_class or 99) < class_before:
            last = _easiest(with_size, cause, last)
        falls = min(
            after / was
            for after, was in (
                (last.bounds.single, before.single),
                (last.bounds.cumulative, before.cumulative),
            )
            if was
        )
        if (last.gear_class or 99) < class_before or falls < 0.9:
            advice.append(last)
    return sorted(advice, key=lambda one: (one.gear_class or 99, one.bounds.cumulative))


def _worst_causes(shares: tuple[Share, ...]) -> list[SizedCause]:
    """Return the causes that do most to the cumulative curve, then those that do most to a single pitch."""
    found: list[SizedCause] = []
    for figure in ("cumulative", "single"):
        ranked = sorted(shares, key=lambda share: -float(getattr(share.bounds, figure)))
        # What the calibration says has no size that care could bring down.
        largest = [share.cause for share in ranked if share.cause and share.cause.kind.size][:_CAUSES_TRIED]
        found += [cause for cause in largest if cause not in found]
    return found


def _easiest(with_size: Callable[[Fraction], Advice], cause: SizedCause, best: Advice) -> Advice:
    """Return the largest round size that gains as good a class as the best size does."""
    sizes = [size for size in _ROUND_SIZES if best.size < size < cause.size.high]
    low, high = 0, len(sizes)  # sizes fall; the class never gets worse as they do
    found = best
    while low < high:
        middle = (low + high) // 2
        here = with_size(sizes[middle])
        if here.gear_class is not None and here.gear_class <= (best.gear_class or 99):
            found, high = here, middle
        else:
            low = middle + 1
    return found
