"""Vector art as placed outlines: crop, flip, size and lay applied to every solid shape."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb
from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.elements import Adjust
from wrapwright.core.design.kinds.ground import Ground, Recolour, box_of
from wrapwright.core.design.path import Path
from wrapwright.core.design.supplies import Art, ArtShape

Array = NDArray[np.float64]
PLAIN = Adjust()
_NEAR = 1e-6  # mm: art that ends exactly at its page's edge does not stick out


@dataclass(frozen=True, eq=False)
class Sizing:
    """How art becomes local mm.

    Attributes:
        width_mm, height_mm: size of the cropped picture.
        window_mm: width, height of the part shown, centred.
        crop: left, top, right, bottom as shares of the upright picture.
        flip: mirrored left to right.
    """

    width_mm: float
    height_mm: float
    window_mm: tuple[float, float]
    crop: tuple[float, float, float, float] = (0.0, 0.0, 1.0, 1.0)
    flip: bool = False

    def matrix(self) -> Array:
        """Return the 3x3 matrix from shares of the whole picture (y up) to local mm."""
        left, top, right, bottom = self.crop
        across, up = self.width_mm / (right - left), self.height_mm / (bottom - top)
        sign = -1.0 if self.flip else 1.0
        return np.array(
            [
                [sign * across, 0.0, -sign * across * (left + right) / 2.0],
                [0.0, up, -up * (1.0 - (top + bottom) / 2.0)],
                [0.0, 0.0, 1.0],
            ]
        )

    def line_mm(self, share: float) -> float:
        """Return the mm of a length that is a share of the whole picture's width."""
        return share * self.width_mm / (self.crop[2] - self.crop[0])

    def page_aspect(self) -> float:
        """Return height over width in mm of the uncropped picture."""
        left, top, right, bottom = self.crop
        return (self.height_mm / (bottom - top)) / (self.width_mm / (right - left))


def solid_items(
    art: Art, sizing: Sizing, lay: Callable[[Path], Path], *, paint: Callable[[Rgb], Rgb], clip: Path | None
) -> list[PlacedOutline]:
    """Return art's shapes as items of element 0, copy 0, bottom to top; shapes outside the window are left out.

    `clip` (local mm) limits every shape; a shape that sticks out of the window is limited to the window. A
    stretched picture's lines get the geometric mean of both scales.
    """
    matrix = sizing.matrix()
    window = box_of(*sizing.window_mm)
    native = art.height / art.width
    stretch = math.sqrt(sizing.page_aspect() / native)
    out = []
    for shape in art.shapes:
        path = shape.path.times(matrix)
        stroke = sizing.line_mm(shape.stroke) * stretch
        place = _standing(path, stroke, sizing.window_mm)
        if place == "outside":
            continue
        clips = [own.times(matrix) for own in shape.clips]
        if clip is not None:
            clips.append(clip)
        if place == "across":
            clips.append(window)
        out.append(_item(shape, lay(path), stroke, tuple(lay(one) for one in clips), paint(shape.colour)))
    return out


def painter(ground: Ground, adjust: Adjust) -> Callable[[Rgb], Rgb]:
    """Return what an element's changes in CIELAB do to a solid colour."""
    recolour: Recolour | None = ground.recolour
    if adjust == PLAIN:
        return lambda colour: colour
    if recolour is None:
        raise WrapwrightError(Kind.FAULT, "solid colours cannot be adjusted: no colour change was handed in.")
    return lambda colour: recolour(colour, adjust)


def _item(shape: ArtShape, path: Path, stroke: float, clips: tuple[Path, ...], colour: Rgb) -> PlacedOutline:
    return PlacedOutline(
        element=0,
        copy=0,
        opacity=shape.opacity,
        clips=clips,
        path=path,
        colour=colour,
        stroke_mm=stroke,
        even_odd=shape.even_odd,
    )


def _standing(path: Path, stroke: float, window: tuple[float, float]) -> str:
    """Return whether a shape lies "inside" the window, "outside" it or "across" its border, by its box."""
    left, bottom, right, top = path.box()
    half, wide, high = stroke / 2.0, window[0] / 2.0, window[1] / 2.0
    if left - half >= wide or right + half <= -wide or bottom - half >= high or top + half <= -high:
        return "outside"
    reach_x = max(right + half, half - left) - wide
    reach_y = max(top + half, half - bottom) - high
    return "across" if max(reach_x, reach_y) > _NEAR else "inside"
