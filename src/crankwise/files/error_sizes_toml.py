"""The [errors] table of a head file: each size one number, or two in a list, the smaller one first.

Its own table [errors.from] says where some of them are from, in words.
"""

from collections.abc import Sequence
from json import dumps

from crankwise.errors import BadNumber, Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.files.toml_table import Table, written_number
from crankwise.head.error_sizes import MOST, ErrorSizes, Size


def read_error_sizes(raw: object, faults: list[Fault]) -> ErrorSizes | None:
    """Return the sizes that the table tells, or None after noting its faults."""
    table = Table(raw, "errors", faults, (*MOST, "from"))
    sizes = [(name, size) for name in MOST if name in table and (size := _size(table, name))]
    origins = Table(table.raw.get("from", {}), "errors.from", faults, tuple(MOST))
    sources = [(name, origins.text(name)) for name in MOST if name in origins]
    if origins.faulty:
        return None
    return table.make(lambda: ErrorSizes(tuple(sizes), tuple(sources)))


def _size(table: Table, name: str) -> Size | None:
    value = table.raw[name]
    ends = value if isinstance(value, list) else [value, value]
    if len(ends) != 2:
        table.note(name, f"{len(ends)} numbers; this is one number, as 20, or a range of two, as [10, 60]")
        return None
    try:
        low, high = map(written_number, ends)
        return Size(low, high)
    except BadNumber:
        table.note(name, "this is a number, as 20, or a range of two, as [10, 60]")
    except FaultsFound as told:
        table.note(name, told.faults[0].message)
    return None


def error_sizes_block(known: ErrorSizes) -> str:
    """Return the table as it is written; reading it gives the same sizes."""
    lines = ["[errors]", *(f"{name} = {_written(size)}" for name, size in known.sizes)]
    return "\n".join(lines) + (f"\n\n{sources_block(known.sources)}" if known.sources else "")


def sources_block(sources: Sequence[tuple[str, str]]) -> str:
    """Return the table that says where sizes are from."""
    return "\n".join(["[errors.from]", *(f"{name} = {_quoted(text)}" for name, text in sources)])


def _quoted(text: str) -> str:
    # A TOML text escapes as JSON does, but for the delete character.
    return dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _written(size: Size) -> str:
    low, high = (f'"{as_text(end)}"' for end in (size.low, size.high))
    return low if size.is_known else f"[{low}, {high}]"
