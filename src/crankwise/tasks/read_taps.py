"""Read the taps that a device sends as JSON; each thing that is wrong with them is told by its place."""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, TypeVar, get_args

from crankwise.errors import BadNumber, BadTap, Fault, FaultsFound
from crankwise.exact.number import read_number
from crankwise.run.journal import KINDS, Entry, Joint, Kind, Means

JOINTS: tuple[Joint, ...] = get_args(Joint)
MEANS: tuple[Means, ...] = get_args(Means)
MOST_ROW = 10**9
Value = TypeVar("Value")


@dataclass(frozen=True, slots=True)
class Sent:
    """What a device sent: its taps, how many entries it had from here, and the run they were made for."""

    taps: tuple[Entry, ...]
    seen: int
    identity: str


def read_sent(body: bytes) -> Sent:
    """Return what a device sent. Raises BadTap when it is no such thing, FaultsFound with all that is wrong."""
    try:
        told = json.loads(body)
    except (ValueError, RecursionError):
        raise BadTap("taps: what was sent is not JSON that can be read; nothing was taken in") from None
    if not isinstance(told, dict) or not isinstance(told.get("taps"), list):
        raise BadTap('taps: what was sent has no list of taps; it looks like {"taps": [...], "seen": 12}')
    faults: list[Fault] = []
    seen = _Reader(told, "", faults).field("seen", _whole)
    identity = _Reader(told, "", faults).field("schedule", _text)
    taps = []
    for number, one in enumerate(told["taps"]):
        entry = _entry(one, f"taps[{number}]", faults)
        if entry is not None:
            taps.append(entry)
    if faults:
        raise FaultsFound(faults)
    return Sent(tuple(taps), seen or 0, identity or "")


def _entry(one: object, place: str, faults: list[Fault]) -> Entry | None:
    if not isinstance(one, dict):
        faults.append(Fault(place, "this is no tap; a tap is an object with kind, tap, at and more"))
        return None
    before = len(faults)
    reader = _Reader(one, f"{place}.", faults)
    kind, tap, at = reader.field("kind", _kind), reader.field("tap", _text), reader.field("at", _time)
    for name, value in (("kind", kind), ("tap", tap), ("at", at)):
        if value is None and one.get(name) is None:
            faults.append(Fault(f"{place}.{name}", "it is missing; a tap says what, by which name, and when"))
    entry = Entry(
        kind or "note",
        tap or "",
        at or 0.0,
        row=reader.field("row", _whole),
        numbers_grow=reader.field("numbers_grow", _yes_or_no),
        seen=reader.field("seen", _whole),
        reading=reader.field("reading", _exact),
        angle=reader.field("angle", _exact),
        joint=reader.field("joint", _joint),
        since=reader.field("since", _whole),
        note=reader.field("note", _text),
        of=reader.field("of", _text),
        off_mm=reader.field("off_mm", _exact),
        means=reader.field("means", _means),
    )
    return None if len(faults) > before else entry


class _Reader:
    """Reads the fields of one object; what is not there or null is None."""

    def __init__(self, told: Mapping[str, Any], place: str, faults: list[Fault]) -> None:
        self._told, self._place, self._faults = told, place, faults

    def field(self, name: str, read: Callable[[object], Value]) -> Value | None:
        value = self._told.get(name)
        if value is None:
            return None
        try:
            return read(value)
        except (BadTap, BadNumber) as error:
            message = error.message if isinstance(error, BadNumber) else str(error)
            self._faults.append(Fault(f"{self._place}{name}", message))
            return None


def _kind(value: object) -> Kind:
    for kind in KINDS:
        if value == kind:
            return kind
    raise BadTap(f"{str(value)[:20]!r}; a tap is one of {', '.join(KINDS)}")


def _joint(value: object) -> Joint:
    for joint in JOINTS:
        if value == joint:
            return joint
    raise BadTap(f"{str(value)[:20]!r}; what slipped is one of {', '.join(JOINTS)}")


def _means(value: object) -> Means:
    for means in MEANS:
        if value == means:
            return means
    raise BadTap(f"{str(value)[:20]!r}; the first line is looked at with one of {', '.join(MEANS)}")


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise BadTap(f"{str(value)[:20]!r} is not a text")
    if any("\ud800" <= sign <= "\udfff" for sign in value):
        raise BadTap("half a character is in it; write it again")
    return value


def _time(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or abs(value) > 1e12:
        raise BadTap(f"{str(value)[:20]!r} is no time in seconds since 1970")
    return float(value)


def _whole(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= MOST_ROW:
        raise BadTap(f"{str(value)[:20]!r} is not a whole number, 0 or more")
    return value


def _yes_or_no(value: object) -> bool:
    if not isinstance(value, bool):
        raise BadTap(f"{str(value)[:20]!r}; it is true or false")
    return value


def _exact(value: object) -> Fraction:
    return read_number(_text(value))
