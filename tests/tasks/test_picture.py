"""A part's picture and its print, as they are asked for: forms, papers, the printer's scale, positions."""

from math import hypot
from pathlib import Path

import pytest

from crankwise.errors import BadDivisions, BadFile, BadLength, Mendable, UnknownThing
from crankwise.tasks.part_kinds import made_of
from crankwise.tasks.picture import drawing_of, read_full_size_paper, read_scale, write_picture
from tests.draw.drawings import made


@pytest.mark.parametrize("ending", ["pdf", "svg", "dxf", "PDF"])
def test_the_ending_says_the_form(ending: str, tmp_path: Path) -> None:
    place = tmp_path / f"wheel.{ending}"
    written = write_picture(made("spur"), str(place))
    assert written.form == ending.lower()
    assert written.size == place.stat().st_size
    assert written.name == "gear of 127 teeth, module 1"
    assert written.paper == ("A4" if ending.lower() == "pdf" else None)


@pytest.mark.parametrize(
    ("typed", "across", "down"),
    [
        ("99.6mm", 99.6, 99.6),
        ("99.6", 99.6, 99.6),
        ("99.6mm, 100.3mm", 99.6, 100.3),
        ("4in", 100.0, 100.0),
        ("3.98in", 99.5, 99.5),
    ],
)
def test_the_bar_may_be_measured_in_either_unit(typed: str, across: float, down: float) -> None:
    found = read_scale(typed)
    assert found is not None
    assert (found.across_mm, found.down_mm) == pytest.approx((across, down))


def test_nothing_measured_is_no_scale() -> None:
    assert read_scale(" ") is None


@pytest.mark.parametrize(
    ("typed", "kind", "told"),
    [
        ("996mm", BadLength, r"scale-measured: 996 mm for the bar of 100 mm"),
        ("1,2,3", BadLength, r"scale-measured: '1,2,3'; one length, as 99\.6mm"),
        ("wide", Mendable, r"scale-measured"),
        ("-99mm", BadLength, r"scale-measured: -99 mm"),
    ],
)
def test_a_measure_that_cannot_be(typed: str, kind: type[Exception], told: str) -> None:
    with pytest.raises(kind, match=told):
        read_scale(typed)


def test_papers_are_told_when_one_is_not_known() -> None:
    assert read_full_size_paper(" a3 ") == "A3"
    with pytest.raises(UnknownThing, match=r"paper: 'A9'; a print is laid out for A4, A3"):
        read_full_size_paper("A9")


@pytest.mark.parametrize(
    ("asked", "kind", "told"),
    [
        (
            {"path": "wheel.png"},
            BadFile,
            r"the ending \.png is no form of a print; end it in \.pdf, \.svg or \.dxf",
        ),
        ({"path": "wheel"}, BadFile, r"a name without an ending"),
        ({"position": "127"}, BadDivisions, r"position: 127; this part has positions 0 to 126"),
        ({"position": "third"}, BadDivisions, r"position: 'third' is not a whole number"),
        ({"path": "wheel.dxf", "measured": "99.6mm"}, BadLength, r"a DXF is always true"),
        ({"paper": "napkin"}, UnknownThing, r"paper: 'napkin'"),
    ],
)
def test_what_is_wrong_is_told_and_nothing_written(
    asked: dict[str, str], kind: type[Exception], told: str, tmp_path: Path
) -> None:
    place = tmp_path / asked.pop("path", "wheel.pdf")
    with pytest.raises(kind, match=told):
        write_picture(made("spur"), str(place), **asked)
    assert list(tmp_path.iterdir()) == []


def test_more_positions_than_can_be_told_apart_are_not_drawn() -> None:
    with pytest.raises(BadDivisions, match=r"30,000 positions; at most 20,000"):
        drawing_of(made_of("divisions", {"count": "30000"}), 0.01)


def test_a_gear_too_fine_to_draw_is_drawn_as_its_circles_and_says_so() -> None:
    drawn = drawing_of(made_of("spur", {"teeth": "3000", "module": "0.1"}), 0.01)
    assert {circle.layer for circle in drawn.circles} == {"body", "reference"}
    assert "circles of their tips and roots" in drawn.notes[0]


def test_the_circle_that_is_drilled_has_the_tool() -> None:
    typed = {"count": "7", "circle": "60mm", "hole": "6mm", "also": "12 on 90mm", "which": "2"}
    drawn = drawing_of(made_of("holes", typed), 0.01, 0)
    assert drawn.tool is not None
    assert drawn.tool.tip == pytest.approx((45, 0))


def test_of_two_circles_with_as_many_holes_the_one_in_hand_is_marked_and_has_the_tool() -> None:
    typed = {"count": "12", "circle": "60mm", "hole": "6mm", "also": "12 on 90mm", "which": "2"}
    drawn = drawing_of(made_of("holes", typed), 0.01, 0)
    assert drawn.tool is not None
    assert drawn.tool.tip == pytest.approx((45, 0))
    marked = [circle for circle in drawn.circles if circle.is_in_hand]
    assert len(marked) == 1 + 12
    assert all(hypot(*circle.middle) == pytest.approx(45) for circle in marked if circle.layer == "cut")
    assert "circle 2 is in hand" in drawn.label


def test_a_print_of_a_plate_has_a_name_that_fits_and_a_picture_that_tells_every_circle() -> None:
    typed = {"plate": "15,16,17", "circle": "90mm", "hole": "2.5mm", "apart": "7mm"}
    drawn = drawing_of(made_of("holes", typed), 0.01)
    assert drawn.name == "hole plate with circles of 17, 16, 15 holes, the largest 90.000 mm (3.5433 in)"
    assert "15 holes on 62.000 mm (2.4409 in), to scale" in drawn.label


def test_one_circle_alone_needs_no_mark() -> None:
    drawn = drawing_of(made_of("holes", {"count": "7", "circle": "60mm", "hole": "6mm"}), 0.01, 0)
    assert not any(circle.is_in_hand for circle in drawn.circles)
    assert "in hand" not in drawn.label


def test_the_floors_of_splines_lie_half_a_division_on() -> None:
    keys = drawing_of(made_of("splines", {"size": "6x23x28"}), 0.01, 0)
    floors = drawing_of(made_of("splines", {"size": "6x23x28", "which": "2"}), 0.01, 0)
    assert keys.tool is not None
    assert keys.tool.tip == pytest.approx((0, 14))
    assert floors.tool is not None
    assert floors.tool.tip == pytest.approx((11.5 / 2, 11.5 * 3**0.5 / 2))
