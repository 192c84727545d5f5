"""How surely a kept calibration tells the errors of its head: each wave's amplitude, and the whole curve."""

from fractions import Fraction
from math import sqrt

from crankwise.accuracy.chances import t_limit
from crankwise.head.known_errors import KnownErrors, spread

PLACES = 719
"""Places all round at which the curve is looked at: a prime number, so that the crank stands elsewhere at each."""


def band(known: KnownErrors, ratio: Fraction) -> float:
    """Return how far the error curve may be out at its least sure place, seen from zero, 19 times in 20, in arcsec.

    ratio  crank turns for one turn of the spindle; 1 where no crank turns

    Source: the standard uncertainty of `KnownErrors.uncertainty` times Student's t (GUM, G.3).
    """
    zero = Fraction(0)
    places = (Fraction(k, PLACES) for k in range(PLACES))
    widest = max(known.uncertainty(place, place * ratio, zero, zero) for place in places)
    return widest * t_limit(known.freedom)


def amplitude_uncertainty(known: KnownErrors, index: int) -> float:
    """Return the standard uncertainty of the amplitude of one harmonic, counted from 0, in seconds of arc.

    Source: the JCGM guide (GUM), 5.2.2, for the length of the vector of cosine and sine.
    """
    one, at = known.harmonics[index], 2 * index
    slope = [0.0] * len(known.covariance)
    amplitude = one.amplitude
    slope[at : at + 2] = (
        [float(one.cosine) / amplitude, float(one.sine) / amplitude] if amplitude else [sqrt(0.5), sqrt(0.5)]
    )
    return sqrt(max(spread(known.covariance, slope), 0.0))
