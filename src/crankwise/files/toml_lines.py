"""Find the line on which a key of a TOML file stands, so that a fault can name it.

The standard reader keeps no lines. This one knows tables, arrays of tables, dotted keys and arrays
over several lines, which is what a head file holds; where it is not sure it gives no line.
"""

import re

_TABLE = re.compile(r"\s*(\[\[?)\s*([\w.\-\s\"']+?)\s*\]\]?\s*(?:#.*)?")
_KEY = re.compile(r"\s*([\w.\-\"']+)\s*=")
_STRINGS_AND_COMMENTS = re.compile(r'"(?:\\.|[^"\\])*"|\'[^\']*\'|#.*')
_PLACE = re.compile(r"([^.\[\]]+)|\[(\d+)\]")


def line_of(text: str, place: str) -> int | None:
    """Return the line, from 1, of a place such as `plates[0].circles[3]` in a TOML text.

    The nearest thing above it that has a line stands in for one that has none (a missing key has
    its table's line). None when nothing is found.
    """
    lines = _lines(text)
    while place:
        if place in lines:
            return lines[place]
        place = re.sub(r"(\[\d+\]|\.?[^.\[\]]+)$", "", place)
    return None


def _lines(text: str) -> dict[str, int]:
    found: dict[str, int] = {}
    counts: dict[str, int] = {}
    table, array, item = "", "", 0
    for number, line in enumerate(text.splitlines(), 1):
        bare = _STRINGS_AND_COMMENTS.sub(lambda match: "" if match[0].startswith("#") else "_", line)
        if array:
            item = _mark_items(found, array, item, bare, number)
            if "]" in bare:
                array = ""
        elif heading := _TABLE.fullmatch(line):
            table = re.sub(r"[\s\"']", "", heading[2])
            found.setdefault(table, number)
            if heading[1] == "[[":
                counts[table] = counts.get(table, -1) + 1
                table = f"{table}[{counts[table]}]"
            found.setdefault(table, number)
        elif key := _KEY.match(line):
            name = key[1].strip("\"'")
            place = f"{table}.{name}" if table else name
            found.setdefault(place, number)
            value = bare.partition("=")[2].strip()
            if value.startswith("["):
                item = _mark_items(found, place, 0, value[1:], number)
                array = "" if "]" in value else place
    return found


def _mark_items(found: dict[str, int], place: str, item: int, text: str, number: int) -> int:
    """Note the line of each item of an array that stands on this line; return the next item's index."""
    for piece in text.partition("]")[0].split(","):
        if piece.strip():
            found.setdefault(f"{place}[{item}]", number)
            item += 1
    return item
