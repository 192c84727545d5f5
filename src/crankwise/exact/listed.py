"""A list as a person types it: things parted by commas, or by semicolons or new lines where those will do too."""

import re

from crankwise.errors import BadNumber

_NAMES = {",": "commas", ";": "semicolons"}


def listed(text: str, what: str, marks: str = ",", by_lines: bool = False) -> list[str]:
    """Return the things of a list, each without the space round it; none for an empty text.

    what      what the list is of, for the sentence
    marks     what parts two things, as ",;"
    by_lines  whether a new line parts them too; an empty line is nothing, and neither is one that begins with #

    A mark at the end of the list or of a line parts nothing, and marks alone are an empty list. Raises BadNumber
    where two marks have nothing between them: something was forgotten there, or one mark is too many.

    >>> listed("0, 12.5, 90,", "angles")
    ['0', '12.5', '90']
    """
    found: list[str] = []
    for line in text.splitlines() if by_lines else [text]:
        if not line.strip() or (by_lines and line.lstrip().startswith("#")):
            continue
        pieces = [piece.strip() for piece in re.split(f"[{marks}]", line)]
        if not any(pieces):
            continue
        if not pieces[-1]:
            pieces.pop()
        for before, piece in zip(["", *pieces], pieces, strict=False):
            if not piece:
                where = f"after {before[:40]!r}" if before else "at the start"
                raise BadNumber(
                    f"{what}: nothing stands between two {_NAMES[marks[0]]} {where}; write what is missing there, or "
                    "take one of them out"
                )
        found += pieces
    return found
