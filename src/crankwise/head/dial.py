"""The graduated dial on the crank: how finely it can be read, and between which numerals."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import Fault, FaultsFound
from crankwise.head.rules import Growth, count_fault, read_to_fault


@dataclass(frozen=True, slots=True)
class Dial:
    """A dial that turns with the crank.

    marks           lines all round
    read_to         the smallest part of a mark that the operator reads by eye: 1, 1/2, 1/5 ...
    numbered_every  marks from one numeral to the next; 0 when it has none
    vernier         divisions of the vernier, where there is one: it reads 1/vernier of a mark
    clockwise       what a clockwise turn of the crank does to the dial's reading
    settable        whether the dial can be set to zero wherever the crank stands
    """

    marks: int
    read_to: Fraction = Fraction(1)
    numbered_every: int = 10
    vernier: int | None = None
    clockwise: Growth = "increases"
    settable: bool = True

    def __post_init__(self) -> None:
        faults = count_fault("marks", self.marks, 2, "a dial has", "mark")
        marks = None if faults else self.marks
        faults += read_to_fault("read_to", self.read_to, "mark")
        if self.numbered_every < 0 or (marks and self.numbered_every > marks):
            upper = f"the dial's {marks} marks" if marks else "the marks of the dial"
            faults.append(
                Fault("numbered_every", f"{self.numbered_every}; from 1 to {upper}, or 0 for no numerals")
            )
        if self.vernier is not None:
            faults += self._vernier_faults(self.vernier, marks)
        if faults:
            raise FaultsFound(faults)

    def _vernier_faults(self, vernier: int, marks: int | None) -> list[Fault]:
        """A vernier of n divisions lies along n - 1 marks, and both ends must be seen at once.

        marks  of the dial; None where their number is wrong itself
        """
        if vernier < 2:
            return [
                Fault("vernier", f"{vernier} division{'' if vernier == 1 else 's'}; a vernier has 2 or more")
            ]
        if marks and vernier - 1 >= marks:
            return [
                Fault(
                    "vernier",
                    f"{vernier} divisions lie along {vernier - 1} marks, and the dial has only {self.marks}; "
                    f"{self.marks} divisions at most fit",
                )
            ]
        return []

    @property
    def places_per_mark(self) -> int:
        """Settings that can be told apart in one mark: by eye or by the vernier, whichever is finer."""
        return max(self.read_to.denominator, self.vernier or 1)

    @property
    def places(self) -> int:
        """Settings that can be told apart in one turn of the crank."""
        return self.marks * self.places_per_mark

    def between(self, reading: Fraction) -> tuple[int, int] | None:
        """Return the two numerals that a reading lies between, or None on a dial without numerals.

        reading  in marks, from 0 to below `marks`. The second numeral of the last interval is 0.
        A reading on a numeral lies between it and the next.

        >>> Dial(100, Fraction(1, 2)).between(Fraction(113, 2))
        (50, 60)
        """
        if not self.numbered_every:
            return None
        lower = int(reading) // self.numbered_every * self.numbered_every
        upper = lower + self.numbered_every
        return lower, upper if upper < self.marks else 0
