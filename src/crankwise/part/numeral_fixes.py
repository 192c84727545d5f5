"""What cures a collision: the largest numeral that fits, shorter lines, fewer numerals, narrower lines.

Every fix is tried before it is told: the changed work is checked again, whole.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from crankwise.errors import Mendable
from crankwise.part.collisions import collisions
from crankwise.part.graduated import Graduated
from crankwise.part.line_classes import LineClasses
from crankwise.part.numerals import STAMPS_MM

FixKind = Literal["smaller-numerals", "shorter-lines", "fewer-numerals", "narrower-lines"]
LEAST_HEIGHT_MM = Fraction(1, 2)
MOST_HEIGHT_MM = Fraction(30)
_SHORTEST_LINE_MM = Fraction(3, 4)


@dataclass(frozen=True, slots=True)
class Fix:
    """One change that leaves nothing touching, all else as it is.

    kind   what changes
    value  to what: the height, the longest lines' length or the lines' width in mm, or every how many counts
    note   what else is to be known, as a usual stamp of that size
    """

    kind: FixKind
    value: Fraction
    note: str = ""


def is_clear(work: Graduated) -> bool:
    """Return whether nothing touches."""
    return next(collisions(work), None) is None


def largest_height_mm(work: Graduated) -> Fraction | None:
    """Return the largest height of numeral that fits, to 0.01 mm down, all else as it is; None where none does.

    It is looked for up to 30 mm. Raises nothing: a height that does not go on the face at all does not fit.
    """
    if work.numerals is None:
        return None

    def of_height(hundredths: int) -> Graduated:
        return _with_height(work, Fraction(hundredths, 100))

    found = _largest(of_height, int(LEAST_HEIGHT_MM * 100), int(MOST_HEIGHT_MM * 100))
    return None if found is None else Fraction(found, 100)


def largest_stamp(work: Graduated) -> tuple[str, Fraction] | None:
    """Return the name and the height of the largest usual stamp that fits; None where none does."""
    fits = [
        (name, height)
        for name, height in STAMPS_MM.items()
        if work.numerals and _is_clear(lambda height=height: _with_height(work, height))  # type: ignore[misc]
    ]
    return fits[-1] if fits else None


def fixes(work: Graduated) -> Iterator[Fix]:
    """Yield the changes that cure this work, each alone; nothing when it is clear as it is."""
    if is_clear(work):
        return
    width = _narrower(work)
    if width is not None:
        yield Fix("narrower-lines", width)
    if work.numerals is None:
        return
    height, stamp = largest_height_mm(work), largest_stamp(work)
    if height is not None:
        note = f"of the usual stamps, {stamp[0]}" if stamp else "no usual stamp is so small: engrave them"
        yield Fix("smaller-numerals", height, note)
    length = _shorter(work)
    if length is not None:
        yield Fix("shorter-lines", length, "all classes in proportion")
    for times in (2, 5, 10):
        every = work.numerals.every * times
        fewer = replace(work.numerals, every=every, texts=())
        if not any(work.scale.texts) and _is_clear(lambda: replace(work, numerals=fewer)):  # noqa: B023
            yield Fix("fewer-numerals", every)
            return


def _with_height(work: Graduated, height_mm: Fraction) -> Graduated:
    if work.numerals is None:
        return work
    return replace(
        work, numerals=replace(work.numerals, lettering=work.numerals.lettering.of_height(height_mm))
    )


def _shorter(work: Graduated) -> Fraction | None:
    longest = work.classes.longest.length_mm

    def shortened(hundredths: int) -> Graduated:
        share = Fraction(hundredths, 100) / longest
        classes = tuple(replace(one, length_mm=one.length_mm * share) for one in work.classes.classes)
        return replace(work, classes=LineClasses(classes))

    least = int(_SHORTEST_LINE_MM / work.classes.classes[0].length_mm * longest * 100) + 1
    found = _largest(shortened, least, int(longest * 100))
    return None if found is None else Fraction(found, 100)


def _narrower(work: Graduated) -> Fraction | None:
    """Return a width that keeps the lines apart; None where they do not run into each other."""
    if not any(found.thing == "line" for found in collisions(work)):
        return None

    def narrowed(hundredths: int) -> Graduated:
        width = Fraction(hundredths, 100)
        return replace(
            work,
            numerals=None,
            classes=LineClasses(tuple(replace(c, width_mm=width) for c in work.classes.classes)),
        )

    found = _largest(narrowed, 5, int(work.classes.longest.width_mm * 100))
    return None if found is None else Fraction(found, 100)


def _largest(make: Callable[[int], Graduated], least: int, most: int) -> int | None:
    """Return the largest whole number for which the work is clear; all below it are taken to be clear too."""
    if least > most or not _is_clear(lambda: make(least)):
        return None
    while least < most:
        middle = (least + most + 1) // 2
        if _is_clear(lambda: make(middle)):  # noqa: B023
            least = middle
        else:
            most = middle - 1
    return least


def _is_clear(make: Callable[[], Graduated]) -> bool:
    try:
        return is_clear(make())
    except Mendable:
        return False
