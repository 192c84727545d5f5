"""The rows of a run packed small for a pocket card: what repeats is written once.

Rows of one run differ in their figures and hardly in their words. So each is a pattern, its JSON text
with a # for every figure, and the figures. A figure that in every row of a pattern is one before it once
more, as a reading told beside its numerals, is not written again: in the place of its # stands the number
of that one. Unpacked by web/static/run_card.js.
"""

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

_FIGURE = re.compile(r"\d+(?:\.\d+)?")
_OWN_HASH = "\x01"
_AGAIN = "\x02"


def packed_rows(rows: Iterable[Mapping[str, Any]]) -> tuple[list[str], list[tuple[int, str]]]:
    """Return the patterns, and each row as the number of its pattern and its figures with a space between."""
    numbers: dict[str, int] = {}
    told: list[tuple[int, list[str]]] = []
    for row in rows:
        text = json.dumps(row, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
        text = text.replace("#", _OWN_HASH)
        number = numbers.setdefault(_FIGURE.sub("#", text), len(numbers))
        told.append((number, _FIGURE.findall(text)))
    firsts = [_firsts([figures for of, figures in told if of == number]) for number in range(len(numbers))]
    patterns = [_numbered(pattern, first) for pattern, first in zip(numbers, firsts, strict=True)]
    return patterns, [(number, " ".join(_once(figures, firsts[number]))) for number, figures in told]


def _firsts(rows: Sequence[Sequence[str]]) -> list[int]:
    """Return for each figure of a pattern the first one that is the same in all of its rows: itself, or one before."""
    columns: dict[tuple[str, ...], int] = {}
    return [columns.setdefault(column, place) for place, column in enumerate(zip(*rows, strict=True))]


def _once(figures: Sequence[str], firsts: Sequence[int]) -> list[str]:
    return [figure for place, figure in enumerate(figures) if firsts[place] == place]


def _numbered(pattern: str, firsts: Sequence[int]) -> str:
    written = [place for place, first in enumerate(firsts) if first == place]
    places = (
        "#" if first == place else f"{_AGAIN}{written.index(first)}{_AGAIN}"
        for place, first in enumerate(firsts)
    )
    begins, *rest = pattern.split("#")
    return begins + "".join(place + piece for place, piece in zip(places, rest, strict=True))
