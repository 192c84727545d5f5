"""The list of methods. A new way to divide is one new file and its two functions here."""

from collections.abc import Callable, Iterable

from crankwise.head.head import Head
from crankwise.part.divisions import Divisions
from crankwise.ways import (
    block,
    circles_for_list,
    compound,
    dial,
    dial_and_plate,
    differential,
    direct,
    nearest_hole,
    plain,
    ring,
    stepper,
    two_circle,
    two_wheels,
    wheel_and_worm,
)
from crankwise.ways.column import Column, Family
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
    stepper.ways,
    wheel_and_worm.ways,
    two_wheels.ways,
    dial_and_plate.ways,
    block.ways,
    circles_for_list.ways,
)

COLUMNS: tuple[Callable[[Head], Iterable[Column | Family]], ...] = (
    direct.columns,
    plain.columns,
    dial.columns,
    nearest_hole.columns,
    ring.columns,
    compound.columns,
    differential.columns,
    two_circle.columns,
    stepper.columns,
    wheel_and_worm.columns,
    two_wheels.columns,
    dial_and_plate.columns,
)
"""The same methods in the same order, as the chart asks them.

Block indexing has none: it is never put before plain indexing. A list of angles is no matter for a chart.
"""
