"""Preparation and measuring cards as text: each value in both systems of units, its limits, what to do."""

import textwrap
from collections.abc import Iterable, Iterator
from fractions import Fraction

from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.part.card import Card, CardLine, Quantity
from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds
from crankwise.wording.figures import decimal

MM_PLACES, INCH_PLACES = 3, 4
SET_UP = "Set up"
COLUMNS = 110


def length_text(length_mm: Quantity, inch_first: bool = False, places: int = MM_PLACES) -> str:
    """Return a length in both units: 129.000 mm (5.0787 in), or the inches first.

    places  decimals of the millimetres; the inches have one more

    >>> length_text(Fraction(129)), length_text(Fraction(127, 5), inch_first=True)
    ('129.000 mm (5.0787 in)', '1.0000 in (25.400 mm)')
    """
    length = Fraction(length_mm)
    metric = f"{decimal(length, places)} mm"
    inch = f"{decimal(length / INCH, places + INCH_PLACES - MM_PLACES)} in"
    return f"{inch} ({metric})" if inch_first else f"{metric} ({inch})"


def angle_text(turns: Quantity) -> str:
    """Return an angle both ways: 30.0000° (30°0'0")."""
    angle = Fraction(turns)
    return f"{decimal_degrees(angle)} ({degrees_minutes_seconds(angle, 0)})"


def count_text(count: Quantity, places: int = 4) -> str:
    """Return a bare number: exactly where it is short, else to so many decimals."""
    exact = as_text(count) if isinstance(count, Fraction) else str(count)
    short = "/" not in exact and "e" not in exact and len(exact.partition(".")[2]) <= places
    return exact if short else decimal(Fraction(count), places)


def value_text(line: CardLine, inch_first: bool = False) -> str:
    """Return a line's value in its unit, empty where it has none."""
    return "" if line.value is None else _in_unit(line, line.value, inch_first)


def limits_text(line: CardLine, inch_first: bool = False) -> str:
    """Return a line's limits: from 128.950 mm (5.0768 in) to 129.000 mm (5.0787 in); empty without any."""
    low = "" if line.low is None else _in_unit(line, line.low, inch_first)
    high = "" if line.high is None else _in_unit(line, line.high, inch_first)
    if low and high:
        return f"from {low} to {high}"
    return f"at least {low}" if low else f"at most {high}" if high else ""


def setup_facts(cards: Iterable[Card], run: int = 1, inch_first: bool = False) -> tuple[tuple[str, str], ...]:
    """Return what is set on the machine for one run of a part, for the head of its sheet: names and texts.

    The first one has a name; the others stand below it.
    """
    lines = [line for card in cards for line in card.lines if run in line.set_in]
    told = ("; ".join(filter(None, (value_text(line, inch_first), line.using, line.note))) for line in lines)
    texts = [f"{line.what}: {text}" for line, text in zip(lines, told, strict=True)]
    return tuple((SET_UP if place == 0 else "", text) for place, text in enumerate(texts))


def card_text(card: Card, inch_first: bool = False) -> str:
    """Return a card as lines of text: its title, then a line or more for each of its lines."""
    return "\n".join([card.title, *_body(card, inch_first)])


def _body(card: Card, inch_first: bool) -> Iterator[str]:
    width = max((len(line.what) for line in card.lines if line.value is not None), default=0)
    for line in card.lines:
        told = "; ".join(filter(None, (limits_text(line, inch_first), line.using, line.note)))
        if line.value is None:
            yield from _wrapped(f"{line.what}: {told}" if told else line.what, first=2, rest=6)
        else:
            yield f"  {line.what:<{width}}  {value_text(line, inch_first)}"
            yield from _wrapped(told, first=width + 4, rest=width + 4)


def _wrapped(text: str, first: int, rest: int) -> list[str]:
    return textwrap.wrap(text, COLUMNS, initial_indent=" " * first, subsequent_indent=" " * rest)


def _in_unit(line: CardLine, value: Quantity, inch_first: bool) -> str:
    if line.unit == "mm":
        return length_text(value, inch_first)
    return angle_text(value) if line.unit == "turn" else count_text(value)
