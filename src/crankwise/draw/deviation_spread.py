"""How the deviations of many parts are spread: a column for each step, and the line that 19 in 20 keep."""

from collections.abc import Sequence
from html import escape

from crankwise.draw.svg import element, number, picture

WIDTH, HEIGHT = 320.0, 90.0
_EDGE, _FOOT, _HEAD = 8.0, 12.0, 14.0
_ROOM = 76.0
"""Half of the widest text over the line."""


def deviation_spread(
    low: float, step: float, counts: Sequence[int], bound: float, texts: tuple[str, str, str], label: str
) -> str:
    """Return the picture.

    low, step  where the first column begins and how wide each is, in micrometres; step above 0 where there
               is more than one size
    counts     parts in each column, one column or more
    bound      what 19 in 20 keep, in micrometres
    texts      the least size, the bound, the greatest size, in words
    label      what it shows, for those who cannot see it
    """
    full, wide = max(counts) or 1, WIDTH / len(counts)
    most = low + step * len(counts)
    columns = [
        f"M{number(index * wide)} {number(HEIGHT)}v{number(-HEIGHT * count / full)}h{number(wide)}V{number(HEIGHT)}z"
        for index, count in enumerate(counts)
        if count
    ]
    at = WIDTH * (bound - low) / (most - low) if most > low else WIDTH / 2
    at = min(max(at, 0.0), WIDTH)
    body = [
        element("path", d="".join(columns), class_="columns"),
        element("path", d=f"M{number(at)} 0V{number(HEIGHT)}", class_="bound"),
        element("path", d=f"M0 {number(HEIGHT)}H{number(WIDTH)}", class_="nought"),
        element("text", escape(texts[0]), x=0.0, y=HEIGHT + _FOOT - 2, class_="least"),
        element("text", escape(texts[1]), x=min(max(at, _ROOM), WIDTH - _ROOM), y=-4.0, class_="at-bound"),
        element("text", escape(texts[2]), x=WIDTH, y=HEIGHT + _FOOT - 2, class_="most"),
    ]
    return picture(
        label, (-_EDGE, -_HEAD, WIDTH + 2 * _EDGE, HEIGHT + _HEAD + _FOOT + 2), body, "deviation-spread"
    )
