"""From a measured blank and what is asked of its wrap to the flat wrap, with all that is known about its fit."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.base.findings import Finding
from wrapwright.core.base.units import mm_words
from wrapwright.core.blank.bestline import Line, Misfit, best_line, misfit
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.gauge.carried import Printer, carried, printed_with
from wrapwright.core.blank.measuring.budget import (
    Grain,
    Heat,
    Measuring,
    OverlapNeed,
    Term,
    combined_mm,
    expanded_mm,
    overlap_need,
    plate_terms,
    terms,
)
from wrapwright.core.blank.measuring.wall import Wall, wall_of
from wrapwright.core.blank.plated import flat_of, plate_questions
from wrapwright.core.blank.readings import Blank, WrapRequest
from wrapwright.core.blank.remarks import questions, remarks
from wrapwright.core.blank.within import asked_in_doubt, band_of

Side = Literal["long", "short", "unknown"]

LEFT_DEG = 270.0
TOLERANCE_MM = 1.5  # misfit of girth that still lies flat; common practice, no source
# Girths closer than this are one: a sector of a radius beyond kilometres is a rectangle.
_SAME_MM = 1e-9


@dataclass(frozen=True)
class Wrapped:
    """A blank's flat wrap and what is known about it; lengths in mm, positions along the wall from position 0.

    Attributes:
        kind: the blank's: straight, tapered, profile or flat. A flat blank has its width for girths and its height for
            a wall, and no overlap.
        wrap: the flat wrap of the band.
        girth_top_mm, girth_bottom_mm: bare girths at the two ends of the wall, tape corrected.
        wall_mm: length of the wall along it; of a profile the span of its readings.
        wall_from_mm: position of its lower end, 0 unless a profile was read from higher up.
        inverted: the foot is wider than the rim.
        band_from_mm, band_height_mm: the band that gets the transfer.
        coated_from_mm, coated_to_mm: the part of the wall that takes dye.
        thickness_mm: the paper's.
        overlap_mm: the overlap used; 0 with a handle.
        need: the parts an overlap has to cover, and the overlap that `auto` gives.
        overlap_budget: every source of doubt about the girth.
        u_c_mm: combined standard uncertainty of the girth.
        girth_error_mm: what the girth may be out by: 3.09 u_c, at most the sum of the half-widths.
        misfit: how a single flat shape follows the wall; all 0 unless a profile.
        profile: (position, bare girth), rising, straight between: the finished piece's outline.
        findings: remarks by the rules profile-misfit, too-few-readings, overlap-short.
        questions: sentences that ask for what would make the fit better known.
    """

    kind: str
    wrap: FlatWrap
    girth_top_mm: float
    girth_bottom_mm: float
    wall_mm: float
    wall_from_mm: float
    inverted: bool
    band_from_mm: float
    band_height_mm: float
    coated_from_mm: float
    coated_to_mm: float
    thickness_mm: float
    overlap_mm: float
    need: OverlapNeed
    overlap_budget: tuple[Term, ...]
    u_c_mm: float
    girth_error_mm: float
    misfit: Misfit
    profile: tuple[tuple[float, float], ...]
    findings: tuple[Finding, ...]
    questions: tuple[str, ...]

    @property
    def misfit_mm(self) -> float:
        """Largest misfit of girth over the band."""
        return self.misfit.misfit_mm

    @property
    def opposite_error_mm(self) -> float:
        """What front and back may be out of opposite by on the piece: half the girth's error."""
        return self.girth_error_mm / 2.0

    @property
    def distance_error(self) -> float:
        """Share by which distances round the piece may differ from the sheet's: misfit over girth."""
        return self.misfit_mm / min(girth for _, girth in self.profile)


@dataclass(frozen=True)
class Setup:
    """The paper and printer that the wrap is made with.

    Attributes:
        thickness_mm: the paper's thickness t, 0 for pure geometry.
        calibrated: whether the printer's scale was measured.
        grain: the side of the sheet that the paper's fibres run along.
        lies: the side of the sheet that the wrap's length lies along; only with both is the moisture term halved.
        heat: the blank's material and the recipe's temperature; None = not named.
        scale_error: what the measured scale along the wrap may be out by, as a share; None = not known.
        printer: the set-up that prints, for readings of a gauge; None = not chosen yet.
    """

    thickness_mm: float = 0.12
    calibrated: bool = False
    grain: Side = "unknown"
    lies: Side = "unknown"
    heat: Heat | None = None
    scale_error: float | None = None
    printer: Printer | None = None

    @property
    def grain_runs(self) -> Grain:
        """How the grain runs against the wrap's length."""
        if "unknown" in (self.grain, self.lies):
            return "unknown"
        return "along" if self.grain == self.lies else "across"


