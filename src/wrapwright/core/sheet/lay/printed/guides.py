"""The dashed lines outside a curved trim, by which scissors follow it: in flat mm as seen, shared by all copies."""

from __future__ import annotations

import numpy as np

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.path import Path, polygon
from wrapwright.core.design.plates import plate_outline
from wrapwright.core.sheet.guides import DASH_MM, GAP_MM, GUIDE_MM, guide_arcs
from wrapwright.core.sheet.lay.printed.values import Array
from wrapwright.core.sheet.room import sampled

_STEP_MM = 0.5


def guides_of(wrap: FlatWrap, clear_mm: float) -> tuple[Path, ...]:
    """Return the dashes whose nearer edge runs `clear_mm` outside a curved trim; none for a rectangle."""
    if wrap.plate is None:
        arcs = guide_arcs(wrap, np.eye(3), clear_mm)
        return tuple(one.lines for dashes in arcs for one in dashes)
    if wrap.plate.kind == "rectangle" and wrap.plate.corner_mm <= 0.0:
        return ()
    outline = plate_outline(wrap, wrap.plate, clear_mm + GUIDE_MM / 2.0)
    return tuple(dash for chain in sampled(outline, _STEP_MM) for dash in _dashes(chain))


def _dashes(ring: Array) -> list[Path]:
    """Return dashes and gaps of about 3 mm along a closed chain of points."""
    steps = np.hypot(*np.diff(ring, axis=0).T)
    at = np.concatenate([[0.0], np.cumsum(steps)])
    length = float(at[-1])
    count = max(1, round(length / (DASH_MM + GAP_MM)))
    found = []
    for first in np.arange(count) * (length / count):
        along = np.linspace(first, min(first + DASH_MM, length), 7)
        line = np.stack([np.interp(along, at, ring[:, axis]) for axis in (0, 1)], axis=1)
        if float(np.hypot(*(line[-1] - line[0]))) > 1e-6:
            found.append(_thick(line))
    return found


def _thick(line: Array) -> Path:
    """Return a line as an area of the guides' width."""
    way = np.gradient(line, axis=0)
    way /= np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-12)[:, None]
    side = np.stack([-way[:, 1], way[:, 0]], axis=1) * GUIDE_MM / 2.0
    corners = np.concatenate([line - side, (line + side)[::-1]])
    return polygon([(float(x), float(y)) for x, y in corners])
