"""What there is to remark about a blank's readings and its overlap, and what to ask for."""

from __future__ import annotations

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.base.units import mm_words
from wrapwright.core.blank.bestline import Misfit
from wrapwright.core.blank.measuring.budget import LEAST_OVERLAP_MM, OverlapNeed
from wrapwright.core.blank.measuring.tape import PAPER_TOOLS, tape_kind
from wrapwright.core.blank.measuring.wall import Wall
from wrapwright.core.blank.readings import Blank, WrapRequest

STEEPEST_DEG = 30.0
ENOUGH_READINGS = 3


def remarks(
    blank: Blank, request: WrapRequest, wall: Wall, fit: Misfit, need: OverlapNeed, *, tolerance_mm: float
) -> tuple[Finding, ...]:
    """Return the findings of the rules too-few-readings, profile-misfit and overlap-short."""
    found = [*_few_readings(blank, wall), *_poor_fit(blank, fit, tolerance_mm)]
    if blank.handle is None and request.overlap_mm is not None:
        found += _short_overlap(request.overlap_mm, need)
    return tuple(found)


def questions(blank: Blank, wall: Wall) -> tuple[str, ...]:
    """Return the sentences that ask for what would make the fit better known."""
    asked = []
    read_by_tape = any(reading.how == "girth" for reading in blank.readings)
    if read_by_tape and blank.tape.thickness_mm is None and tape_kind(blank.tape) not in PAPER_TOOLS:
        asked.append(
            "How thick is the tape? It reads pi times its thickness too much round a blank"
            " (up to 1.6 mm); with its thickness given that is taken off."
        )
    if wall.steepest_deg > STEEPEST_DEG:
        asked.append(
            f"Does the wall really lean by {wall.steepest_deg:.1f} degrees? Over {STEEPEST_DEG:g} is rare on a blank."
        )
    return tuple(asked)


def _few_readings(blank: Blank, wall: Wall) -> list[Finding]:
    found = []
    if blank.kind != "straight" and len(blank.readings) < ENOUGH_READINGS:
        found.append(
            Finding(
                "too-few-readings",
                Severity.WARNING,
                f"{len(blank.readings)} girths were read; a bulge between them cannot be seen."
                f" Read a third at mid height ({mm_words((wall.from_mm + wall.to_mm) / 2.0)} up the wall)"
                " and give all three as a profile: a bulging wall.",
                figure=len(blank.readings),
                limit=ENOUGH_READINGS,
                unit="readings",
            )
        )
    if wall.steepest_deg > STEEPEST_DEG:
        found.append(
            Finding(
                "too-few-readings",
                Severity.WARNING,
                f"The wall leans by {wall.steepest_deg:.1f} degrees, over the {STEEPEST_DEG:g} that blanks have."
                " Read both girths and the wall once more before you print.",
                figure=wall.steepest_deg,
                limit=STEEPEST_DEG,
                unit="deg",
            )
        )
    return found


def _poor_fit(blank: Blank, fit: Misfit, tolerance_mm: float) -> list[Finding]:
    if blank.kind != "profile" or fit.misfit_mm <= tolerance_mm:
        return []
    low, high = fit.tallest_from_mm, fit.tallest_from_mm + fit.tallest_height_mm
    return [
        Finding(
            "profile-misfit",
            Severity.ERROR,
            f"One flat shape misses the girth by up to {mm_words(fit.misfit_mm, digits=2)}, over the"
            f" {mm_words(tolerance_mm)} that still lies flat, and stands off by {mm_words(fit.stand_off_mm, digits=2)}."
            f" The tallest band that fits goes from {mm_words(low)} to {mm_words(high)}:"
            f" set the band from {mm_words(low)}, height {mm_words(fit.tallest_height_mm)}.",
            figure=fit.misfit_mm,
            limit=tolerance_mm,
            unit="mm",
        )
    ]


def _short_overlap(overlap_mm: float, need: OverlapNeed) -> list[Finding]:
    wanted = max(LEAST_OVERLAP_MM, need.sum_mm)
    if overlap_mm >= wanted:
        return []
    parts = (
        f"{mm_words(need.hold_mm)} to hold, {mm_words(need.growth_mm)} for growth in the heat,"
        f" {mm_words(need.misfit_mm)} for misfit, {mm_words(need.doubt_mm)} for what the girth may be out by"
    )
    if overlap_mm == 0.0:
        words = (
            f"The ends butt: a girth read {mm_words(need.doubt_mm + need.growth_mm)} short leaves a bare line"
            " that wide."
            " Try the trimmed transfer round the cold blank first, cut the end back until it closes,"
            " and tape over the whole join."
        )
    else:
        words = (
            f"The overlap of {mm_words(overlap_mm)} is less than the {mm_words(wanted)} that the readings ask for"
            f" ({parts}). Use {mm_words(need.rounded_mm)}, or measure more closely."
        )
    return [Finding("overlap-short", Severity.WARNING, words, figure=overlap_mm, limit=wanted, unit="mm")]
