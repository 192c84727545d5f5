"""The journal of a pocket card as one line of text: in a file, a link or a code.

    cw2~RUN~IDENTITY~SEEN~DEVICE~BEGINS~ENTRIES~CHECK

RUN is the run's number, IDENTITY names it among all runs, SEEN is how many entries the card was made
with, BEGINS the time of the first entry in tenths of a second since 1970. CHECK is the CRC-32 of all
before it. An entry is a letter, its row in base 36 (left out where it is the row after that of the
entry before), the tenths of a second since the entry before in base 36, led by - or by _ where the
clock went back, and what else it says, as JSON in base64 after an X. The taps are called DEVICE-1,
DEVICE-2 and on. A journal that tells of no return to the first line begins with cw1, as all
did before there were such: a workshop of then reads it, and says of any other that it cannot. Written
by web/static/run_text.js; only letters that a link may hold as they are.
"""

import base64
import binascii
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, get_args

from crankwise.errors import BadTap
from crankwise.exact.number import read_number
from crankwise.run.entry import Entry, Kind, Means

LETTERS: dict[str, Kind] = {
    "b": "began",
    "d": "done",
    "k": "back",
    "s": "skipped",
    "x": "bad",
    "g": "good",
    "p": "paused",
    "r": "resumed",
    "o": "overshot",
    "i": "ring",
    "f": "returned",
    "n": "note",
    "u": "undone",
}
WITHOUT_ROW: frozenset[Kind] = frozenset(("began", "paused", "resumed", "undone"))
LONGEST = 500_000
MEANS: tuple[Means, ...] = get_args(Means)
_ENTRY = re.compile(r"([a-z])([0-9a-z]{0,6})([-_])([0-9a-z]{1,9})(?:X([A-Za-z0-9_-]+))?")
_HEAD = re.compile(r"(cw[12])~(\d{1,15})~([^~]{1,200})~(\d{1,9})~([a-z0-9]{1,40})~(\d{1,15})~([^~]*)")

NOT_ONE = "journal: this is not the journal of a pocket card; take the text or the file that the card gives"
EDITED = (
    "journal: it is not as the phone wrote it: a letter is missing or changed; take it from the phone once "
    "more. Nothing was taken in"
)


@dataclass(frozen=True, slots=True)
class PocketJournal:
    """What a pocket card brings home.

    run       number of the run it was made for
    identity  of that run, among all runs
    seen      entries that the run had when the card was made
    entries   the card's own, in order
    """

    run: int
    identity: str
    seen: int
    entries: tuple[Entry, ...]


def read_journal_text(text: str) -> PocketJournal:
    """Return the journal that a text holds. Raises BadTap when it is none, or was changed since."""
    text = "".join(text.lstrip("\ufeff").split())  # some editors and messengers put in lines, or a mark first
    if not text.startswith(("cw1~", "cw2~")) or len(text) > LONGEST:
        raise BadTap(NOT_ONE)
    body, _, check = text.rpartition("~")
    head = _HEAD.fullmatch(body)
    if head is None or f"{binascii.crc32(body.encode()):08x}" != check:
        raise BadTap(EDITED)
    form, run, identity, seen, device, begins, told = head.groups()
    try:
        entries = tuple(_entries(told, device, int(begins)))
    except (ValueError, KeyError, RecursionError):
        raise BadTap(EDITED) from None
    if form == "cw1" and any(entry.kind == "returned" for entry in entries):
        raise BadTap(EDITED)
    return PocketJournal(int(run), identity, int(seen), entries)


def _entries(told: str, device: str, tenths: int) -> Iterator[Entry]:
    last = -1
    for number, one in enumerate(told.split(".") if told else [], 1):
        match = _ENTRY.fullmatch(one)
        if match is None:
            raise ValueError
        letter, row_text, sign, step, more = match.groups()
        kind = LETTERS[letter]
        tenths += int(step, 36) * (-1 if sign == "_" else 1)
        row: int | None = None
        if kind not in WITHOUT_ROW:
            last = row = int(row_text, 36) if row_text else last + 1
        elif row_text:
            raise ValueError
        said = _more(more)
        yield Entry(
            kind,
            f"{device}-{number}",
            tenths / 10,
            row,
            numbers_grow=said.get("grow"),
            reading=_exact(said.get("reading"), "reading"),
            angle=_exact(said.get("angle"), "angle"),
            note=_whole_letters(said.get("note")),
            of=said.get("of"),
            off_mm=_exact(said.get("off_mm"), "off_mm"),
            means=said.get("means"),
        )


def _more(text: str | None) -> dict[str, Any]:
    if text is None:
        return {}
    said = json.loads(base64.urlsafe_b64decode(text + "=" * (-len(text) % 4)))
    kinds: dict[str, tuple[type, ...]] = {
        "grow": (bool, type(None)),
        "reading": (str,),
        "angle": (str,),
        "note": (str,),
        "of": (str,),
        "off_mm": (str,),
        "means": (str,),
    }
    if not isinstance(said, dict) or not all(isinstance(value, kinds[key]) for key, value in said.items()):
        raise ValueError
    if said.get("means", MEANS[0]) not in MEANS:
        raise ValueError
    return said


def _exact(text: str | None, what: str) -> Fraction | None:
    return None if text is None else read_number(text, what)


def _whole_letters(note: str | None) -> str | None:
    """A phone may cut a letter in half where a field is full; no file can hold half a letter."""
    return None if note is None else note.encode("utf-8", "replace").decode("utf-8")
