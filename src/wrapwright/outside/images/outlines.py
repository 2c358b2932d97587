"""Outlines as the child leaves them, made into shapes."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.design.path import Path, Subpath
from wrapwright.core.design.supplies import ArtShape

_FAR = 1e4  # in shares of the picture: nothing that shows lies farther out


def shapes_of(rows: list[dict[str, Any]], points: NDArray[np.float64]) -> tuple[ArtShape, ...]:
    """Return the shapes that rows of plain values and their points, shape (n, 2), describe.

    A path is a list of whole numbers, one a subpath: its number of points, negative when it is open.

    Raises:
        WrapwrightError: unusable, when the numbers do not add up or are not numbers.
    """
    if not bool(np.isfinite(points).all()) or (points.size and float(np.abs(points).max()) > _FAR):
        raise unusable("The drawing holds points that are not numbers or lie far outside its page.")
    feed = _Feed(points)
    try:
        shapes = tuple(_shape(row, feed) for row in rows)
    except (KeyError, TypeError, ValueError) as problem:
        raise unusable("The drawing as read does not hold together.") from problem
    if feed.at != len(points):
        raise unusable("The drawing as read does not hold together.")
    return shapes


class _Feed:
    """Points handed out in order."""

    def __init__(self, points: NDArray[np.float64]) -> None:
        self.points = points
        self.at = 0

    def path(self, counts: list[int]) -> Path:
        """Return the next path."""
        subpaths = []
        for count in counts:
            size = abs(int(count))
            part = self.points[self.at : self.at + size]
            if len(part) != size or size % 3 != 1:
                raise ValueError(count)
            self.at += size
            subpaths.append(Subpath(part, closed=count > 0))
        return Path(tuple(subpaths))


def _shape(row: dict[str, Any], feed: _Feed) -> ArtShape:
    """Return one shape; its own path comes first, its clips after it."""
    red, green, blue = (min(1.0, max(0.0, float(part))) for part in row["colour"])
    return ArtShape(
        path=feed.path(row["path"]),
        colour=(red, green, blue),
        stroke=max(0.0, float(row["stroke"])),
        even_odd=bool(row["even_odd"]),
        opacity=min(1.0, max(0.0, float(row["opacity"]))),
        clips=tuple(feed.path(clip) for clip in row["clips"]),
    )
