"""What is asked of colour."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Intent = Literal["perceptual", "relative", "saturation", "absolute"]


@dataclass(frozen=True)
class ColourRequest:
    """route driver = stay sRGB; convert = we convert to `profile` (path as written) with intent and black point.

    ink_limit_percent is the most ink in one place, all channels together, that the paper takes; None = not known.
    """

    route: Literal["driver", "convert"] = "driver"
    profile: str | None = None
    intent: Intent = "perceptual"
    black_point: bool = True
    ink_limit_percent: float | None = None
