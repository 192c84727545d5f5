"""What every way to divide can tell."""

from abc import ABC, abstractmethod
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import ClassVar, NamedTuple

from crankwise.head.head import Head
from crankwise.part.divisions import Divisions
from crankwise.ways.scale import Scale


class Setting(NamedTuple):
    """What the operator makes the head show, counted from the start; None where there is no such thing.

    turns           whole turns of the crank
    reading         what the dial or the ring shows, in its own units
    holes           holes past the last whole turn; two counts for two circles
    notches         notches of the wheel
    second_notches  notches of the second wheel, where one wheel carries the detent of the other
    steps           steps of the stepper motor
    circle          the circle that the holes are on, where it is not the same all through
    """

    turns: int | None = None
    reading: Fraction | None = None
    holes: tuple[int, ...] | None = None
    notches: int | None = None
    second_notches: int | None = None
    steps: int | None = None
    circle: int | None = None


class Reached(NamedTuple):
    """One position as a way reaches it.

    position  its number
    target    its exact angle, in turns from the start
    setting   what the operator sets
    achieved  where that really puts the work, in turns from the start
    on_line   whether the setting falls on a mark, hole or notch, and need not be estimated
    """

    position: int
    target: Fraction
    setting: Setting
    achieved: Fraction
    on_line: bool

    @property
    def error(self) -> Fraction:
        """Achieved minus target, in turns; positive the way the work advances."""
        return self.achieved - self.target


class Burden(NamedTuple):
    """What a way asks of the operator: the fewer, the simpler.

    to_set_up  things to fit or set before the run: a plate, the sector arms, a detent
    to_count   things to count, read or look up at each move
    looked_up  how many of those are figures looked up in the list, since they differ from move to move
    """

    to_set_up: int
    to_count: int
    looked_up: int = 0

    @property
    def total(self) -> int:
        return self.to_set_up + self.to_count


class Step(NamedTuple):
    """One line of the working, as it would be written on paper.

    what        what is being worked out
    arithmetic  the sum, in exact figures
    value       its value; an angle in turns of the spindle when `unit` is "angle"
    unit        turns, marks, holes, notches, graduations, steps, places, parts, moves, angle or mm
    """

    what: str
    arithmetic: str
    value: Fraction
    unit: str


@dataclass(frozen=True)
class Way(ABC):
    """A method with its set-up, for one head and one set of divisions."""

    method: ClassVar[str]
    head: Head
    divisions: Divisions

    @property
    @abstractmethod
    def setup(self) -> Mapping[str, object]:
        """What is fitted and set before the run, by the trade's words."""

    @property
    @abstractmethod
    def burden(self) -> Burden:
        """What the way asks of the operator."""

    @property
    @abstractmethod
    def worst_error(self) -> Fraction:
        """The largest error of any position, either way, in turns."""

    @abstractmethod
    def reach(self, position: int, target: Fraction) -> Reached:
        """Return how a position is set and where that puts the work."""

    @abstractmethod
    def closure(self) -> Reached | None:
        """Return the first position met again after the full circle, or None when it is not.

        Some of equal parts do not go round, and a scale that does not close cannot; a list is closed by
        its first angle, as a check. Its setting counts on from the start; its achieved angle is
        exactly one turn past the first's.
        """

    def again(self, reached: Reached, rounds: int) -> Reached | None:
        """Return the same position met again after so many more rounds of the run, exactly there again.

        Its setting counts on from the start. None for a way that must be taken back to its zero first.
        """
        return None

    @abstractmethod
    def move(self, before: Reached | None, after: Reached) -> Setting:
        """Return how far to turn from one position to the next; from the zero when `before` is None.

        `reading` is then marks, or units of the ring, to move on by.
        """

    @abstractmethod
    def working(self) -> tuple[Step, ...]:
        """Return the arithmetic, step by step, in the trade's own form."""

    @property
    def key(self) -> str:
        """A name for this way among all ways of the same head and divisions, kept with a job."""
        return ":".join([self.method, *(f"{name}={value}" for name, value in self.setup.items())])

    @property
    def corrects(self) -> bool:
        """Whether its settings make good the head's known errors."""
        return False

    @property
    def exact(self) -> bool:
        """Whether every position is met without error."""
        return self.worst_error == 0

    def reached(self) -> Iterator[Reached]:
        """Yield every position of the divisions in the order of the run."""
        for position, target in self.divisions.targets():
            yield self.reach(position, target)

    @property
    def crank_ratio(self) -> Fraction | None:
        """Turns of the crank, as they are counted, for one turn of the spindle; None where it has none."""
        return self.head.ratio

    @property
    def crank_turns(self) -> Fraction:
        """Turns of the crank over the whole run, the closing move counted; 0 where no crank is turned."""
        end = self.closure()
        if end is None:
            end = self.reach(self.divisions.numbers[-1], self.divisions.last_target)
        return end.target * (self.head.ratio or 0) if end.setting.turns is not None else Fraction(0)

    def settings_on_lines(self) -> int:
        """Return how many settings fall on a mark, hole or notch and need not be estimated."""
        return sum(reached.on_line for reached in self.reached())


@dataclass(frozen=True)
class ScaleWay(Way):
    """A way that sets each position to the nearest place of one scale, counted from the start.

    One that has no more values than these is no dataclass of its own: it is made, compared and kept from change
    as this one is, and a cold command need not wait for it.
    """

    scale: Scale

    @classmethod
    @abstractmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Return what the method asks of the operator on a scale.

        move  places from each position to the next; None where moves differ and are looked up
        """

    @property
    def key(self) -> str:
        return super().key + self.scale.key

    @property
    def corrects(self) -> bool:
        return bool(self.scale.key)

    @cached_property
    def burden(self) -> Burden:
        return self.burden_of(self.scale, self.scale.move_of(self.divisions))

    @abstractmethod
    def setting(self, place: int) -> Setting:
        """Return what the operator sets for a place counted from the start."""

    @property
    def places_per_line(self) -> int:
        """Places from one mark, hole or notch to the next; 1 unless places lie between lines."""
        return 1

    def is_on_line(self, place: int) -> bool:
        """Return whether a place is a mark, hole or notch."""
        return place % self.places_per_line == 0

    def settings_on_lines(self) -> int:
        per_line = self.places_per_line
        if per_line == 1:
            return len(self.divisions)
        return sum(place % per_line == 0 for place in self.scale.all_nearest(self.divisions))

    @cached_property
    def worst_error(self) -> Fraction:
        return self.scale.worst_error(self.divisions)

    def reach(self, position: int, target: Fraction) -> Reached:
        return self._at(position, target, self.scale.nearest(target))

    def closure(self) -> Reached | None:
        target = self.divisions.closing_target
        if target is None or not self.scale.closes:
            return None
        _, first_target = next(self.divisions.targets())
        place = self.scale.nearest(first_target) + int(self.scale.all_round)
        return self._at(self.divisions.closing_number, target, place)

    def again(self, reached: Reached, rounds: int) -> Reached | None:
        if not self.scale.closes:
            return None
        # Not the nearest place afresh: on an odd number of places a half would go the other way.
        place = self.scale.place_of(reached.achieved) + int(rounds * self.scale.all_round)
        return self._at(reached.position, reached.target + rounds, place)

    def move(self, before: Reached | None, after: Reached) -> Setting:
        stands = self.scale.place_of(before.achieved) if before else 0
        return self.setting(self.scale.place_of(after.achieved) - stands)

    def _at(self, position: int, target: Fraction, place: int) -> Reached:
        return Reached(
            position, target, self.setting(place), self.scale.achieved(place), self.is_on_line(place)
        )
