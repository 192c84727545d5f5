"""What a measurement of the head changes in its budget: what it found, what it makes good, what it leaves in doubt.

Where settings are corrected, the measured waves are gone from the part, but for what is not known of them.
Where they are not, the waves count as large as they were measured; where they stand on the part is then
left to chance, since nothing says at which place of the ring the run begins.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import cos, hypot, pi, sin, sqrt

from crankwise.accuracy.chances import t_limit
from crankwise.accuracy.pitch_law import TO_EITHER_SIDE_95, Doubt, Range, Scatter, Wave
from crankwise.head.error_sizes import Size
from crankwise.head.known_errors import Harmonic, KnownErrors
from crankwise.plan.plan import Plan

_NAMED = {("worm", 1): "worm", ("worm", 2): "worm-twice", ("wheel", 1): "wheel"}
_MOST_PLACES = 360


@dataclass(frozen=True, slots=True)
class FoundOut:
    """What a calibration says of the causes of error.

    made_good  causes, by name, that corrected settings take out
    sizes      causes that it measured, where nothing else in the head file says their size
    doubt      what corrected settings leave in doubt, 19 times in 20, in seconds of arc; 0 for none
    further    size of the measured waves that have no name of their own, together, in seconds of arc; 0 for none
    told_by    which calibration says so
    """

    made_good: frozenset[str] = frozenset()
    sizes: dict[str, Size] = field(default_factory=dict)
    doubt: Fraction = Fraction(0)
    further: Fraction = Fraction(0)
    told_by: str = ""


def found_out(plan: Plan, turns_worm: bool) -> FoundOut:
    """Return what the head's calibration says of the causes that this plan meets.

    turns_worm  whether the way moves the work by the worm, so that the errors of worm and wheel count
    """
    measured = plan.head.known_errors
    if measured is None:
        return FoundOut()
    names = {name for one in measured.harmonics if (name := _NAMED.get((one.of, one.order)))}
    if measured.table:
        names.add("wheel")
    told_by = f"calibration of {measured.date}"
    # Whatever a tooth of the wheel is out by is in what the readings scatter about the waves.
    teeth = _thousandths(TO_EITHER_SIDE_95 * float(measured.residual))
    sizes = {"wheel-teeth": Size(Fraction(0), teeth)}
    if plan.way.corrects:
        return FoundOut(frozenset(names), sizes, _thousandths(_doubt(measured, plan)), told_by=told_by)
    sizes |= {name: _exactly(_amplitude(measured, name)) for name in names}
    beyond = hypot(*(one.amplitude for one in _further(measured)))
    further = _thousandths(beyond) if turns_worm else Fraction(0)
    return FoundOut(sizes=sizes, further=further, told_by=told_by)


def _thousandths(value: float) -> Fraction:
    return Fraction(f"{value:.3f}")


def _exactly(value: float) -> Size:
    return Size(_thousandths(value), _thousandths(value))


def _amplitude(measured: KnownErrors, name: str) -> float:
    if name == "wheel" and measured.table:
        return measured.swing("wheel") / 2
    return next(one.amplitude for one in measured.harmonics if _NAMED.get((one.of, one.order)) == name)


def _further(measured: KnownErrors) -> list[Harmonic]:
    """Return the waves without a name; those of the wheel are in its table's swing where there is one."""
    return [
        one
        for one in measured.harmonics
        if (one.of, one.order) not in _NAMED and not (one.of == "wheel" and measured.table)
    ]


def _doubt(measured: KnownErrors, plan: Plan) -> float:
    """Return how far from its place, as seen from the first, the least sure position may be, 19 times in 20."""
    places = [reached.achieved for reached in plan.way.reached()]
    ratio, start = plan.head.ratio or Fraction(1), places[0]
    some = places[:: -(-len(places) // _MOST_PLACES)]
    worst = max(measured.uncertainty(one, one * ratio, start, start * ratio) for one in some)
    return worst * t_limit(measured.freedom)


def doubts(
    measured: KnownErrors, wheel: Sequence[float], crank: Sequence[float], scale: float
) -> Iterator[Doubt | Scatter]:
    """Yield what a correction leaves in doubt: the coefficients' whole covariance, and the scatter of a table.

    wheel, crank  where each position stands on them, in turns
    scale         micrometres at the rim that a second of arc comes to

    The chances are widened as Student's t is over the normal law, since few readings leave the scatter
    itself in doubt. Source: GUM 5.2 for the covariance, G.3 for t; the root of the covariance by Cholesky.
    """
    wider = scale * t_limit(measured.freedom) / TO_EITHER_SIDE_95
    waves = [
        [turning(2 * pi * one.order * place) for place in (wheel if one.of == "wheel" else crank)]
        for one in measured.harmonics
        for turning in (cos, sin)
    ]
    for column in zip(*lower_root(measured.covariance), strict=True):
        curve = [0.0] * len(wheel)
        for weight, wave in zip(column, waves, strict=True):
            curve = [total + weight * wider * one for total, one in zip(curve, wave, strict=True)]
        if any(curve):
            yield Doubt(tuple(curve))
    if measured.table and measured.residual:
        spread = float(measured.residual) * TO_EITHER_SIDE_95 * wider
        yield Scatter(Range(spread, spread), (1.0,) * len(wheel))


def lower_root(lower: Sequence[Sequence[Fraction]]) -> list[list[float]]:
    """Return the triangle L, as full rows, with L times its transpose equal to a covariance.

    lower  its lower triangle, row by row

    A direction in which nothing is left in doubt gives a column of noughts. Source: Cholesky's, any book on
    linear algebra.
    """
    count = len(lower)
    root = [[0.0] * count for _ in range(count)]
    for i, row in enumerate(lower):
        for j in range(i + 1):
            left = float(row[j]) - sum(root[i][k] * root[j][k] for k in range(j))
            if i == j:
                root[i][i] = sqrt(left) if left > 1e-12 * max(float(row[i]), 0.0) else 0.0
            elif root[j][j]:
                root[i][j] = left / root[j][j]
    return root


def further_waves(
    measured: KnownErrors, wheel: Sequence[float], crank: Sequence[float], scale: float
) -> Iterator[Wave]:
    """Yield the measured waves that have no name of their own; parameters as for `doubts`."""
    for one in _further(measured):
        places, size = wheel if one.of == "wheel" else crank, scale * one.amplitude
        yield Wave(Range(size, size), tuple(one.order * place for place in places))
