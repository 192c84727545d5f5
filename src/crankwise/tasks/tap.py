"""What a tap must say before it is looked at: names and numbers that make sense in its run."""

import math
from fractions import Fraction
from typing import get_args

from crankwise.errors import BadTap
from crankwise.exact.number import as_text
from crankwise.head.ring import Ring
from crankwise.run.journal import AT_A_ROW, KINDS, Entry, Joint

LONGEST_TAP_NAME = 100
LONGEST_NOTE = 500
MOST_DIGITS = 30
MOST_OFF_MM = 100
LATEST = 1e11
"""Seconds since 1970 that are believed, either way: some three thousand years."""

JOINTS: tuple[Joint, ...] = get_args(Joint)


def check_tap(entry: Entry, rows: int, ring: Ring | None) -> None:
    """Raise BadTap when a tap makes no sense in a run of so many rows; a late one does make sense.

    ring  of the head of the run; None where it has none
    """
    if entry.kind not in KINDS:
        raise BadTap(f"tap: {entry.kind!r}; a tap is one of {', '.join(KINDS)}")
    _check_name(entry.tap, "a tap has a name of its own")
    if not (math.isfinite(entry.at) and abs(entry.at) <= LATEST):
        raise BadTap(f"tap: the time {entry.at}; it is seconds since 1970")
    if entry.kind in AT_A_ROW and entry.row is None:
        raise BadTap(f"tap: no row; the rows of this run are 0 to {rows - 1}")
    for what, row in (("row", entry.row), ("since", entry.since)):
        if row is not None and not 0 <= row < rows:
            named = f"row {row}" if what == "row" else f"since row {row}"
            raise BadTap(f"tap: {named}; the rows of this run are 0 to {rows - 1}")
    _check_figures(entry, ring)
    if entry.note is not None and len(entry.note) > LONGEST_NOTE:
        raise BadTap(f"note: {len(entry.note)} characters; {LONGEST_NOTE} at most")
    if entry.kind == "note" and not (entry.note or "").strip():
        raise BadTap("note: nothing written; write what is worth knowing later")
    if entry.kind == "undone":
        _check_name(entry.of or "", "say which tap no longer holds")


def _check_name(name: str, what: str) -> None:
    if not 1 <= len(name) <= LONGEST_TAP_NAME:
        raise BadTap(f"tap: a name of {len(name)} characters; {what}, 1 to {LONGEST_TAP_NAME} characters")


def _check_figures(entry: Entry, ring: Ring | None) -> None:
    for what, value in (("reading", entry.reading), ("angle", entry.angle), ("off_mm", entry.off_mm)):
        if value is not None and len(str(value)) > MOST_DIGITS:
            raise BadTap(f"{what}: a figure of {len(str(value))} characters; {MOST_DIGITS} at most")
    if entry.kind == "began" and entry.angle is not None and not 0 <= abs(entry.angle) < 1:
        raise BadTap("angle: what the ring shows at zero is less than a turn")
    if entry.kind == "ring":
        if ring is None:
            raise BadTap("ring: the head of this run has no ring")
        if entry.reading is None or not 0 <= entry.reading <= ring.full_circle:
            told = "nothing" if entry.reading is None else as_text(entry.reading)
            raise BadTap(f"ring: {told}; it shows from 0 to below {ring.full_circle}")
    if entry.kind == "returned":
        _check_return(entry)
    if entry.kind == "slipped":
        if entry.angle is None or not 0 < abs(entry.angle) <= Fraction(1, 2):
            raise BadTap("angle: how far it slipped is more than nothing, and half a turn at most either way")
        if entry.joint not in JOINTS:
            raise BadTap(f"joint: {entry.joint!r}; what slipped is one of {', '.join(JOINTS)}")


def _check_return(entry: Entry) -> None:
    if entry.angle is not None and entry.off_mm is not None:
        raise BadTap("returned: how far it is off is told as a length or as an angle, and not as both")
    if entry.angle is not None and abs(entry.angle) > Fraction(1, 2):
        raise BadTap("returned: how far it is off is half a turn at most either way")
    if entry.off_mm is not None and abs(entry.off_mm) > MOST_OFF_MM:
        raise BadTap(
            f"returned: {as_text(entry.off_mm)} mm off; up to {MOST_OFF_MM} mm either way is kept. Ask where you are: "
            "this is another line than the first"
        )
