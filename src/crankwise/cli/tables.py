"""Tables as plain text, for a terminal or a file."""

import re
from collections.abc import Sequence

_FIGURES = re.compile(r"""|exact|[-±]?\d[\d.,/°'" =]*""")


def printed(headings: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return the rows under their headings, columns lined up; figures to the right.

    >>> print(printed(["circle", "error"], [["49", "0"], ["7", "1.5"]]))
    circle  error
        49      0
         7    1.5
    """
    widths = [max(map(len, column)) for column in zip(headings, *rows, strict=True)]
    figures = [all(map(_FIGURES.fullmatch, column)) for column in zip(*rows, strict=True)]
    figures = figures or [False] * len(headings)

    def line(cells: Sequence[str]) -> str:
        padded = (
            cell.rjust(width) if right else cell.ljust(width)
            for cell, width, right in zip(cells, widths, figures, strict=True)
        )
        return "  ".join(padded).rstrip()

    return "\n".join(map(line, [headings, *rows]))
