"""Least squares for any straight design: coefficients, what they owe to each reading, and how sure they are.

Minimises Σ (yᵢ − Σⱼ xᵢⱼ bⱼ)². The design is split into perpendicular columns and a triangle, X = Q R (Gram–Schmidt,
done twice so that rounding doesn't tilt the columns); b = R⁻¹ Qᵀ y and (XᵀX)⁻¹ = R⁻¹ R⁻ᵀ. That is what the normal
equations give, without squaring how badly the readings stand. Leverage hᵢ = |row i of Q|²: the share reading i has in
its own fitted value; Σ hᵢ = number of coefficients. Source: any text on linear regression (from memory).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

Row = tuple[float, ...]

# A column that keeps less than this of its length beside the others is taken as their mixture.
_NOTHING_NEW = 1e-7


class UndeterminedError(ValueError):
    """The readings can't tell coefficient number `column` from the ones before it."""

    def __init__(self, column: int) -> None:
        self.column = column
        super().__init__(f"coefficient {column} can't be told from the others")


@dataclass(frozen=True, slots=True)
class Solved:
    """Coefficients; (XᵀX)⁻¹, to be multiplied by the variance of one reading; residuals y − Xb; leverages."""

    coefficients: Row
    unit_covariance: tuple[Row, ...]
    residuals: Row
    leverage: Row

    @property
    def freedom(self) -> int:
        """Degrees of freedom left to judge the scatter by: readings − coefficients."""
        return len(self.residuals) - len(self.coefficients)

    @property
    def scatter(self) -> float | None:
        """Residual standard deviation √(Σe²/(n − p)), in the unit of the readings; None with n = p."""
        return math.hypot(*self.residuals) / math.sqrt(self.freedom) if self.freedom > 0 else None


def _dot(a: Sequence[float], b: Sequence[float]) -> float:
    return math.fsum(x * y for x, y in zip(a, b, strict=True))


def least_squares(design: Sequence[Sequence[float]], values: Sequence[float]) -> Solved:
    """Design matrix (one row a reading) and values -> `Solved`. Raises `UndeterminedError` for a design without one answer."""
    count, wanted = len(values), len(design[0])
    perpendicular: list[list[float]] = []
    triangle = [[0.0] * wanted for _ in range(wanted)]
    for j in range(wanted):
        column = [row[j] for row in design]
        length = math.hypot(*column)
        for _ in range(2):
            for i, unit in enumerate(perpendicular):
                part = _dot(unit, column)
                triangle[i][j] += part
                column = [c - part * u for c, u in zip(column, unit, strict=True)]
        left = math.hypot(*column)
        if j >= count or left <= _NOTHING_NEW * length:
            raise UndeterminedError(j)
        triangle[j][j] = left
        perpendicular.append([c / left for c in column])
    inverse = _inverse(triangle)
    along = [_dot(unit, values) for unit in perpendicular]
    coefficients = tuple(_dot(row, along) for row in inverse)
    covariance = tuple(tuple(_dot(a, b) for b in inverse) for a in inverse)
    residuals = tuple(value - _dot(row, coefficients) for row, value in zip(design, values, strict=True))
    leverage = tuple(math.fsum(unit[k] ** 2 for unit in perpendicular) for k in range(count))
    return Solved(coefficients, covariance, residuals, leverage)


def _inverse(triangle: list[list[float]]) -> list[list[float]]:
    """Inverse of an upper triangle, row by row from the bottom."""
    size = len(triangle)
    inverse = [[0.0] * size for _ in range(size)]
    for i in reversed(range(size)):
        inverse[i][i] = 1.0 / triangle[i][i]
        for j in range(i + 1, size):
            inverse[i][j] = -_dot(triangle[i][i + 1 :], [row[j] for row in inverse[i + 1 :]]) / triangle[i][i]
    return inverse
