"""How well one reading agrees with what a row shows, the gross errors of reading included."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import Literal, NamedTuple

from crankwise.run.entry import Joint
from crankwise.run.evidence import RING, Evidence, Reading
from crankwise.run.odds import SMALL_SLIP, Odds

Gross = Literal["interval", "backwards"]


class Misread(NamedTuple):
    """A reading that would be grossly wrong: on which scale, how, and what it should have been."""

    scale: str
    how: Gross
    shows: Fraction


@dataclass(frozen=True, slots=True)
class Weighed:
    """How likely the readings are at one row, up to a factor that is the same for all rows.

    ring     what was read on the ring; 1 when it was not read
    others   all that was read elsewhere; 1 when nothing was
    misread  readings that agree only when grossly wrong
    shown    what the row shows on the scales read
    near     whether the ring is within a small slip of what the row shows
    turned   how likely what was read on the ring is a whole turn of the crank away, the way it rises and back
    """

    row: int
    ring: Fraction
    others: Fraction
    misread: tuple[Misread, ...]
    shown: tuple[Fraction | None, ...]
    near: bool = True
    turned: tuple[Fraction, Fraction] = (Fraction(1), Fraction(1))

    @property
    def all(self) -> Fraction:
        """All readings together."""
        return self.ring * self.others

    def agrees_without(self, joint: Joint) -> bool:
        """Return whether the scales that have not slipped agree with nothing grossly wrong."""
        return not any((misread.scale == RING) is (joint == "dial") for misread in self.misread)


def weighed(evidence: Evidence, readings: Sequence[Reading], odds: Odds) -> tuple[Weighed, ...]:
    """Return how likely the readings are at every row."""
    columns = [_column(evidence, reading, odds) for reading in readings]
    is_ring = [reading.scale.name == RING for reading in readings]
    found = []
    for row, marks in enumerate(zip(*columns, strict=True)):
        ring = others = Fraction(1)
        for mark, that in zip(marks, is_ring, strict=True):
            if that:
                ring *= mark.likely
            else:
                others *= mark.likely
        misread = tuple(mark.misread for mark in marks if mark.misread)
        on_ring = next((mark for mark, that in zip(marks, is_ring, strict=True) if that), _UNREAD)
        shown = tuple(mark.shown for mark in marks)
        found.append(Weighed(row, ring, others, misread, shown, on_ring.near, on_ring.turned))
    return tuple(found) or tuple(
        Weighed(row, Fraction(1), Fraction(1), (), ()) for row in range(len(evidence.rows))
    )


class _Mark(NamedTuple):
    likely: Fraction
    misread: Misread | None
    shown: Fraction | None
    near: bool = True
    turned: tuple[Fraction, Fraction] = (Fraction(1), Fraction(1))


_NOT = Fraction(0)
_UNREAD = _Mark(Fraction(1), None, None)


def _column(evidence: Evidence, reading: Reading, odds: Odds) -> list[_Mark]:
    """Weigh one reading at every row, in whole numbers over one common bottom, for speed."""
    scale = reading.scale
    shown_bottom, shown = evidence.column(scale.name)
    ratio = evidence.plan.way.crank_ratio if scale.name == RING else None
    held = _held(reading, ratio, odds, shown_bottom)
    # A hole of another circle is not this row's; any other scale that it does not show says nothing.
    unsaid = Fraction(0) if scale.name.startswith("hole of") else 1 / scale.told_apart
    times = held.bottom // shown_bottom
    return [_Mark(unsaid, None, None) if top is None else held.against(top * times) for top in shown]


@dataclass(frozen=True, slots=True)
class _Held:
    """A reading to be held against what rows show; all but odds in parts of `bottom` of the scale's unit.

    full      what goes once round the scale
    interval  from one numeral to the next, by which a reading may be out; 0 where none can be
    small     a slip that a spindle may well have made
    turn      a whole turn of the crank, as the scale shows it; 0 where it shows none
    by_eye    whether the scale has numerals, and can be read backwards from one
    clean     odds in a thousand of no gross error
    """

    name: str
    bottom: int
    full: int
    interval: int
    value: int
    within: int
    small: int
    turn: int
    by_eye: bool
    clean: int
    odds: Odds

    def agrees(self, mark: int) -> bool:
        ahead = (self.value - mark) % self.full
        return ahead <= self.within or self.full - ahead <= self.within

    def against(self, mark: int) -> _Mark:
        agrees = self.agrees(mark)
        how, misread_odds = self._misread(mark) if self.interval else (None, 0)
        shows = Fraction(mark, self.bottom)
        misread = None if how is None or agrees else Misread(self.name, how, shows)
        near = min((self.value - mark) % self.full, (mark - self.value) % self.full) <= self.small
        likely = Fraction((self.clean if agrees else 0) + misread_odds, 1000)
        return _Mark(likely, misread, shows, near, (self._turned(mark, 1), self._turned(mark, -1)))

    def _misread(self, mark: int) -> tuple[Gross | None, int]:
        """Return which gross error would make this the reading, and at what odds in a thousand, of all that would."""
        intervals = self.agrees(mark + self.interval) + self.agrees(mark - self.interval)
        odds = self.odds.interval * intervals // 2
        how: Gross | None = "interval" if intervals else None
        if self.by_eye and self.agrees(2 * (mark // self.interval * self.interval) + self.interval - mark):
            return how or "backwards", odds + self.odds.backwards
        return how, odds

    def _turned(self, mark: int, way: int) -> Fraction:
        if not self.turn or not self.agrees(mark + way * self.turn):
            return _NOT
        return Fraction(self.clean, 1000)


def _held(reading: Reading, ratio: Fraction | None, odds: Odds, shown_bottom: int) -> _Held:
    """Return a reading over the least bottom at which it, its scale and what the rows show are whole numbers."""
    scale = reading.scale
    bottom = lcm(
        shown_bottom,
        reading.value.denominator,
        scale.within.denominator,
        SMALL_SLIP.denominator,
        ratio.numerator if ratio else 1,
    )
    full, interval = scale.full * bottom, (scale.numbered_every or (0 if scale.within else 1)) * bottom
    by_eye = bool(scale.numbered_every)
    return _Held(
        scale.name,
        bottom,
        full,
        interval,
        int(reading.value * bottom),
        int(scale.within * bottom),
        int(full * SMALL_SLIP),
        int(full / ratio) if ratio else 0,
        by_eye,
        odds.clean + (0 if by_eye else odds.backwards) + (0 if interval else odds.interval),
        odds,
    )
