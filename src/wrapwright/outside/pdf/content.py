"""Page content: paths, colours and images as PDF operators (ISO 32000-1:2008, sections 8.4 to 8.10)."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path, Subpath

Array = NDArray[np.float64]

POINTS_PER_MM = 72.0 / 25.4
PLACES = 4  # decimals of a coordinate: within 0.00005 pt, 0.02 micrometres
WORD_GRID_PT = 0.015  # of the words beside the piece
_STRAIGHT_PT = 2e-5  # control points nearer to the chord than this make a line


def number(value: float, places: int = PLACES) -> str:
    """Return a number without exponent and without needless digits."""
    # Rounding to a few decimals first makes repr the shortest decimal, and adding 0 turns -0 into 0.
    text = repr(round(float(value), places) + 0.0)
    if "e" in text:
        text = f"{float(value):.{places}f}"
    return text.removesuffix(".0")


def path_ops(path: Path, matrix: Array, places: int = PLACES) -> str:
    """Return the path's construction operators.

    Args:
        path: in any unit.
        matrix: 3x3, column vectors, that unit -> points.
        places: decimals of a coordinate.
    """
    return "\n".join(_subpath_ops(sub, matrix, places) for sub in path.subpaths)


def _subpath_ops(sub: Subpath, matrix: Array, places: int) -> str:
    points = sub.points @ matrix[:2, :2].T + matrix[:2, 2]
    straight = _straight(points)
    written = [
        number(value) if "e" in (text := repr(value)) else text.removesuffix(".0")
        for value in (np.round(points, places) + 0.0).ravel().tolist()
    ]
    out = [f"{written[0]} {written[1]} m"]
    for index, is_line in enumerate(straight.tolist()):
        at = 6 * index + 2
        if is_line:
            out.append(f"{written[at + 4]} {written[at + 5]} l")
        else:
            out.append(" ".join(written[at : at + 6]) + " c")
    if sub.closed:
        # The last line home is drawn by closing.
        if len(straight) > 1 and straight[-1] and written[:2] == written[-2:]:
            out.pop()
        out.append("h")
    return "\n".join(out)


def _straight(points: Array) -> NDArray[np.bool_]:
    """Return which curves of the chain are straight lines."""
    start, one, two, end = points[:-1:3], points[1::3], points[2::3], points[3::3]
    chord = end - start
    length = np.maximum(np.hypot(chord[:, 0], chord[:, 1]), 1e-12)
    straight = np.ones(len(chord), dtype=np.bool_)
    for control in (one - start, two - start):
        off = np.abs(control[:, 0] * chord[:, 1] - control[:, 1] * chord[:, 0]) / length
        share = (control * chord).sum(axis=1) / length
        straight &= (off < _STRAIGHT_PT) & (share > -_STRAIGHT_PT) & (share < length + _STRAIGHT_PT)
    return straight


def clip_ops(path: Path, matrix: Array) -> str:
    """Return the operators that limit what follows to the path (nonzero)."""
    return f"{path_ops(path, matrix)}\nW n"


def fill_ops(path: Path, matrix: Array, *, even_odd: bool = False) -> str:
    """Return the operators that fill the path in the colour set before."""
    return f"{path_ops(path, matrix)}\n{'f*' if even_odd else 'f'}"


def word_ops(path: Path, matrix: Array) -> str:
    """Return the operators that fill words, on a grid of their own of 5 micrometres, which keeps them short."""
    corner = matrix @ np.array([*path.box()[:2], 1.0])
    grid = np.diag([1.0 / WORD_GRID_PT, 1.0 / WORD_GRID_PT, 1.0])
    grid[:2, 2] = -corner[:2] / WORD_GRID_PT
    place = f"{WORD_GRID_PT} 0 0 {WORD_GRID_PT} {number(corner[0])} {number(corner[1])} cm"
    return f"q {place}\n{path_ops(path, grid @ matrix, 0)}\nf\nQ"


def stroke_ops(path: Path, matrix: Array, width: float) -> str:
    """Return the operators that draw a line of `width` (the path's unit) along the path, round joins and caps."""
    scale = math.sqrt(abs(float(np.linalg.det(matrix[:2, :2]))))
    return f"{number(width * scale)} w 1 J 1 j\n{path_ops(path, matrix)}\nS"


def image_ops(name: str, box: tuple[float, float, float, float], places: int = 6) -> str:
    """Return the operators that draw the image into a box (left, bottom, right, top in page mm)."""
    left, bottom, right, top = (value * POINTS_PER_MM for value in box)
    sizes = (number(right - left, places), "0", "0", number(top - bottom, places))
    return f"q {' '.join(sizes)} {number(left, places)} {number(bottom, places)} cm /{name} Do Q"


def page_points() -> Array:
    """Return the 3x3 matrix page mm -> points."""
    return np.diag([POINTS_PER_MM, POINTS_PER_MM, 1.0])
