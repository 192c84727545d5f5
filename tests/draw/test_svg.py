from xml.etree import ElementTree

import pytest

from crankwise.draw.svg import arc, dots, element, number, on_circle, picture, spokes, standing_alone, text


def test_text_and_label_are_escaped() -> None:
    svg = picture('<b>"', (0, 0, 1, 1), [text("<script>", 0, 0, "numeral")], "face")
    read = ElementTree.fromstring(svg)
    assert read.get("aria-label") == '<b>"'
    assert read[0].text == "<script>"


def test_turns_are_clockwise_from_the_top() -> None:
    assert on_circle(0, 10) == pytest.approx((0, -10))
    assert on_circle(0.25, 10) == pytest.approx((10, 0))


def test_nothing_to_draw_is_no_element() -> None:
    assert spokes([], 1, 2, "line") == dots([], 1, "hole") == ""


def test_an_arc_over_half_a_turn_takes_the_long_way() -> None:
    assert " 0 1 1 " in arc(0, 0.75, 10, "swept")
    assert " 0 0 0 " in arc(0, -0.25, 10, "swept")


def test_attributes_are_named_as_in_python() -> None:
    assert element("g", class_="few", text_anchor="middle") == '<g class="few" text-anchor="middle"/>'


@pytest.mark.parametrize(
    ("value", "written"), [(0.0, "0"), (-0.004, "0"), (10.0, "10"), (100, "100"), (1.239, "1.24")]
)
def test_numbers_are_short(value: float, written: str) -> None:
    assert number(value) == written


def test_a_file_of_its_own_has_its_namespace_and_its_style() -> None:
    svg = standing_alone(picture("a > b", (0, 0, 1, 1), [element("g")], "face"), ".face{fill:#123}")
    read = ElementTree.fromstring(svg)
    assert [one.tag for one in read] == ["{http://www.w3.org/2000/svg}style", "{http://www.w3.org/2000/svg}g"]
    assert read[0].text == ".face{fill:#123}"
    assert read.get("aria-label") == "a > b"
