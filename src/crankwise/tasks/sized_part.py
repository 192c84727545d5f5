"""The answer about a part that is sized by its own geometry: what it is, its cards, and what JSON tells."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from crankwise.errors import BadLength
from crankwise.exact.length import INCH_MARKS, read_diameter
from crankwise.head.head import Head
from crankwise.part.card import Card, Quantity
from crankwise.part.part import Part
from crankwise.tasks.gear_json import FORMAT, card_object

if TYPE_CHECKING:
    from crankwise.part.kinds import PartValue

Table = tuple[str, list[str], list[list[str]]]
"""A table's title, its headings, and its rows of figures."""

_INCHES = ("in", "inch", "inches", "thou", *INCH_MARKS)


@dataclass(frozen=True, slots=True)
class SizedPart:
    """All that is known of one part.

    kind        what kind of part: "holes", "flats" ...
    name        what it is, in words
    value       the kind's own value, for a picture
    parts       what is divided: a run each, the first one first
    cards       to prepare and to measure by
    told        the kind's own keys of the JSON answer
    inch_first  whether it was asked in inches
    warnings    what to beware of, each with its code
    tables      what stands beside the cards: coordinates, settings
    slide       the slide that it was asked on, for its job; None where none was told, or it is turned
    runs        what its runs are called where it takes several, each a job of its own; empty for one
    is_one_piece  whether these runs are made in one piece of work, one after the other
    own_cards   the cards of each run that has its own, by its number from 1; the others have `cards`
    """

    kind: str
    name: str
    value: "PartValue"
    parts: tuple[Part, ...]
    cards: tuple[Card, ...]
    told: dict[str, Any]
    inch_first: bool = False
    warnings: tuple[tuple[str, str], ...] = ()
    tables: tuple[Table, ...] = field(default=())
    slide: Head | None = None
    runs: tuple[str, ...] = ()
    is_one_piece: bool = True
    own_cards: Mapping[int, tuple[Card, ...]] = field(default_factory=dict)

    def cards_of(self, run: int) -> tuple[Card, ...]:
        """Return the cards that one run is worked by, from 1."""
        return self.own_cards.get(run, self.cards)


def sized_object(answer: SizedPart) -> dict[str, Any]:
    """Return the answer as a plain object, ready for JSON; the keys are promised, more may be added."""
    return {
        "format": FORMAT,
        "kind": answer.kind,
        "name": answer.name,
        **answer.told,
        "cards": [card_object(card) for card in answer.cards],
        "warnings": [{"code": code, "text": text} for code, text in answer.warnings],
    }


def number(value: Quantity | None) -> float | None:
    """Return a value as JSON has it, None where there is none."""
    return None if value is None else float(value)


def is_in_inches(*typed: str) -> bool:
    """Return whether the first length that was typed is in inches."""
    first = next((text.strip().lower() for text in typed if text.strip()), "")
    return first.endswith(_INCHES)


def needed_length(typed: str, what: str, as_in: str) -> Fraction:
    """Return a length above 0 in mm that must be given. Raises BadLength.

    as_in  how it could be given, for the sentence: "--outside 50mm"
    """
    if not typed.strip():
        raise BadLength(what, f"not told; give it too, as {as_in}")
    return read_diameter(typed, what)


def optional_length(typed: str, what: str) -> Fraction | None:
    """Return a length above 0 in mm, or None where nothing was typed. Raises BadLength."""
    return read_diameter(typed, what) if typed.strip() else None
