"""Least squares of a few dozen unknowns, in plain Python: it must run wherever the run itself does.

The normal equations are solved by Cholesky's method. They square the condition of the problem; that does
no harm to waves well spread over the circle, whose columns are nearly at right angles, and a pivot that
falls below 1e-8 of its column says that the data cannot tell two unknowns apart. One step of refinement
on the residuals brings the answer to about a float's accuracy.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from operator import mul

CANNOT_TELL = 1e-8
"""Of a column, what must be left after the others have been taken out of it."""

Columns = Sequence[Sequence[float]]


class Indistinct(Exception):
    """A column that the others already make up; `column` is its index."""

    def __init__(self, column: int) -> None:
        super().__init__(f"column {column}")
        self.column = column


@dataclass(frozen=True, slots=True)
class Solved:
    """The unknowns and how well they are known.

    values     one for each column
    residuals  one for each reading: what is left
    inverse    of the normal matrix: times the variance of a reading it is the covariance
    freedom    readings less unknowns
    """

    values: tuple[float, ...]
    residuals: tuple[float, ...]
    inverse: tuple[tuple[float, ...], ...]
    freedom: int

    @property
    def squares(self) -> float:
        """The sum of the squared residuals."""
        return dot(self.residuals, self.residuals)

    @property
    def scatter(self) -> float:
        """The standard deviation of one reading; 0 where nothing is left to tell it."""
        return sqrt(self.squares / self.freedom) if self.freedom > 0 else 0.0


def dot(first: Sequence[float], second: Sequence[float]) -> float:
    """Return the sum of the products."""
    total: float = sum(map(mul, first, second))
    return total


def normal_matrix(columns: Columns) -> list[list[float]]:
    """Return the products of every column with every other."""
    matrix = [[0.0] * len(columns) for _ in columns]
    for i, column in enumerate(columns):
        for j in range(i + 1):
            matrix[i][j] = matrix[j][i] = dot(column, columns[j])
    return matrix


def cholesky(matrix: Sequence[Sequence[float]]) -> list[list[float]]:
    """Return the lower triangle whose product with its own mirror image is the matrix.

    matrix  symmetric, positive. Raises Indistinct where a column adds nothing to those before it.
    Source: Golub and Van Loan, Matrix Computations, 4.2; common practice.
    """
    lower: list[list[float]] = []
    for i, row in enumerate(matrix):
        new: list[float] = []
        for j in range(i):
            new.append((row[j] - dot(new, lower[j][:j])) / lower[j][j])
        left = row[i] - dot(new, new)
        if left <= CANNOT_TELL * row[i] or row[i] <= 0:
            raise Indistinct(i)
        lower.append([*new, sqrt(left)])
    return lower


def _forward(lower: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    found: list[float] = []
    for row, value in zip(lower, right, strict=True):
        found.append((value - dot(row[:-1], found)) / row[-1])
    return found


def solved_by(lower: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """Return the solution of the matrix that `cholesky` took apart, for this right side."""
    found = _forward(lower, right)
    for i in reversed(range(len(found))):
        found[i] /= lower[i][i]
        for j in range(i):
            found[j] -= lower[i][j] * found[i]
    return found


def left_over(lower: Sequence[Sequence[float]], right: Sequence[float], squares: float) -> float:
    """Return the sum of squares that a fit leaves, without working out the fit.

    right    products of the columns with the readings;  squares  of the readings
    """
    found = _forward(lower, right)
    return max(squares - dot(found, found), 0.0)


def inverse_of(lower: Sequence[Sequence[float]]) -> tuple[tuple[float, ...], ...]:
    """Return the inverse of the matrix that `cholesky` took apart."""
    count = len(lower)
    return tuple(tuple(solved_by(lower, [float(i == j) for i in range(count)])) for j in range(count))


def least_squares(columns: Columns, readings: Sequence[float]) -> Solved:
    """Return the unknowns that leave the least sum of squares.

    columns   one for each unknown, each as long as the readings
    readings  more than there are columns, or as many

    Raises Indistinct when the columns do not tell the unknowns apart.
    """
    lower = cholesky(normal_matrix(columns))
    values = [0.0] * len(columns)
    residuals = list(readings)
    for _ in range(2):
        step = solved_by(lower, [dot(column, residuals) for column in columns])
        values = [value + more for value, more in zip(values, step, strict=True)]
        residuals = _residuals(columns, values, readings)
    return Solved(tuple(values), tuple(residuals), inverse_of(lower), len(readings) - len(columns))


def _residuals(columns: Columns, values: Sequence[float], readings: Sequence[float]) -> list[float]:
    left = list(readings)
    for column, value in zip(columns, values, strict=True):
        left = [one - value * there for one, there in zip(left, column, strict=True)]
    return left
