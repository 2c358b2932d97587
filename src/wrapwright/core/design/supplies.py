"""What the outside supplies to a design before it can be laid out: art read, text set, codes made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb
from wrapwright.core.design.path import Path


@dataclass(frozen=True, eq=False)
class ArtShape:
    """One solid shape of vector art.

    Attributes:
        path: in shares of the picture: x 0..1 to the right, y 0..1 UP.
        colour: sRGB 0..1, encoded.
        stroke: width of a line centred on the path, as a share of the picture's WIDTH; 0 = filled.
        even_odd: fill rule.
        opacity: 0..1 (below 1 the shape is drawn into the raster part of a sheet).
        clips: paths it is limited to, same coordinates.
    """

    path: Path
    colour: Rgb
    stroke: float = 0.0
    even_odd: bool = False
    opacity: float = 1.0
    clips: tuple[Path, ...] = ()


@dataclass(frozen=True, eq=False)
class Art:
    """A picture read once, upright.

    Attributes:
        id: name of its normalised form in the cache (content, reader version, page).
        kind: "pixels" or "outlines" (then `shapes` says all).
        width, height: pixels, or the page's own units for outlines.
        bands: 1, 2, 3, 4 or 5 channels, alpha last when `alpha`.
        bits: 8 or 16.
        space: "gray", "rgb", "cmyk" or "lab".
        alpha: whether the last band is alpha (unassociated).
        profile: description of its embedded ICC profile, "sRGB" for a page drawn as pixels, or None (sRGB assumed).
        notes: sentences for the user about what reading changed (orientation, frames, a damaged profile ...).
        shapes: the outlines, bottom to top.
    """

    id: str
    kind: Literal["pixels", "outlines"]
    width: float
    height: float
    bands: int = 3
    bits: int = 8
    space: str = "rgb"
    alpha: bool = False
    profile: str | None = None
    notes: tuple[str, ...] = ()
    shapes: tuple[ArtShape, ...] = ()


@dataclass(frozen=True)
class Misfit:
    """By how much a text misses its box.

    Attributes:
        what: "capitals": the capitals it would need to go in are smaller than the smallest; "length" or "height": the
            block is larger than its box; "turn": a line is longer than one turn of its arc.
        figure_mm: what it is, or for capitals would have to be.
        limit_mm: what it may be.
    """

    what: Literal["capitals", "length", "height", "turn"]
    figure_mm: float
    limit_mm: float


@dataclass(frozen=True, eq=False)
class SetText:
    """Text shaped and set: its outlines in local mm, the block's centre at the origin.

    Attributes:
        path: all glyphs, nonzero winding.
        width_mm, height_mm: the block: longest line's advance or the box asked for; cap top of the first line to base
            line of the last (descenders and ascenders reach out of it).
        cap_height_mm: height of a capital as set.
        stem_mm: thinnest stroke, estimated, or None.
        missing: characters no font had, in order, each once.
        misfit: by how much it could not be brought into the box, None when it fits.
        fonts: (file name as the user may know it, SHA-256 of the file) of each font used.
        centre_mm: where the block's centre lies in local mm; not (0, 0) only for text on an arc, whose origin is
            the circle's centre.
        advice: what to do about missing characters (an extra to install), or "".
    """

    path: Path
    width_mm: float
    height_mm: float
    cap_height_mm: float
    stem_mm: float | None = None
    missing: tuple[str, ...] = ()
    misfit: Misfit | None = None
    fonts: tuple[tuple[str, str], ...] = ()
    centre_mm: tuple[float, float] = (0.0, 0.0)
    advice: str = ""

    @property
    def fits(self) -> bool:
        """Whether it could be brought into its box."""
        return self.misfit is None


@dataclass(frozen=True, eq=False)
class CodeModules:
    """A QR symbol without its quiet zone: bool (n, n), True = dark, row 0 on top."""

    dark: NDArray[np.bool_]


Supply = Art | SetText | CodeModules | None
Supplies = Mapping[int, Supply]  # by element index


@dataclass(frozen=True, eq=False)
class Pixels:
    """The normalised pixels of an Art of kind "pixels".

    Attributes:
        id: as in Art.
        array: (height, width, bands), uint8 or uint16, read-only, usually memory-mapped.
            CMYK counts ink (0 = none). Lab is 16 bits: L* = v x 100 / 65535, a* and b* = v / 257 - 128.
        space, alpha: as in Art.
        icc: its embedded profile, or None (sRGB or plain gray assumed).
    """

    id: str
    array: NDArray[np.uint8] | NDArray[np.uint16]
    space: str
    alpha: bool
    icc: bytes | None = None
