"""The dial, set to its nearest reading from the start."""

from collections.abc import Iterator
from fractions import Fraction

import pytest

from crankwise.exact.angle import read_angle, read_angles
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.dial import OnDial, ways
from crankwise.ways.way import Burden, Setting
from crankwise.wording.ways import working_text
from tests.gear import BENCH_HEAD, PLATE_HEAD, head, worm_head

BENCH = head(BENCH_HEAD)
SECONDS = 1_296_000


def on_bench(divisions: EqualDivisions | AngleList) -> OnDial:
    (way,) = ways(BENCH, divisions)
    return way


@pytest.mark.parametrize(
    ("position", "turns", "reading", "seconds"),
    [
        # 7200/127 = 56.6929 marks; x 2, x 3, x 126
        (0, 0, "0", "0"),
        (1, 0, "56.5", "-34.72"),
        (2, 1, "13.5", "20.55"),
        (3, 1, "70", "-14.17"),
        (126, 71, "43.5", "34.72"),
    ],
)
def test_127_on_the_bench_head_as_worked_on_paper(
    position: int, turns: int, reading: str, seconds: str
) -> None:
    reached = next(row for row in on_bench(EqualDivisions(127)).reached() if row.position == position)
    assert reached.setting == Setting(turns=turns, reading=Fraction(reading))
    assert abs(reached.error * SECONDS - Fraction(seconds)) < Fraction(1, 200)


def test_149_and_the_readings_of_a_run_broken_off() -> None:
    # 7200/149: position 88 is 42 turns + 52.35, position 89 is 43 turns + 0.67; read to half a mark
    by_number = {row.position: row.setting for row in on_bench(EqualDivisions(149)).reached()}
    assert by_number[88] == Setting(turns=42, reading=Fraction("52.5"))
    assert by_number[89] == Setting(turns=43, reading=Fraction("0.5"))


def test_144_falls_on_two_readings_only() -> None:
    way = on_bench(EqualDivisions(144))
    assert {row.setting.reading for row in way.reached()} == {0, 50}
    assert way.exact
    assert way.settings_on_lines() == 144


def test_a_setting_between_marks_is_told_apart() -> None:
    way = on_bench(EqualDivisions(127))
    assert [row.on_line for row in way.reached()][:4] == [True, False, False, True]


def test_the_circle_closes_on_nought_after_all_turns() -> None:
    closure = on_bench(EqualDivisions(127)).closure()
    assert closure is not None
    assert (closure.position, closure.setting) == (127, Setting(turns=72, reading=Fraction(0)))
    assert closure.error == 0


def test_whole_turns_are_counted_and_nothing_is_looked_up() -> None:
    assert on_bench(EqualDivisions(8)).burden == Burden(to_set_up=0, to_count=1)
    assert on_bench(EqualDivisions(127)).burden == Burden(to_set_up=0, to_count=3, looked_up=1)


def test_a_start_is_set_and_met_again() -> None:
    way = on_bench(EqualDivisions(8, start=read_angle("1°30'")))  # 30 marks
    assert next(way.reached()).setting == Setting(turns=0, reading=Fraction(30))
    closure = way.closure()
    assert closure is not None
    assert closure.setting == Setting(turns=72, reading=Fraction(30))


def test_a_start_half_way_between_two_marks_is_met_again_on_the_same_mark() -> None:
    # 5 x 9 = 45 marks all round: half a mark goes to 0, and 45 1/2 would go to 46.
    (way,) = ways(worm_head("5", "[dial]\nmarks = 9\n"), EqualDivisions(3, start=Fraction(1, 90)))
    first, closure = next(way.reached()), way.closure()
    assert closure is not None
    assert first.setting == Setting(turns=0, reading=Fraction(0))
    assert closure.setting == Setting(turns=5, reading=Fraction(0))
    assert closure.error == first.error


def test_a_list_of_angles_is_set_from_the_start() -> None:
    way = on_bench(AngleList(read_angles("0, 12.5°, 100°10'")))
    assert [row.setting for row in way.reached()] == [
        Setting(turns=0, reading=Fraction(0)),
        Setting(turns=2, reading=Fraction(50)),  # 12.5° are 2 1/2 turns of 5°
        Setting(turns=20, reading=Fraction("3.5")),  # 10' are 3 1/3 marks of 3'
    ]


def test_moves_are_what_is_turned_from_one_to_the_next() -> None:
    way = on_bench(EqualDivisions(127))
    first, second, third, *_ = way.reached()
    assert way.move(None, first) == Setting(turns=0, reading=Fraction(0))
    assert way.move(first, second) == Setting(turns=0, reading=Fraction("56.5"))
    assert way.move(second, third) == Setting(turns=0, reading=Fraction(57))


def test_a_dial_that_does_not_come_round_is_no_way() -> None:
    uneven = worm_head("40/3", "[dial]\nmarks = 100\n")  # 1333 1/3 marks
    assert list(ways(uneven, EqualDivisions(127))) == []
    (some,) = ways(uneven, EqualDivisions(127, last=5))  # part of a circle need not come round
    assert some.closure() is None
    thirds = worm_head("40/3", '[dial]\nmarks = 100\nread_to = "1/3"\n')
    assert [way.method for way in ways(thirds, EqualDivisions(127))] == ["dial"]


def test_without_a_dial_there_is_none() -> None:
    assert list(ways(head(PLATE_HEAD), EqualDivisions(127))) == []


def test_a_vernier_is_set_to_its_own_parts() -> None:
    (way,) = ways(worm_head("72", "[dial]\nmarks = 100\nvernier = 10\n"), EqualDivisions(127))
    _, second, *_ = way.reached()
    assert second.setting.reading == Fraction("56.7")  # 56.69


def test_the_working_can_be_followed_on_paper() -> None:
    assert [working_text(step) for step in on_bench(EqualDivisions(127)).working()] == [
        "one move, from one position to the next: 72 x 100 / 127 = about 56.6929 marks",
        "position 1, counted from the start: 1/127 x 72 x 100 = about 56.6929 marks",
        "the nearest that can be set, to 1/2: 113 / 2 = 56.5 marks",
        'error of position 1: (56.5 - 7200/127) / (72 x 100) = -34.7"',
        'bound for any position: half of the least that can be set: 1 / (2 x 72 x 200) = 45.0"',
        'worst position of these: 63/127 of a place = 44.6"',
        "check: a full circle: 72 x 100 = 7200 marks",
    ]


class Watched(EqualDivisions):
    """Equal divisions that will not be gone through one by one."""

    def targets(self) -> Iterator[tuple[int, Fraction]]:
        for met, row in enumerate(super().targets()):
            assert met < 3, "all the positions are gone through for the working of one"
            yield row


@pytest.mark.parametrize("first", [0, 1, 500_000])
def test_the_working_of_a_million_positions_goes_through_none_of_the_others(first: int) -> None:
    steps = on_bench(Watched(999_999, first=first)).working()
    assert [step.what for step in steps][1] == f"position {first or 1}, counted from the start"
