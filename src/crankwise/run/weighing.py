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
    bottom = lcm(
        shown_bottom,
        reading.value.denominator,
        scale.within.denominator,
        SMALL_SLIP.denominator,
        ratio.numerator if ratio else 1,
    )
    full, interval = scale.full * bottom, (scale.numbered_every or (0 if scale.within else 1)) * bottom
    value, within = int(reading.value * bottom), int(scale.within * bottom)
    small = int(full * SMALL_SLIP)
    by_eye = bool(scale.numbered_every)
    clean = odds.clean + (0 if by_eye else odds.backwards) + (0 if interval else odds.interval)

    def agrees(mark: int) -> bool:
        ahead = (value - mark) % full
        return ahead <= within or full - ahead <= within

    turn = int(full / ratio) if ratio else 0
    sure = Fraction(clean, 1000)
    marks = []
    for top in shown:
        if top is None:
            # A hole of another circle is not this row's; any other scale that it does not show says nothing.
            unsaid = Fraction(0) if scale.name.startswith("hole of") else 1 / scale.told_apart
            marks.append(_Mark(unsaid, None, None))
            continue
        mark = top * (bottom // shown_bottom)
        likely = clean if agrees(mark) else 0
        misread: Gross | None = None
        if interval:
            if agrees(mark + interval) or agrees(mark - interval):
                likely += odds.interval * (agrees(mark + interval) + agrees(mark - interval)) // 2
                misread = "interval"
            if by_eye and agrees(2 * (mark // interval * interval) + interval - mark):
                likely += odds.backwards
                misread = misread or "backwards"
        told = (
            None if misread is None or agrees(mark) else Misread(scale.name, misread, Fraction(mark, bottom))
        )
        near = min((value - mark) % full, (mark - value) % full) <= small
        turned = _NOT, _NOT
        if turn:
            turned = (
                sure if agrees(mark + turn) else _NOT,
                sure if agrees(mark - turn) else _NOT,
            )
        marks.append(_Mark(Fraction(likely, 1000), told, Fraction(mark, bottom), near, turned))
    return marks
