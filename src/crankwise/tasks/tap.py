"""What a tap must say before it is looked at: names and numbers that make sense in its run."""

import math
from typing import get_args

from crankwise.errors import BadTap
from crankwise.run.journal import Entry, Kind

KINDS: tuple[Kind, ...] = get_args(Kind)
LONGEST_TAP_NAME = 100
LATEST = 1e11
"""Seconds since 1970 that are believed, either way: some three thousand years."""


def check_tap(entry: Entry, rows: int) -> None:
    """Raise BadTap when a tap makes no sense in a run of so many rows; a late one does make sense."""
    if entry.kind not in KINDS:
        raise BadTap(f"tap: {entry.kind!r}; a tap is one of {', '.join(KINDS)}")
    if not 1 <= len(entry.tap) <= LONGEST_TAP_NAME:
        raise BadTap(
            f"tap: a name of {len(entry.tap)} characters; a tap has a name of its own, "
            f"1 to {LONGEST_TAP_NAME} characters"
        )
    if not (math.isfinite(entry.at) and abs(entry.at) <= LATEST):
        raise BadTap(f"tap: the time {entry.at}; it is seconds since 1970")
    if entry.kind != "began" and (entry.row is None or not 0 <= entry.row < rows):
        named = "no row" if entry.row is None else f"row {entry.row}"
        raise BadTap(f"tap: {named}; the rows of this run are 0 to {rows - 1}")
