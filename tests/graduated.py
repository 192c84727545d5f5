"""Graduated work of the Slipway Shed, as its people would lay it out: what the tests of scales look at."""

from dataclasses import replace
from fractions import Fraction

from crankwise.part.graduated import Graduated
from crankwise.part.line_classes import LineClass, LineClasses
from crankwise.part.numerals import Lettering, Numerals, Stand
from crankwise.part.scale_lines import Scale, equal_lines
from crankwise.part.surface import Run, Surface, SurfaceKind

LENGTHS = {1: "3.25", 3: "4.9", 12: "6.5"}


def classes(lengths: dict[int, str], width: str = "0.25") -> LineClasses:
    """Return classes of lines from every so many and their lengths in mm."""
    names = {1: ["single"], 2: ["short", "long"], 3: ["short", "middle", "long"]}[len(lengths)]
    return LineClasses(
        tuple(
            LineClass(name, Fraction(every), Fraction(length), Fraction(width))
            for name, (every, length) in zip(names, lengths.items(), strict=True)
        )
    )


def tide_ring(height: str = "2.4", face: str | None = "10") -> Graduated:
    """Return the tide ring: 149 lines of 5 minutes, an hour numeral every 12th, on a ring of 150 mm."""
    return Graduated(
        equal_lines(149),
        Surface("ring", Fraction(150), face_mm=Fraction(face) if face else None),
        classes(LENGTHS),
        Numerals(Fraction(12), Lettering(Fraction(height)), per_count=Fraction(1, 12)),
    )


def dial(
    lines: int = 100,
    diameter: int = 50,
    height: str = "2.4",
    kind: SurfaceKind = "drum",
    run: Run = "in",
    stand: Stand = "upright",
    every: int = 10,
    scale: Scale | None = None,
) -> Graduated:
    """Return a dial with lines at every 1, 5 and 10 and numerals."""
    return Graduated(
        scale or equal_lines(lines),
        Surface(kind, Fraction(diameter), run),
        classes({1: "2", 5: "3", 10: "4"}, "0.1"),
        Numerals(Fraction(every), Lettering(Fraction(height)), stand=stand),
    )


def with_height(work: Graduated, height: str) -> Graduated:
    """Return the same work with numerals of another height."""
    assert work.numerals
    return replace(
        work, numerals=replace(work.numerals, lettering=work.numerals.lettering.of_height(Fraction(height)))
    )
