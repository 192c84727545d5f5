"""Holes on circles: where they lie, what is refused and what then would work, several circles in a blank."""

import re
from fractions import Fraction
from math import cos, dist, pi, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from crankwise.errors import FaultsFound
from crankwise.part.card import CardLine
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.part.hole_circle import HoleCircle, HolePattern, part_of, parts_of
from crankwise.part.hole_circle_cards import measuring_card, preparation_card
from crankwise.part.polar import cosine, point_at, sine

SIXTY = Fraction(60)


def degrees(*angles: int) -> AngleList:
    return AngleList(tuple(Fraction(angle, 360) for angle in angles))


@given(st.fractions(-3, 3, max_denominator=1000))
def test_a_point_at_an_angle_is_good_to_the_last_digits_of_a_float(turns: Fraction) -> None:
    angle = 2 * pi * float(turns % 1)
    assert cosine(turns) == pytest.approx(cos(angle), abs=1e-15 * 8)
    assert sine(turns) == pytest.approx(sin(angle), abs=1e-15 * 8)


def test_quarters_are_exact() -> None:
    assert [point_at(30.0, Fraction(quarter, 4)) for quarter in range(4)] == [
        (30, 0),
        (0, 30),
        (-30, 0),
        (0, -30),
    ]


@st.composite
def circles(draw: st.DrawFn) -> HoleCircle:
    count = draw(st.integers(2, 60))
    first = draw(st.integers(0, count - 2))
    divisions = draw(
        st.one_of(
            st.just(EqualDivisions(count)),
            st.integers(first + 1, count - 1).map(lambda last: EqualDivisions(count, first=first, last=last)),
            st.lists(st.integers(0, 359), min_size=2, max_size=20, unique=True).map(
                lambda a: degrees(*sorted(a))
            ),
        )
    )
    return HoleCircle(
        divisions,
        draw(st.fractions(1, 500, max_denominator=50)),
        first_at=draw(st.fractions(0, Fraction(359, 360), max_denominator=360)),
        clockwise=draw(st.booleans()),
    )


@given(circles())
def test_a_chord_is_the_distance_of_two_neighbours(circle: HoleCircle) -> None:
    points = circle.coordinates_mm((Fraction(7), Fraction(-3)))
    apart = [dist(here, there) for here, there in zip(points, [*points[1:], points[0]], strict=True)]
    assert list(circle.chords_mm) == pytest.approx(apart, abs=1e-9)
    assert circle.least_chord_mm == pytest.approx(
        min(dist(a, b) for i, a in enumerate(points) for b in points[:i]), abs=1e-9
    )


@given(circles())
def test_all_holes_lie_on_the_circle(circle: HoleCircle) -> None:
    for point in circle.coordinates_mm((Fraction(7), Fraction(-3))):
        assert dist(point, (7, -3)) == pytest.approx(float(circle.circle_mm) / 2, abs=1e-9)


@given(circles(), st.fractions(Fraction(1, 10), 2, max_denominator=100))
def test_what_an_overlap_is_told_to_do_does_work(circle: HoleCircle, share: Fraction) -> None:
    assert circle.least_chord_mm is not None
    hole = Fraction(circle.least_chord_mm).limit_denominator(1000) * share
    assume(hole > 0)
    if hole < circle.least_chord_mm:
        web = HoleCircle(circle.divisions, circle.circle_mm, hole).web_mm
        assert web is not None
        assert web > 0
        return
    with pytest.raises(FaultsFound, match="run into one another") as caught:
        HoleCircle(circle.divisions, circle.circle_mm, hole)
    told = str(caught.value)
    smaller, larger = (Fraction(found) for found in re.findall(r"a (?:hole|circle) of ([\d.]+) mm", told))
    if smaller:
        HoleCircle(circle.divisions, circle.circle_mm, smaller)
    HoleCircle(circle.divisions, larger, hole)
    fewer = re.search(r"(\d+) holes at most", told)
    if fewer:
        HoleCircle(EqualDivisions(int(fewer[1])), circle.circle_mm, hole)
        with pytest.raises(FaultsFound, match="run into one another"):
            HoleCircle(EqualDivisions(int(fewer[1]) + 1), circle.circle_mm, hole)


def test_clockwise_is_the_mirror_image() -> None:
    left = HoleCircle(EqualDivisions(7), SIXTY)
    right = HoleCircle(EqualDivisions(7), SIXTY, clockwise=True)
    for (x, y), (mirrored_x, mirrored_y) in zip(left.coordinates_mm(), right.coordinates_mm(), strict=True):
        assert (x, -y) == pytest.approx((mirrored_x, mirrored_y))


def test_the_run_divides_what_the_circle_has() -> None:
    part = part_of(HoleCircle(degrees(0, 30, 75), SIXTY, Fraction(5)))
    assert [target for _, target in part.divisions.targets()] == [0, Fraction(1, 12), Fraction(75, 360)]
    assert (part.rim_mm, part.work, part.marks) == (SIXTY, "hole", ())


