"""The passes of a cut as lines of a card: rough cuts, and a light finish from the same zero."""

from collections.abc import Iterator
from fractions import Fraction

from crankwise.part.card import CardLine, Quantity
from crankwise.part.depth import cuts

DEEPEST_CUT_MM = Fraction(2)
"""A roughing cut that a small mill takes in good order. Typical, judgement."""


def pass_lines(depth_mm: Quantity, of_what: str = "") -> Iterator[CardLine]:
    """Yield a line for each pass: its depth from the touch, in mm.

    depth_mm  the whole depth, above 0
    of_what   what is cut, where a card has several: "of flat 2"
    """
    for number, cut in enumerate(cuts(depth_mm, depth_mm, DEEPEST_CUT_MM), 1):
        what = f"pass {number}{f' {of_what}' if of_what else ''}, {cut.name}"
        yield CardLine(what, cut.depth_mm, "mm", note="from the touch" if number == 1 else "")
