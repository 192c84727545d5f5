"""Ground floor: numbers, angles and lengths, read and kept without loss.

An angle is a `Fraction` of a turn, a length a `Fraction` of a millimetre, a ratio a `Fraction`.
Nothing here rounds for show (that is `wording`); the one thing that is not exact, the number pi,
is a fraction good to fifty digits and says so.
"""