def test_a_hole_plate_is_a_run_a_circle_and_each_says_which() -> None:
    thirty_seven = HoleCircle(EqualDivisions(37), Fraction(80), Fraction(3))
    forty_one = HoleCircle(EqualDivisions(41), Fraction(90), Fraction(3))
    plate = HolePattern((thirty_seven, forty_one), Fraction(120))
    parts = parts_of(plate)
    assert [len(part.divisions) for part in parts] == [37, 41]
    assert {mark.note for mark in parts[1].marks} == {"circle of 41"}


def test_holes_of_two_circles_that_meet_are_found() -> None:
    one = HoleCircle(EqualDivisions(4), Fraction(60), Fraction(6))
    with pytest.raises(
        FaultsFound, match=r"circle 2: one of its holes runs into one of circle 1: they are 2 mm"
    ):
        HolePattern((one, HoleCircle(EqualDivisions(4), Fraction(64), Fraction(6))))
    between = HoleCircle(EqualDivisions(4), Fraction(64), Fraction(6), first_at=Fraction(1, 8))
    assert HolePattern((one, between)).circles[1] is between


def test_a_hole_does_not_break_out_of_the_blank() -> None:
    with pytest.raises(FaultsFound, match=r"circle 1: .* a blank of 66 mm"):
        HolePattern((HoleCircle(EqualDivisions(4), Fraction(60), Fraction(6)),), Fraction(65))


@pytest.mark.parametrize(
    ("circle", "hole", "said"),
    [
        (Fraction(0), None, "circle: 0 mm; the circle through the holes has a diameter above 0"),
        (SIXTY, Fraction(-1), "hole: -1 mm; a hole has a diameter above 0"),
    ],
)
def test_a_length_that_is_none_is_refused(circle: Fraction, hole: Fraction | None, said: str) -> None:
    with pytest.raises(FaultsFound, match=said):
        HoleCircle(EqualDivisions(4), circle, hole)


def lines(cards: tuple[CardLine, ...]) -> dict[str, CardLine]:
    return {line.what: line for line in cards}


def test_the_card_tells_what_callipers_read() -> None:
    pattern = HolePattern((HoleCircle(EqualDivisions(6), SIXTY, Fraction(6)),))
    told = lines(measuring_card(pattern, Fraction(1, 50)).lines)
    near = told["neighbours, centre to centre"]
    assert (near.value, near.low, near.high) == pytest.approx((30, 29.98, 30.02))
    assert told["opposite holes, over pins"].value == pytest.approx(66)
    assert told["least metal between"].value == pytest.approx(24)
    assert lines(preparation_card(pattern).lines)["offset from the centre"].value == 30


def test_an_odd_circle_has_no_hole_just_opposite() -> None:
    told = lines(measuring_card(HolePattern((HoleCircle(EqualDivisions(7), SIXTY),))).lines)
    points = HoleCircle(EqualDivisions(7), SIXTY).coordinates_mm()
    assert told["a hole and the one 3 on, centre to centre"].value == pytest.approx(
        dist(points[0], points[3])
    )


def test_part_of_a_circle_is_measured_position_by_position() -> None:
    part = HoleCircle(EqualDivisions(24, first=3, last=5), Fraction(100))
    told = lines(measuring_card(HolePattern((part,))).lines)
    assert "position 3 to 4, centre to centre" in told
    assert "position 5 to 3, centre to centre" not in told


def test_what_all_circles_of_a_plate_share_is_told_once() -> None:
    circles = tuple(
        HoleCircle(EqualDivisions(count), Fraction(size), Fraction(3)) for count, size in ((7, 60), (9, 80))
    )
    told = [line.what for line in preparation_card(HolePattern(circles)).lines]
    assert told.count("all circles: hole") == 1
    assert told.count("all circles: position 0 at") == 1
    assert "circle 2 (9 holes): hole" not in told
    assert "circle 2 (9 holes): diameter" in told
    turned = (circles[0], HoleCircle(EqualDivisions(9), Fraction(80), Fraction(4), first_at=Fraction(1, 4)))
    apart = [line.what for line in preparation_card(HolePattern(turned)).lines]
    assert "circle 2 (9 holes): hole" in apart
    assert "circle 2 (9 holes): position 0 at" in apart


def test_what_to_do_if_a_hole_is_off_is_told_once_and_not_for_single_holes() -> None:
    circles = tuple(
        HoleCircle(EqualDivisions(count), Fraction(size)) for count, size in ((7, 60), (9, 80), (1, 100))
    )
    told = [line.what for line in measuring_card(HolePattern(circles)).lines]
    assert [what for what in told if "if one is off" in what] == ["if one is off"]
    alone = measuring_card(HolePattern((HoleCircle(EqualDivisions(1), Fraction(60)),)))
    assert "if one is off" not in [line.what for line in alone.lines]
