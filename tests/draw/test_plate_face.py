import pytest

from crankwise.draw.plate_face import MOST_HOLES, plate_face, wheel_face
from crankwise.head.notched_wheel import NotchedWheel
from crankwise.head.plate import Plate
from tests.draw.reading import radius, shapes, starts, texts, turns_clockwise


def test_every_hole_of_every_circle_stands_at_its_true_angle() -> None:
    holes = starts(plate_face(Plate((15, 20, 49))), "hole")
    by_circle: dict[int, list[float]] = {}
    for hole in holes:
        by_circle.setdefault(round(radius(hole)), []).append(turns_clockwise(hole))
    found = {len(turns): sorted(turns) for turns in by_circle.values()}
    assert set(found) == {15, 20, 49}
    for count, turns in found.items():
        expected = [hole / count for hole in range(count)]
        assert turns == pytest.approx(expected, abs=1e-3)


def test_the_more_holes_the_further_out_and_each_count_is_written() -> None:
    placed = texts(plate_face(Plate((20, 15, 18))))
    assert sorted(placed, key=lambda count: -placed[count][1]) == ["15", "18", "20"]


def test_a_plate_of_more_holes_than_can_be_drawn_is_still_a_small_picture() -> None:
    svg = plate_face(Plate((15, 1_000_000)))
    assert len(starts(svg, "hole")) == 15 <= MOST_HOLES
    assert len(svg) < 20_000


def test_a_wheel_has_a_notch_at_the_detent_and_as_many_as_it_says() -> None:
    svg = wheel_face(NotchedWheel(60))
    outline = next(path for path in shapes(svg, "path") if path.get("class") == "body")
    assert outline.get("d", "").count("L") + 1 == 60 * 3
    assert "too many to draw" in wheel_face(NotchedWheel(5000))
