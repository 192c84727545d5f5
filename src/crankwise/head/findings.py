"""What is worth a second look on a head that is sound: traps of the trade, each with a stable code."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from crankwise.exact.number import as_text
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.worm import USUAL_RATIOS

_EASY_NUMERALS = (0, 1, 2, 5, 10, 20, 50, 100)
_BY_EYE = Fraction(1, 10)


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing worth a second look.

    code     stable, for programs: "ring-too-coarse"
    place    the key of the head file that it is about
    message  what was found, and what to do about it
    """

    code: str
    place: str
    message: str


def findings(head: Head) -> tuple[Finding, ...]:
    """Return what is worth a second look; nothing of it makes the head wrong.

    Source: common practice, no source; each rule is told where it stands.
    """
    return (*_of_the_worm(head), *_of_the_dial(head), *_of_the_plates(head), *_of_the_ring(head))


def _of_the_worm(head: Head) -> Iterator[Finding]:
    if head.worm is None:
        return
    ratio, worm = head.worm.ratio, head.worm
    if ratio not in USUAL_RATIOS and 2 * ratio in USUAL_RATIOS:
        said = f"as the {worm.starts} starts of the worm say" if worm.starts > 1 else "as of a two-start worm"
        yield Finding(
            "ratio-is-half-a-usual-one",
            "worm",
            f"{as_text(ratio)}:1 is half of {as_text(2 * ratio)}:1, {said}; be sure: "
            f"turn the crank {as_text(ratio)} times and see that the spindle comes round once",
        )
    for place, wheel, places in _crank_scales(head):
        if (ratio * places).denominator != 1:
            yield Finding(
                "full-circle-not-whole",
                place,
                f"{as_text(ratio)} turns of the crank are {as_text(ratio * places)} {wheel}: a full circle "
                "does not come out whole, so nothing that goes round is divided on it",
            )


def _crank_scales(head: Head) -> Iterator[tuple[str, str, int]]:
    if head.dial:
        yield "dial", "readings of the dial", head.dial.places
    for number, plate in enumerate(head.plates):
        for index, circle in enumerate(plate.circles):
            yield f"plates[{number}].circles[{index}]", f"holes of the {circle} circle", circle


def _of_the_dial(head: Head) -> Iterator[Finding]:
    dial = head.dial
    if dial is None:
        return
    yield from _of_its_lines(dial)
    if dial.read_to < _BY_EYE:
        yield Finding(
            "read-finer-than-a-tenth",
            "dial.read_to",
            f"1/{dial.read_to.denominator} of a mark is finer than an eye estimates; 1/10 is a practised eye's best",
        )
    if dial.vernier and dial.read_to.denominator > dial.vernier:
        yield Finding(
            "vernier-coarser-than-the-eye",
            "dial.vernier",
            f"it reads 1/{dial.vernier} of a mark and read_to says 1/{dial.read_to.denominator} by eye; "
            "the finer one is used, so the vernier does nothing",
        )
    if not dial.settable:
        yield Finding(
            "dial-not-settable",
            "dial.settable",
            "the dial cannot be set to zero: begin each run with the crank at 0, and bring the work to it",
        )
    if head.worm and head.ring and head.worm.clockwise != dial.clockwise:
        yield Finding(
            "dial-and-ring-run-opposite-ways",
            "dial.clockwise",
            "as the dial's numbers grow the ring's fall; the ring checks are written so, and it is easily misread",
        )


def _of_its_lines(dial: Dial) -> Iterator[Finding]:
    every = dial.numbered_every
    if every not in _EASY_NUMERALS:
        yield Finding(
            "numerals-unusual",
            "dial.numbered_every",
            f"a numeral every {every} marks; usual are 1, 2, 5, 10 or 20. Count the marks between two numerals",
        )
    elif every and dial.marks % every:
        yield Finding(
            "last-interval-short",
            "dial.numbered_every",
            f"{dial.marks} marks numbered every {every} leave {dial.marks % every} before 0; that one is misread "
            "most easily",
        )


def _of_the_plates(head: Head) -> Iterator[Finding]:
    first_on: dict[int, int] = {}
    for number, plate in enumerate(head.plates):
        for index, circle in enumerate(plate.circles):
            if circle in first_on:
                yield Finding(
                    "circle-on-two-plates",
                    f"plates[{number}].circles[{index}]",
                    f"{circle} is on plates[{first_on[circle]}] too; it is offered once. Is the count right?",
                )
            first_on.setdefault(circle, number)


def _of_the_ring(head: Head) -> Iterator[Finding]:
    """The ring tells which turn of the crank this is when one turn moves it by more than one reading."""
    if head.worm is None or not (head.dial or head.plates):
        return
    if head.ring is None:
        yield Finding(
            "no-ring",
            "ring",
            "nothing tells which turn of the crank this is: a lost turn shows only in the work. A strip of paper "
            "round the spindle, marked at each turn, would tell",
        )
    elif head.ring.places <= head.worm.ratio:
        yield Finding(
            "ring-too-coarse",
            "ring.read_to",
            f"one turn of the crank moves the ring {as_text(Fraction(360) / head.worm.ratio)} degrees, and it is read "
            f"to {as_text(Fraction(360, head.ring.places))}: neighbouring turns cannot be told apart",
        )
