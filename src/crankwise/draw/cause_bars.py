"""What causes the errors of a part, ranked: two bars a cause, single pitch above cumulative, to one scale."""

from collections.abc import Sequence
from html import escape
from typing import NamedTuple

from crankwise.draw.svg import element, number, picture

WIDTH = 320.0
ROOM_FOR_VALUE = 98.0
BAR, GAP, LABEL = 9.0, 2.0, 15.0
ROW = LABEL + 2 * BAR + GAP + 9.0


class Bar(NamedTuple):
    """One cause: its name, its two figures in micrometres, and the same in words."""

    name: str
    single: float
    cumulative: float
    single_text: str
    cumulative_text: str


def cause_bars(causes: Sequence[Bar]) -> str:
    """Return the chart, in the order given; one cause or more.

    All bars are drawn to the scale of the longest, so that lengths compare between causes and kinds.
    """
    longest = max(max(one.single, one.cumulative) for one in causes) or 1.0
    scale = (WIDTH - ROOM_FOR_VALUE) / longest
    body: list[str] = []
    for index, one in enumerate(causes):
        top = index * ROW
        body.append(_words(one.name, 0.0, top + LABEL - 4, "cause"))
        figures = ((one.single, one.single_text, "single"), (one.cumulative, one.cumulative_text, "whole"))
        for line, (size, words, class_) in enumerate(figures):
            y = top + LABEL + line * (BAR + GAP)
            body.append(element("rect", x=0.0, y=y, width=size * scale, height=BAR, class_=class_))
            body.append(_words(words, size * scale + 4, y + BAR - 0.5, "figure"))
    body.append(element("path", d=f"M0 0V{number(ROW * len(causes))}", class_="nought"))
    first = causes[0]
    label = (
        f"{len(causes)} causes ranked; the largest is {first.name}: single pitch {first.single_text}, "
        f"cumulative {first.cumulative_text}"
    )
    return picture(label, (-2.0, 0.0, WIDTH + 4, ROW * len(causes)), body, "cause-bars")


def _words(content: str, x: float, y: float, class_: str) -> str:
    return element("text", escape(content), x=x, y=y, class_=class_)
