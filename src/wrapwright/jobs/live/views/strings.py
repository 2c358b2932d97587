"""Paths as SVG path data (W3C SVG 2, chapter 9), whole thousandths of a millimetre, steps instead of places."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path, Subpath

Whole = NDArray[np.int64]

PER_MM = 1000


def path_data(path: Path) -> str:
    """Return the path data of a path, y turned down; every point is true to half a thousandth of a millimetre."""
    return "".join(_chain(sub) for sub in path.subpaths)


def segments(path: Path) -> int:
    """Return how many curves a path has."""
    return sum((len(sub.points) - 1) // 3 for sub in path.subpaths)


def _chain(sub: Subpath) -> str:
    places = np.rint(sub.points * (PER_MM, -PER_MM)).astype(np.int64)
    x, y = places[0].tolist()
    words = [f"M{_number(x)} {_number(y)}", *_steps(places)]
    if sub.closed:
        words.append("z")
    return "".join(words)


def _steps(places: Whole) -> Iterator[str]:
    """Yield the commands of a chain; a letter is left out where it repeats the one before."""
    start = places[0:-1:3]
    curves = np.concatenate([places[1::3] - start, places[2::3] - start, places[3::3] - start], axis=1)
    ends = curves[:, 4:]
    # A line's handles lie at its thirds; rounding moves each by half a unit and the third of the end by a sixth.
    line = (np.abs(3 * curves[:, 0:2] - ends) <= 2).all(axis=1) & (np.abs(3 * curves[:, 2:4] - 2 * ends) <= 3).all(
        axis=1
    )
    last = ""
    for values, is_line in zip(curves.tolist(), line.tolist(), strict=True):
        letter, numbers = _command(values, is_line=is_line)
        if not letter:
            continue
        text = " ".join(map(_number, numbers)).replace(" -", "-")
        if letter != last:
            yield letter + text
        else:
            yield text if text[0] == "-" else f" {text}"
        last = letter


def _command(values: list[int], *, is_line: bool) -> tuple[str, list[int]]:
    if not is_line:
        return "c", values
    x, y = values[4:]
    if x == 0 and y == 0:
        return "", []
    if y == 0:
        return "h", [x]
    return ("v", [y]) if x == 0 else ("l", [x, y])


def _number(thousandths: int) -> str:
    return f"{thousandths / PER_MM:.10g}"
