"""Line drawings as data: shapes and words in millimetres, y down, that a template draws."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path

Array = NDArray[np.float64]
Item = dict[str, object]
Point = tuple[float, float]


def _r(value: float) -> float:
    """Return the value as written into a document: a micrometre is enough, and -0.0 is 0."""
    return round(float(value), 3) + 0.0


def moves(path: Path, to: Array) -> list[list[object]]:
    """Return a path's drawing moves under a 3x3 matrix of column vectors."""
    out: list[list[object]] = []
    for sub in path.times(to).subpaths:
        points = [(_r(x), _r(y)) for x, y in sub.points]
        out.append(["m", *points[0]])
        out.extend(["c", *points[i], *points[i + 1], *points[i + 2]] for i in range(1, len(points), 3))
        if sub.closed:
            out.append(["z"])
    return out


def line_moves(points: Iterable[Sequence[float]], *, closed: bool = False) -> list[list[object]]:
    """Return the drawing moves of a chain of points."""
    corners = [(_r(point[0]), _r(point[1])) for point in points]
    out: list[list[object]] = [["m", *corners[0]], *(["l", *corner] for corner in corners[1:])]
    return [*out, ["z"]] if closed else out


def shape(
    drawing_moves: list[list[object]],
    *,
    stroke: str = "",
    width_pt: float = 0.6,
    dash: str = "",
    fill: str = "",
    even_odd: bool = False,
) -> Item:
    """Return a shape; colours are names of the house's palette, "" for none, "hatch" for a hatched fill."""
    return {
        "k": "shape",
        "moves": drawing_moves,
        "stroke": stroke,
        "width": width_pt,
        "dash": dash,
        "fill": fill,
        "rule": "even-odd" if even_odd else "non-zero",
    }


def words(
    text: str,
    at: Point,
    *,
    size_pt: float = 7.5,
    colour: str = "ink2",
    anchor: str = "mm",
    turn_deg: float = 0.0,
    strong: bool = False,
) -> Item:
    """Return words at a point.

    `anchor` says which point of them: l, m or r across, then t, m or b down. `turn_deg` is clockwise.
    """
    return {
        "k": "words",
        "text": text,
        "x": _r(at[0]),
        "y": _r(at[1]),
        "size": size_pt,
        "colour": colour,
        "across": anchor[0],
        "down": anchor[1],
        "turn": _r(turn_deg),
        "strong": strong,
        "backed": False,
    }


def backed(said: Item) -> Item:
    """Return words on white, so that no line runs through them."""
    return {**said, "backed": True}


def picture(file: str, box: tuple[float, float, float, float], *, mirror: bool = False, turn_deg: float = 0.0) -> Item:
    """Return a picture that fills (left, top, width, height) before it is mirrored and turned about its middle.

    `turn_deg` is clockwise.
    """
    left, top, width, height = box
    return {
        "k": "picture",
        "file": file,
        "x": _r(left),
        "y": _r(top),
        "w": _r(width),
        "h": _r(height),
        "mirror": mirror,
        "turn": _r(turn_deg),
    }


def arrowed(points: Sequence[Point], *, colour: str = "ink2", head_mm: float = 1.5) -> list[Item]:
    """Return a dimension line along points with a filled arrow head at each end."""
    out = [shape(line_moves(points), stroke=colour, width_pt=0.45)]
    for tip, back in ((points[0], points[1]), (points[-1], points[-2])):
        out.append(_head(tip, back, colour, head_mm))
    return out


def _head(tip: Point, back: Point, colour: str, size: float) -> Item:
    angle = math.atan2(back[1] - tip[1], back[0] - tip[0])
    sides = [(tip[0] + size * math.cos(angle + side), tip[1] + size * math.sin(angle + side)) for side in (-0.2, 0.2)]
    corners = [tip, *sides]
    return shape(line_moves(corners, closed=True), fill=colour)


def arrow(start: Point, end: Point, *, colour: str = "ink2", width_pt: float = 0.7, head_mm: float = 1.8) -> list[Item]:
    """Return a plain arrow from start to end."""
    return [shape(line_moves([start, end]), stroke=colour, width_pt=width_pt), _head(end, start, colour, head_mm)]


def drawing(width_mm: float, height_mm: float, items: Sequence[Item]) -> dict[str, object]:
    """Return a drawing of a size."""
    return {"width": _r(width_mm), "height": _r(height_mm), "items": list(items)}


def ring(at: Point, radii: tuple[float, float], **how: object) -> Item:
    """Return an ellipse; further arguments as for `shape`."""
    (x, y), (a, b), k = at, radii, 0.5522847498  # k: the usual cubic for a quarter of a circle
    quarters = [
        ((a, 0), (a, k * b), (k * a, b)),
        ((0, b), (-k * a, b), (-a, k * b)),
        ((-a, 0), (-a, -k * b), (-k * a, -b)),
        ((0, -b), (k * a, -b), (a, -k * b)),
    ]
    out: list[list[object]] = [["m", _r(x + a), _r(y)]]
    for i, (_, one, two) in enumerate(quarters):
        end = quarters[(i + 1) % 4][0]
        out.append(["c", *(_r(x + p[0] if j == 0 else y + p[1]) for p in (one, two, end) for j in (0, 1))])
    return shape([*out, ["z"]], **how)  # type: ignore[arg-type]


def tag(number: str, at: Point) -> list[Item]:
    """Return a number in a filled disc."""
    return [ring(at, (2.0, 2.0), fill="accent"), words(number, at, colour="sheet", strong=True, size_pt=8.0)]
