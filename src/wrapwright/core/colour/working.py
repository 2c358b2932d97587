"""The working space: what every colour and picture of a job is brought to before it is composed."""

from __future__ import annotations

from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.colour.tone import Tone


class WorkingSpace(Protocol):
    """An RGB space to compose in."""

    @property
    def tone(self) -> Tone:
        """Return its tone curve, the same for all three channels."""
        ...

    def colours(self, srgb: NDArray[Any]) -> NDArray[np.float64]:
        """Return encoded working colours 0..1 of encoded sRGB 0..1, last axis 3."""
        ...

    def lab(self, codes: NDArray[Any]) -> NDArray[np.float64]:
        """Return Lab (D50) of working codes, uint8 or uint16, last axis 3."""
        ...

    def of_lab(self, colour: NDArray[np.float64]) -> NDArray[np.uint16]:
        """Return working codes of Lab (D50), last axis 3, cut to what the space holds."""
        ...

    def converted(self, pixels: NDArray[Any], space: str, icc: bytes | None) -> NDArray[Any]:
        """Return working RGB, uint8 or uint16, shape (h, w, 3), of colour bands without alpha, shape (h, w, n)."""
        ...
