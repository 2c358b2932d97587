"""Page content: paths, colours and images as PDF operators (ISO 32000-1:2008, sections 8.4 to 8.10)."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path

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
    if not path.subpaths:
        return ""
    sizes = [len(sub.points) for sub in path.subpaths]
    firsts = np.cumsum([0, *sizes[:-1]])
    points = np.concatenate([sub.points for sub in path.subpaths]) @ matrix[:2, :2].T + matrix[:2, 2]
    starts = np.concatenate([first + np.arange(0, size - 1, 3) for first, size in zip(firsts, sizes, strict=True)])
    lines = set(starts[_straight(points, starts)].tolist())
    written = _written(points, places)
    return "\n".join(
        op
        for sub, first in zip(path.subpaths, firsts.tolist(), strict=True)
        for op in _chain_ops(written, lines, first, len(sub.points), closed=sub.closed)
    )


def _written(points: Array, places: int) -> list[str]:
    """Return x and y of all points as text."""
    if places == 0:
        return list(map(str, np.rint(points).astype(np.int64).ravel().tolist()))
    return [
        (number(value) if "e" in text else text).removesuffix(".0")
        for value, text in ((value, repr(value)) for value in (np.round(points, places) + 0.0).ravel().tolist())
    ]


def _chain_ops(written: list[str], lines: set[int], first: int, size: int, *, closed: bool) -> list[str]:
    """Return the operators of one chain of curves.

    Args:
        written: x and y of all points, as text.
        lines: indices of the points where a curve begins that is a straight line.
        first: index of the chain's first point.
        size: how many points it has.
        closed: whether it ends where it began.
    """
    out = [f"{written[2 * first]} {written[2 * first + 1]} m"]
    for start in range(first, first + size - 1, 3):
        end = 2 * (start + 3)
        if start in lines:
            out.append(f"{written[end]} {written[end + 1]} l")
        else:
            out.append(" ".join(written[2 * start + 2 : end + 2]) + " c")
    if closed:
        last = first + size - 1
        # The last line home is drawn by closing.
        if size > 4 and last - 3 in lines and written[2 * first : 2 * first + 2] == written[2 * last : 2 * last + 2]:
            out.pop()
        out.append("h")
    return out


def _straight(points: Array, starts: NDArray[np.int64]) -> NDArray[np.bool_]:
    """Return which of the curves that begin at `starts` are straight lines."""
    start, one, two, end = (points[starts + k] for k in range(4))
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
