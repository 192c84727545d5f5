"""A list or a range as a person types it: things parted by commas, by semicolons or new lines; 10..60, 10 to 60."""

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
                    what,
                    f"nothing stands between two {_NAMES[marks[0]]} {where}; write what is missing there, or "
                    "take one of them out",
                )
        found += pieces
    return found


def range_ends(text: str) -> list[str]:
    """Return the ends of a range as typed, the smaller first, each without the space round it; one for a single value.

    More than two are given back as they are, for the reader to refuse.

    >>> range_ends("10..60"), range_ends("10 to 60"), range_ends("1,5 - 2"), range_ends("20")
    (['10', '60'], ['10', '60'], ['1,5', '2'], ['20'])
    """
    return [end.strip() for end in re.split(r"\.\.|\bto\b|\s[-\u2013]\s|,\s|;", text)]
