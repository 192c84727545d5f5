from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import BadDivisions
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.part.part import Mark, Part
from crankwise.plan.passes import (
    ONE_PASS,
    Pass,
    Passes,
    long_lines_first,
    one_class_after_another,
    rough_then_finish,
    with_trace,
)
from crankwise.plan.plan import Plan, planned
from crankwise.plan.schedule import Row, line_classes, schedule
from tests.gear import BENCH_HEAD, PLATE_HEAD, head, worm_head


def plan_of(toml: str, count: int, way: str | None = None) -> Plan:
    plan = planned(head(toml), Part(EqualDivisions(count)), way)
    assert plan
    return plan


def positions(rows: tuple[Row, ...]) -> list[int]:
    return [row.reached.position for row in rows]


def test_a_trace_pass_comes_before_the_cut_and_each_pass_closes() -> None:
    rows = schedule(plan_of(BENCH_HEAD, 3), with_trace())
    assert positions(rows) == [0, 1, 2, 3, 0, 1, 2, 3]
    assert [row.closing for row in rows] == [False, False, False, True] * 2
    assert [row.work.name for row in rows] == ["trace"] * 4 + ["work"] * 4
    assert [row.index for row in rows] == list(range(8))


def test_the_second_pass_stands_where_the_first_one_closed_and_is_not_turned_to() -> None:
    closing, first = schedule(plan_of(BENCH_HEAD, 149), rough_then_finish())[149:151]
    assert closing.reached.achieved == first.reached.achieved == 1
    assert first.move.turns == first.move.reading == 0
    assert (first.pass_number, first.reached.position) == (1, 0)


def test_long_lines_first_visits_each_position_once() -> None:
    rows = schedule(plan_of(BENCH_HEAD, 23), long_lines_first(10, 5))
    worked = [row.reached.position for row in rows if not row.closing]
    assert worked[:5] == [0, 10, 20, 5, 15]
    assert sorted(worked) == list(range(23))


def test_a_spread_order_visits_each_position_once_in_as_many_circuits() -> None:
    rows = schedule(plan_of(BENCH_HEAD, 7), (Pass(spread=3),))
    assert positions(rows) == [0, 3, 6, 1, 4, 2, 5, 7]
    assert rows[-1].reached.achieved == 3


def test_each_class_of_line_is_a_pass_and_the_fewest_lines_come_first() -> None:
    marks = tuple(Mark("short" if number % 5 else "long") for number in range(23))
    plan = planned(head(BENCH_HEAD), Part(EqualDivisions(23), work="line", marks=marks))
    assert plan
    rows = schedule(plan, one_class_after_another(line_classes(plan)))
    assert positions(rows)[:6] == [0, 5, 10, 15, 20, 23]
    assert sorted(row.reached.position for row in rows if not row.closing) == list(range(23))
    assert one_class_after_another(()) == ONE_PASS
    with pytest.raises(BadDivisions, match=r"pass 1: .* there is no middle line among them"):
        schedule(plan, (Pass(line_class="middle"),))


@given(
    count=st.integers(4, 60),
    ratio=st.sampled_from(["40", "72", "45/2", "7/2"]),
    marks=st.integers(3, 25),
    passes=st.sampled_from(
        [
            with_trace(),
            rough_then_finish(),
            (Pass(spread=4),),
            long_lines_first(6, 3),
            with_trace((Pass(spread=2),)),
        ]
    ),
)
def test_every_pass_meets_the_work_where_the_first_one_did(
    count: int, ratio: str, marks: int, passes: Passes
) -> None:
    by_dial = worm_head(ratio, f"[dial]\nmarks = {2 * marks}\n")
    plan = planned(by_dial, Part(EqualDivisions(count)))
    assert plan
    met: dict[int, Fraction] = {}
    turned = Fraction(0)
    assert plan.head.ratio
    for row in schedule(plan, passes):
        turned += (row.move.turns or 0) + (row.move.reading or Fraction(0)) / (2 * marks)
        assert turned == row.reached.achieved * plan.head.ratio
        place = row.reached.achieved % 1
        assert met.setdefault(row.reached.position % count, place) == place
        assert abs(row.reached.error) <= 1 / (2 * Fraction(ratio) * 2 * marks)


def test_an_arc_goes_back_to_its_start_for_the_next_pass() -> None:
    arc = planned(head(BENCH_HEAD), Part(EqualDivisions(100, last=3)))
    assert arc
    rows = schedule(arc, with_trace())
    assert [row.goes_back for row in rows] == [False] * 4 + [True] + [False] * 3
    assert [row.reached.setting for row in rows[4:]] == [row.reached.setting for row in rows[:4]]
    assert rows[5].move == rows[1].move


def test_a_list_of_angles_takes_passes() -> None:
    listed = planned(head(BENCH_HEAD), Part(AngleList((Fraction(0), Fraction(1, 7), Fraction(2, 3)))))
    assert listed
    assert positions(schedule(listed, with_trace())) == [0, 1, 2, 3, 0, 1, 2, 3]


def test_one_pass_is_what_a_schedule_is_by_itself() -> None:
    plan = plan_of(PLATE_HEAD, 60)
    assert schedule(plan) == schedule(plan, ONE_PASS)
    assert len(schedule(plan)) == 61


def test_compound_indexing_makes_a_second_pass_but_no_spread_order() -> None:
    plan = plan_of(PLATE_HEAD, 51, "compound:circles=(15, 17):holes=(10, 2)")
    rows = schedule(plan, with_trace())
    assert rows[52].reached.setting.holes == rows[0].reached.setting.holes == (0, 0)
    assert rows[103].reached.achieved == 2
    with pytest.raises(BadDivisions, match="choose a way that sets each position from the start"):
        schedule(plan, (Pass(spread=2),))


@pytest.mark.parametrize(
    ("given_pass", "sentence"),
    [
        ({"each": 0}, "each 0; every so many positions is 1 or more"),
        ({"spread": -1}, "spread -1"),
        ({"but_not": 1}, "but_not 1; it is 2 or more"),
        ({"depth_mm": Fraction(0)}, "a depth is above 0"),
        ({"name": "polish"}, "'polish'; a pass is one of work, trace, rough, finish"),
    ],
)
def test_a_pass_out_of_its_range_is_refused(given_pass: dict[str, object], sentence: str) -> None:
    with pytest.raises(BadDivisions, match=sentence):
        Pass(**given_pass)  # type: ignore[arg-type]


def test_a_pass_without_a_position_is_refused() -> None:
    with pytest.raises(BadDivisions, match="pass 1: it leaves out every position"):
        schedule(plan_of(BENCH_HEAD, 12), (Pass(each=4, but_not=2),))
    with pytest.raises(BadDivisions, match="passes: none"):
        schedule(plan_of(BENCH_HEAD, 12), ())
