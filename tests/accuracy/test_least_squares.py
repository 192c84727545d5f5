"""Least squares in plain Python, against numpy where a figure is not plain."""

from random import Random

import numpy as np
import pytest

from crankwise.accuracy.least_squares import (
    Indistinct,
    cholesky,
    inverse_of,
    least_squares,
    left_over,
    normal_matrix,
)


def columns_and_readings(count: int, unknowns: int, seed: int) -> tuple[list[list[float]], list[float]]:
    chance = Random(seed)
    return [[chance.gauss(0, 1) for _ in range(count)] for _ in range(unknowns)], [
        chance.gauss(5, 3) for _ in range(count)
    ]


@pytest.mark.parametrize(("count", "unknowns"), [(5, 2), (30, 9), (200, 24)])
def test_it_agrees_with_numpy(count: int, unknowns: int) -> None:
    columns, readings = columns_and_readings(count, unknowns, 7)
    ours = least_squares(columns, readings)
    matrix = np.array(columns).T
    theirs = np.linalg.lstsq(matrix, np.array(readings), rcond=None)[0]
    np.testing.assert_allclose(ours.values, theirs, rtol=1e-11, atol=1e-12)
    np.testing.assert_allclose(ours.inverse, np.linalg.inv(matrix.T @ matrix), rtol=1e-9, atol=1e-13)
    np.testing.assert_allclose(ours.residuals, np.array(readings) - matrix @ theirs, atol=1e-11)
    assert ours.freedom == count - unknowns
    assert ours.scatter == pytest.approx(np.sqrt(ours.squares / (count - unknowns)))


def test_what_is_left_over_is_known_before_the_fit() -> None:
    columns, readings = columns_and_readings(40, 5, 3)
    right = [sum(a * b for a, b in zip(column, readings, strict=True)) for column in columns]
    squares = sum(one * one for one in readings)
    assert left_over(cholesky(normal_matrix(columns)), right, squares) == pytest.approx(
        least_squares(columns, readings).squares
    )


def test_a_line_through_its_own_points_leaves_nothing() -> None:
    found = least_squares([[1, 1, 1], [0, 1, 2]], [3, 5, 7])
    assert found.values == pytest.approx((3, 2))
    assert found.squares == pytest.approx(0, abs=1e-24)


def test_as_many_unknowns_as_readings_leave_no_scatter() -> None:
    assert least_squares([[1, 1], [0, 1]], [3, 5]).scatter == 0


@pytest.mark.parametrize(
    ("columns", "which"),
    [
        ([[1.0, 1, 1], [2.0, 2, 2]], 1),
        ([[1.0, 1, 1], [0, 0, 0]], 1),
        ([[1.0, 1, 1], [0, 1, 2], [1.0, 3, 5]], 2),
        ([[1.0, 1, 1], [1, 1 + 1e-9, 1]], 1),
    ],
)
def test_columns_that_say_the_same_are_named(columns: list[list[float]], which: int) -> None:
    with pytest.raises(Indistinct) as told:
        least_squares(columns, [1.0, 2, 3])
    assert told.value.column == which


def test_the_inverse_is_one() -> None:
    matrix = [[4.0, 2.0], [2.0, 3.0]]
    assert np.array(inverse_of(cholesky(matrix))) @ np.array(matrix) == pytest.approx(np.eye(2))
