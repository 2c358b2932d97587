"""Parts of pages that several pages draw: shapes on a grid of their own, matrices as operators, boxes round boxes."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path
from wrapwright.core.sheet.lay.printed.values import Array, Bars
from wrapwright.core.sheet.placed import Box
from wrapwright.outside.pdf import content

Matrix = NDArray[np.float64]

GRID_MM = 0.005


def on_grid(shape: Path | Bars, step: float = GRID_MM) -> tuple[bytes, Array]:
    """Return the operators that fill a shape, in whole steps of its grid, and the box round it."""
    if isinstance(shape, Bars):
        boxes = np.rint(shape.boxes / step).astype(np.int64)
        body = "\n".join(f"{x} {y} {wide} {high} re" for x, y, wide, high in boxes.tolist())
        box = np.concatenate([boxes[:, :2].min(axis=0), (boxes[:, :2] + boxes[:, 2:]).max(axis=0)])
        return f"{body}\nf\n".encode("ascii"), box
    grid = np.diag([1.0 / step, 1.0 / step, 1.0])
    left, bottom, right, top = (value / step for value in shape.box())
    box = np.array([np.floor(left) - 1, np.floor(bottom) - 1, np.ceil(right) + 1, np.ceil(top) + 1])
    return f"{content.path_ops(shape, grid, 0)}\nf\n".encode("ascii"), box


def stamp_points(to_page: Matrix, step: float = GRID_MM) -> Matrix:
    """Return the matrix from a stamp's grid to points."""
    return np.asarray(content.page_points() @ to_page @ np.diag([step, step, 1.0]))


def matrix_ops(matrix: Matrix) -> str:
    """Return the operands of `cm` for a 3x3 matrix."""
    values = (matrix[0, 0], matrix[1, 0], matrix[0, 1], matrix[1, 1])
    ways = " ".join(content.number(value, 8) for value in values)
    return f"{ways} {content.number(matrix[0, 2])} {content.number(matrix[1, 2])}"


def round_all(boxes: Sequence[Box]) -> Box:
    """Return the box round boxes."""
    return (
        min(box[0] for box in boxes),
        min(box[1] for box in boxes),
        max(box[2] for box in boxes),
        max(box[3] for box in boxes),
    )


def reach_of(path: Path) -> Box:
    """Return a box that surely holds a path, 1 mm larger than its control points'."""
    left, bottom, right, top = path.box()
    return (left - 1.0, bottom - 1.0, right + 1.0, top + 1.0)
