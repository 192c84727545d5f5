import pytest

from crankwise.draw.head import MOST_FACES, head_faces
from crankwise.head.head import Head
from crankwise.head.notched_wheel import NotchedWheel
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head


@pytest.mark.parametrize(
    ("toml", "names"),
    [
        (BENCH_HEAD, ["dial on the crank", "ring on the spindle"]),
        (PLATE_HEAD, ["hole plate 1", "hole plate 2", "hole plate 3"]),
        (BULL_WHEEL, ["wheel of 60 notches"]),
    ],
)
def test_each_part_that_divides_has_a_picture(toml: str, names: list[str]) -> None:
    assert [face.name for face in head_faces(head(toml))] == names


def test_a_drawer_full_of_wheels_is_not_all_drawn() -> None:
    wheels = tuple(NotchedWheel(count) for count in range(10, 40))
    assert len(head_faces(Head("Many", notched_wheels=wheels))) == MOST_FACES
