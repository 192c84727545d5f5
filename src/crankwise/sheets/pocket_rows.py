"""The rows of a run packed small for a pocket card: what repeats is written once.

Rows of one run differ in their figures and hardly in their words. So each is a pattern, its JSON text
with a # for every figure, and the figures. Unpacked by web/static/run_card.js.
"""

import json
import re
from collections.abc import Iterable, Mapping
from typing import Any

_FIGURE = re.compile(r"\d+(?:\.\d+)?")
_OWN_HASH = "\x01"


def packed_rows(rows: Iterable[Mapping[str, Any]]) -> tuple[list[str], list[tuple[int, str]]]:
    """Return the patterns, and each row as the number of its pattern and its figures with a space between."""
    numbers: dict[str, int] = {}
    packed = []
    for row in rows:
        text = json.dumps(row, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
        text = text.replace("#", _OWN_HASH)
        pattern = _FIGURE.sub("#", text)
        number = numbers.setdefault(pattern, len(numbers))
        packed.append((number, " ".join(_FIGURE.findall(text))))
    return list(numbers), packed
