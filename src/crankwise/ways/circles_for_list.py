"""A list of angles on one plate, changing the circle where another meets the angle better.

Every change of circle is work and a chance to slip, so what is offered is a front: for one change, for
two and so on, the assignment of circles whose worst error is the least, and only where one change more
makes it smaller. The tolerance that was asked then takes the first that is good enough.
Source: derived; shortest paths over (angle, circle), which try every assignment without listing it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import pairwise
from math import floor
from typing import ClassVar

from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.head.plate import Plate
from crankwise.part.divisions import AngleList, Divisions
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, Reached, Setting, Step, Way

MOST_CHANGES = 12
"""Who would change the circle more often? Judgement."""

MOST_ANGLES = 500


@dataclass(frozen=True)
class CirclesForList(Way):
    """Each angle on the nearest hole of the circle that it is given, all circles on one plate.

    circles  the circle of each position, in order
    """

    method: ClassVar[str] = "circles"
    circles: tuple[int, ...]

    @property
    def changes(self) -> int:
        """How often the index pin is moved to another circle."""
        return sum(before != after for before, after in pairwise(self.circles))

    @property
    def setup(self) -> Mapping[str, object]:
        return {"circles": tuple(sorted(set(self.circles))), "changes": self.changes}

    @property
    def burden(self) -> Burden:
        """Fit the plate, and set the pin at each change; count turns and holes, and look them up."""
        return Burden(to_set_up=1 + self.changes, to_count=3, looked_up=1)

    @cached_property
    def worst_error(self) -> Fraction:
        return max(abs(reached.error) for reached in self.reached())

    def reach(self, position: int, target: Fraction) -> Reached:
        circle = self.circles[self.divisions.numbers.index(position)]
        scale = Scale(self.head.ratio or Fraction(1), circle)
        place = scale.nearest(target)
        return Reached(position, target, _setting(place, circle), scale.achieved(place), on_line=True)

    def closure(self) -> Reached | None:
        """The first position again, on its circle, where a full circle comes out in whole holes of it."""
        scale = Scale(self.head.ratio or Fraction(1), self.circles[0])
        if not scale.closes or self.divisions.closing_target is None:
            return None
        _, target = next(self.divisions.targets())
        place = scale.nearest(target) + int(scale.all_round)
        setting = _setting(place, self.circles[0])
        return Reached(
            self.divisions.closing_number,
            self.divisions.closing_target,
            setting,
            scale.achieved(place),
            on_line=True,
        )

    def move(self, before: Reached | None, after: Reached) -> Setting:
        """Whole turns from where the crank stands, and the hole to come to after them, by its number.

        Holes to move on by would be wrong where the circle changes: the pin stands in no hole of the new one.
        """
        turns = (after.achieved - (before.achieved if before else 0)) * (self.head.ratio or 1)
        return after.setting._replace(turns=floor(turns))

    def working(self) -> tuple[Step, ...]:
        steps = [
            step
            for circle, reached in zip(self.circles, self.reached(), strict=True)
            for step in self._working_of(circle, reached)
        ]
        worst = max(self.reached(), key=lambda reached: abs(reached.error))
        return (
            *steps,
            Step("worst position of these", f"position {worst.position}", abs(worst.error), "angle"),
        )

    def _working_of(self, circle: int, reached: Reached) -> tuple[Step, Step]:
        ratio = self.head.ratio or Fraction(1)
        exact, place = reached.target * ratio * circle, reached.achieved * ratio * circle
        all_round = f"({as_text(ratio)} x {circle})"
        return (
            Step(
                f"position {reached.position} on the {circle} circle",
                f"{as_text(reached.target)} x {as_text(ratio)} x {circle}",
                exact,
                "holes",
            ),
            Step(
                f"error of position {reached.position}",
                f"({as_text(place)} - {as_text(exact)}) / {all_round}",
                reached.error,
                "angle",
            ),
        )


def ways(head: Head, divisions: Divisions) -> Iterator[CirclesForList]:
    """Yield, for each plate, the least worst error for one change of circle, for two and so on.

    Lists of at most 500 angles and 12 changes; no changes at all is plain indexing, or the nearest hole.
    """
    if head.ratio is None or not isinstance(divisions, AngleList) or len(divisions) > MOST_ANGLES:
        return
    seen = set()
    for plate in head.plates:
        for circles in _front(head.ratio, plate, divisions):
            if circles not in seen:
                seen.add(circles)
                yield CirclesForList(head, divisions, circles)


Path = tuple[Fraction, Fraction, tuple[int, ...]]
"""The worst error so far, the sum of the errors, and the circles of the positions so far."""


def _front(ratio: Fraction, plate: Plate, angles: AngleList) -> Iterator[tuple[int, ...]]:
    """Yield the circles with the least worst error for each number of changes that makes it smaller.

    paths[k][c] is the best path to the angle with k changes that ends on circle c. Of two such paths
    the one with the smaller worst error can be continued as well as the other, so one is enough.
    """
    scales = {circle: Scale(ratio, circle) for circle in sorted(plate.circles)}
    paths: list[dict[int, Path]] = []
    for _, target in angles.targets():
        errors = {c: abs(scale.achieved(scale.nearest(target)) - target) for c, scale in scales.items()}
        if not paths:
            paths = [{circle: (error, error, (circle,)) for circle, error in errors.items()}]
            continue
        paths = _continued(paths, errors)
    best: Fraction | None = None
    for changes, ends in enumerate(paths):
        worst, _, circles = min(ends.values())
        if best is None or worst < best:
            best = worst
            if changes:
                yield circles


def _continued(paths: list[dict[int, Path]], errors: dict[int, Fraction]) -> list[dict[int, Path]]:
    """Return the best paths one angle further on: staying on the circle, or changing to it."""
    longer: list[dict[int, Path]] = []
    for changes in range(min(len(paths) + 1, MOST_CHANGES + 1)):
        ends: dict[int, Path] = {}
        for circle, error in errors.items():
            options = [paths[changes][circle]] if changes < len(paths) and circle in paths[changes] else []
            if changes:
                options += [path for end, path in paths[changes - 1].items() if end != circle]
            if options:
                worst, total, circles = min(options)
                ends[circle] = (max(worst, error), total + error, (*circles, circle))
        if ends:
            longer.append(ends)
    return longer


def _setting(place: int, circle: int) -> Setting:
    turns, holes = divmod(place, circle)
    return Setting(turns=turns, holes=(holes,), circle=circle)
