"""What touches what on graduated work: numerals with their burr, lines, the end of the face, a stamp's shank.

Everything is a real rectangle in the flat, so nothing is guessed from averages: a wide numeral is checked
as wide as it is, and the last one against the first. Lengths are floats, good to a nanometre.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import pi
from typing import Literal

from crankwise.part.box import Box, gap
from crankwise.part.graduated import CLEAR_OF_LINES_MM, CLEAR_OF_NUMERALS_MM, Graduated, Line
from crankwise.part.surface import RIM_LEFT_MM

Thing = Literal["numeral", "line", "edge", "shoulder"]
NEGLIGIBLE_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Collision:
    """Two things that touch, or stand nearer than they should.

    thing, position  the one: a numeral, a line or a stamp's shank, and the position it belongs to
    text             what the numeral says, empty for a line
    other            what it touches: a line, a numeral, the edge of the face, a shoulder
    other_position   the position that belongs to, None for an edge or a shoulder
    gap_mm           how far apart they are; below 0 where they overlap, by how much they must part
    needed_mm        how far apart they should be
    """

    thing: Literal["numeral", "line", "shank"]
    position: int
    text: str
    other: Thing
    other_position: int | None
    gap_mm: float
    needed_mm: float

    @property
    def overlaps(self) -> bool:
        """Whether they touch or overlap, and are not just near."""
        return self.gap_mm <= NEGLIGIBLE_MM


def collisions(work: Graduated) -> Iterator[Collision]:
    """Yield all that touches on this work, in the order of the positions; lines that run together first."""
    yield from crowded_lines(work)
    yield from numeral_collisions(work)


def numeral_collisions(work: Graduated) -> Iterator[Collision]:
    """Yield all that numerals and stamps touch, in the order of the positions."""
    if work.numerals is None:
        return
    lines = work.lines()
    angles = [float(line.angle) % 1 for line in lines]
    in_turn = sorted(range(len(lines)), key=angles.__getitem__)
    sorted_angles = [angles[place] for place in in_turn]
    numbered = [line for line in lines if line.numeral]
    for place, line in enumerate(numbered):
        box = work.numeral_box(line, 0.0)
        for other in sorted(_near(work, line, box, sorted_angles, in_turn)):
            yield from _from_line(work, line, box, lines[other])
        if len(numbered) > 1 and (len(numbered) > 2 or place == 0):
            yield from _from_numeral(work, line, box, numbered[(place + 1) % len(numbered)])
        yield from _from_the_face(work, line, box)


def crowded_lines(work: Graduated) -> Iterator[Collision]:
    """Yield the two neighbours that stand closest, where they run into each other at their nearest ends."""
    lines = work.lines()
    tightest: Collision | None = None
    circles = {
        one.length_mm: min(work.surface.circle_mm(), work.surface.circle_mm(float(one.length_mm)))
        for one in work.classes.classes
    }
    for before, after, turns in zip(lines, [*lines[1:], lines[0]], work.scale.gaps(), strict=False):
        circle = circles[min(before.line_class.length_mm, after.line_class.length_mm)]
        wide = float(before.line_class.width_mm) / 2 + float(after.line_class.width_mm) / 2
        apart = float(turns) * circle - wide
        if before is not after and apart <= NEGLIGIBLE_MM and (tightest is None or apart < tightest.gap_mm):
            tightest = Collision("line", before.position, "", "line", after.position, apart, 0.0)
    if tightest:
        yield tightest


def _near(
    work: Graduated, line: Line, box: Box, sorted_angles: Sequence[float], in_turn: Sequence[int]
) -> Iterator[int]:
    """The lines that could be within reach of a numeral: an arc is at most pi/2 times its chord."""
    reach = box.reach + float(CLEAR_OF_LINES_MM) + float(work.classes.longest.width_mm)
    tight = min(
        work.surface.circle_mm(along)
        for along in (0.0, float(work.classes.longest.length_mm), work.middle_mm)
    )
    window = reach * pi / 2 / tight if tight > 0 else 0.5
    if window >= 0.5:
        yield from in_turn
        return
    at = float(line.angle) % 1
    for shift in (-1.0, 0.0, 1.0):
        low = bisect_left(sorted_angles, at - window + shift)
        high = bisect_right(sorted_angles, at + window + shift)
        yield from in_turn[low:high]


def _from_line(work: Graduated, line: Line, box: Box, other: Line) -> Iterator[Collision]:
    needed = float(CLEAR_OF_LINES_MM)
    found = _distance(box, work.line_box(other, _turns(line, other)), needed)
    if found < needed - NEGLIGIBLE_MM:
        yield Collision("numeral", line.position, line.numeral, "line", other.position, found, needed)


def _from_numeral(work: Graduated, line: Line, box: Box, other: Line) -> Iterator[Collision]:
    needed = float(CLEAR_OF_NUMERALS_MM)
    found = _distance(box, work.numeral_box(other, _turns(line, other)), needed)
    if found < needed - NEGLIGIBLE_MM:
        yield Collision("numeral", line.position, line.numeral, "numeral", other.position, found, needed)


def _from_the_face(work: Graduated, line: Line, box: Box) -> Iterator[Collision]:
    face = work.surface.face_mm
    if face is None or work.numerals is None or work.numerals.behind:
        return
    left = float(face) - max(work.surface.along(x, y) for x, y in box.corners())
    if left < float(RIM_LEFT_MM) - NEGLIGIBLE_MM:
        yield Collision("numeral", line.position, line.numeral, "edge", None, left, float(RIM_LEFT_MM))
    shank = float(work.numerals.lettering.shank_mm)
    if work.surface.has_shoulder and shank:
        left = float(face) - work.middle_mm - shank / 2
        if left < -NEGLIGIBLE_MM:
            yield Collision("shank", line.position, line.numeral, "shoulder", None, left, 0.0)


def _distance(first: Box, second: Box, needed: float) -> float:
    """Their gap; at once more than is needed where even their circles are so far apart."""
    apart = ((first.x - second.x) ** 2 + (first.y - second.y) ** 2) ** 0.5 - first.reach - second.reach
    return apart if apart > needed else gap(first, second)


def _turns(line: Line, other: Line) -> float:
    """From one line to another the short way round."""
    turns = float(other.angle - line.angle)
    return turns - round(turns)
