"""Dials whose turn is worth so much: a leadscrew's dial, an hour ring, and what each line is worth."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from crankwise.errors import BadDivisions
from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.part.divisions import AngleList
from crankwise.part.scale_lines import Scale, check_count, equal_lines

_MOST_SUGGESTED = 500


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit that a dial is told in: its name, and its size in millimetres or minutes."""

    name: str
    size: Fraction


MM = Unit("mm", Fraction(1))
INCHES = Unit("in", INCH)
MINUTES = Unit("min", Fraction(1))


def lines_of_a_dial(a_turn: Fraction, a_line: Fraction) -> Fraction:
    """Return how many lines a dial has: what a turn is worth by what a line is worth, whole or not.

    Source: derived. A lead of 1/8 in with a line for 0.001 in asks for 125 lines.
    """
    return a_turn / a_line


def dial_scale(a_turn: Fraction, a_line: Fraction, unit: Unit, short_last: bool = False) -> Scale:
    """Return the lines of a dial, all round the circle.

    a_turn      what a turn is worth: a leadscrew's lead in mm, an hour ring's period in minutes; above 0
    a_line      what a line is worth, in the same; above 0
    unit        what both are told in
    short_last  let the last space be shorter where the lines do not come out whole

    Raises BadDivisions when they do not come out whole and the last space may not be short; the sentence
    says which values of a line do.
    """
    for what, value in (("a turn", a_turn), ("a line", a_line)):
        if value <= 0:
            raise BadDivisions("dial", f"{what} is worth {_told(value, unit)}; both are above 0")
    lines = lines_of_a_dial(a_turn, a_line)
    if lines < 2:
        raise BadDivisions(
            "dial",
            f"a line worth {_told(a_line, unit)} on a turn worth {_told(a_turn, unit)} leaves "
            f"{as_text(lines)} lines; a dial has 2 or more, so let a line be worth less",
        )
    check_count(int(lines))
    if lines.denominator == 1:
        return equal_lines(int(lines))
    if not short_last:
        raise BadDivisions("dial", _not_whole(a_turn, a_line, unit, lines))
    whole = int(lines)
    numbers = range(whole + 1)
    return Scale(
        f"{whole + 1} lines, the last space short",
        AngleList(tuple(number / lines for number in numbers)),
        tuple(Fraction(number) for number in numbers),
        note=f"the last space is only {as_text(lines - whole)} of a space: "
        "a reading across it must be taken up from the zero again",
    )


def _not_whole(a_turn: Fraction, a_line: Fraction, unit: Unit, lines: Fraction) -> str:
    found = [*_whole_values(a_turn, a_line, unit)]
    near = ", ".join(f"{_told(value, unit)} ({as_text(a_turn / value)} lines)" for value in found)
    right = (
        f"a line worth {near} does, or" if found else "no line worth 1, 2, 2.5 or 5 of any decimal does, so"
    )
    return (
        f"a line worth {_told(a_line, unit)} does not go whole into a turn worth {_told(a_turn, unit)}: "
        f"{as_text(lines)} lines; {right} let the last space be short (short-last)"
    )


def _whole_values(a_turn: Fraction, a_line: Fraction, unit: Unit) -> Iterator[Fraction]:
    """Yield values of a line near the asked one, of the kind 1, 2, 2.5, 4 or 5, that come out whole."""
    found = []
    for power in range(-5, 4):
        for digit in (Fraction(1), Fraction(2), Fraction(5, 2), Fraction(4), Fraction(5)):
            value = digit * Fraction(10) ** power * unit.size
            lines = a_turn / value
            if lines.denominator == 1 and 4 <= lines <= _MOST_SUGGESTED:
                found.append(value)
    found.sort(key=lambda value: max(value / a_line, a_line / value))
    yield from sorted(found[:3])


def _told(value: Fraction, unit: Unit) -> str:
    return f"{as_text(value / unit.size)} {unit.name}"


@dataclass(frozen=True, slots=True)
class ThreadDial:
    """A thread dial: a gear that runs on the lathe's leadscrew and shows where the half nuts may be closed.

    teeth    teeth of its gear, 1 or more
    lead_mm  the leadscrew's lead
    """

    teeth: int
    lead_mm: Fraction

    def __post_init__(self) -> None:
        if self.teeth < 2 or self.lead_mm <= 0:
            raise BadDivisions(
                "thread dial",
                f"{self.teeth} teeth on a lead of {as_text(self.lead_mm)} mm; "
                "it has 2 teeth or more, and a lead above 0",
            )

    def closings(self, thread_mm: Fraction) -> Fraction:
        """Return how many places in a turn of the dial the half nuts may be closed at for a thread of this lead.

        The carriage may move by whole leads of the screw that are whole leads of the thread: the least is m
        leads of the screw, so the dial has teeth / m places. It must come out whole to be read from lines;
        else the half nuts stay closed, or the places come round only after several turns.
        Source: derived; m is the denominator of lead of the screw by lead of the thread.

        >>> ThreadDial(16, Fraction(127, 20)).closings(Fraction(254, 50))
        Fraction(4, 1)
        """
        if thread_mm <= 0:
            raise BadDivisions("thread dial", f"a thread of {as_text(thread_mm)} mm; a lead is above 0")
        return Fraction(self.teeth, (self.lead_mm / thread_mm).denominator)

    def scale(self, threads_mm: tuple[Fraction, ...]) -> Scale:
        """Return the fewest equal lines that show the closings of all these threads that come out whole.

        Raises BadDivisions when none does; the sentence says how many teeth would.
        """
        whole = [places for places in map(self.closings, threads_mm) if places.denominator == 1]
        if not whole:
            needed = {(self.lead_mm / thread).denominator for thread in threads_mm}
            raise BadDivisions(
                "thread dial",
                f"a gear of {self.teeth} teeth shows none of these threads; a multiple of "
                f"{', '.join(map(str, sorted(needed)))} teeth does",
            )
        return equal_lines(max(lcm(*map(int, whole)), 2))
