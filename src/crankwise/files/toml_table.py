"""Take values out of a parsed TOML table, noting every fault instead of stopping at the first."""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import Any, TypeVar

from crankwise.errors import BadNumber, Fault, FaultsFound
from crankwise.exact.number import as_text, read_number

Made = TypeVar("Made")


class Table:
    """One table of a TOML file, with the list that its faults go to."""

    def __init__(self, raw: object, place: str, faults: list[Fault], keys: Sequence[str]) -> None:
        """Note unknown keys, and a value that is no table; `keys` are the ones that may be there."""
        self.place = place
        self.faults = faults
        self.raw: Mapping[str, Any] = raw if isinstance(raw, dict) else {}
        self.faulty: set[str] = set()
        if not isinstance(raw, dict):
            self.note("", f"{_seen(raw)}; this is a table, with keys {', '.join(keys)}")
        for key in self.raw:
            if key not in keys:
                from difflib import get_close_matches

                close = get_close_matches(key, keys, 1)
                hint = f"did you mean {close[0]}?" if close else f"the keys are {', '.join(keys)}"
                self.note(key, f"this key is not known; {hint}")

    def __contains__(self, key: str) -> bool:
        return key in self.raw

    def whole(self, key: str, default: int | None = None) -> int:
        """Return a whole number; 0 after noting a fault."""
        return self._whole(key, self.raw.get(key, default))

    def whole_or_none(self, key: str) -> int | None:
        """Return a whole number, or None where the key is left out."""
        return self.whole(key) if key in self.raw else None

    def wholes(self, key: str) -> tuple[int, ...]:
        """Return a list of whole numbers; empty after noting that it is missing or no list."""
        value = self.raw.get(key)
        if not isinstance(value, list):
            self.note(key, f"{_seen(value)}; this is a list of whole numbers, as [15, 16, 17]")
            return ()
        return tuple(self._whole(f"{key}[{index}]", item) for index, item in enumerate(value))

    def exact(self, key: str, default: Fraction) -> Fraction:
        """Return an exact number, written 0.5, 2 or "1/2"."""
        value = self.raw.get(key, default)
        try:
            return written_number(value, key)
        except BadNumber:
            self.note(key, f'{_seen(value)}; this is a number, as 2, 0.5 or "1/2"')
            return default

    def text(self, key: str, default: str | None = None) -> str:
        """Return a text of at most 200 characters."""
        value = self.raw.get(key, default)
        if not isinstance(value, str):
            self.note(key, f'{_seen(value)}; this is a text in quotes, as "Bench head"')
            return ""
        if len(value) > 200:
            self.note(key, f"{len(value)} characters; 200 at most")
        return value

    def choice(self, key: str, options: Sequence[str], default: str) -> Any:
        """Return one of the options."""
        value = self.raw.get(key, default)
        if value not in options:
            self.note(key, f"{_seen(value)}; this is {' or '.join(repr(option) for option in options)}")
            return default
        return value

    def yes_or_no(self, key: str, default: bool) -> bool:
        """Return true or false."""
        value = self.raw.get(key, default)
        if not isinstance(value, bool):
            self.note(key, f"{_seen(value)}; this is true or false")
            return default
        return value

    def make(self, maker: Callable[[], Made]) -> Made | None:
        """Return what `maker` makes, or None when this table has faults.

        The maker's own faults are noted under this table's place, but for those of a value that
        could not be read, which has been told already.
        """
        try:
            made = maker()
        except FaultsFound as error:
            self.faults.extend(
                fault.under(self.place) for fault in error.faults if fault.place not in self.faulty
            )
            return None
        return None if self.faulty else made

    def _whole(self, key: str, value: object) -> int:
        if isinstance(value, bool) or not isinstance(value, int):
            quoted = isinstance(value, str) and value.strip().isdecimal()
            self.note(key, f"{_seen(value)}; give a whole number{', without quotes' if quoted else ''}")
            return 0
        return value

    def note(self, key: str, message: str) -> None:
        """Note what is wrong with a key's value; an empty key stands for the whole table."""
        self.faulty.add(key)
        self.faults.append(Fault(key, message).under(self.place) if key else Fault(self.place, message))


def written_number(value: object, what: str = "number") -> Fraction:
    """Return a number as a file holds it, written 0.5, 2 or "1/2". Raises BadNumber where it holds another thing."""
    if isinstance(value, bool) or not isinstance(value, (int, str, Fraction)):
        raise BadNumber(what, f"{_seen(value)} is not a number")
    return read_number(value, what) if isinstance(value, str) else Fraction(value)


def _seen(value: object) -> str:
    if value is None:
        return "missing"
    if isinstance(value, bool):
        return str(value).lower()
    shown = (
        as_text(value)
        if isinstance(value, Fraction)
        else repr(value)
        if isinstance(value, str)
        else str(value)
    )
    return shown if len(shown) <= 40 else shown[:37] + "..."
