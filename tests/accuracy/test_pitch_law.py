"""The law against an independent library of uncertainties, and against sums done by hand."""

from math import cos, pi, sin, sqrt
from typing import Any

import pytest
from uncertainties import ufloat

from crankwise.accuracy.bounds import standard_deviations
from crankwise.accuracy.pitch_law import Doubt, PitchLaw, Pull, Range, Scatter, Wave, pitch_deviations
from crankwise.accuracy.sources import causes, pitch_law
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.corrected import corrected_ways
from crankwise.plan.plan import Plan
from tests.accuracy.plans import KNOWN, bench_plan
from tests.accuracy.test_corrected_budget import FINE_HEAD
from tests.gear import head

SURE = 1.959963984540054


def errors_as_uncertain_values(law: PitchLaw) -> list[Any]:
    """Return the error of each position, each chance one variable of the library."""
    errors: list[Any] = list(law.known)
    for part in law.parts:
        if isinstance(part, Doubt):
            doubt = ufloat(0, 1)
            errors = [error + doubt * curve for error, curve in zip(errors, part.curve, strict=True)]
            continue
        square = (part.size.low**2 + part.size.low * part.size.high + part.size.high**2) / 3
        if isinstance(part, Wave):
            # size cos(x + phase) with any phase is a cos x + b sin x, a and b of variance size^2 / 2.
            a, b = ufloat(0, sqrt(square / 2)), ufloat(0, sqrt(square / 2))
            errors = [
                error + a * cos(2 * pi * turn) + b * sin(2 * pi * turn)
                for error, turn in zip(errors, part.cycles, strict=True)
            ]
        elif isinstance(part, Pull):
            middle, spread = (part.size.low + part.size.high) / 2, (part.size.high - part.size.low) / sqrt(12)
            size = ufloat(middle, spread) if spread else middle
            errors = [error + size * curve for error, curve in zip(errors, part.curve, strict=True)]
        else:
            errors = [
                error + ufloat(0, sqrt(square) / SURE * weight)
                for error, weight in zip(errors, part.weight, strict=True)
            ]
    return errors


def corrected_plan(teeth: int) -> Plan:
    way = corrected_ways(head(FINE_HEAD), EqualDivisions(teeth))[0]
    return Plan(Part(EqualDivisions(teeth), None, "space"), way)


@pytest.mark.parametrize("teeth", [7, 20, 59])
@pytest.mark.parametrize("kind", ["typical", "known", "corrected"])
def test_means_and_standard_deviations_are_those_of_the_uncertainties_library(teeth: int, kind: str) -> None:
    plan = corrected_plan(teeth) if kind == "corrected" else bench_plan(teeth, KNOWN * (kind == "known"))
    law = pitch_law(plan, causes(plan), float(teeth))
    errors = errors_as_uncertain_values(law)
    for after, before in [*law.neighbours(), (teeth // 2, 0), (teeth - 1, teeth // 3)]:
        difference = errors[after] - errors[before]
        assert law.variance(after, before) == pytest.approx(difference.std_dev**2, rel=1e-9)
        assert law.mean(after, before) == pytest.approx(difference.nominal_value, rel=1e-9, abs=1e-9)
    worst = max((errors[after] - errors[before]).std_dev for after, before in law.neighbours())
    assert standard_deviations(law).single == pytest.approx(worst, rel=1e-9)


def test_a_position_against_itself_is_sure() -> None:
    law = PitchLaw(
        (1.0, 2.0),
        (Wave(Range(3, 4), (0.1, 0.7)), Scatter(Range(1, 1), (1, 1)), Pull(Range(0, 1), (0.2, 0.3))),
        goes_round=True,
    )
    assert law.variance(1, 1) == 0
    assert law.mean(1, 1) == 0


def test_pitches_go_round_only_where_the_part_does() -> None:
    assert pitch_deviations([0.0, 1.0, 3.0], goes_round=True) == [1, 2, -3]
    assert pitch_deviations([0.0, 1.0, 3.0], goes_round=False) == [1, 2]
    assert pitch_deviations([5.0], goes_round=True) == []
