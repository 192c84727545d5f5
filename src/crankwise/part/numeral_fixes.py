"""What cures a collision: the largest numeral that fits, shorter lines, fewer numerals, narrower lines.

Every fix is tried before it is told: the changed work is checked again, whole.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from crankwise.errors import Mendable
from crankwise.exact.number import as_text
from crankwise.part.collisions import crowded_lines, numeral_collisions
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
    """Return whether the numerals and their stamps touch nothing."""
    return next(numeral_collisions(work), None) is None


def largest_height_mm(work: Graduated) -> Fraction | None:
    """Return the largest height of numeral that fits, to 0.01 mm down, all else as it is; None where none does.

    It is looked for up to 30 mm. Raises nothing: a height that does not go on the face at all does not fit.
    """
    if work.numerals is None:
        return None

    def fits(hundredths: int) -> bool:
        return _is_clear(lambda: _with_height(work, Fraction(hundredths, 100)))

    found = _largest(fits, int(LEAST_HEIGHT_MM * 100), int(MOST_HEIGHT_MM * 100))
    return None if found is None else Fraction(found, 100)


def largest_stamp(height_mm: Fraction | None) -> tuple[str, Fraction] | None:
    """Return the name and the height of the largest usual stamp, where this is the largest height that fits."""
    fits = [(name, height) for name, height in STAMPS_MM.items() if height_mm and height <= height_mm]
    return max(fits, key=lambda stamp: stamp[1], default=None)


def fixes(work: Graduated, height_mm: Fraction | None, stamp: tuple[str, Fraction] | None) -> Iterator[Fix]:
    """Yield the changes that cure this work, each alone; nothing when it is clear as it is.

    height_mm, stamp  the largest height and the largest usual stamp that fit, as found for this work
    """
    width = _narrower(work)
    if width is not None:
        yield Fix("narrower-lines", width)
    if is_clear(work):
        return
    if height_mm is not None:
        note = f"of the usual stamps, {stamp[0]}" if stamp else "no usual stamp is so small: engrave them"
        yield Fix("smaller-numerals", height_mm, note)
    length = _shorter(work)
    if length is not None:
        yield Fix("shorter-lines", length, "all classes in proportion")
    yield from _fewer(work, has_other=height_mm is not None or length is not None)


def _fewer(work: Graduated, has_other: bool) -> Iterator[Fix]:
    """The fewest steps up that clear; where nothing else works either, together with a smaller height."""
    if work.numerals is None or work.numerals.own or any(work.scale.texts):
        return
    steps = [replace(work.numerals, every=work.numerals.every * times, texts=()) for times in (2, 5, 10)]
    for fewer in steps:
        if _is_clear(lambda: replace(work, numerals=fewer)):  # noqa: B023
            yield Fix("fewer-numerals", fewer.every)
            return
    for fewer in () if has_other else steps:
        height = largest_height_mm(replace(work, numerals=fewer))
        if height is not None:
            yield Fix("fewer-numerals", fewer.every, f"{as_text(height)} mm high or less")
            return


def _with_height(work: Graduated, height_mm: Fraction) -> Graduated:
    if work.numerals is None:
        return work
    return replace(
        work, numerals=replace(work.numerals, lettering=work.numerals.lettering.of_height(height_mm))
    )


def _shorter(work: Graduated) -> Fraction | None:
    longest = work.classes.longest.length_mm

    def clears(hundredths: int) -> bool:
        share = Fraction(hundredths, 100) / longest
        classes = tuple(replace(one, length_mm=one.length_mm * share) for one in work.classes.classes)
        return _is_clear(lambda: replace(work, classes=LineClasses(classes)))

    least = int(_SHORTEST_LINE_MM / work.classes.classes[0].length_mm * longest * 100) + 1
    found = _largest(clears, least, int(longest * 100))
    return None if found is None else Fraction(found, 100)


def _narrower(work: Graduated) -> Fraction | None:
    """Return a width that keeps the lines apart; None where they do not run into each other."""
    if next(crowded_lines(work), None) is None:
        return None

    def is_apart(hundredths: int) -> bool:
        classes = tuple(replace(one, width_mm=Fraction(hundredths, 100)) for one in work.classes.classes)
        return next(crowded_lines(replace(work, numerals=None, classes=LineClasses(classes))), None) is None

    found = _largest(is_apart, 5, int(work.classes.longest.width_mm * 100))
    return None if found is None else Fraction(found, 100)


def _largest(holds: Callable[[int], bool], least: int, most: int) -> int | None:
    """Return the largest whole number from `least` to `most` for which it holds; below it, it is taken to hold."""
    if least > most or not holds(least):
        return None
    while least < most:
        middle = (least + most + 1) // 2
        if holds(middle):
            least = middle
        else:
            most = middle - 1
    return least


def _is_clear(make: Callable[[], Graduated]) -> bool:
    try:
        return is_clear(make())
    except Mendable:
        return False
