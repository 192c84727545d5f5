"""Where the pages of a run sheet begin and end."""

from collections.abc import Sequence
from typing import NamedTuple

LEAST_LINES = 5
"""Fewer lines than this of a list are not begun at a page's foot."""


class Piece(NamedTuple):
    """Lines of one list that stand on one page.

    which        the list, from 0
    start, stop  its lines, as indexes in the list; the last left out
    """

    which: int
    start: int
    stop: int


def page_breaks(
    lists: Sequence[int], first_room: float, room: float, extra: Sequence[float]
) -> list[list[Piece]]:
    """Return what stands on each page.

    lists  how many lines each list has
    first_room, room  what the first page and each later one hold, in lines
    extra  what each list takes beside its lines on every page that it stands on, in lines: headings, a count

    A page on which a list goes on takes a multiple of five of its lines, so that the shading looks the same on
    all. A page with no room for five lines of a list takes none.
    """
    pages: list[list[Piece]] = [[]]
    left = first_room
    for which, lines in enumerate(lists):
        start = 0
        while start < lines:
            fits = int(left - extra[which] + 1e-9)
            rest = lines - start
            if fits < LEAST_LINES and (len(pages) == 1 or pages[-1]):
                pages.append([])
                left = room
                continue
            taken = rest if rest <= fits else max(fits // 5, 1) * 5
            pages[-1].append(Piece(which, start, start + taken))
            left -= taken + extra[which]
            start += taken
            if start < lines:
                pages.append([])
                left = room
    return pages
