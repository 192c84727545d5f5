"""The odds by which readings are weighed: judgement, written down once, and open to change.

How often mistakes happen nobody has measured in a home shop. These are typical, not standard; what is
sure, that a reading fits one position alone, hangs little on them, and what hangs on them is told as
odds and not as fact. Source: how often each fault is met, common practice, no source; the two gross
errors of reading, one numbered interval too many or too few and reading backwards, are those that a
laboratory study of 40 400 readings names.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from crankwise.run.state import RunState


@dataclass(frozen=True, slots=True)
class Odds:
    """Out of 1000 each time.

    Where the machine stands when somebody asks:
    at_a_row      at a position of the run, nothing slipped
    a_turn_out    a whole turn of the crank past a position or short of it, either way the same
    off_a_row     anywhere between positions: on the way, or gone past; nothing slipped
    spindle       at the setting of a position, the spindle slipped by any amount
    dial          at a position, what it is set by slipped by any amount
    anything      nothing is known

    Which row, as the journal has it:
    here, next    the row done last; the row to do
    one_back      the row done before the last
    one_on        the row after the row to do
                  what is left falls evenly on all other rows

    How one reading is gone wrong, beyond what it can be read to:
    interval      by one numbered interval, or by one in counting; either way the same
    backwards     counted from the wrong one of the two numerals that it lies between

    How far a spindle slips:
    small_slip    by at most SMALL_SLIP either way, every amount the same; else by any amount
    """

    at_a_row: int = 899
    a_turn_out: int = 40
    off_a_row: int = 40
    spindle: int = 10
    dial: int = 10
    anything: int = 1
    here: int = 400
    next: int = 400
    one_back: int = 50
    one_on: int = 50
    interval: int = 10
    backwards: int = 5
    small_slip: int = 900

    def slip_chance(self, is_small: bool) -> Fraction:
        """How much likelier a slip of this size is than if all amounts were alike."""
        anywhere = Fraction(1000 - self.small_slip, 1000)
        return anywhere + Fraction(self.small_slip, 1000) / (2 * SMALL_SLIP) if is_small else anywhere

    @property
    def clean(self) -> int:
        """A reading with nothing grossly wrong."""
        return 1000 - self.interval - self.backwards


SMALL_SLIP = Fraction(1, 72)
"""Turns of the spindle: 5 degrees."""

USUAL = Odds()

SURE = Fraction(99, 100)
"""What the odds must come to before one answer alone is given."""


def row_odds(odds: Odds, rows: int, at: Sequence[int | None]) -> list[Fraction]:
    """Return the odds of each row before anything is read; they come to 1.

    at  the row where the machine was left, the row to do, the row done before the last, the row after the row to do;
        None, or beyond the last row, where there is none
    """
    known: dict[int, int] = {}
    for row, weight in zip(at, (odds.here, odds.next, odds.one_back, odds.one_on), strict=True):
        if row is not None and 0 <= row < rows:
            known.setdefault(row, weight)
    others = rows - len(known)
    evenly = 1000 - odds.here - odds.next - odds.one_back - odds.one_on
    total = sum(known.values()) + (evenly if others else 0)
    other = Fraction(evenly, others * total) if others else Fraction(0)
    return [Fraction(known[row], total) if row in known else other for row in range(rows)]


def rows_about(state: RunState) -> tuple[int | None, int | None, int | None, int | None]:
    """Return the rows that the journal speaks of, as `row_odds` asks them."""
    done = [step.row for step in state.trail[-3:] if step.kind == "done"]
    here = state.stands_at
    before = done[-2] if len(done) > 1 else None
    ahead = state.at_row if state.began and not state.finished else None
    return here, ahead, before, None if ahead is None else ahead + 1
