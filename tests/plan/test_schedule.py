"""The schedule: one row a position, the ring check, and the closing row."""

from fractions import Fraction

from crankwise.exact.angle import read_angles
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import planned
from crankwise.plan.schedule import Row, schedule
from crankwise.ways.way import Setting
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head


def rows(toml: str, divisions: Divisions, way_key: str | None = None) -> tuple[Row, ...]:
    plan = planned(head(toml), Part(divisions), way_key)
    assert plan is not None
    return schedule(plan)


def test_149_lines_row_by_row_as_worked_on_paper() -> None:
    table = rows(BENCH_HEAD, EqualDivisions(149), "dial")
    assert len(table) == 150
    assert [row.index for row in table] == list(range(150))
    assert [(row.reached.setting.turns, str(row.reached.setting.reading)) for row in table[:4]] == [
        (0, "0"),
        (0, "97/2"),  # 48.32 marks
        (0, "193/2"),  # 96.64
        (1, "45"),  # 144.97
    ]
    assert [row.passes_zero for row in table[:4]] == [False, False, False, True]
    # 42 turns + 52.35 marks is 212.62 degrees, 43 turns + 0.67 is 215.03: set to 52.5 and 0.5
    assert [row.ring_check for row in table[88:90]] == [Fraction("212.625"), Fraction("215.025")]
    assert not any(row.closing for row in table[:-1])


def test_the_last_row_is_the_first_position_met_again() -> None:
    *_, before, last = rows(BENCH_HEAD, EqualDivisions(127), "dial")
    assert last.closing
    assert (last.reached.position, last.reached.setting) == (127, Setting(turns=72, reading=Fraction(0)))
    assert last.ring_check == 0
    # from 71 turns + 43.5 marks: 56.5 marks more, past the zero
    assert before.reached.setting == Setting(turns=71, reading=Fraction("43.5"))
    assert last.move == Setting(turns=0, reading=Fraction("56.5"))
    assert last.passes_zero


def test_whole_turns_do_not_pass_the_zero_besides() -> None:
    table = rows(BENCH_HEAD, EqualDivisions(8), "dial")
    assert {row.move for row in table[1:]} == {Setting(turns=9, reading=Fraction(0))}
    assert not any(row.passes_zero for row in table)


def test_the_first_row_is_turned_to_from_the_zero() -> None:
    first, second, *_ = rows(BENCH_HEAD, EqualDivisions(127, first=10, last=20), "dial")
    # 10 x 7200/127 = 566.93 marks: 5 turns + 67
    assert first.move == first.reached.setting == Setting(turns=5, reading=Fraction(67))
    assert second.move == Setting(turns=0, reading=Fraction("56.5"))
    assert first.index == 0


def test_some_of_the_positions_have_no_closing_row() -> None:
    table = rows(BENCH_HEAD, EqualDivisions(127, first=10, last=20), "dial")
    assert [row.reached.position for row in table] == list(range(10, 21))
    assert not any(row.closing for row in table)


def test_every_fourth_from_the_second_closes_on_the_second() -> None:
    *_, last = rows(BENCH_HEAD, EqualDivisions(12, first=2, every=4), "dial")
    assert last.closing
    assert last.reached.position == 14
    assert last.reached.achieved == Fraction(14, 12)


def test_a_list_is_closed_by_its_first_angle() -> None:
    table = rows(BENCH_HEAD, AngleList(read_angles("10, 20, 300")), "dial")
    assert [row.reached.position for row in table] == [0, 1, 2, 3]
    assert table[-1].closing
    assert table[-1].reached.achieved == Fraction(370, 360)
    assert table[-1].ring_check == 10


def test_the_ring_falls_where_dial_and_ring_disagree() -> None:
    falling = BENCH_HEAD.replace("wheel_teeth = 72", 'wheel_teeth = 72\nclockwise = "decreases"')
    table = rows(falling, EqualDivisions(8), "dial")
    assert [row.ring_check for row in table] == [0, 315, 270, 225, 180, 135, 90, 45, 0]


def test_without_a_ring_there_is_nothing_to_check() -> None:
    assert {row.ring_check for row in rows(PLATE_HEAD, EqualDivisions(24))} == {None}


def test_holes_pass_the_zero_too() -> None:
    table = rows(PLATE_HEAD, EqualDivisions(24), "plain:circle=39:turns=1:holes=26")
    assert [row.reached.setting for row in table[:4]] == [
        Setting(turns=0, holes=(0,)),
        Setting(turns=1, holes=(26,)),
        Setting(turns=3, holes=(13,)),
        Setting(turns=5, holes=(0,)),
    ]
    assert [row.passes_zero for row in table[:4]] == [False, False, True, True]
    assert {row.move for row in table[1:]} == {Setting(turns=1, holes=(26,))}


def test_a_notched_wheel_counts_on() -> None:
    table = rows(BULL_WHEEL, EqualDivisions(12))
    assert [row.reached.setting.notches for row in table] == list(range(0, 61, 5))
    assert {row.move for row in table[1:]} == {Setting(notches=5)}
    assert not any(row.passes_zero for row in table)
