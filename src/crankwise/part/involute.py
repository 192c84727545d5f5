"""The involute function and its inverse, in radians.

Floats: flanks are no rational curves. Both are good to about 1e-15 of their value, except that an
angle found from an involute below 1e-6 loses digits with the cube root (1e-10 and better still).
"""

from math import atan, isfinite, pi, tan


def involute(angle: float) -> float:
    """Return inv = tan(angle) - angle, for a pressure angle in radians, 0 to below pi / 2.

    Source: definition of the curve; ISO 21771, from memory.
    """
    return tan(angle) - angle


def inverse_involute(value: float) -> float:
    """Return the pressure angle in radians whose involute is `value`, 0 or more.

    Newton's method. The function is convex and the start lies above the root, so each step comes
    nearer from above; it ends where a step no longer changes the figure.

    >>> from math import degrees, radians
    >>> round(degrees(inverse_involute(involute(radians(20)))), 12)
    20.0
    """
    assert value >= 0
    assert isfinite(value)
    if value == 0:
        return 0.0
    angle = atan(value + pi / 2)
    while True:
        slope = tan(angle) ** 2
        nearer = angle - (tan(angle) - angle - value) / slope
        if nearer >= angle:
            return angle
        angle = nearer
