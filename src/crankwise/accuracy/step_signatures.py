"""The signature that each fault leaves in the pitches of a part, and which of them the pitches show beyond chance.

A traverse that does not close is searched for its blunder by the signature of each kind. So here:

- A position set wrong stands alone: one pitch wide, the next as narrow, all else unchanged.
- A slip stays: all that was cut after it stands beside its place, so the last pitch, back to position 0 that
  was cut before it, takes back all that slipped on the way.
- A pitch misread changes nothing else: neither its neighbours nor the last pitch answer it, and the pitches do
  not make the circle, by just as much.
- Steps that add up make all pitches alike but the last, which takes up the sum.
"""

from collections.abc import Iterator, Sequence
from math import sqrt
from typing import Literal, NamedTuple

from crankwise.accuracy.chances import t_limit
from crankwise.accuracy.inspection import Inspected, wave_of_pitches
from crankwise.accuracy.least_squares import Columns, dot

LEVEL = 0.01
"""How often chance alone may show a fault anywhere on a part."""
MOST_FAULTS = 10
_ONE_IN = 4
"""Pitches for each fault at least; beyond that nothing says which are the usual ones."""
_AS_POSITIONS = 1.5
"""Variance of a position against its neighbours where positions scatter, pitches having 1: 6/2 against 2."""
_NONE_HIDDEN = 1000
"""From so many pitches on, a few faults cannot widen the scatter so far that they hide each other."""
_SEEN = 1e-9
"""Of a signature's square, what the usual pitch, the wave and other faults must leave of it."""

Kind = Literal["slip", "position", "pitch", "closing"]


class Signature(NamedTuple):
    """What a fault does to the pitches, for each micrometre of it.

    kind   slip: a step that stays; position: one set wrong; pitch: one alone; closing: the last one alone
    at     the position after which the step is, or which is out; of a pitch the position that it begins at
    marks  the pitches that it changes, and by how much each
    """

    kind: Kind
    at: int
    marks: tuple[tuple[int, float], ...]

    @property
    def weight(self) -> float:
        """How much more scatter may show of it than of a pitch."""
        return _AS_POSITIONS if self.kind == "position" else 1.0

    def along(self, pitches: Sequence[float]) -> float:
        """Return its product with the pitches."""
        total = 0.0
        for place, by in self.marks:
            total += by * pitches[place]
        return total

    def column(self, count: int) -> list[float]:
        """Return what it does to every pitch."""
        column = [0.0] * count
        for place, by in self.marks:
            column[place] = by
        return column


def signatures(part: Inspected) -> Iterator[Signature]:
    """Give the signature of every fault that a part can show, each once.

    Where each position was measured by itself (`part.targets`), one that is misread looks as one set wrong, and a
    pitch alone cannot be misread. A slip next to position 0 looks as a position set wrong, and is told as that.
    """
    last = len(part.single) - 1
    if not part.goes_round:
        yield from (Signature("position", k, ((k - 1, 1.0), (k, -1.0))) for k in range(1, last + 1))
        yield from (Signature("slip", k, ((k, 1.0),)) for k in range(last + 1))
        return
    yield from (Signature("position", k, (((k - 1) % (last + 1), 1.0), (k, -1.0))) for k in range(last + 1))
    yield from (Signature("slip", k, ((k, 1.0), (last, -1.0))) for k in range(1, last - 1))
    yield Signature("closing", last, ((last, 1.0),))
    if not part.targets:
        yield from (Signature("pitch", k, ((k, 1.0),)) for k in range(last))


def usual_columns(part: Inspected) -> Columns:
    """Return what all pitches may share: the usual one, and a wave where the positions go far enough round."""
    level = [1.0] * len(part.single)
    return [level, *wave_of_pitches(part, 1)] if part.goes_far_enough else [level]


class Rest:
    """What is left of the pitches, and of signatures, when columns have been taken out of them one after the other."""

    def __init__(self, single: Sequence[float], columns: Columns, known: Sequence[Signature]) -> None:
        self.left = list(single)
        self.freedom = len(single)
        self.known = known
        self._own = [sum(by * by for _, by in one.marks) for one in known]
        self._free = list(self._own)
        self._basis: list[list[float]] = []
        for column in columns:
            self.take(column)

    def take(self, column: Sequence[float]) -> None:
        """Take one more column out."""
        basis = list(column)
        for _ in range(2):  # twice, so that rounding leaves nothing of the others in it
            for other in self._basis:
                along = dot(other, basis)
                basis = [one - along * there for one, there in zip(basis, other, strict=True)]
        square = dot(basis, basis)
        if square <= _SEEN * dot(column, column):
            return
        length = sqrt(square)
        basis = [one / length for one in basis]
        along = dot(basis, self.left)
        self.left = [one - along * there for one, there in zip(self.left, basis, strict=True)]
        self._free = [free - one.along(basis) ** 2 for free, one in zip(self._free, self.known, strict=True)]
        self._basis.append(basis)
        self.freedom -= 1

    @property
    def squares(self) -> float:
        """The sum of the squares of what is left."""
        return dot(self.left, self.left)

    def gains(self) -> list[float]:
        """Return by how much the squares would fall, if this one of the known signatures were taken out too."""
        return [
            one.along(self.left) ** 2 / free if free > _SEEN * own else 0.0
            for one, free, own in zip(self.known, self._free, self._own, strict=True)
        ]


def seen_signatures(part: Inspected) -> list[Signature]:
    """Return the faults that the pitches show beyond chance, the plainest first.

    The one that explains most is taken out, then the one that explains most of what is left, and so on, ten
    times at most; each is held against the scatter that stays without it, and the last that stands out says how
    many there are, so that two do not hide each other. A wave once per turn is allowed for, seen or not.
    Source: the generalised extreme Studentized deviate test, NIST/SEMATECH handbook 1.3.5.17.3, of signatures in
    place of single values; Bonferroni's limit of Student's t, of all signatures together.
    """
    count = len(part.single)
    known = list(signatures(part))
    rest = Rest(part.single, usual_columns(part), known)
    nothing = 1e-18 * dot(part.single, part.single)
    taken: list[Signature] = []
    found = 0
    for number in range(1, min(MOST_FAULTS, max(count // _ONE_IN, 1)) + 1):
        squares = rest.squares
        if rest.freedom < 2 or squares <= nothing:
            break
        gain, index = max((gain, -index) for index, gain in enumerate(rest.gains()))
        best = known[-index]
        others = max(squares - gain, nothing) / (rest.freedom - 1)
        limit = t_limit(rest.freedom - 1, LEVEL / len(known))
        if gain > limit**2 * best.weight * others:
            found = number
        elif count > _NONE_HIDDEN:
            break
        taken.append(best)
        rest.take(best.column(count))
    return taken[:found]
