"""Ask for a division: read what was typed, and find every way."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import BadDivisions, BadNumber
from crankwise.exact.angle import read_angle, read_angles
from crankwise.exact.length import read_diameter, read_tolerance
from crankwise.exact.number import as_text, read_number
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions
from crankwise.part.part import Part, Work
from crankwise.ways.ranking import is_within, reason
from crankwise.ways.search import find_ways
from crankwise.ways.way import Way


@dataclass(frozen=True, slots=True)
class Division:
    """The answer to a division: every way, the best first.

    tolerance  what was asked, in turns of the spindle; None when nothing was
    why_none   why the work leaves none of the ways that the head has; empty where it leaves one, or the head has none
    methods    the methods of dividing that the work leaves; None for all
    """

    head: Head
    part: Part
    tolerance: Fraction | None
    ways: tuple[Way, ...]
    why_none: str = ""
    methods: tuple[str, ...] | None = None

    def left_of(self, ways: Iterable[Way]) -> tuple[Way, ...]:
        """Return those of some ways that the work leaves."""
        return tuple(way for way in ways if self.methods is None or way.method in self.methods)

    @property
    def is_answered(self) -> bool:
        """Whether there is a way, and it is within the tolerance where one was asked."""
        return bool(self.ways) and (self.tolerance is None or is_within(self.ways[0], self.tolerance))

    @property
    def reason(self) -> str:
        """Why the first way is put first, in one sentence."""
        if not self.ways and self.part.is_straight != self.head.is_straight:
            return "the work is cut along a slide" if self.part.is_straight else "a slide turns nothing"
        if self.why_none:
            return self.why_none
        if not self.ways:
            return "no scale on this head comes out whole over a full circle"
        return reason(self.ways[0], self.tolerance)


def asked_part(
    count: str | None,
    *,
    angles: str | None = None,
    start: str | None = None,
    first: str | None = None,
    last: str | None = None,
    every: str | None = None,
    rim: str | None = None,
    work: Work = "position",
) -> Part:
    """Return the part that was typed: equal divisions, or a list of angles, and the rim's diameter.

    All are texts as typed; None or an empty text where nothing was. Raises Mendable.
    """
    if angles:
        divisions: Divisions = _asked_list(
            angles, count, {"start": start, "first": first, "last": last, "every": every}
        )
    else:
        divisions = EqualDivisions(
            whole_number(count, "divisions"),
            read_angle(start, "start") if start else Fraction(0),
            whole_number(first, "first") if first else 0,
            whole_number(last, "last") if last else None,
            whole_number(every, "every") if every else 1,
        )
    return Part(divisions, read_diameter(rim, "rim") if rim else None, work)


def _asked_list(angles: str, count: str | None, others: dict[str, str | None]) -> AngleList:
    for name, typed in others.items():
        if typed:
            raise BadDivisions(name, "goes with a number of equal divisions, not with a list of angles")
    divisions = AngleList(read_angles(angles))
    if count and whole_number(count, "divisions") != len(divisions):
        raise BadDivisions(
            "divisions",
            f"{count} asked, but the list has {len(divisions)} angles; leave the number out with a list",
        )
    return divisions


def whole_number(typed: str | None, what: str) -> int:
    """Return a whole number as typed; `what` names it in the error's sentence. Raises BadDivisions."""
    or_a_list = what == "divisions"
    if not typed or not typed.strip():
        raise BadDivisions(
            what, f"nothing given; write a whole number, as 127{', or a list of angles' if or_a_list else ''}"
        )
    try:
        value = read_number(typed, what)
    except BadNumber:
        shown = typed if len(typed) <= 40 else typed[:37] + "..."
        raise BadDivisions(what, f"{shown!r} is not a whole number; write it as 127") from None
    if value.denominator != 1:
        right = (
            "a circle is divided into whole parts (for uneven ones give a list of angles)"
            if or_a_list
            else "positions and parts are counted whole"
        )
        raise BadDivisions(what, f"{as_text(value)} is not a whole number; {right}")
    return int(value)


def read_within(part: Part, typed: str) -> Fraction:
    """Return the tolerance that was typed for a part, in turns. Raises BadLength."""
    tolerance = read_tolerance(typed)
    return tolerance.along_a_slide() if part.is_straight else tolerance.as_turns(part.rim_mm)


def divide(head: Head, part: Part, within: str | None = None, corrected: bool = False) -> Division:
    """Return every way to divide the part on this head, the best first.

    within     the tolerance as typed: an angle, or a length at the rim; None or empty when not asked
    corrected  whether settings make good the head's known errors; only ways that can do so are then given

    Raises BadLength when the tolerance cannot be read, or is a length and the part has no rim, or an angle
    and the part is straight; and BadDivisions when a head that was never measured should be corrected.
    """
    tolerance = read_within(part, within) if within else None
    if corrected:
        from crankwise.plan.corrected import corrected_ways

        return Division(head, part, tolerance, tuple(corrected_ways(head, part.divisions, tolerance)))
    return Division(head, part, tolerance, tuple(find_ways(head, part.divisions, tolerance)))
