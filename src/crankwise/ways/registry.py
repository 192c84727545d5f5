"""The list of methods. A new way to divide is one new file and its place here."""

from collections.abc import Iterable, Iterator
from typing import Protocol

from crankwise.head.head import Head
from crankwise.part.divisions import Divisions
from crankwise.ways.column import Column, Family
from crankwise.ways.way import Way


class Method(Protocol):
    """What the file of a method offers."""

    def ways(self, head: Head, divisions: Divisions, /) -> Iterable[Way]:
        """Yield every way to reach the divisions on this head by this method."""


class ChartedMethod(Method, Protocol):
    """A method that the chart may put first."""

    def columns(self, head: Head, /) -> Iterable[Column | Family]:
        """Yield what the chart asks for every number of parts."""


def methods(head: Head) -> Iterator[Method]:
    """Yield every method that the head has the means for, in the order in which ties are broken."""
    yield from charted_methods(head)
    if head.worm and head.plates:
        # Block indexing is never put before plain indexing, and a list of angles is no matter for a chart.
        from crankwise.ways import block, circles_for_list

        yield block
        yield circles_for_list


def charted_methods(head: Head) -> Iterator[ChartedMethod]:
    """Yield those that the chart asks, in the same order.

    A method is imported only where the head has what it needs: a cold command has no time for the rest.
    """
    has_plates = head.worm is not None and bool(head.plates)
    if head.ring or head.notched_wheels:
        from crankwise.ways import direct

        yield direct
    if has_plates:
        from crankwise.ways import plain

        yield plain
    if head.worm and head.notched_wheels:
        # Before the dial: of two that ask as much and are as near, notches are the surer.
        from crankwise.ways import wheel_and_worm

        yield wheel_and_worm
    if head.dial:
        from crankwise.ways import dial

        yield dial
    if has_plates:
        from crankwise.ways import nearest_hole

        yield nearest_hole
    if head.ring:
        from crankwise.ways import ring

        yield ring
    if has_plates:
        from crankwise.ways import compound

        yield compound
    if has_plates and head.change_gears:
        from crankwise.ways import differential

        yield differential
    if has_plates:
        from crankwise.ways import two_circle

        yield two_circle
    if head.stepper:
        from crankwise.ways import stepper

        yield stepper
    if head.notched_wheels:
        from crankwise.ways import two_wheels

        yield two_wheels
    if has_plates and head.dial:
        from crankwise.ways import dial_and_plate

        yield dial_and_plate
