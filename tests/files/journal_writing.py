"""A pocket card's journal written as the phone writes it, from its description alone, for tests in Python."""

import base64
import json
from collections.abc import Sequence
from zlib import crc32

from crankwise.exact.number import as_text
from crankwise.run.entry import Entry

LETTERS = {
    "began": "b",
    "done": "d",
    "back": "k",
    "skipped": "s",
    "bad": "x",
    "good": "g",
    "paused": "p",
    "resumed": "r",
    "overshot": "o",
    "ring": "i",
    "returned": "f",
    "note": "n",
    "undone": "u",
}


def journal_text(
    entries: Sequence[Entry], run: int = 3, identity: str = "a1-b2", seen: int = 1, device: str = "x7c2qa"
) -> str:
    """Return the journal of a card whose own entries these are; their names are the card's to give."""
    first = before = round(entries[0].at * 10) if entries else 0
    told, last = [], -1
    for entry in entries:
        at = round(entry.at * 10)
        row = ""
        if entry.row is not None:
            row = "" if entry.row == last + 1 else base_36(entry.row)
            last = entry.row
        sign = "_" if at < before else "-"
        told.append(f"{LETTERS[entry.kind]}{row}{sign}{base_36(abs(at - before))}{more(entry)}")
        before = at
    form = "cw2" if any(entry.kind == "returned" for entry in entries) else "cw1"
    return with_check(f"{form}~{run}~{identity}~{seen}~{device}~{first}~{'.'.join(told)}")


def with_check(body: str) -> str:
    """Return a journal without its check figure, and after it the check figure."""
    return f"{body}~{crc32(body.encode()):08x}"


def said(what: str) -> str:
    """Return a text as an entry carries it beside its row and time."""
    return "X" + base64.urlsafe_b64encode(what.encode()).decode().rstrip("=")


def more(entry: Entry) -> str:
    """Return what an entry says beside its kind, row and time."""
    told: dict[str, object] = {"grow": entry.numbers_grow} if entry.kind == "began" else {}
    told |= {
        name: as_text(value)
        for name, value in (("reading", entry.reading), ("angle", entry.angle), ("off_mm", entry.off_mm))
        if value is not None
    }
    told |= {
        name: value
        for name, value in (("note", entry.note), ("of", entry.of), ("means", entry.means))
        if value is not None
    }
    return said(json.dumps(told)) if told else ""


def base_36(number: int) -> str:
    """Return a whole number, 0 or more, to the base of 36."""
    digits = "0123456789abcdefghijklmnopqrstuvwxyz"
    text = digits[number % 36]
    while number := number // 36:
        text = digits[number % 36] + text
    return text
