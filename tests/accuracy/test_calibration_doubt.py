"""How surely a calibration knows its errors, against laws simple enough to be worked out on paper."""

from fractions import Fraction

import pytest

from crankwise.accuracy.calibration_doubt import amplitude_uncertainty, band
from crankwise.head.known_errors import Harmonic, KnownErrors, Of

T_10 = 2.228
"""Student's t for 10 degrees of freedom, 95 % to either side; printed in any table."""


def known(of: Of, cosine: int, sine: int, *lower: tuple[int, ...]) -> KnownErrors:
    rows = tuple(tuple(map(Fraction, row)) for row in lower)
    harmonic = Harmonic(of, 1, Fraction(cosine), Fraction(sine))
    return KnownErrors("2026-03-14", (harmonic,), rows, 10, Fraction(1))


@pytest.mark.parametrize(("of", "ratio"), [("wheel", 1), ("worm", 40)])
def test_a_wave_is_least_sure_half_a_turn_from_the_zero(of: Of, ratio: int) -> None:
    # There the cosine goes from 1 to -1: twice its doubt of 3 seconds.
    assert band(known(of, 30, 40, (9,), (0, 9)), Fraction(ratio)) == pytest.approx(2 * 3 * T_10, rel=2e-4)


def test_an_amplitude_is_as_sure_as_the_part_that_lies_along_it() -> None:
    # Along 3, 4 the doubts are 0.6 and 0.8 of those of cosine and sine: 0.36 x 25 + 0.64 x 100 + 2 x 0.48 x 20.
    assert amplitude_uncertainty(known("wheel", 3, 4, (25,), (20, 100)), 0) == pytest.approx(92.2**0.5)


def test_no_amplitude_is_as_unsure_as_either_way() -> None:
    assert amplitude_uncertainty(known("wheel", 0, 0, (9,), (0, 9)), 0) == pytest.approx(3)
