"""A cone unrolled by brute force: thin triangles round its apex, laid flat one beside the next.

Plain geometry of points in space; no formula of a cone's development is used, and nothing of the package.
"""

from math import cos, pi, radians, sin

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
_TRIANGLES = 200_000


class UnrolledCone:
    """A cone whose reading edge has this diameter, its slant so many degrees from its axis; the apex is above."""

    def __init__(self, across_mm: float, slant_degrees: float) -> None:
        self.radius, self.slant = across_mm / 2, radians(slant_degrees)
        round_ = np.linspace(0.0, 1.0, _TRIANGLES + 1)
        apex = self.on_cone(0.0, self.radius / sin(self.slant))
        assert abs(apex[0]) < 1e-9 > abs(apex[1])
        self.apex = apex
        rim = np.array([self.on_cone(0.0, 0.0)] * len(round_))
        rim[:, 0], rim[:, 1] = self.radius * np.cos(2 * pi * round_), self.radius * np.sin(2 * pi * round_)
        sides = rim - apex
        sides /= np.linalg.norm(sides, axis=1)[:, None]
        # The angle at the apex of each thin triangle, from its chord: good where an arc cosine is not.
        chords = np.linalg.norm(sides[1:] - sides[:-1], axis=1)
        self.angles = np.concatenate([[0.0], np.cumsum(2 * np.arcsin(chords / 2))])

    def on_cone(self, turns: float, along_mm: float) -> Points:
        """Return the point in space so many turns round, and so far from the reading edge up the slant."""
        radius = self.radius - along_mm * sin(self.slant)
        return np.array(
            [radius * cos(2 * pi * turns), radius * sin(2 * pi * turns), along_mm * cos(self.slant)]
        )

    def in_the_flat(self, turns: float, along_mm: float) -> Points:
        """Return where that point comes to lie, the apex at the origin; turns from 0 to 1."""
        angle = float(np.interp(turns, np.linspace(0.0, 1.0, _TRIANGLES + 1), self.angles))
        away = float(np.linalg.norm(self.on_cone(turns, along_mm) - self.apex))
        return np.array([away * cos(angle), away * sin(angle)])
