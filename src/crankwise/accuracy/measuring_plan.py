"""Which settings to measure, in which order, so that the errors of wheel and worm can be told apart.

Settings that all stop the crank at the same place of its turn are blind to the worm, and evenly spread ones
can show the worm's wave as a slow wave of the wheel (aliasing). So eight points lie within one turn of the
crank, at two places, and the rest all round with the crank standing elsewhere each time. All settings fall
on marks or holes, so that reading the head adds nothing.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt
from typing import NamedTuple

from crankwise.accuracy.calibration import CannotTell, design, tellable
from crankwise.accuracy.harmonics import Reading, Readings, Wave
from crankwise.accuracy.least_squares import Indistinct, cholesky, inverse_of, normal_matrix
from crankwise.errors import BadNumber
from crankwise.head.head import Head
from crankwise.ways.way import Setting

WITHIN_ONE_TURN = 8
LEAST_ALL_ROUND = 8
MOST_POINTS = 2000
SHOWN_ORDERS = 2


class Reference(NamedTuple):
    """What the head is measured against.

    steps  angles that it knows in one turn, evenly spread; 0 for any angle
    needs  what it takes
    """

    steps: int
    needs: str


REFERENCES: Mapping[str, Reference] = {
    "index": Reference(
        1440, "an index table with fine teeth on the spindle, and a mirror or an indicator on it"
    ),
    "polygon": Reference(
        12, "a polygon of known angles on the spindle, and an indicator or a telescope on its faces"
    ),
    "gauges": Reference(0, "angle gauges, or a sine bar with gauge blocks, under an indicator on an arm"),
    "indicator": Reference(0, "an arm on the spindle, and an indicator that it touches at a known radius"),
    "mirror": Reference(
        0, "a mirror on the spindle, and a light spot on a far scale; the mirror doubles the angle"
    ),
    "closure": Reference(
        0, "one fixed angle, as two stops or a bar in a fork, and an indicator; no reference at all"
    ),
}


class Point(NamedTuple):
    """One setting to measure.

    number   from 1, in the order of the work
    place    in turns of the spindle from the head's zero
    setting  what the head is made to show
    back     whether it is come to by turning back
    step     the step of a closure run that begins here, from 1; 0 in other runs
    """

    number: int
    place: Fraction
    setting: Setting
    back: bool = False
    step: int = 0


class Expected(NamedTuple):
    """How surely a wave will be known: its amplitude's standard uncertainty, for one second of a reading's."""

    wave: Wave
    per_second: float


@dataclass(frozen=True)
class MeasuringPlan:
    """A plan of measurement.

    steps       steps in one round of closure; 0 otherwise
    rounds      how many times round; 1 but for closure
    told        what it will tell, as far as the second order
    cannot_say  what it leaves open, a sentence each
    """

    head: Head
    reference: str
    points: tuple[Point, ...]
    steps: int
    rounds: int
    told: tuple[Expected, ...]
    cannot_say: tuple[str, ...]


def measuring_plan(
    head: Head, points: int, reference: str, steps: int | None = None, reverse: bool = False
) -> MeasuringPlan:
    """Return which settings to measure.

    points     readings wanted in one direction
    reference  one of REFERENCES
    steps      angles that the reference knows in one turn, faces of a polygon, or steps in a round of closure;
               None for the usual
    reverse    whether to measure all again turning back, which gives the backlash

    Raises BadNumber when that is too few, and CannotTell when no such settings can tell the errors.
    """
    if points > MOST_POINTS:
        raise BadNumber("points", f"{points:,}; at most {MOST_POINTS:,}")
    scale = _Scale(head)
    if reference == "closure":
        if reverse:
            raise BadNumber(
                "reverse", "a closure run goes one way round; measure the backlash against a reference"
            )
        return _closure(head, scale, points, steps)
    known = REFERENCES[reference].steps if steps is None else steps
    places = _places(head, scale, points, known)
    rows = [(place, False) for place in places] + [(place, True) for place in reversed(places) if reverse]
    made = tuple(
        Point(number, place, scale.setting(place), back) for number, (place, back) in enumerate(rows, 1)
    )
    told, cannot_say = _told(
        head, [Reading(point.number, point.place, 0.0, None, point.back) for point in made]
    )
    return MeasuringPlan(head, reference, made, 0, 1, told, cannot_say)


class _Scale:
    """The marks, holes or notches that are set for measuring: the finest that need no judging between lines."""

    def __init__(self, head: Head) -> None:
        self.head = head
        self.circle = max(head.circles, default=0)
        ratio = head.ratio or Fraction(1)
        if head.ratio and head.dial:
            self.all_round = ratio * head.dial.marks
        elif head.ratio and self.circle:
            self.all_round = ratio * self.circle
        elif head.stepper:
            self.all_round = Fraction(head.stepper.steps) * (
                ratio if head.stepper.per_turn_of == "crank" else 1
            )
        elif head.ring:
            self.all_round = Fraction(head.ring.graduations)
        else:
            self.all_round = Fraction(max(wheel.notches for wheel in head.notched_wheels))

    def nearest(self, place: Fraction) -> Fraction:
        """Return the place of the nearest line, in turns of the spindle."""
        return round(place * self.all_round) / self.all_round

    def setting(self, place: Fraction) -> Setting:
        """Return what the head shows there, counted from its zero."""
        head, count = self.head, int(place * self.all_round)
        if head.ratio and head.dial:
            turns, marks = divmod(count, head.dial.marks)
            return Setting(turns=turns, reading=Fraction(marks))
        if head.ratio and self.circle:
            turns, holes = divmod(count, self.circle)
            return Setting(turns=turns, holes=(holes,), circle=self.circle)
        if head.stepper:
            return Setting(steps=count)
        if head.ring:
            return Setting(reading=head.ring.reading(place if head.ring_grows else -place))
        return Setting(notches=count)


def _places(head: Head, scale: _Scale, points: int, known: int) -> list[Fraction]:
    """Return the settings, rising from 0 to the full circle, which is the first one met again."""
    within = 2 * WITHIN_ONE_TURN if head.ratio and head.ratio > 1 else 0
    least = within + LEAST_ALL_ROUND
    if known:
        return _at_known_angles(head, scale, points, known)
    if points < least:
        where = f"{WITHIN_ONE_TURN} within one crank turn at two places, and {LEAST_ALL_ROUND} all round"
        raise BadNumber("points", f"{points}; {least} at least" + (f": {where}" if within else ""))
    chosen: set[Fraction] = set()
    if within and head.ratio:
        chosen |= {scale.nearest(place) for place in _within_turns(head.ratio)}
    wanted = points - 1
    for place in _all_round(head, wanted - len(chosen)):
        free = scale.nearest(place)
        while free in chosen:
            free = (free + 1 / scale.all_round) % 1
        chosen.add(free)
        if len(chosen) >= min(wanted, int(scale.all_round)):
            break
    return [*sorted(chosen), Fraction(1)]


def _within_turns(ratio: Fraction) -> Iterator[Fraction]:
    """Eight places within one turn of the crank, at the zero and again well away from it."""
    for turn in (0, round(ratio * Fraction(2, 5))):
        for part in range(WITHIN_ONE_TURN):
            yield (turn + Fraction(part, WITHIN_ONE_TURN)) / ratio


def _all_round(head: Head, count: int) -> Iterator[Fraction]:
    """Places all round, the crank each time elsewhere in its turn: on by the golden section.

    Source: common practice; multiples of the golden section fill a turn evenly however many there are.
    """
    golden = Fraction(377, 610)
    for index in range(count):
        place = Fraction(2 * index + 1, 2 * count)
        if head.ratio and head.ratio > 1:
            turn = int(place * head.ratio)
            place = (turn + index * golden % 1) / head.ratio
        yield min(place, Fraction(999_999, 1_000_000))


def _at_known_angles(head: Head, scale: _Scale, points: int, known: int) -> list[Fraction]:
    """The marks nearest to angles that the reference knows: as near to the usual places as they come."""
    if known < 3:
        raise BadNumber("steps", f"{known}; a reference knows 3 angles or more in one turn")
    if known <= points:
        return [*sorted({scale.nearest(Fraction(index, known)) for index in range(known)}), Fraction(1)]
    steps: set[int] = set()
    if head.ratio and head.ratio > 1:
        steps = {round(place * known) % known for place in _within_turns(head.ratio)}
    left = points - 1 - len(steps)
    if left < LEAST_ALL_ROUND:
        raise BadNumber(
            "points", f"{points}; {len(steps) + LEAST_ALL_ROUND + 1} at least with this reference"
        )
    for place in _all_round(head, left):
        step = round(place * known)
        while step % known in steps:
            step += 1
        steps.add(step % known)
    return [*sorted(scale.nearest(Fraction(step, known)) for step in steps), Fraction(1)]


def _told(head: Head, readings: Sequence[Reading]) -> tuple[tuple[Expected, ...], tuple[str, ...]]:
    measured = Readings(tuple(readings), head.ratio)
    try:
        waves, cannot_say = tellable(measured)
    except CannotTell as worm:
        waves, cannot_say = tellable(measured, "wheel")
        cannot_say = (f"nothing of the worm: {worm}", *cannot_say)
    shown = [wave for wave in waves if wave.order <= SHOWN_ORDERS]
    return _expected(measured, shown), cannot_say


def _expected(measured: Readings, waves: Sequence[Wave]) -> tuple[Expected, ...]:
    """Raises Indistinct."""
    inverse = inverse_of(cholesky(normal_matrix(design(measured, waves))))
    first = len(measured.plain_columns())
    found = []
    for index, wave in enumerate(waves):
        at = first + 2 * index
        found.append(Expected(wave, sqrt((inverse[at][at] + inverse[at + 1][at + 1]) / 2)))
    return tuple(found)


def _closure(head: Head, scale: _Scale, points: int, steps: int | None) -> MeasuringPlan:
    if points < 6:
        raise BadNumber("points", f"{points}; a round of closure has 6 steps or more")
    if steps is not None and not 3 <= steps <= points:
        raise BadNumber("steps", f"{steps}; from 3 to the {points} points")
    best: tuple[float, MeasuringPlan] | None = None
    for count in [steps] if steps else range(5, min(points, 13) + 1):
        plan = _rounds(head, scale, count, max(points // count, 1))
        worst = max((one.per_second for one in plan.told), default=float("inf"))
        hidden = 2 * SHOWN_ORDERS - len(plan.told)
        if best is None or (hidden * 1e6 + worst) < best[0]:
            best = (hidden * 1e6 + worst, plan)
    assert best is not None
    return best[1]


def _rounds(head: Head, scale: _Scale, count: int, rounds: int) -> MeasuringPlan:
    """So many rounds of closure, each begun by a part of a crank turn further on."""
    shift = 1 / (head.ratio * rounds) if head.ratio else Fraction(1, count * rounds)
    made: list[Point] = []
    readings: list[Reading] = []
    for one in range(rounds):
        ends = [scale.nearest(one * shift + Fraction(step, count)) for step in range(count)]
        ends.append(ends[0] + 1)
        for step in range(count):
            number = len(made) + 1
            made.append(Point(number, ends[step], scale.setting(ends[step]), False, step + 1))
            readings.append(Reading(number, ends[step + 1], 0.0, ends[step]))
    try:
        told, cannot_say = _told(head, readings)
    except (CannotTell, Indistinct) as why:
        told, cannot_say = (), (str(why),)
    return MeasuringPlan(head, "closure", tuple(made), count, rounds, told, cannot_say)
