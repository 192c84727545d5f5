"""The one family of errors that a person can mend.

    Mendable                      anything a person can put right; its text is for them
    ├── BadInput (ValueError)     one thing typed that cannot be read or used, and which one it is
    │   ├── BadNumber             a number, a ratio or a fraction
    │   ├── BadAngle              an angle
    │   ├── BadLength             a length or a tolerance
    │   ├── BadFormula            a formula, which may also have no value somewhere
    │   └── BadDivisions          a count, a range or a list of angles that cannot be divided
    ├── FaultsFound (ValueError)  a head or a job with one fault or more, all told at once
    ├── UnknownThing (LookupError) a head, a job, a way or a run that is not there
    ├── BadTap                    a tap that names a position that is not there
    ├── BadFile (OSError)         a file that cannot be read or written
    ├── StoreTrouble (OSError)    the store cannot be opened, read or written
    └── MissingExtra              a feature whose package is not installed

Everything else that is raised is our own bug and may be loud. A refusal ("no way within 5 seconds
of arc") is an answer, not an error, and is never raised.
"""

from dataclasses import dataclass, replace


class Mendable(Exception):
    """What a person can put right: found what, where, and what would be right."""


class BadInput(Mendable, ValueError):
    """One thing typed that cannot be read or used; the text is `within: 5 has no unit; ...`.

    place    which one, by the name the person knows it by: `within`, `angle 3 of the list`
    message  what was found and what would be right
    """

    def __init__(self, place: str, message: str) -> None:
        self.place = place
        self.message = message
        super().__init__(f"{place}: {message}")


class BadNumber(BadInput):
    """A number, a ratio or a fraction that cannot be read."""


class BadAngle(BadInput):
    """An angle that cannot be read."""


class BadLength(BadInput):
    """A length, a diameter or a tolerance that cannot be read."""


class BadFormula(BadInput):
    """A formula that cannot be read, or that has no value somewhere."""


class BadDivisions(BadInput):
    """A count, a range or a list of angles that cannot be divided."""


class UnknownThing(Mendable, LookupError):
    """A head, a job, a way or a run that is not there."""


class BadTap(Mendable):
    """A tap that names a position that is not there."""


class BadFile(Mendable, OSError):
    """A file that cannot be read or written."""


class StoreTrouble(Mendable, OSError):
    """The store cannot be opened, read or written."""


class MissingExtra(Mendable):
    """A feature whose package is not installed; the text says how to get it."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong, with its place.

    place    path in the head or job, as `plates[0].circles[3]`; empty for the whole
    message  what was found and what would be right
    line     line in the file, from 1, where it can be known
    """

    place: str
    message: str
    line: int | None = None

    def under(self, place: str) -> "Fault":
        """Return the same fault seen from one floor up, its place led by `place`."""
        joint = "" if not (place and self.place) or self.place.startswith("[") else "."
        return replace(self, place=f"{place}{joint}{self.place}")

    def told(self, source: str = "") -> str:
        """Return the sentence: `plates[0].circles[3] (my-head.toml, line 14): 0 holes; ...`."""
        where = ", ".join(filter(None, (source, f"line {self.line}" if self.line else "")))
        lead = f"{self.place} ({where})" if self.place and where else self.place or where
        return f"{lead}: {self.message}" if lead else self.message


class FaultsFound(Mendable, ValueError):
    """A head or a job that is wrong in one place or more; `faults` holds them all."""

    def __init__(self, faults: "list[Fault] | tuple[Fault, ...]", source: str = "") -> None:
        self.faults = tuple(faults)
        self.source = source
        super().__init__("\n".join(self.lines()))

    def lines(self) -> tuple[str, ...]:
        """Return one sentence a fault, in the order of the file."""
        return tuple(fault.told(self.source) for fault in self.faults)
