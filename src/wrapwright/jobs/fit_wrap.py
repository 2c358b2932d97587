"""Fit a wrap: readings of a blank in, its flat shape out."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wrapwright.core.blank.readings import Blank, WrapRequest
from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from wrapwright.core.blank.wrapped import Wrapped


@dataclass(frozen=True)
class FitRequest:
    """What to fit.

    Attributes:
        blank: the readings.
        wrap: band, seam and overlap.
        thickness_mm: the paper's thickness; 0 is pure geometry.
        calibrated: whether the printer's scale was measured.
    """

    blank: Blank
    wrap: WrapRequest = field(default_factory=WrapRequest)
    thickness_mm: float = 0.0
    calibrated: bool = False


@dataclass(frozen=True)
class Fitted:
    """The flat wrap and what one needs to draw it.

    Attributes:
        wrapped: the wrap and all that is known about its fit.
        bounding_box_mm: width and height of the box round the trim outline, overlap in.
        outer_chord_mm, outer_sagitta_mm: of the longer arc of one whole turn; a straight wrap's width and 0.
    """

    wrapped: Wrapped
    bounding_box_mm: tuple[float, float]
    outer_chord_mm: float
    outer_sagitta_mm: float


def fit_wrap(request: FitRequest, bench: Bench, watch: Watch) -> Fitted:
    """Return the flat wrap of a blank; nothing is written, so that the bench is not used.

    Raises:
        WrapwrightError: unusable; every reading or wish that cannot be, each named.
    """
    del bench
    from wrapwright.core.blank.trim import bounding_box_mm, outer_chord_mm, outer_sagitta_mm
    from wrapwright.core.blank.wrapped import Setup, wrap_blank

    watch.step("fitting the wrap", 0.0)
    setup = Setup(thickness_mm=request.thickness_mm, calibrated=request.calibrated)
    wrapped = wrap_blank(request.blank, request.wrap, setup)
    wrap = wrapped.wrap
    return Fitted(wrapped, bounding_box_mm(wrap), outer_chord_mm(wrap), outer_sagitta_mm(wrap))
