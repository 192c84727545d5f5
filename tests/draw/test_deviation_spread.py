"""The picture read back: a column for each step, the line in its place, the ends in words."""

import re

import pytest

from crankwise.draw.deviation_spread import HEIGHT, WIDTH, deviation_spread
from tests.draw.reading import shapes, texts

WORDS = ("10 µm", "19 in 20: 25 µm", "30 µm")


def drawn(counts: tuple[int, ...], bound: float, step: float = 5.0) -> str:
    return deviation_spread(10.0, step, counts, bound, WORDS, "spread of <many>")


def path_of(svg: str, class_: str) -> str:
    (path,) = (path for path in shapes(svg, "path") if path.get("class") == class_)
    return path.get("d") or ""


def test_columns_are_as_high_as_parts_are_many_and_none_is_left_out() -> None:
    columns = re.findall(
        r"M([\d.]+) [\d.]+v-([\d.]+)h([\d.]+)", path_of(drawn((1, 4, 0, 2), 25.0), "columns")
    )
    assert [(float(x), float(high)) for x, high, _ in columns] == [
        (0, HEIGHT / 4),
        (WIDTH / 4, HEIGHT),
        (WIDTH * 3 / 4, HEIGHT / 2),
    ]
    assert {float(wide) for _, _, wide in columns} == {WIDTH / 4}


@pytest.mark.parametrize(("bound", "x"), [(10.0, 0), (20.0, WIDTH / 2), (30.0, WIDTH), (99.0, WIDTH)])
def test_the_line_stands_where_19_in_20_keep(bound: float, x: float) -> None:
    assert path_of(drawn((1, 1, 1, 1), bound), "bound").startswith(f"M{x:g} 0")


def test_the_words_stay_in_the_picture() -> None:
    found = texts(drawn((1, 1), 10.0))
    assert set(found) == set(WORDS)
    assert found[WORDS[1]][0] > 50
    assert "spread of &lt;many&gt;" in drawn((1, 1), 10.0)


def test_parts_that_are_all_alike_are_one_column() -> None:
    assert path_of(drawn((5,), 10.0, step=0.0), "bound").startswith(f"M{WIDTH / 2:g} 0")
