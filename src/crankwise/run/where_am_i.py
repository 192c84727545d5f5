"""Where the machine stands, from what can be read on it: every position that agrees, and how surely.

Each scale that was read is held against what every row would show there, with how near it can be
read, and with the gross errors of reading at stated odds (run/odds.py). The answer is not the
likeliest row alone but all that agree. Where the readings do not decide it says so. Where no row
agrees, nothing is blamed on the operator: either the machine stands between positions, and the scales
agree with each other, or one of them has slipped, and the slip is measured (run/slips.py).

The model. One of these holds, at the odds of `Odds`: the machine stands at a row; it stands anywhere,
the scales true to each other; at the setting of a row, the spindle slipped; at a row, the setting's
scale slipped; anything. Given that, the scales are read independently: a reading is as likely at
every value within its uncertainty; a dial that has slipped may show anything, a spindle has mostly
slipped by little. Slips are weighed only where both the ring and what is set were read: one alone
says what the machine is set to, and nothing of a slip. The odds after reading
are those before, times how likely the readings then were, over the sum of all. Source: Bayes' rule.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from crankwise.plan.schedule import Row
from crankwise.run.entry import Joint
from crankwise.run.evidence import DIAL, MEASURED, RING, Evidence, Reading
from crankwise.run.odds import SURE, USUAL, Odds, row_odds, rows_about
from crankwise.run.slips import OffARow, Slip, chance_of_standing_anywhere, off_a_row, slip_at
from crankwise.run.state import RunState
from crankwise.run.weighing import Misread, Weighed, weighed

Verdict = Literal["here", "misread", "cannot tell", "off a row", "slipped"]

WORTH_TELLING = Fraction(1, 1000)
SLIP_WORTH_TELLING = Fraction(1, 100)
A_MARK = 1
"""Marks of the dial by which a reading may be out and still be told of. Judgement."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A position that the machine may stand at.

    row      its row; of rows at the same place, as in two passes, the one the journal makes likeliest
    alike    all rows at that place
    odds     how surely, from 0 to 1
    misread  readings that would have been grossly wrong; empty when all agree
    """

    row: int
    alike: tuple[int, ...]
    odds: Fraction
    misread: tuple[Misread, ...] = ()

    @property
    def agrees(self) -> bool:
        """Whether every reading agrees, within what it can be read to."""
        return not self.misread


@dataclass(frozen=True, slots=True)
class Beside:
    """A position that the journal speaks of, and that agrees but for about a mark of the dial.

    row    its row
    shows  what it shows on the dial, in marks
    """

    row: int
    shows: Fraction


@dataclass(frozen=True, slots=True)
class WhereAmI:
    """Where the machine stands.

    verdict     here: at `row`, surely; misread: at `row`, surely, but a reading was grossly wrong, so
                read it again; off a row: between positions, surely, nothing slipped; slipped: surely;
                cannot tell: the readings do not decide
    row         the row it stands at; None unless the verdict is here or misread
    candidates  every row that agrees, then those that would with a reading grossly wrong and are worth
                telling; the likeliest first
    off_a_row   where it stands if between positions; None when the readings do not allow it
    slips       what may have slipped, the likeliest first
    turn_shown  whether anything that was read shows which turn of the crank this is: only the ring does, or
                what was measured along a slide; without it a row is named on trust that the whole turns were
                counted right
    beside      the rows near the one in hand that agree with none of this, but would if the dial were read a mark
                out: not weighed, for nobody has said how often that happens, and told so that it is read again
    """

    verdict: Verdict
    row: int | None
    candidates: tuple[Candidate, ...]
    off_a_row: OffARow | None
    slips: tuple[Slip, ...]
    turn_shown: bool
    beside: tuple[Beside, ...] = ()

    @property
    def none_agrees(self) -> bool:
        """Whether no row agrees with everything that was read."""
        return not any(candidate.agrees for candidate in self.candidates)


def where_am_i(
    evidence: Evidence, readings: Sequence[Reading], state: RunState, odds: Odds = USUAL
) -> WhereAmI:
    """Return where the machine stands.

    evidence  what each row shows, with the anchor in force
    readings  what was read, each scale at most once; made by `evidence.reading`
    state     the run as the journal has it; a run without an entry speaks for no row
    odds      how often what goes wrong
    """
    before = row_odds(odds, len(evidence.rows), rows_about(state))
    seen = weighed(evidence, readings, odds)
    shares = _Shares(evidence, readings, before, seen, odds)
    candidates = _candidates(evidence.rows, seen, before, shares)
    slips = _slips(evidence, readings, state, before, seen, shares)
    off = off_a_row(evidence, readings, state)
    between = None if off is None or not shares.off_a_row else off.at_odds(shares.off_a_row)
    verdict: Verdict = "cannot tell"
    row = None
    if candidates and candidates[0].odds >= SURE:
        verdict, row = "here" if candidates[0].agrees else "misread", candidates[0].row
    elif between and between.odds >= SURE:
        verdict = "off a row"
    elif slips and slips[0].odds >= SURE:
        verdict = "slipped"
    turn_shown = not evidence.a_turn_off or any(one.scale.name in (RING, MEASURED) for one in readings)
    beside = _beside(evidence, readings, state, candidates)
    return WhereAmI(verdict, row, candidates, between, slips, turn_shown, beside)


class _Shares:
    """How likely each of the ways to stand is after reading; they come to 1."""

    def __init__(
        self,
        evidence: Evidence,
        readings: Sequence[Reading],
        before: Sequence[Fraction],
        seen: Sequence[Weighed],
        odds: Odds,
    ) -> None:
        ring = [reading for reading in readings if reading.scale.name == RING]
        others = [reading for reading in readings if reading.scale.name != RING]
        by_chance_ring, by_chance_others = _by_chance(ring), _by_chance(others)
        slips = bool(ring and others)
        at_rows, turned_off = _with_turns(evidence, before, seen, odds, slips)
        self._rows = {weight.row: at_rows[weight.row] * weight.all for weight in seen if weight.all}
        self._spindle = {
            weight.row: odds.spindle
            * before[weight.row]
            * weight.others
            * by_chance_ring
            * odds.slip_chance(weight.near)
            for weight in seen
            if weight.others and slips
        }
        self._dial = {
            weight.row: odds.dial * before[weight.row] * weight.ring * by_chance_others
            for weight in seen
            if weight.ring and slips
        }
        off = odds.off_a_row * chance_of_standing_anywhere(evidence, readings) + turned_off
        anything = odds.anything * by_chance_ring * by_chance_others
        self._total = sum(
            (sum(part.values(), Fraction(0)) for part in (self._rows, self._spindle, self._dial)),
            off + anything,
        )
        self.off_a_row = off / self._total

    def row(self, row: int) -> Fraction:
        return self._rows.get(row, Fraction(0)) / self._total

    def slip(self, row: int, joint: Joint) -> Fraction:
        part = self._spindle if joint == "spindle" else self._dial
        return part.get(row, Fraction(0)) / self._total


def _with_turns(
    evidence: Evidence, before: Sequence[Fraction], seen: Sequence[Weighed], odds: Odds, both_read: bool
) -> tuple[list[Fraction], Fraction]:
    """Return how likely each row is before reading, and how likely it all is a whole turn off a row.

    A whole turn out may come down on another row, and is then that row.
    """
    at_rows = [odds.at_a_row * share for share in before]
    off = Fraction(0)
    half = Fraction(odds.a_turn_out, 2)
    for row, beside in enumerate(evidence.a_turn_off):
        for side, other in enumerate(beside):
            if other is not None:
                at_rows[other] += half * before[row]
            elif both_read and seen[row].others and seen[row].turned[side]:
                off += half * before[row] * seen[row].others * seen[row].turned[side]
    return at_rows, off


def _by_chance(readings: Sequence[Reading]) -> Fraction:
    chance = Fraction(1)
    for reading in readings:
        chance /= reading.scale.told_apart
    return chance


def _candidates(
    rows: Sequence[Row], seen: Sequence[Weighed], before: Sequence[Fraction], shares: _Shares
) -> tuple[Candidate, ...]:
    """Gather rows that stand at one place, as in two passes: no reading can tell them apart."""
    alike: dict[tuple[object, ...], list[Weighed]] = {}
    for weight in seen:
        if weight.all:
            place = rows[weight.row].reached.achieved % 1
            alike.setdefault((place, weight.shown), []).append(weight)
    found = []
    for group in alike.values():
        alike_rows = tuple(weight.row for weight in group)
        odds = sum((shares.row(row) for row in alike_rows), Fraction(0))
        if not group[0].misread or odds >= WORTH_TELLING:
            likeliest = max(alike_rows, key=lambda row: (before[row], -row))
            found.append(Candidate(likeliest, alike_rows, odds, group[0].misread))
    return tuple(sorted(found, key=lambda one: (-one.odds, one.row)))


def _beside(
    evidence: Evidence, readings: Sequence[Reading], state: RunState, candidates: Sequence[Candidate]
) -> tuple[Beside, ...]:
    """Return the rows that the journal speaks of that are told nowhere else, and are about a mark away."""
    told = {row for candidate in candidates for row in candidate.alike}
    rows = {row for row in rows_about(state) if row is not None and row < len(evidence.rows)} - told
    return tuple(
        Beside(row, evidence.shown[row][DIAL])
        for row in sorted(rows)
        if DIAL in evidence.shown[row]
        and any(reading.scale.name == DIAL for reading in readings)
        and all(_is_near(reading, evidence.shown[row]) for reading in readings)
    )


def _is_near(reading: Reading, shown: Mapping[str, Fraction]) -> bool:
    scale = reading.scale
    if scale.name not in shown:
        return True
    near = scale.within + (A_MARK if scale.name == DIAL else 0)
    return abs(scale.apart(reading.value, shown[scale.name])) <= near


def _slips(
    evidence: Evidence,
    readings: Sequence[Reading],
    state: RunState,
    before: Sequence[Fraction],
    seen: Sequence[Weighed],
    shares: _Shares,
) -> tuple[Slip, ...]:
    """Measure a slip at each row that the scales other than the slipped one agree with cleanly."""
    if len({reading.scale.name == RING for reading in readings}) < 2:
        return ()
    joints: tuple[Joint, ...] = ("spindle", "dial")
    alike: dict[tuple[object, ...], tuple[int, Fraction]] = {}
    for weight in sorted(seen, key=lambda weight: -before[weight.row]):
        for joint in joints:
            odds = shares.slip(weight.row, joint)
            if odds and weight.agrees_without(joint):
                row, so_far = alike.get((joint, weight.shown), (weight.row, Fraction(0)))
                alike[joint, weight.shown] = row, so_far + odds
    slips = (
        slip_at(evidence, readings, state, row, "spindle" if key[0] == "spindle" else "dial", odds)
        for key, (row, odds) in alike.items()
        if odds >= SLIP_WORTH_TELLING
    )
    return tuple(
        sorted(
            (slip for slip in slips if slip is not None),
            key=lambda slip: (-slip.odds, abs(slip.angle), slip.row),
        )
    )
