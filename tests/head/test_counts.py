"""Hole plates, notched wheels and change gears: counts that can be."""

from collections.abc import Callable

import pytest

from crankwise.errors import FaultsFound
from crankwise.head.change_gears import ChangeGears
from crankwise.head.notched_wheel import NotchedWheel
from crankwise.head.plate import Plate


@pytest.mark.parametrize(
    ("part", "lines"),
    [
        (lambda: Plate(()), ("circles: none; a hole plate has one circle or more",)),
        (lambda: Plate((15, 0)), ("circles[1]: 0 holes; a hole circle has 2 or more",)),
        (lambda: Plate((1, 15)), ("circles[0]: 1 hole; a hole circle has 2 or more",)),
        (
            lambda: Plate((15, 16, 15)),
            ("circles[2]: 15 again; a plate has each circle once, and circles[0] is 15 too",),
        ),
        (
            lambda: Plate((0, 0)),
            (
                "circles[0]: 0 holes; a hole circle has 2 or more",
                "circles[1]: 0 holes; a hole circle has 2 or more",
                "circles[1]: 0 again; a plate has each circle once, and circles[0] is 0 too",
            ),
        ),
        (lambda: NotchedWheel(1), ("notches: 1; a notched wheel has 2 or more",)),
        (lambda: NotchedWheel(2_000_000), ("notches: 2000000; a notched wheel has at most 1,000,000",)),
        (lambda: ChangeGears((24, 5)), ("teeth[1]: 5; a change gear has 6 or more",)),
    ],
)
def test_a_count_that_cannot_be_is_told(part: Callable[[], object], lines: tuple[str, ...]) -> None:
    with pytest.raises(FaultsFound) as found:
        part()
    assert found.value.lines() == lines


def test_a_size_of_change_gear_may_be_owned_twice() -> None:
    assert ChangeGears((24, 24, 28)).teeth == (24, 24, 28)
