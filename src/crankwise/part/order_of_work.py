"""In what order to cut the lines: all of one class and then the next, or straight round.

Class by class, the whole circle is cut short first; each longer class is then lengthened over lines that are
there already, so that every further circuit is a check of the count. Straight round needs one circuit, and a
change of stop wherever the class changes, which is where a wrong stop slips in. Source: common practice.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Literal

from crankwise.part.graduated import Graduated, Line

OrderName = Literal["class-by-class", "straight-round"]


@dataclass(frozen=True, slots=True)
class OrderOfWork:
    """One order of work, and what it costs.

    name           class by class, or straight round
    strokes        strokes of the tool in each circuit: the class it is set for, and how many
    stop_changes   how often the stop is changed, the first setting not counted
    spindle_turns  turns of the spindle from the first line to the last one cut, going forward only
    """

    name: OrderName
    strokes: tuple[tuple[str, int], ...]
    stop_changes: int
    spindle_turns: Fraction


def orders_of_work(work: Graduated) -> tuple[OrderOfWork, ...]:
    """Return both orders; one alone where all lines are of one class."""
    lines = work.lines()
    straight = _straight_round(lines)
    if len({line.line_class.name for line in lines}) == 1:
        return (straight,)
    return (_class_by_class(work, lines), straight)


def _class_by_class(work: Graduated, lines: Sequence[Line]) -> OrderOfWork:
    ranks = {one.name: rank for rank, one in enumerate(work.classes.classes)}
    circuits = [
        (one.name, [line for line in lines if ranks[line.line_class.name] >= rank])
        for rank, one in enumerate(work.classes.classes)
    ]
    cut = [(name, chosen) for name, chosen in circuits if chosen]
    # Each circuit but the last goes on round to its beginning; the last one ends on its last line.
    _, last = cut[-1]
    turns = len(cut) - 1 + last[-1].angle - lines[0].angle
    return OrderOfWork(
        "class-by-class", tuple((name, len(chosen)) for name, chosen in cut), len(cut) - 1, turns
    )


def _straight_round(lines: Sequence[Line]) -> OrderOfWork:
    runs = [*_runs(lines)]
    counted: dict[str, int] = {}
    for name, length in runs:
        counted[name] = counted.get(name, 0) + length
    return OrderOfWork(
        "straight-round", tuple(counted.items()), len(runs) - 1, lines[-1].angle - lines[0].angle
    )


def _runs(lines: Sequence[Line]) -> Iterator[tuple[str, int]]:
    for name, run in groupby(line.line_class.name for line in lines):
        yield name, len([*run])
