"""The working space of a job, and how pictures and colours enter it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour import lab, srgb
from wrapwright.core.colour.tone import Tone, srgb_tone
from wrapwright.outside.icc import tags
from wrapwright.outside.icc.conversion import Conversion, conversion
from wrapwright.outside.icc.matrix import MatrixSpace, alike, carried, gray_tone, matrix_space, srgb_space
from wrapwright.outside.icc.profiles import Profile, parse, srgb_profile

# A picture's space must be this much wider than the widest so far before a job works in it.
WIDER = 1.02


@dataclass(frozen=True, eq=False)
class Working:
    """An RGB space of one curve and a matrix that a job is composed in.

    Attributes:
        name: as the report gives it.
        profile: its ICC profile.
        space: its curves and matrix.
    """

    name: str
    profile: Profile
    space: MatrixSpace

    @property
    def tone(self) -> Tone:
        """Return its tone curve."""
        return self.space.tones[0]

    def colours(self, srgb_values: NDArray[Any]) -> NDArray[np.float64]:
        """Return encoded working colours 0..1 of encoded sRGB 0..1, last axis 3."""
        values = np.asarray(srgb_values, dtype=np.float64)
        if self.space is srgb_space():
            return values
        light = srgb.decode(values).astype(np.float32)
        return carried(light, srgb_space(), self.space) / 65535.0

    def lab(self, codes: NDArray[Any]) -> NDArray[np.float64]:
        """Return Lab (D50) of working codes, uint8 or uint16, last axis 3."""
        return lab.from_xyz(self.space.linear(codes).astype(np.float64) @ self.space.to_xyz.T)

    def of_lab(self, colour: NDArray[np.float64]) -> NDArray[np.uint16]:
        """Return working codes of Lab (D50), last axis 3, cut to what the space holds."""
        return self.tone.encode(lab.to_xyz(colour) @ np.linalg.inv(self.space.to_xyz).T)

    def converted(self, pixels: NDArray[Any], space: str, icc: bytes | None) -> NDArray[Any]:
        """Return working RGB, shape (h, w, 3), of colour bands without alpha, shape (h, w, n).

        Relative colorimetric with black point compensation. Spaces of curves and a matrix, gray and Lab are computed
        in floating point and come back in 16 bits, unless nothing has to change; others go through LittleCMS in
        8 bits, unoptimised. CMYK without a profile is taken as (1 - ink) (1 - black) of sRGB.
        """
        if space == "gray":
            return self._of_gray(pixels, icc)
        if space == "lab":
            return self._of_lab(pixels)
        if space == "cmyk":
            return self._of_tables(pixels, icc) if icc else self._of_linear(_bare_cmyk(pixels), srgb_space())
        source = matrix_space(icc) if icc else srgb_space()
        if source is None:
            return self._of_tables(pixels, icc or b"")
        if alike(source, self.space):
            return pixels
        return self._of_linear(source.linear(pixels), source)

    def _of_linear(self, linear: NDArray[Any], source: MatrixSpace) -> NDArray[np.uint16]:
        return carried(linear.astype(np.float32, copy=False), source, self.space)

    def _of_gray(self, pixels: NDArray[Any], icc: bytes | None) -> NDArray[Any]:
        tone = (gray_tone(icc) if icc else None) or srgb_tone()
        if tone is self.tone:
            return np.repeat(pixels[..., :1], 3, axis=-1)
        return np.repeat(self.tone.encode(tone.decode(pixels[..., :1])), 3, axis=-1)

    def _of_lab(self, pixels: NDArray[Any]) -> NDArray[np.uint16]:
        codes = pixels.astype(np.float64) * (257.0 if pixels.dtype == np.uint8 else 1.0)
        colour = np.stack(
            [codes[..., 0] / 655.35, codes[..., 1] / 257.0 - 128.0, codes[..., 2] / 257.0 - 128.0], axis=-1
        )
        return self.of_lab(colour)

    def _of_tables(self, pixels: NDArray[Any], icc: bytes | None) -> NDArray[np.uint8]:
        codes = pixels if pixels.dtype == np.uint8 else ((pixels.astype(np.uint32) + 128) // 257).astype(np.uint8)
        return _entry(icc or b"", self.profile).strip(np.ascontiguousarray(codes))


@lru_cache(maxsize=8)
def _entry(icc: bytes, target: Profile) -> Conversion:
    return conversion(parse(icc, named="the picture's ICC profile"), target, "relative", black_point=True)


def _bare_cmyk(pixels: NDArray[Any]) -> NDArray[np.float32]:
    top = 255.0 if pixels.dtype == np.uint8 else 65535.0
    bare = 1.0 - pixels.astype(np.float32) / np.float32(top)
    return srgb.decode(bare[..., :3] * bare[..., 3:4]).astype(np.float32)


@lru_cache(maxsize=1)
def srgb_working() -> Working:
    """Return sRGB as a working space."""
    return Working("sRGB", srgb_profile(), srgb_space())


def working_space(pictures: Iterable[bytes | None], *, convert: bool) -> Working:
    """Return the working space of a job whose pictures carry these ICC profiles (None: without one).

    sRGB, or on the convert route the widest of the pictures' RGB profiles when that is wider (area of the primaries in
    u'v'). Only spaces of one curve and a matrix can be worked in. The first of equals wins.
    """
    best = srgb_working()
    if not convert:
        return best
    for data in pictures:
        if not data or len(data) < tags.HEADER_BYTES + 4 or tags.header(data).kind not in ("mntr", "spac"):
            continue
        space = matrix_space(data)
        if space is None or not space.one_curve or alike(space, best.space):
            continue
        if space.extent() > WIDER * best.space.extent():
            profile = parse(data, named="the picture's ICC profile")
            best = Working(profile.description, profile, space)
    return best
