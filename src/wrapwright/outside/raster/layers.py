"""The kinds of layer a strip is painted from: outlines of one colour, and changes of colour."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import end_turns
from wrapwright.core.colour.tone import Tone
from wrapwright.core.design.drawlist import PlacedGradient
from wrapwright.core.design.frame import Frame
from wrapwright.outside.raster.edges import Cover, Edges, coverage, reach_across
from wrapwright.outside.raster.lattice import Part, looked_at

Painted = tuple[NDArray[Any], Cover | None]  # uint16 colours (rows, w, 3) or (3,), and their share; None = everywhere


class Layer(Protocol):
    """Something to paint. `limits` are shapes it is cut to; `opacity` 0..1."""

    @property
    def limits(self) -> tuple[Edges, ...]:
        """Return the shapes it is cut to."""
        ...

    @property
    def opacity(self) -> float:
        """Return its opacity."""
        ...

    def painted(self, part: Part) -> Painted:
        """Return its colours and own cover on a part of the raster, limits and opacity not yet applied."""
        ...


@dataclass(frozen=True, eq=False)
class OutlineLayer:
    """A filled or stroked shape: the first limit is the shape itself; colour is uint16 (3,)."""

    colour: NDArray[np.uint16]
    limits: tuple[Edges, ...]
    opacity: float

    def painted(self, part: Part) -> Painted:
        """Return its one colour, everywhere."""
        del part
        return self.colour, None


@dataclass(frozen=True, eq=False)
class GradientLayer:
    """A change of colour over the wrap; start and end are linear light, float32 (3,)."""

    frame: Frame
    wrap: FlatWrap
    along: str | float
    start: NDArray[np.float32]
    end: NDArray[np.float32]
    tone: Tone
    limits: tuple[Edges, ...]
    opacity: float

    def painted(self, part: Part) -> Painted:
        """Return its colours, everywhere."""
        turn, up = looked_at(self.frame, part, self.wrap.from_flat, 180.0)
        share = gradient_share(self.wrap, self.along, turn, up)[..., None].astype(np.float32)
        return self.tone.encode(self.start * (np.float32(1.0) - share) + self.end * share), None


def gradient_share(wrap: FlatWrap, along: str | float, turn: NDArray[Any], up: NDArray[Any]) -> NDArray[Any]:
    """Return how far (0..1) from start to end a change of colour is at places on the wall.

    The overlap repeats the left end. `along` in degrees: the line through the middle of the band's box (arc at its
    middle height x wall position) at that angle clockwise from up, long enough to reach two opposite corners.
    """
    middle = wrap.height_mm / 2.0
    left = end_turns(wrap, middle)[0]
    turns = 360.0 - 2.0 * left
    past = turn - left
    lapped = past if wrap.plate is not None else np.where(past >= 360.0, past - 360.0, past)
    share = np.clip(lapped / turns, 0.0, 1.0)
    rise = np.clip(up / wrap.height_mm, 0.0, 1.0)
    if along == "up":
        return np.asarray(rise)
    if along == "round":
        return np.asarray(share)
    angle = math.radians(float(along))
    wide = wrap.turn_length(middle) * turns / 360.0
    across, upright = wide * math.sin(angle), wrap.height_mm * math.cos(angle)
    reach = abs(across) + abs(upright)
    return np.asarray(np.clip(0.5 + ((share - 0.5) * across + (rise - 0.5) * upright) / reach, 0.0, 1.0))


def gradient_layer(
    item: PlacedGradient, wrap: FlatWrap, frame: Frame, tone: Tone, *, colours: NDArray[np.float64],
    limits: tuple[Edges, ...],
) -> GradientLayer:  # fmt: skip
    """Return the layer of a change of colour; `colours` are its start and end, encoded working RGB (2, 3)."""
    light = tone.decode(np.rint(np.clip(colours, 0, 1) * 65535).astype(np.uint16))
    return GradientLayer(frame, wrap, item.along, light[0], light[1], tone, limits, item.opacity)


def covered(limits: Sequence[Edges], part: Part) -> Cover | None:
    """Return the share of each pixel inside all limits, None when there are none (everything)."""
    cover: Cover | None = None
    for one in limits:
        share = coverage(one, part.rows, part.columns)
        # The lesser, not the product: borders that coincide (a fill and its clip) would else count twice.
        cover = share if cover is None else np.minimum(cover, share)
    return cover


def reach(limits: Sequence[Edges], part: Part) -> Part | None:
    """Return the smaller part that the limits' boxes leave, or None when they leave nothing."""
    left, right = part.columns
    for one in limits:
        if not one.meets(part.rows, (left, right)):
            return None
        low, high = reach_across(one, part.rows)
        left, right = max(left, math.floor(low)), min(right, math.ceil(high))
    return Part(part.rows, (left, right)) if right > left else None
