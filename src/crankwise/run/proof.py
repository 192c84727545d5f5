"""What each scale can prove: which slip of the count it cannot but show, at which row.

A reading is out by at most its uncertainty u, so a scale surely shows a difference of more than 2u.
The ring says which turn of the crank this is; the scale that is set says where in the turn. How many
different readings it has over the whole circle depends on the number of parts: N / gcd(N, ratio) of
them for equal parts and a whole ratio. Source: derived; see `least_gap`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from crankwise.run.evidence import RING, Evidence, Readable

Slipup = Literal["one short", "one over", "turn short", "turn over"]
"""What can go wrong in counting: a move lost or doubled, a whole turn of the crank too few or too many."""

SLIPUPS: tuple[Slipup, ...] = ("one short", "one over", "turn short", "turn over")


def least_gap(count: int, ratio: Fraction) -> Fraction:
    """Return the least part of a turn between two different readings of `count` equal parts.

    Reading k is k x ratio / count of a turn, less the whole turns. Over the bottom of ratio / count in
    lowest terms, b, all multiples of 1/b come up when that many parts are made; count / gcd for a whole
    ratio. Where the bottom is larger than the count, every part has its own.

    >>> least_gap(149, Fraction(72)) * 100  # marks of a dial of 100
    Fraction(100, 149)
    """
    step = ratio / count
    if step.denominator <= count:
        return Fraction(1, step.denominator)
    readings = sorted(step * part % 1 for part in range(count))
    return min((high - low for low, high in pairwise((*readings, readings[0] + 1))), default=Fraction(1))


@dataclass(frozen=True, slots=True)
class Proof:
    """What asking for scales at one row proves.

    asks    the fewest scales that prove all that can be proved there, the ring first
    proves  the slip-ups that cannot have happened when the scales read as they should
    shows   those of them that a scale would show there; the others cannot happen at this row
    """

    row: int
    asks: tuple[str, ...]
    proves: frozenset[Slipup]
    shows: frozenset[Slipup]


def possible(evidence: Evidence) -> tuple[Slipup, ...]:
    """Return the slip-ups of counting that this way of dividing allows."""
    cranked = any(row.reached.setting.turns is not None for row in evidence.rows)
    return SLIPUPS if cranked and evidence.plan.head.ratio else SLIPUPS[:2]


def proofs(evidence: Evidence) -> tuple[Proof, ...]:
    """Return what can be proved at each row."""
    slipups = possible(evidence)
    scales = sorted(evidence.scales, key=lambda scale: scale.name != RING)
    found = []
    for row in range(len(evidence.rows)):
        idle = frozenset(slip for slip in slipups if not _can_happen(evidence, row, slip))
        shows = {
            scale.name: frozenset(slip for slip in slipups if _shows(evidence, scale, row, slip))
            for scale in scales
        }
        found.append(_fewest(row, [scale.name for scale in scales], shows, idle))
    return tuple(found)


def _fewest(
    row: int, names: Sequence[str], shows: dict[str, frozenset[Slipup]], idle: frozenset[Slipup]
) -> Proof:
    """Take the ring where there is one, since it also shows a slip; then whatever proves more."""
    asks: list[str] = []
    shown: frozenset[Slipup] = frozenset()
    for name in names:
        if name == RING or shows[name] - shown:
            asks.append(name)
            shown |= shows[name]
    return Proof(row, tuple(asks), shown | idle, shown)


def _can_happen(evidence: Evidence, row: int, slip: Slipup) -> bool:
    """Return whether there is a place for it: no move is lost before the first, nor doubled where all are one."""
    if slip == "one short":
        return _row_elsewhere(evidence, row, -1) is not None
    if slip == "one over":
        return any(_row_elsewhere(evidence, row, step) is not None for step in (1, -1))
    return True


def _row_elsewhere(evidence: Evidence, row: int, step: int) -> int | None:
    """Return the nearest row before or after that stands at another place; None when none does."""
    rows = evidence.rows
    place = rows[row].reached.achieved % 1
    at = row + step
    while 0 <= at < len(rows) and rows[at].reached.achieved % 1 == place:
        at += step
    return at if 0 <= at < len(rows) else None


def _shows(evidence: Evidence, scale: Readable, row: int, slip: Slipup) -> bool:
    """Return whether a scale surely reads otherwise at a row after a slip-up."""
    here = evidence.shown[row].get(scale.name)
    if here is None or not _can_happen(evidence, row, slip):
        return False
    if slip in ("turn short", "turn over"):
        ratio = evidence.plan.way.crank_ratio
        if scale.name != RING or ratio is None:
            return False
        return abs(scale.apart(here + scale.full / ratio, here)) > 2 * scale.within
    other = _row_elsewhere(evidence, row, 1 if slip == "one over" else -1)
    shown = evidence.one_past_the_end if other is None else evidence.shown[other]
    sure = 2 * scale.within
    if shown is None:
        # Past the last row of an arc: as far on as it is from the row before, to a place at most.
        before = _row_elsewhere(evidence, row, -1)
        shown, sure = {} if before is None else evidence.shown[before], 4 * scale.within
    there = shown.get(scale.name)
    if there is None:
        return scale.within == 0
    return abs(scale.apart(there, here)) > sure


def surely_seen_slip(scale: Readable) -> Fraction:
    """Return the size that a slip must pass to be surely seen on the ring, in turns of the spindle."""
    return 2 * scale.within / scale.full
