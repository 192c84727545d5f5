"""Your own list: angles, each with a text that is told at its position."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import BadDivisions, Fault, FaultsFound
from crankwise.exact.angle import read_angle
from crankwise.exact.listed import listed
from crankwise.part.card import Card, CardLine
from crankwise.part.divisions import AngleList
from crankwise.part.part import Mark, Part
from crankwise.part.usual_lines import TRACE

MOST_CHARACTERS = 80
"""The longest text that still fits beside a row."""


@dataclass(frozen=True, slots=True)
class OwnPosition:
    """One angle with its text.

    angle  in turns from the start, exactly
    text   what to do there; may be empty
    """

    angle: Fraction
    text: str = ""


@dataclass(frozen=True, slots=True)
class OwnList:
    """Angles with their texts, rising, within one turn. Raises BadDivisions or FaultsFound, naming what is wrong."""

    positions: tuple[OwnPosition, ...]

    def __post_init__(self) -> None:
        AngleList(tuple(one.angle for one in self.positions))
        faults = []
        for number, one in enumerate(self.positions, 1):
            if len(one.text) > MOST_CHARACTERS:
                faults.append(
                    Fault(
                        f"text {number} of the list",
                        f"{len(one.text)} characters; a text has {MOST_CHARACTERS} at most, to fit beside its row",
                    )
                )
            elif not one.text.isprintable():
                faults.append(
                    Fault(
                        f"text {number} of the list",
                        "it holds a character that cannot be printed; leave it out",
                    )
                )
        if faults:
            raise FaultsFound(faults)


def read_own_list(typed: str) -> OwnList:
    """Return the list typed as `angle: text`, parted by semicolons or new lines: `0: open; 12d30m: close`.

    An equals sign does for the colon; a text may be left out; lines that begin with # are passed over.
    Raises BadAngle naming the place in the list, BadDivisions, or FaultsFound.
    """
    positions = []
    pieces = listed(typed, "list", ";", by_lines=True)
    if not pieces:
        raise BadDivisions("list", "nothing in it; write angles with their texts, as 0: open; 12.5: close")
    for number, piece in enumerate(pieces, 1):
        joint = min((place for place in map(piece.find, ":=") if place >= 0), default=len(piece))
        angle = read_angle(piece[:joint], f"angle {number} of the list")
        positions.append(OwnPosition(angle, " ".join(piece[joint + 1 :].split())))
    return OwnList(tuple(positions))


def part_of(own: OwnList, rim_mm: Fraction | None = None) -> Part:
    """Return the list as a part to divide, each text as the note of its position.

    rim_mm  diameter at which errors are told as lengths, in mm; None if not asked
    """
    return Part(
        AngleList(tuple(one.angle for one in own.positions)),
        rim_mm,
        "position",
        tuple(Mark(note=one.text) for one in own.positions),
    )


def preparation_card(own: OwnList) -> Card:
    """Return what to have ready before the first position."""
    return Card(
        "Preparation",
        (
            CardLine("positions", Fraction(len(own.positions)), "count"),
            CardLine(
                "zero",
                note="mark on the work where angle 0 is and which way the angles grow, before it is held",
            ),
            CardLine(
                "holding",
                note="so that it cannot slip: witness marks over every joint between work and spindle",
            ),
            TRACE,
        ),
    )


def measuring_card(own: OwnList) -> Card:
    """Return the angles from each position to the next, which is how a list is checked on the part."""
    lines = [
        CardLine(f"from {number} to {number + 1}", after.angle - before.angle, "turn")
        for number, (before, after) in enumerate(zip(own.positions, own.positions[1:], strict=False))
    ]
    last = len(own.positions) - 1
    if last:
        rest = 1 - (own.positions[-1].angle - own.positions[0].angle)
        lines.append(
            CardLine(f"from {last} back to 0", rest, "turn", note="all of them together make one turn")
        )
    lines.append(
        CardLine("before taking it off", note="turn on to position 0 again: the tool must meet the first cut")
    )
    return Card("Measuring", tuple(lines))
