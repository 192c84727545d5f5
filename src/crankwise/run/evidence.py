"""What the scales of a head show at each row of a run, for every way to divide: one interface.

A scale is whatever can be read or counted when the machine stands still: the dial, the ring, the
hole that a pin is in, the notch that holds the wheel. Which turn of the crank this is, no scale shows
but the ring.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import lcm

from crankwise.errors import BadNumber
from crankwise.exact.length import STRAIGHT_MM, along
from crankwise.exact.number import as_text
from crankwise.part.divisions import MOST_ALONG_MM
from crankwise.plan.plan import Plan, ring_check
from crankwise.plan.schedule import Row
from crankwise.run.in_hand import anchored
from crankwise.run.state import NO_SLIP, Anchor
from crankwise.ways.constant_move import ConstantMove
from crankwise.ways.way import ScaleWay, Setting

DIAL, RING, HOLE, BACK_HOLE, NOTCH, SECOND_NOTCH, STEP = (
    "dial",
    "ring",
    "hole",
    "back hole",
    "notch",
    "second notch",
    "step",
)
"""The names of the scales. Where the circle changes during the run, each is a scale: "hole of 39"."""

COUNTED_AGAINST = (BACK_HOLE, SECOND_NOTCH)
"""Scales that a setting may count against the way of the crank: 11 holes against stand in hole 38 of 49."""

MOST_STEPS = 10**12
"""A drive's count goes on past a turn of the spindle, as far as anybody lets it run."""

MEASURED = "measured"
"""How far the work has gone along a slide, by a rule or callipers from the first space: no scale, and asked only where
the operator asks where the machine stands."""

NEAR_MM = Fraction(1, 2)
"""How near that is measured, either way: by a rule, with an eye on the space. Judgement."""

RING_NUMERALS = 10
"""Units from one numeral of a ring to the next; a head does not say, and this is common practice."""


@dataclass(frozen=True, slots=True)
class Readable:
    """A scale that can be read at the machine.

    name            which one
    full            units all round: marks of the dial, 360 of a ring, holes of a circle, notches
    within          how far a reading may be out, either way, in those units; 0 where they are counted
    numbered_every  units from one numeral to the next; 0 without numerals
    """

    name: str
    full: int
    within: Fraction = Fraction(0)
    numbered_every: int = 0

    @property
    def least(self) -> int:
        """The least that may be read or told of it: below 0 where it may be counted against."""
        return 1 - self.full if self.name in COUNTED_AGAINST else 0

    @property
    def most(self) -> int:
        """The most that may be read or told of it."""
        past_the_end = {MEASURED: int(MOST_ALONG_MM), STEP: MOST_STEPS}
        return past_the_end.get(self.name, self.full)

    @property
    def told_apart(self) -> Fraction:
        """How many readings can be told apart all round."""
        return max(self.full / (2 * self.within), Fraction(1)) if self.within else Fraction(self.full)

    def apart(self, one: Fraction, other: Fraction) -> Fraction:
        """Return how far the first reading is past the second, the short way round; before it: negative."""
        ahead = (one - other) % self.full
        return ahead - self.full if 2 * ahead > self.full else ahead


@dataclass(frozen=True, slots=True)
class Reading:
    """What one scale was read to show, in its units; `scale.within` is how near it could be read."""

    scale: Readable
    value: Fraction


