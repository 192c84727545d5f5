"""The ring set by eye to its nearest reading."""

from fractions import Fraction

from crankwise.part.divisions import EqualDivisions
from crankwise.ways.ring import ways
from crankwise.ways.way import Burden, Setting
from crankwise.wording.ways import setup_text, working_text
from tests.gear import BENCH_HEAD, PLATE_HEAD, head

BENCH = head(BENCH_HEAD)


def test_a_part_is_set_to_half_a_graduation() -> None:
    (way,) = ways(BENCH, EqualDivisions(127))  # 2.83 degrees a part
    assert [row.setting for row in way.reached()][:4] == [
        Setting(reading=Fraction(0)),
        Setting(reading=Fraction(3)),
        Setting(reading=Fraction("5.5")),
        Setting(reading=Fraction("8.5")),
    ]
    assert [row.on_line for row in way.reached()][:4] == [True, True, False, False]
    assert way.worst_error <= Fraction(1, 4 * 360)
    assert way.burden == Burden(to_set_up=0, to_count=3, looked_up=1)
    assert setup_text(way) == "ring of 360"


def test_where_graduations_meet_all_the_ring_is_direct_and_not_by_eye() -> None:
    assert list(ways(BENCH, EqualDivisions(120))) == []
    (halves,) = ways(BENCH, EqualDivisions(720))  # half graduations, exact and yet estimated
    assert halves.exact
    assert halves.settings_on_lines() == 360


def test_a_falling_ring_is_read_backwards() -> None:
    falling = head(BENCH_HEAD.replace("wheel_teeth = 72", 'wheel_teeth = 72\nclockwise = "decreases"'))
    (way,) = ways(falling, EqualDivisions(127))
    assert [row.setting.reading for row in way.reached()][:3] == [0, 357, Fraction("354.5")]
    first, second, *_ = way.reached()
    assert way.move(first, second) == Setting(reading=Fraction(3))


def test_without_a_ring_there_is_none() -> None:
    assert list(ways(head(PLATE_HEAD), EqualDivisions(127))) == []


def test_the_working_is_in_graduations() -> None:
    (way,) = ways(BENCH, EqualDivisions(127))
    assert working_text(way.working()[0]) == (
        "one move, from one position to the next: 1 x 360 / 127 = about 2.8346 graduations"
    )
