"""The list of methods. A new way to divide is one new file and its two functions here."""

from collections.abc import Callable, Iterable

from crankwise.head.head import Head
from crankwise.part.divisions import Divisions
from crankwise.ways import compound, dial, differential, direct, nearest_hole, plain, ring, two_circle
from crankwise.ways.column import Column
from crankwise.ways.way import Way

Finder = Callable[[Head, Divisions], Iterable[Way]]

FINDERS: tuple[Finder, ...] = (
    direct.ways,
    plain.ways,
    dial.ways,
    nearest_hole.ways,
    ring.ways,
    compound.ways,
    differential.ways,
    two_circle.ways,
)

COLUMNS: tuple[Callable[[Head], Iterable[Column]], ...] = (
    direct.columns,
    plain.columns,
    dial.columns,
    nearest_hole.columns,
    ring.columns,
    compound.columns,
    differential.columns,
    two_circle.columns,
)
"""The same methods in the same order, as the chart asks them."""
