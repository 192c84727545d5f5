"""The plots read back: readings where they were taken, the curve round the circle of no error."""

import re
from math import cos, pi
from xml.etree.ElementTree import Element

import pytest

from crankwise.draw.fitted_errors import (
    BASE,
    HEIGHT,
    SWING,
    WIDTH,
    Dot,
    polar_errors,
    residual_errors,
)
from tests.draw.reading import radius, shapes, turns_clockwise

CURVE = [10 * cos(2 * pi * k / 8) for k in range(8)]


def dots(svg: str, class_: str) -> list[Element]:
    return [dot for dot in shapes(svg, "circle") if dot.get("class") == class_]


def centre(dot: Element) -> tuple[float, float]:
    return float(dot.get("cx") or 0), float(dot.get("cy") or 0)


def curve(svg: str) -> list[tuple[float, float]]:
    (path,) = (path for path in shapes(svg, "path") if path.get("class") == "curve")
    return [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d") or "")]


def test_the_curve_leaves_the_circle_by_its_error() -> None:
    points = curve(polar_errors(CURVE, (), "spindle"))
    assert radius(points[0]) == pytest.approx(BASE + SWING, abs=0.01)
    assert radius(points[4]) == pytest.approx(BASE - SWING, abs=0.01)
    assert turns_clockwise(points[1]) == pytest.approx(1 / 8, abs=1e-3)


def test_a_reading_stands_where_it_was_taken() -> None:
    svg = polar_errors(CURVE, (Dot(0.25, -5.0), Dot(0.5, 20.0, True)), "crank")
    (reading,), (out,) = dots(svg, "reading"), dots(svg, "wrong")
    assert turns_clockwise(centre(reading)) == pytest.approx(0.25)
    assert radius(centre(reading)) == pytest.approx(BASE - SWING / 4)
    assert radius(centre(out)) == pytest.approx(BASE + SWING)
    assert "one turn of the crank, at most 10.0 seconds of arc, 2 readings" in svg


def test_what_is_left_is_drawn_about_its_scatter() -> None:
    svg = residual_errors((Dot(0.25, 3.0), Dot(0.5, -6.0, True)), 2.0)
    (reading,), (out,) = dots(svg, "reading"), dots(svg, "wrong")
    assert centre(reading) == (pytest.approx(WIDTH / 4), pytest.approx(HEIGHT / 4))
    assert centre(out) == (pytest.approx(WIDTH / 2), pytest.approx(HEIGHT))
    (band,) = shapes(svg, "rect")
    assert float(band.get("height") or 0) == pytest.approx(HEIGHT * 2 / 6, abs=0.01)
    assert "2 readings, at most 6.0 seconds of arc; 1 stand out" in svg


def test_readings_that_fit_to_nothing_are_a_straight_row() -> None:
    svg = residual_errors((Dot(0.0, 0.0), Dot(0.5, 0.0)), 0.0)
    assert {centre(dot)[1] for dot in dots(svg, "reading")} == {HEIGHT / 2}
