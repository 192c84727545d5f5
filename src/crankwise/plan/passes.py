"""The passes of a run: how many times it goes over the positions, over which of them, in what order.

A trace pass before the first cut, roughing and finishing, all lines of one length before the next,
or a spread order that lets heat and stress even out: each is a pass, and a run is one list of rows
over all of them. The positions and the way stay those of the plan.
Source: common practice (trace pass, order of line lengths, finishing from the same zero).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, get_args

from crankwise.errors import BadDivisions

PassName = Literal["work", "trace", "rough", "finish"]
PASS_NAMES: tuple[PassName, ...] = get_args(PassName)


@dataclass(frozen=True, slots=True)
class Pass:
    """Once over the positions, or over some of them. Positions are counted as worked, from the first as 0.

    name        what is done: the work itself, a faint trace, a roughing or a finishing cut
    each        only every so many positions: 10 for the long lines; 1 or more
    but_not     leaves out every so many of them: 5 for the lines that are neither long nor middle;
                0 leaves out none, else 2 or more
    line_class  only the lines of this class, as the part's marks name it; empty for all
    spread      visits every so many of those positions, in as many circuits; 1 goes straight round
    depth_mm    depth of the cut in this pass, above 0, in millimetres; None when not said

    Raises BadDivisions when one is out of its range.
    """

    name: PassName = "work"
    each: int = 1
    but_not: int = 0
    spread: int = 1
    line_class: str = ""
    depth_mm: Fraction | None = None

    def __post_init__(self) -> None:
        if self.name not in PASS_NAMES:
            raise BadDivisions("pass", f"{self.name!r}; a pass is one of {', '.join(PASS_NAMES)}")
        for what, value in (("each", self.each), ("spread", self.spread)):
            if value < 1:
                raise BadDivisions("pass", f"{what} {value}; every so many positions is 1 or more")
        if self.but_not < 0 or self.but_not == 1:
            raise BadDivisions("pass", f"but_not {self.but_not}; it is 2 or more, or 0 to leave out none")
        if self.depth_mm is not None and self.depth_mm <= 0:
            raise BadDivisions("pass", f"a depth of {self.depth_mm} mm; a depth is above 0")

    @property
    def is_plain(self) -> bool:
        """Whether every position is visited, straight round."""
        return (self.each, self.but_not, self.spread, self.line_class) == (1, 0, 1, "")

    def order(self, count: int, classes: Sequence[str] = ()) -> list[int]:
        """Return which of `count` positions are visited, in the order of the visits.

        classes  the line class of each position; empty where lines are not told apart

        >>> Pass(spread=3).order(7)
        [0, 3, 6, 1, 4, 2, 5]
        """
        chosen = [place for place in range(0, count, self.each) if not self.but_not or place % self.but_not]
        if self.line_class:
            chosen = [place for place in chosen if place < len(classes) and classes[place] == self.line_class]
        return [place for circuit in range(self.spread) for place in chosen[circuit :: self.spread]]


Passes = tuple[Pass, ...]

ONE_PASS: Passes = (Pass(),)


def with_trace(passes: Passes = ONE_PASS) -> Passes:
    """Return the same passes with a trace pass over every position before them."""
    return (Pass("trace"), *passes)


def has_trace(passes: Passes) -> bool:
    """Return whether a trace is among the passes, so that it has ticks of its own."""
    return any(one.name == "trace" for one in passes)


def rough_then_finish(rough_mm: Fraction | None = None, finish_mm: Fraction | None = None) -> Passes:
    """Return a roughing and a finishing pass over every position."""
    return (Pass("rough", depth_mm=rough_mm), Pass("finish", depth_mm=finish_mm))


def one_class_after_another(classes: Sequence[str]) -> Passes:
    """Return one pass for each class of line, the class with the fewest lines first: one stop piece a pass.

    classes  the line class of each position

    >>> [one.line_class for one in one_class_after_another(("long", "short", "short", "long", "short"))]
    ['long', 'short']
    """
    by_count = sorted(set(classes), key=lambda name: (classes.count(name), classes.index(name)))
    return tuple(Pass(line_class=name) for name in by_count if name) or ONE_PASS


def long_lines_first(*lengths: int) -> Passes:
    """Return one pass for each length of line, the longest first, the shortest last.

    lengths  every how many positions a longer line stands, the longest first, each a multiple of the
             next: 10, 5

    >>> [one.order(11) for one in long_lines_first(10, 5)]
    [[0, 10], [5], [1, 2, 3, 4, 6, 7, 8, 9]]
    """
    longer = (0, *lengths)
    return tuple(Pass(each=each, but_not=before) for before, each in zip(longer, (*lengths, 1), strict=True))
