"""Which passes share a list, for every way to divide."""

from fractions import Fraction

import pytest

from crankwise.errors import BadDivisions
from crankwise.plan.passes import ONE_PASS, Pass, long_lines_first, rough_then_finish, with_trace
from crankwise.plan.schedule import schedule
from crankwise.plan.side_by_side import side_by_side
from crankwise.ways.constant_move import ConstantMove
from tests.sheets.plans import every_kind, tide_ring


def shape(*passes: Pass) -> list[tuple[int, int, int]]:
    """For each list: the pass it begins with, how many passes it serves, its rows."""
    return [
        (one.number, len(one.passes), len(one.rows)) for one in side_by_side(schedule(tide_ring(), passes))
    ]


def test_trace_roughing_and_finishing_share_one_list() -> None:
    assert shape(*with_trace(rough_then_finish(Fraction(1), Fraction(2)))) == [(0, 3, 150)]


def test_passes_over_other_positions_or_in_another_order_have_lists_of_their_own() -> None:
    assert shape(*with_trace(long_lines_first(10, 5))) == [(0, 1, 150), (1, 1, 16), (2, 1, 16), (3, 1, 120)]
    spread = [Pass(name, spread=3) for name in ("rough", "finish")]
    assert shape(Pass("trace"), *spread) == [(0, 1, 150), (1, 2, 150)]


def test_passes_that_do_not_follow_each_other_share_nothing() -> None:
    assert shape(Pass(), Pass(spread=3), Pass()) == [(0, 1, 150), (1, 1, 150), (2, 1, 150)]


@pytest.mark.parametrize("kind", every_kind())
def test_a_list_holds_the_rows_of_its_first_pass_and_what_is_read_is_the_same_in_the_others(
    kind: str,
) -> None:
    plan = every_kind()[kind]
    if isinstance(plan.way, ConstantMove) and plan.way.residue:
        with pytest.raises(BadDivisions, match="does not come back exactly to its first position"):
            schedule(plan, with_trace())
        return
    rows = schedule(plan, with_trace())
    lists = side_by_side(rows)
    assert [row for one in lists for row in one.rows][: len(lists[0].rows)] == [
        row for row in rows if row.pass_number == 0
    ]
    assert sum(len(one.passes) for one in lists) == 2
    read = [
        [
            (row.reached.setting.reading, row.reached.setting.holes, row.ring_check)
            for row in rows
            if row.pass_number == number
        ]
        for number in (0, 1)
    ]
    assert (len(lists) == 1) is (read[0] == read[1])


def test_one_pass_is_one_list() -> None:
    rows = schedule(tide_ring(), ONE_PASS)
    [only] = side_by_side(rows)
    assert (only.rows, only.passes, only.number) == (rows, ONE_PASS, 0)
