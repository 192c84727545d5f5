"""The list of methods. A new way to divide is one new file and one line here."""

from collections.abc import Callable, Iterable

from crankwise.head.head import Head
from crankwise.part.divisions import Divisions
from crankwise.ways import dial, direct, nearest_hole, plain, ring
from crankwise.ways.way import Way

Finder = Callable[[Head, Divisions], Iterable[Way]]

FINDERS: tuple[Finder, ...] = (direct.ways, plain.ways, dial.ways, nearest_hole.ways, ring.ways)
