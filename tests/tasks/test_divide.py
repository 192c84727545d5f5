"""Asking for a division: what was typed becomes a part, and every way comes back ranked."""

from fractions import Fraction

import pytest

from crankwise.errors import BadAngle, BadDivisions, BadLength
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.part.part import Part
from crankwise.tasks.divide import asked_part, divide
from crankwise.tasks.heads import load_head
from tests.house.tracked import HOUSE

BENCH = load_head(str(HOUSE / "examples/bench-head.toml"))
PLATES = load_head(str(HOUSE / "examples/plate-head.toml"))
WHEEL = load_head(str(HOUSE / "examples/bull-wheel.toml"))


def test_a_number_alone_is_that_many_equal_parts() -> None:
    assert asked_part("127") == Part(EqualDivisions(127))


def test_everything_typed_is_taken() -> None:
    part = asked_part("72", start="2.5", first="3", last="11", every="4", rim="8in", work="hole")
    assert part == Part(EqualDivisions(72, Fraction(1, 144), 3, 11, 4), Fraction(1016, 5), "hole")


@pytest.mark.parametrize("nothing", ["", None])
def test_what_was_left_empty_is_as_if_it_were_not_there(nothing: str | None) -> None:
    part = asked_part(
        "9", angles=nothing, start=nothing, first=nothing, last=nothing, every=nothing, rim=nothing
    )
    assert part == Part(EqualDivisions(9))


def test_a_list_of_angles_is_kept_as_typed() -> None:
    part = asked_part(None, angles="0; 12.5\n30d15m, 1/7 turn")
    assert part.divisions == AngleList((Fraction(0), Fraction(5, 144), Fraction(121, 1440), Fraction(1, 7)))


def test_a_number_beside_a_list_must_agree_with_it() -> None:
    assert asked_part("2", angles="0, 90") == asked_part(None, angles="0, 90")
    with pytest.raises(BadDivisions, match="3 asked, but the list has 2 angles"):
        asked_part("3", angles="0, 90")


@pytest.mark.parametrize("name", ["start", "first", "last", "every"])
def test_what_belongs_to_equal_parts_is_refused_with_a_list(name: str) -> None:
    with pytest.raises(BadDivisions, match=f"^{name}: goes with a number of equal divisions"):
        asked_part(None, angles="0, 90", **{name: "1"})  # type: ignore[arg-type]


def test_a_start_that_cannot_be_read_is_named() -> None:
    with pytest.raises(BadAngle, match=r"^start: 'top' is not an angle"):
        asked_part("9", start="top")


@pytest.mark.parametrize("typed", ["12.0", "12", " 12 ", "24/2"])
def test_a_whole_number_may_be_written_in_any_way(typed: str) -> None:
    assert asked_part(typed) == asked_part("12")


def test_the_best_way_comes_first_with_the_reason() -> None:
    division = divide(PLATES, asked_part("28"))
    assert division.is_answered
    assert division.ways[0].setup == {"circle": 21, "turns": 1, "holes": 9}
    assert division.reason.startswith("exact, and the least to do")


def test_a_tolerance_at_the_rim_is_taken_at_that_rim() -> None:
    """44.6 seconds of arc are 21.6 micrometres at 200 mm, and half of that at 100 mm."""
    assert not divide(BENCH, asked_part("127", rim="200mm"), "21.5um").is_answered
    assert divide(BENCH, asked_part("127", rim="200mm"), "21.7um").is_answered
    assert divide(BENCH, asked_part("127", rim="100mm"), "10.9um").is_answered


def test_a_tolerance_at_the_rim_without_a_rim_is_no_tolerance() -> None:
    with pytest.raises(BadLength, match="needs the rim's diameter too, as --rim 200mm"):
        divide(BENCH, asked_part("127"), "20um")


def test_without_a_tolerance_any_way_is_an_answer() -> None:
    assert divide(BENCH, asked_part("127")).is_answered


def test_no_way_at_all_is_an_answer_too() -> None:
    division = divide(WHEEL, asked_part("7"))
    assert (division.is_answered, division.ways) == (False, ())
    assert division.reason == "no scale on this head comes out whole over a full circle"


def test_one_position_alone_never_pretends_to_a_constant_move() -> None:
    """Position 63 of 127 from 0 alone falls on every scale; 40/127 of a turn is still no whole move."""
    division = divide(PLATES, asked_part("127", last="0"))
    assert all("holes" not in way.setup for way in division.ways if way.method in ("plain", "direct"))
    assert not any(way.method == "plain" for way in division.ways)