@dataclass(frozen=True)
class Evidence:
    """What every row of a run shows on every scale, as the machine stands.

    plan    the plan of the run
    rows    its schedule
    anchor  what has slipped and been made good
    """

    plan: Plan
    rows: tuple[Row, ...]
    anchor: Anchor = NO_SLIP

    @cached_property
    def shown(self) -> tuple[dict[str, Fraction], ...]:
        """What each row shows, by scale; a count past the last hole or notch goes round."""
        full = {scale.name: scale.full for scale in self.readable}
        return tuple({name: value % full[name] for name, value in row.items()} for row in self._counted)

    @cached_property
    def _counted(self) -> tuple[dict[str, Fraction], ...]:
        rows = (anchored(self.plan, row, self.anchor) for row in self.rows)
        if not self.plan.part.is_straight:
            return tuple(_shown(row) for row in rows)
        first = min(row.reached.target for row in self.rows)
        return tuple(_shown(row) | {MEASURED: along(row.reached.achieved - first)} for row in rows)

    @cached_property
    def one_past_the_end(self) -> dict[str, Fraction] | None:
        """What would be shown one move past the last row that closes the run; None where that is not known."""
        last = self.rows[-1]
        place = last.reached.achieved % 1
        after = next(
            (
                row
                for row in self.rows
                if row.pass_number == last.pass_number and row.reached.achieved % 1 != place
            ),
            None,
        )
        if after is None or not last.closing:
            return None
        way = self.plan.way
        first = next(row for row in self.rows if row.pass_number == last.pass_number)
        circles = int(last.reached.target - first.reached.target)
        again = way.again(after.reached, 1 if isinstance(way, ConstantMove) else circles)
        if again is None:
            return None
        row = replace(after, reached=again, ring_check=ring_check(self.plan, again))
        full = {scale.name: scale.full for scale in self.scales}
        shown = _shown(anchored(self.plan, row, self.anchor))
        return {name: value % full[name] for name, value in shown.items()}

    @cached_property
    def scales(self) -> tuple[Readable, ...]:
        """The scales that any row shows: what positions are set by first, the ring last."""
        found = {name: None for shown in self._counted for name in shown if name != MEASURED}
        return tuple(self._scale(name) for name in sorted(found, key=lambda name: name == RING))

    @cached_property
    def readable(self) -> tuple[Readable, ...]:
        """All that can be read where the machine stands: its scales, and along a slide what can be measured."""
        measured = Readable(MEASURED, int(STRAIGHT_MM), NEAR_MM)
        return (*self.scales, measured) if self.plan.part.is_straight else self.scales

    def scale(self, name: str) -> Readable:
        """Return a scale by its name. Raises BadNumber when no row shows such a scale."""
        for scale in self.readable:
            if scale.name == name:
                return scale
        told = ", ".join(scale.name for scale in self.readable)
        raise BadNumber(name, f"this way is not read on it; what can be read here: {told}")

    def reading(self, name: str, value: Fraction, within: Fraction | None = None) -> Reading:
        """Return a reading of a scale.

        value   in the units of the scale, from 0 to all of them; a count against is below 0, a drive's goes on
        within  how far it may be out, either way; None for what the head says can be read

        Raises BadNumber when there is no such scale, or the value is not on it.
        """
        scale = self.scale(name)
        if name == MEASURED and not 0 <= value <= MOST_ALONG_MM:
            raise BadNumber(
                name, f"{as_text(value)} mm; from the first space on it is 0 to {MOST_ALONG_MM:,} mm"
            )
        if not scale.least <= value <= scale.most:
            raise BadNumber(name, f"{as_text(value)}; it shows from {scale.least} to below {scale.most}")
        if not scale.within and value.denominator != 1:
            raise BadNumber(name, f"{as_text(value)}; a {name} is counted in whole numbers")
        if within is not None and not 0 <= within < scale.full:
            raise BadNumber(name, f"read to {as_text(within)} either way; it is from 0 to below {scale.full}")
        near = scale if within is None else Readable(scale.name, scale.full, within, scale.numbered_every)
        return Reading(near, value % scale.full)

    @cached_property
    def a_turn_off(self) -> tuple[tuple[int | None, int | None], ...]:
        """For each row, the rows a whole turn of the crank further on and short of it; None where there are none.

        Empty for a way that does not turn a crank. In the order in which the ring's reading rises.
        """
        ratio = self.plan.way.crank_ratio
        if ratio is None or all(row.reached.setting.turns is None for row in self.rows):
            return ()
        turn = (1 if self.plan.head.ring_grows else -1) / ratio
        rows = {row.reached.achieved % 1: row.index for row in reversed(self.rows)}
        return tuple(
            (rows.get((row.reached.achieved + turn) % 1), rows.get((row.reached.achieved - turn) % 1))
            for row in self.rows
        )

    def set_reading(self, row: int) -> Fraction | None:
        """Return what the dial or the ring shows where a row is set by it; None where holes or notches are counted."""
        setting = self.rows[row].reached.setting
        return None if setting.reading is None else self.shown[row][_set_by(setting)]

    def column(self, name: str) -> tuple[int, list[int | None]]:
        """Return what each row shows on one scale as whole numbers over one bottom; None where it shows none."""
        return self._columns[name]

    @cached_property
    def _columns(self) -> dict[str, tuple[int, list[int | None]]]:
        found = {}
        for scale in self.readable:
            values = [shown.get(scale.name) for shown in self.shown]
            bottom = lcm(*(value.denominator for value in values if value is not None))
            found[scale.name] = (
                bottom,
                [
                    None if value is None else value.numerator * (bottom // value.denominator)
                    for value in values
                ],
            )
        return found

    def _scale(self, name: str) -> Readable:
        head, setup = self.plan.head, self.plan.way.setup
        if name == DIAL and head.dial:
            dial = head.dial
            return Readable(DIAL, dial.marks, Fraction(1, 2 * dial.places_per_mark), dial.numbered_every)
        if name == RING and head.ring:
            full = head.ring.full_circle
            least = Fraction(full, head.ring.places)
            return Readable(RING, full, least / 2, 0 if full % RING_NUMERALS else RING_NUMERALS)
        if name.startswith(f"{HOLE} of "):
            return Readable(name, int(name.split()[-1]))
        if name == STEP:
            assert isinstance(self.plan.way, ScaleWay)
            return Readable(name, self.plan.way.scale.all_round.numerator)
        one, several = ("wheel", "wheels") if NOTCH in name else ("circle", "circles")
        if one in setup:
            return Readable(name, int(str(setup[one])))
        counts = setup[several]
        assert isinstance(counts, tuple)
        return Readable(name, counts[1 if name in (BACK_HOLE, SECOND_NOTCH) else 0])


def _set_by(setting: Setting) -> str:
    return RING if setting.turns is None and setting.notches is None else DIAL


def _shown(row: Row) -> dict[str, Fraction]:
    setting = row.reached.setting
    shown: dict[str, Fraction] = {}
    if setting.reading is not None:
        shown[_set_by(setting)] = setting.reading
    if setting.holes is not None:
        names = (HOLE if setting.circle is None else f"{HOLE} of {setting.circle}", BACK_HOLE)
        shown |= {name: Fraction(holes) for name, holes in zip(names, setting.holes, strict=False)}
    if setting.notches is not None:
        shown[NOTCH] = Fraction(setting.notches)
    if setting.steps is not None:
        shown[STEP] = Fraction(setting.steps)
    if setting.second_notches is not None:
        shown[SECOND_NOTCH] = Fraction(setting.second_notches)
    if row.ring_check is not None:
        shown[RING] = row.ring_check
    return shown
