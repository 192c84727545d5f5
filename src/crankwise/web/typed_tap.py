"""One tap from the form that was sent."""

import time
from fractions import Fraction
from typing import get_args

from crankwise.errors import BadTap
from crankwise.exact.length import STRAIGHT_MM, read_length
from crankwise.exact.number import read_number
from crankwise.run.journal import KINDS, Entry, Joint, Kind, Means
from crankwise.web.visit import Visit

_ANSWERS = {"yes": True, "no": False, "": None}
_JOINTS: tuple[Joint, ...] = get_args(Joint)
_MEANS: tuple[Means, ...] = get_args(Means)
_ALSO: tuple[Kind, ...] = ("done", "undone")


def typed_tap(visit: Visit) -> Entry:
    """Return the tap that a form sends. Raises BadTap, BadNumber when it cannot be read."""
    kind = next((one for one in KINDS if one == visit.typed("kind")), None)
    if kind is None or visit.typed("answer") not in _ANSWERS:
        raise BadTap("tap: it does not say what was tapped; a tap is began, done, back or the like")
    angle, off_mm = _off_the_first(visit) if kind == "returned" else (None, None)
    return Entry(
        kind,
        visit.typed("tap"),
        tapped_at(visit.typed("at")),
        whole(visit.typed("row"), "row"),
        numbers_grow=_ANSWERS[visit.typed("answer")] if kind == "began" else None,
        seen=whole(visit.typed("seen"), "seen"),
        reading=_number(visit.typed("reading"), "reading") if kind == "ring" else None,
        angle=_angle(visit) if kind in ("slipped", "began") else angle,
        joint=next((one for one in _JOINTS if one == visit.typed("joint")), None)
        if kind == "slipped"
        else None,
        since=whole(visit.typed("since"), "since") if kind == "slipped" else None,
        note=" ".join(visit.typed("note").split()) or None,
        of=visit.typed("of") or None,
        off_mm=off_mm,
        means=next((one for one in _MEANS if one == visit.typed("means")), None)
        if kind == "returned"
        else None,
    )


def typed_also(visit: Visit, entry: Entry) -> Entry | None:
    """Return what the same tap says besides, to be kept right after its entry; None where it says no more.

    `done`: the closing row ends where the tool meets the first one. `undone`: with the row that is reopened
    goes what was found there. Its name is the tap's own, so that a tap sent again says neither twice; and it
    counts only where the run then stands as the page showed it. Where its tap came too late it is left out: one
    tap of another device meanwhile would make its `seen` fit.
    """
    kind = next((one for one in _ALSO if one == visit.typed("also")), None)
    if kind is None:
        return None
    seen = None if entry.seen is None else entry.seen + 1
    row, of = (entry.row, None) if kind == "done" else (None, visit.typed("also_of"))
    return Entry(kind, f"{entry.tap}-{kind}", entry.at, row, seen=seen, of=of)


def _off_the_first(visit: Visit) -> tuple[Fraction | None, Fraction | None]:
    """Return how far the first line is off as an angle in turns, or as a length in mm; neither when it is put off."""
    if visit.typed("put_off"):
        return None, None
    if visit.typed("angle"):
        return read_number(visit.typed("angle"), "angle"), None
    side = -1 if visit.typed("side") == "behind" else 1
    if visit.typed("mm"):
        return None, side * read_length(visit.typed("mm"), "how far off")
    if visit.typed("degrees"):
        return side * read_number(visit.typed("degrees"), "how far off") / 360, None
    raise BadTap("how far off: nothing is typed; type how far the first one is from the tool, as 0.41")


def _angle(visit: Visit) -> Fraction | None:
    """How far it slipped: exact, in turns; or in degrees or mm, with the side, as a person types it."""
    if visit.typed("angle"):
        return read_number(visit.typed("angle"), "angle")
    degrees, along_mm = (_number(visit.typed(name), "how far") for name in ("degrees", "mm"))
    far = None if degrees is None else degrees / 360
    if along_mm is not None:
        far = along_mm / STRAIGHT_MM
    return -far if far is not None and visit.typed("side") == "behind" else far


def _number(typed: str, what: str) -> Fraction | None:
    return read_number(typed, what) if typed else None


def whole(typed: str, what: str) -> int | None:
    """Return the whole number that a field holds; None when it is empty. Raises BadTap."""
    if not typed:
        return None
    if not typed.isascii() or not typed.isdecimal() or len(typed) > 9:
        raise BadTap(f"tap: {what} {typed[:20]!r} is not a whole number")
    return int(typed)


def tapped_at(typed: str) -> float:
    """Return the time the device said; the server's where it says none, as without script."""
    if not typed:
        return time.time()
    try:
        return float(typed[:30])
    except ValueError:
        raise BadTap(f"tap: the time {typed[:30]!r} is not in seconds since 1970") from None