def wrap_blank(blank: Blank, request: WrapRequest, setup: Setup) -> Wrapped:
    """Return the flat wrap of a blank's band with its fit, doubt, remarks and questions.

    Source of the formulas: development of a frustum (drmath 55270); the paper's middle layer is the one that keeps
    its length, so that one whole turn is girth + pi t; doubt after JCGM 100:2008.

    Raises:
        WrapwrightError: unusable; every reading or wish that is impossible or implausible, each named.
    """
    raise_all(_paper_in_doubt(setup.thickness_mm))
    if blank.kind == "flat":
        return _plated(blank, request, setup)
    blank = carried(blank, setup.printer)
    wall = wall_of(blank, thickness_mm=setup.thickness_mm)
    raise_all(asked_in_doubt(blank, request, wall))
    band = band_of(wall, request)
    line = best_line(band)
    fit = misfit(wall, band, line, tolerance_mm=TOLERANCE_MM)
    longest = max(band.girths_mm)
    budget = terms(longest, _measuring(blank, setup))
    need = overlap_need(longest, budget, heat=setup.heat, short_mm=fit.short_mm)
    overlap = _overlap(blank, request, need)
    wrap = _flat(blank, request, band, line, thickness_mm=setup.thickness_mm, overlap_mm=overlap)
    coated = blank.coated or (wall.from_mm, wall.to_mm)
    return Wrapped(
        kind=blank.kind,
        wrap=wrap,
        girth_top_mm=wall.girths_mm[-1],
        girth_bottom_mm=wall.girths_mm[0],
        wall_mm=wall.length_mm,
        wall_from_mm=wall.from_mm,
        inverted=wrap.inverted,
        band_from_mm=band.from_mm,
        band_height_mm=band.length_mm,
        coated_from_mm=coated[0],
        coated_to_mm=coated[1],
        thickness_mm=setup.thickness_mm,
        overlap_mm=overlap,
        need=need,
        overlap_budget=budget,
        u_c_mm=combined_mm(budget),
        girth_error_mm=expanded_mm(budget),
        misfit=fit,
        profile=tuple(zip(wall.positions_mm, wall.girths_mm, strict=True)),
        findings=remarks(blank, request, wall, fit, need, tolerance_mm=TOLERANCE_MM),
        questions=questions(blank, wall),
    )


def _plated(blank: Blank, request: WrapRequest, setup: Setup) -> Wrapped:
    """Return what is known of a flat blank: nothing goes round it, so that only its own size can be in doubt."""
    wrap = flat_of(blank, request)
    width, height = wrap.lower_mm, wrap.height_mm
    budget = plate_terms(width, Measuring(blank.tape, "flat", setup.calibrated, setup.grain_runs))
    coated = blank.coated or (0.0, height)
    return Wrapped(
        kind=blank.kind,
        wrap=wrap,
        girth_top_mm=width,
        girth_bottom_mm=width,
        wall_mm=height,
        wall_from_mm=0.0,
        inverted=False,
        band_from_mm=0.0,
        band_height_mm=height,
        coated_from_mm=coated[0],
        coated_to_mm=coated[1],
        thickness_mm=setup.thickness_mm,
        overlap_mm=0.0,
        need=OverlapNeed(0.0, 0.0, 0.0, 0.0),
        overlap_budget=budget,
        u_c_mm=combined_mm(budget),
        girth_error_mm=expanded_mm(budget),
        misfit=Misfit(0.0, 0.0, 0.0, 0.0, height, ()),
        profile=((0.0, width), (height, width)),
        findings=(),
        questions=plate_questions(blank),
    )


def _paper_in_doubt(thickness_mm: float) -> list[WrapwrightError]:
    if 0.0 <= thickness_mm <= 1.0:
        return []
    return [
        unusable(
            f"the paper's thickness reads {mm_words(thickness_mm, digits=3)}; it must lie between 0 and 1 mm.",
            remedy="Transfer paper is about 0.1 to 0.16 mm.",
            where="sheet: thickness",
        )
    ]


def _measuring(blank: Blank, setup: Setup) -> Measuring:
    """Return how the girth came about; of several ways the one least well known counts."""
    ways = {reading.how for reading in blank.readings}
    worst = next(way for way in ("diameter", "girth", "flat") if way in ways)
    printed = printed_with(blank.tape, setup.printer) if worst == "flat" else "same"
    return Measuring(
        blank.tape, worst, setup.calibrated, setup.grain_runs, scale_error=setup.scale_error, printed=printed
    )


def _overlap(blank: Blank, request: WrapRequest, need: OverlapNeed) -> float:
    if blank.handle is not None:
        return 0.0
    return need.rounded_mm if request.overlap_mm is None else request.overlap_mm


def _flat(
    blank: Blank, request: WrapRequest, band: Wall, line: Line, *, thickness_mm: float, overlap_mm: float
) -> FlatWrap:
    """Return the flat wrap whose girths at the band's edges are those of the line, in the paper's middle layer."""
    more = math.pi * thickness_mm
    lower, upper = line.at(band.from_mm) + more, line.at(band.to_mm) + more
    if abs(upper - lower) < _SAME_MM:
        upper = lower
    seam = LEFT_DEG if request.seam_deg is None else request.seam_deg
    wrap = FlatWrap(
        lower_mm=lower,
        upper_mm=upper,
        height_mm=band.length_mm,
        overlap_mm=overlap_mm,
        gap_mm=blank.handle.gap_mm if blank.handle else 0.0,
        seam_deg=blank.handle.at_deg if blank.handle else seam,
    )
    raise_all(_runs_into_itself(wrap))
    return wrap


def _runs_into_itself(wrap: FlatWrap) -> list[WrapwrightError]:
    """Return the problem of a strip wider than the sector is round, or a sector of more than a whole circle with it."""
    strip, inner = max(wrap.overlap_mm, wrap.gap_mm / 2.0), wrap.inner_radius_mm
    span = abs(wrap.theta) + (math.asin(wrap.overlap_mm / inner) if wrap.overlap_mm < inner else math.inf)
    if not wrap.is_sector or (strip < inner and span <= 2.0 * math.pi):
        return []
    return [
        unusable(
            f"the flat pattern runs into itself: its inner radius is {mm_words(inner)}"
            f" and its overlap or handle gap {mm_words(max(wrap.overlap_mm, wrap.gap_mm))}.",
            remedy="Take a band farther from the narrow end, or a smaller overlap.",
            where="wrap",
        )
    ]
