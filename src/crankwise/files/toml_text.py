"""A TOML file as text and as plain values, or the one fault that keeps it from being read."""

import tomllib
from fractions import Fraction
from typing import Any

from crankwise.errors import BadNumber, Fault, FaultsFound
from crankwise.exact.number import read_number
from crankwise.files.typed_file import utf8_text

MOST_BYTES = 1_000_000


def read_toml(content: bytes | str, source: str, what: str) -> tuple[str, dict[str, Any]]:
    """Return the text of a TOML file and its values; decimals are kept exactly, as fractions.

    content  the file's bytes or text
    source   the file's name, for the errors' sentences
    what     what the file is, as "a list of cutters"

    Raises FaultsFound when it is too long, no UTF-8 text or no TOML.
    """
    if len(content) > MOST_BYTES:
        told = f"{len(content):,} bytes; {what} is a page of text, {MOST_BYTES:,} bytes at most"
        raise FaultsFound([Fault("", told)], source)
    text = content if isinstance(content, str) else utf8_text(content, source)
    try:
        return text, tomllib.loads(text, parse_float=_exact)
    except tomllib.TOMLDecodeError as error:
        from crankwise.files.toml_trouble import toml_fault

        raise FaultsFound([toml_fault(error)], source) from None
    except (RecursionError, ValueError):
        told = "this cannot be read as TOML: a number or a nesting beyond belief"
        raise FaultsFound([Fault("", told)], source) from None


def with_lines(faults: list[Fault], text: str, source: str) -> FaultsFound:
    """Return the faults, each with the line of its place in the file's text."""
    from crankwise.files.toml_lines import line_of

    placed = [Fault(fault.place, fault.message, line_of(text, fault.place)) for fault in faults]
    return FaultsFound(placed, source)


def _exact(written: str) -> Fraction | str:
    """Keep 0.5 as one half; hand on what is no number (nan, 1e400) as it was written."""
    try:
        return read_number(written.replace("_", ""))
    except BadNumber:
        return written
