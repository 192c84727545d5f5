"""Direct indexing on notched wheels and on the ring's own graduations."""

from fractions import Fraction

from crankwise.exact.angle import read_angles
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.direct import ways
from crankwise.ways.way import Burden, Setting
from crankwise.wording.ways import setup_text, working_text
from tests.gear import BENCH_HEAD, BULL_WHEEL, head

BULL = head(BULL_WHEEL)


def test_twelve_on_sixty_notches_are_five_at_a_time() -> None:
    (way,) = ways(BULL, EqualDivisions(12))
    assert way.setup == {"wheel": 60, "notches": 5}
    assert [row.setting.notches for row in way.reached()] == list(range(0, 60, 5))
    assert way.exact
    assert way.burden == Burden(to_set_up=1, to_count=1)
    assert setup_text(way) == "60-notch wheel, 5 notches each move"
    closure = way.closure()
    assert closure is not None
    assert closure.setting == Setting(notches=60)


def test_a_number_that_does_not_go_into_the_notches_has_no_direct_way() -> None:
    assert [n for n in range(1, 61) if list(ways(BULL, EqualDivisions(n)))] == [
        1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30, 60,
    ]  # fmt: skip


def test_two_wheels_alike_are_one_way_and_the_smaller_comes_first() -> None:
    wheels = head('name = "Wheels"\n' + "".join(f"[[notched_wheels]]\nnotches = {n}\n" for n in (48, 24, 24)))
    assert [way.setup for way in ways(wheels, EqualDivisions(8))] == [
        {"wheel": 24, "notches": 3},
        {"wheel": 48, "notches": 6},
    ]


def test_the_rings_graduations_are_set_in_its_own_numerals() -> None:
    (way,) = ways(head(BENCH_HEAD), EqualDivisions(120))
    assert way.setup == {"ring": 360, "graduations": 3}
    assert [row.setting for row in way.reached()][:3] == [
        Setting(reading=Fraction(0)),
        Setting(reading=Fraction(3)),
        Setting(reading=Fraction(6)),
    ]
    assert way.burden.to_set_up == 0
    _, second, third, *_ = way.reached()
    assert way.move(second, third) == Setting(reading=Fraction(3))
    closure = way.closure()
    assert closure is not None
    assert closure.setting == Setting(reading=Fraction(0))  # the ring is at 0 again, after a whole turn


def test_a_falling_ring_is_read_backwards_and_moved_onward() -> None:
    falling = head(BENCH_HEAD.replace("marks = 100", 'marks = 100\nclockwise = "decreases"'))
    (way,) = ways(falling, EqualDivisions(120))
    assert [row.setting.reading for row in way.reached()][:3] == [0, 357, 354]
    _, second, third, *_ = way.reached()
    assert way.move(second, third) == Setting(reading=Fraction(3))


def test_a_ring_in_gon_shows_gon() -> None:
    (way,) = ways(
        head('name = "Gon table"\n[ring]\ngraduations = 400\nfull_circle = 400\n'), EqualDivisions(8)
    )
    assert [row.setting.reading for row in way.reached()][:3] == [0, 50, 100]


def test_a_list_takes_a_wheel_on_which_every_angle_falls() -> None:
    (way,) = ways(BULL, AngleList(read_angles("0, 6, 18, 300")))
    assert way.setup == {"wheel": 60}
    assert [row.setting.notches for row in way.reached()] == [0, 1, 3, 50]
    assert list(ways(BULL, AngleList(read_angles("0, 6, 19")))) == []


def test_the_working_checks_the_full_circle() -> None:
    (way,) = ways(BULL, EqualDivisions(12))
    assert [working_text(step) for step in way.working()] == [
        "notches of the notched wheel for one move: 60 x 1 / 12 = 5 notches",
        "check: all moves of a full circle: 5 x 12 / 1 = 60 notches",
    ]
    (listed,) = ways(BULL, AngleList(read_angles("0, 6, 18")))
    assert [working_text(step) for step in listed.working()] == [
        "every angle falls on one of the 60 notches of the notched wheel; the last: 0.05 turn x 60 = 3 notches",
    ]
