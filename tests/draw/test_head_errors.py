import re
from fractions import Fraction
from math import cos, pi

import pytest

from crankwise.draw.head_errors import (
    CIRCLE,
    HEIGHT,
    MOST_SHOWN,
    REACH,
    WIDTH,
    Left,
    before_and_after,
    before_and_after_round,
    head_errors,
)
from crankwise.head.known_errors import Harmonic, KnownErrors
from crankwise.plan.corrected import Compared
from tests.draw.reading import radius, shapes, texts

ZERO = Fraction(0)
KNOWN = KnownErrors(
    "2026-03-14",
    (Harmonic("wheel", 1, Fraction(80), ZERO), Harmonic("worm", 1, Fraction(20), ZERO)),
    tuple((ZERO,) * (i + 1) for i in range(4)),
    10,
    Fraction(2),
)
LEFT = [Left(0.25, 1.0, False), Left(0.5, -4.0, True), Left(1.75, 2.0, False)]


def points(svg: str, class_: str, which: int = 0) -> list[tuple[float, float]]:
    (path, *others) = [one for one in shapes(svg, "path") if one.get("class") == class_][which:]
    assert others is not None
    return [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d", ""))]


def test_the_wheels_error_stands_out_from_the_circle_by_its_share() -> None:
    curve = points(head_errors(KNOWN, LEFT), "cumulative")
    centre = WIDTH / 2, CIRCLE + REACH
    for k in (0, 45, 90, 180, 300):
        x, y = curve[k]
        out = radius((x - centre[0], y - centre[1])) - CIRCLE
        assert out == pytest.approx(REACH * cos(2 * pi * k / 360), abs=0.02)


def test_the_worm_goes_over_one_turn_of_the_crank() -> None:
    svg = head_errors(KNOWN, LEFT)
    curve = points(svg, "cumulative", 1)
    heights = [y for _, y in curve]
    assert max(heights) - min(heights) == pytest.approx(HEIGHT)
    assert curve[0][0] == 0
    assert curve[-1][0] == WIDTH
    assert any("worm" in told and "±20.0″" in told for told in texts(svg))


def test_every_reading_is_there_and_what_stands_out_is_marked() -> None:
    readings = [
        one for one in shapes(head_errors(KNOWN, LEFT), "circle") if "reading" in one.get("class", "")
    ]
    assert [one.get("class") for one in readings] == ["reading", "reading wrong", "reading"]
    assert [float(one.get("cx", "")) / WIDTH for one in readings] == [0.25, 0.5, 0.75]
    heights = [float(one.get("cy", "")) for one in readings]
    assert heights[1] > heights[0] > heights[2]


def test_it_is_told_in_words() -> None:
    assert (
        'aria-label="Errors measured on 2026-03-14: of the wheel over 160 seconds of arc in all'
        in head_errors(KNOWN, LEFT)
    )


def test_a_head_without_errors_of_the_worm_is_drawn_too() -> None:
    wheel_only = KnownErrors(
        "2026-03-14", KNOWN.harmonics[:1], tuple((ZERO,) * (i + 1) for i in range(2)), 10, Fraction(2)
    )
    assert "of the worm over 0" in head_errors(wheel_only, [])


def test_before_and_after_are_to_one_scale() -> None:
    rows = [
        Compared(k, Fraction(round(100 * cos(k)), 1_296_000), Fraction(round(10 * cos(k)), 1_296_000), 1.0)
        for k in range(20)
    ]
    svg = before_and_after(rows)
    before, after = points(svg, "before"), points(svg, "cumulative")
    assert len(before) == len(after) == 20
    for (_, far), (_, near) in zip(before, after, strict=True):
        assert HEIGHT - near == pytest.approx((HEIGHT - far) / 10, abs=0.5)
    assert "at worst 100.0 seconds of arc out before the correction, 10.0 after" in svg


def test_round_the_spindle_each_position_stands_at_its_angle() -> None:
    rows = [
        Compared(k, Fraction(50, 1_296_000), Fraction(-10, 1_296_000), 1.0, Fraction(k, 40))
        for k in range(40)
    ]
    svg = before_and_after_round(rows)
    centre = WIDTH / 2, CIRCLE + REACH
    for class_, out in (("before", REACH), ("cumulative", -REACH / 5)):
        for x, y in points(svg, class_):
            assert radius((x - centre[0], y - centre[1])) == pytest.approx(CIRCLE + out, abs=0.02)
    x, y = points(svg, "before")[10]
    assert (x - centre[0], y - centre[1]) == pytest.approx((CIRCLE + REACH, 0), abs=0.02)
    assert {"±50.0″", "±10.0″"} <= set(texts(svg))


def test_a_run_of_thousands_of_positions_is_drawn_with_its_worst_ones() -> None:
    out = [100 if k == 7777 else 10 for k in range(20_000)]
    rows = [Compared(k, Fraction(one, 1_296_000), ZERO, 1.0) for k, one in enumerate(out)]
    svg = before_and_after(rows)
    before = points(svg, "before")
    assert len(before) <= MOST_SHOWN
    assert min(y for _, y in before) == 0
    assert "20000 positions: at worst 100.0" in svg
