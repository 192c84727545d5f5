"""Which way the numbers of a scale must run, found by watching what moves, never by a sign.

Turned so that the reading must grow, either the scale moves under a fixed index line or a pointer moves over
a fixed scale. Under a fixed line the numbers come towards it from where the scale comes from, so they run
against the motion; a moving pointer meets them with the motion. A scale that faces away from the handle is
seen from its back, where clockwise is anticlockwise. Source: derived.
"""

from dataclasses import dataclass
from typing import Literal, get_args

from crankwise.errors import BadDivisions

Sense = Literal["clockwise", "anticlockwise"]
SENSES: tuple[Sense, ...] = get_args(Sense)
Mover = Literal["scale", "pointer"]
MOVERS: tuple[Mover, ...] = get_args(Mover)
Side = Literal["front", "rear"]
SIDES: tuple[Side, ...] = get_args(Side)


def the_other(sense: Sense) -> Sense:
    """Return the other way round."""
    return "anticlockwise" if sense == "clockwise" else "clockwise"


@dataclass(frozen=True, slots=True)
class ScaleDirection:
    """What was seen when the handle was turned so that the reading must grow.

    moves  what moves: the scale, or a pointer over it
    turns  which way it goes, watched from the handle, from where the axis is looked along
    side   whether the scale faces the one at the handle (front) or away (rear)

    Raises BadDivisions for a word that is none of these.
    """

    moves: Mover = "scale"
    turns: Sense = "clockwise"
    side: Side = "front"

    def __post_init__(self) -> None:
        for what, given, right in (
            ("moves", self.moves, MOVERS),
            ("turns", self.turns, SENSES),
            ("side", self.side, SIDES),
        ):
            if given not in right:
                raise BadDivisions(what, f"{str(given)[:40]!r}; it is {' or '.join(right)}")

    @property
    def numbers_run_from_the_handle(self) -> Sense:
        """Which way the numbers grow round the scale, looked at from the handle, through the work if need be."""
        return self.turns if self.moves == "pointer" else the_other(self.turns)

    @property
    def numbers_run(self) -> Sense:
        """Which way the numbers grow, looking straight at the face that is engraved, or at a drum's end there."""
        seen = self.numbers_run_from_the_handle
        return seen if self.side == "front" else the_other(seen)

    @property
    def seen_at_the_face(self) -> Sense:
        """Which way what moves goes as the reading grows, seen as `numbers_run`.

        >>> ScaleDirection(turns="clockwise", side="rear").seen_at_the_face
        'anticlockwise'
        """
        return self.turns if self.side == "front" else the_other(self.turns)

    @property
    def work_turns(self) -> Sense:
        """Which way the work must turn under a tool that stands still, seen as `numbers_run`, to cut them rising."""
        return the_other(self.numbers_run)

    @property
    def on_the_strip(self) -> Literal["left", "right"]:
        """Which way they grow on a drum's strip laid flat, the end that `numbers_run` is seen from at the bottom."""
        return "left" if self.numbers_run == "anticlockwise" else "right"
