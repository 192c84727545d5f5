"""Job files: a part, the head it is divided on and the way, as TOML that can be kept and done again.

A job file holds what was typed, not what came of it: reading it asks the same again. The keys are
promised: docs/schema/job-1.schema.json says the same to a program. A file may carry `format = 1`; a
file without it is of format 1.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from crankwise.errors import Fault
from crankwise.exact.number import as_text
from crankwise.files.head_toml import head_of, write_head
from crankwise.files.job_keys import PART_KEYS
from crankwise.files.toml_table import Table
from crankwise.files.toml_text import read_toml, with_lines
from crankwise.head.head import Head
from crankwise.part.part import WORKS

FORMAT = 1
LONGEST_TEXT = 50_000
"""Characters of one value: a table of some thousand points."""
LONGEST_NAME = 200
_KEYS = ("format", "name", "head", "way", "rim", "within", "work", "part")
_BARE = re.compile(r"0|-?[1-9]\d{0,15}")


@dataclass(frozen=True, slots=True)
class AskedPart:
    """The part as it was asked.

    kind   one of `crankwise.files.job_keys.PART_KEYS`
    typed  each key with what was typed for it, in the order of the keys; a flag that is set says "true"
    """

    kind: str
    typed: tuple[tuple[str, str], ...] = ()

    @property
    def values(self) -> dict[str, str]:
        """What was typed, by key."""
        return dict(self.typed)


@dataclass(frozen=True, slots=True)
class Job:
    """A job as it was asked; an empty text where nothing was.

    part    what is made
    name    what the job is called
    head    the head it is divided on, or the path of its file as written; None where none is named
    way     the way chosen, by its key or its method
    rim     diameter at which errors are told as lengths
    within  the tolerance
    work    what is made at each position: one of `crankwise.part.part.WORKS`
    """

    part: AskedPart
    name: str = ""
    head: Head | str | None = None
    way: str = ""
    rim: str = ""
    within: str = ""
    work: str = ""


def asked_part(kind: str, values: Mapping[str, object]) -> AskedPart:
    """Return the part of this kind that was typed, with only what was typed and only what the kind asks for.

    values  texts by key, and True for a flag that is set; keys that the kind does not ask for are left out
    """
    typed = []
    for key in PART_KEYS[kind].all:
        value = values.get(key, "")
        text = "true" if value is True else value if isinstance(value, str) else ""
        if text.strip():
            typed.append((key, text))
    return AskedPart(kind, tuple(typed))


def read_job(content: bytes | str, source: str = "") -> Job:
    """Return the job that a TOML file describes.

    content  the file's bytes or text
    source   the file's name, for the errors' sentences

    What the texts of the part mean is not looked at here. Raises FaultsFound with every fault of the
    file, each with its place and line.
    """
    text, raw = read_toml(content, source, "a job file")
    faults: list[Fault] = []
    job = _job(raw, faults)
    if job is None or faults:
        raise with_lines(faults, text, source)
    return job


def _job(raw: dict[str, Any], faults: list[Fault]) -> Job | None:
    table = Table(raw, "", faults, _KEYS)
    if table.whole("format", FORMAT) != FORMAT and "format" not in table.faulty:
        table.note("format", f"{raw['format']}; this version of Crankwise reads format {FORMAT}")
    name = table.text("name", "")
    head = _head(raw["head"], faults) if "head" in raw else None
    texts = {key: _text(table, key) for key in ("way", "rim", "within", "work")}
    if texts["work"] and texts["work"] not in WORKS:
        table.note("work", f"{texts['work'][:40]!r}; what is made at a position is one of {', '.join(WORKS)}")
    if "part" not in raw:
        table.note(
            "part", 'missing; say what is made under the heading [part], as kind = "spur", teeth = 127'
        )
        return None
    part = _part(raw["part"], faults)
    return Job(part, name, head, **texts) if part else None


def _head(raw: object, faults: list[Fault]) -> Head | str | None:
    if isinstance(raw, str) and raw.strip():
        return raw
    if not isinstance(raw, dict):
        told = 'this is the path of a head file in quotes, as "bench-head.toml", or the head under [head]'
        faults.append(Fault("head", told))
        return None
    own: list[Fault] = []
    head = head_of(raw, own)
    faults.extend(fault.under("head") for fault in own)
    return head


def _part(raw: object, faults: list[Fault]) -> AskedPart | None:
    if not isinstance(raw, dict):
        faults.append(Fault("part", 'write it under the heading [part], as kind = "spur", teeth = 127'))
        return None
    kind = raw.get("kind", "divisions")
    if not isinstance(kind, str) or kind not in PART_KEYS:
        faults.append(Fault("part.kind", _unknown_kind(kind)))
        return None
    keys = PART_KEYS[kind]
    table = Table(raw, "part", faults, ("kind", *keys.all))
    values: dict[str, object] = {key: _text(table, key, keys.joint) for key in keys.texts}
    values |= {flag: table.yes_or_no(flag, False) for flag in keys.flags}
    return asked_part(kind, values)


def _unknown_kind(kind: object) -> str:
    from difflib import get_close_matches

    close = get_close_matches(str(kind), PART_KEYS, 1)
    hint = f"did you mean {close[0]}?" if close else f"the kinds are {', '.join(PART_KEYS)}"
    return f"{str(kind)[:40]!r}; this kind of part is not known; {hint}"


def _text(table: Table, key: str, joint: str = ", ") -> str:
    """Return what would be typed: a text, a number as its text, a list with what stands between its items."""
    value = table.raw.get(key, "")
    items = value if isinstance(value, list) else [value]
    texts = []
    for item in items:
        if isinstance(item, bool) or not isinstance(item, (str, int, Fraction)):
            found = str(item).lower() if isinstance(item, bool) else "no text and no number"
            table.note(key, f'{found}; this is a text in quotes, as "1.5mm", or a number; or a list of them')
            return ""
        texts.append(item if isinstance(item, str) else as_text(item))
    text = joint.join(texts)
    if len(text) > LONGEST_TEXT:
        table.note(key, f"{len(text):,} characters; {LONGEST_TEXT:,} at most")
    return text


def write_job(job: Job) -> str:
    """Return a job as a file; reading it gives the same job."""
    top = [f"format = {FORMAT}"]
    if job.name:
        top.append(f"name = {quoted(job.name)}")
    if isinstance(job.head, str):
        top.append(f"head = {quoted(job.head)}")
    texts = (("way", job.way), ("rim", job.rim), ("within", job.within), ("work", job.work))
    top += [f"{key} = {quoted(text)}" for key, text in texts if text]
    blocks = ["\n".join(top), "\n".join(_part_rows(job.part))]
    if isinstance(job.head, Head):
        blocks.append(_head_block(job.head))
    return "\n\n".join(blocks) + "\n"


def _part_rows(part: AskedPart) -> Iterable[str]:
    yield "[part]"
    yield f"kind = {quoted(part.kind)}"
    flags = PART_KEYS[part.kind].flags
    for key, text in part.typed:
        yield f"{key} = {'true' if key in flags else text if _BARE.fullmatch(text) else quoted(text)}"


def _head_block(head: Head) -> str:
    """Return a head file's text with each heading one floor further down."""
    text = re.sub(r"^(\[\[?)(?=[a-z])", r"\1head.", write_head(head), flags=re.MULTILINE)
    return f"[head]\n{text.rstrip()}"


def quoted(text: str) -> str:
    """Return a text as TOML writes it: in quotes, over one line."""
    plain = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t"}
    return f'"{"".join(plain.get(sign, sign if sign.isprintable() else _escaped(sign)) for sign in text)}"'


def _escaped(sign: str) -> str:
    return f"\\u{ord(sign):04x}" if ord(sign) < 0x10000 else f"\\U{ord(sign):08x}"
