"""Orders of work held against a count line by line, and the stop pieces for them."""

from dataclasses import replace
from fractions import Fraction

import pytest

from crankwise.part.graduated import Graduated
from crankwise.part.order_of_work import orders_of_work
from crankwise.part.stop_pieces import stop_pieces
from tests.graduated import classes, dial, tide_ring


@pytest.mark.parametrize(
    "work", [dial(100), dial(125), dial(149), tide_ring()], ids=lambda work: work.scale.name
)
def test_both_orders_are_what_counting_at_the_machine_gives(work: Graduated) -> None:
    by_class, straight = orders_of_work(work)
    lines = work.lines()
    changes, stop = 0, ""
    for line in lines:
        if stop and line.line_class.name != stop:
            changes += 1
        stop = line.line_class.name
    assert straight.stop_changes == changes
    assert sum(count for _, count in straight.strokes) == len(lines)
    assert straight.spindle_turns == lines[-1].angle
    # Class by class: each circuit goes over what is at least so long; only the stop between circuits is changed.
    ranks = {"short": 0, "middle": 1, "long": 2}
    for rank, (name, count) in enumerate(by_class.strokes):
        assert ranks[name] == rank
        assert count == sum(ranks[line.line_class.name] >= rank for line in lines)
    assert by_class.stop_changes == 2
    assert 2 < by_class.spindle_turns < 3


def test_100_lines_need_2_changes_of_stop_or_39() -> None:
    # Per ten lines long to short, short to middle, middle to short, short to long; the last is not cut again.
    by_class, straight = orders_of_work(dial(100))
    assert by_class.strokes == (("short", 100), ("middle", 20), ("long", 10))
    assert (by_class.stop_changes, straight.stop_changes) == (2, 39)


def test_one_class_has_one_order_and_no_change() -> None:
    (order,) = orders_of_work(replace(dial(), classes=classes({1: "3"})))
    assert (order.name, order.stop_changes) == ("straight-round", 0)


def test_a_stop_piece_takes_its_thickness_off_the_longest_line() -> None:
    pieces = stop_pieces(classes({1: "2", 5: "3", 10: "4.5"}))
    assert [(piece.line_class.name, piece.thickness_mm) for piece in pieces] == [
        ("short", Fraction(5, 2)),
        ("middle", Fraction(3, 2)),
        ("long", 0),
    ]
