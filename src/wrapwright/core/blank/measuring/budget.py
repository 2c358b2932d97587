"""How well a girth is known, term by term (JCGM 100:2008), and the overlap that this asks for."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from wrapwright.core.blank.gauge.carried import Printed
from wrapwright.core.blank.measuring.tape import PAPER_TOOLS, TAPE_CLASSES, tape_error_mm, tape_kind
from wrapwright.core.blank.readings import How, Tape

Grain = Literal["along", "across", "unknown"]

HOLD_MM = 2.0  # what the tape needs to hold on
STEEL_GROWTH_MM = 0.7  # hot growth when neither material nor recipe is named
ROOM_C = 25.0
COVERAGE = 3.09  # one-sided 99.9 % of a normal distribution
LEAST_OVERLAP_MM = 3.0
OVERLAP_STEP_MM = 0.5

_LAY_MM = 0.3
_GAUGE_LAY_MM = 0.1
_VERNIER_STEP_MM = 0.1
_CALLIPER_MM = 0.05
_PAPER_MM = 0.02  # how well the thickness of a paper is known
_UNKNOWN_TAPE_MM = 1.6
_SEWING_SHARE = 0.005
_SCALE_SHARE = 0.005
_MOISTURE_SHARE = {"along": 0.001, "across": 0.002, "unknown": 0.002}
# Two long calibration lines, each read to half a millimetre.
_CALIBRATION_MM = (0.5, 200.0)


@dataclass(frozen=True)
class Term:
    """One source of doubt: half-width a of a rectangular distribution, standard uncertainty a/sqrt 3, source."""

    what: str
    half_width_mm: float
    standard_mm: float
    source: str


@dataclass(frozen=True)
class Heat:
    """What the blank grows by: linear expansion per kelvin and the recipe's temperature."""

    expansion_per_k: float
    temperature_c: float
    material: str = ""

    def growth_mm(self, girth_mm: float) -> float:
        """Return the growth of a girth from room temperature, at least 0."""
        return max(0.0, self.expansion_per_k * (self.temperature_c - ROOM_C) * girth_mm)


@dataclass(frozen=True)
class Measuring:
    """How a girth came about: the tool, what was read, and the set-up that prints.

    Attributes:
        tape: the tool.
        how: what was read.
        calibrated: whether the printer's scale was measured.
        grain: the paper's grain against the wrap's length.
        scale_error: what the measured scale may be out by, as a share; None: not known.
        printed: how a gauge's set-up and the one that prints the wrap go together.
    """

    tape: Tape
    how: How = "girth"
    calibrated: bool = False
    grain: Grain = "unknown"
    scale_error: float | None = None
    printed: Printed = "same"


def terms(girth_mm: float, measuring: Measuring) -> tuple[Term, ...]:
    """Return every source of doubt about a flat length that comes from this girth, in mm of girth.

    Raises:
        WrapwrightError: unusable; a tape of an unknown kind.
    """
    kind = tape_kind(measuring.tape)
    share = _MOISTURE_SHARE[measuring.grain]
    moisture = _term(
        "paper moisture",
        share * girth_mm,
        f"estimate: {100 * share:g} % of the length (grain {measuring.grain}), low end of mill figures for bond paper",
    )
    if kind == "gauge":
        return (*_gauge(girth_mm, measuring), moisture)
    round_factor = math.pi if measuring.how == "diameter" else 1.0
    found = [
        _term("reading", round_factor * measuring.tape.division_mm / 2.0, "half a division"),
        _tool(kind, girth_mm, round_factor),
        _term("lay of the tape", _LAY_MM, "estimate"),
    ]
    if measuring.how == "girth" and measuring.tape.thickness_mm is None and kind not in PAPER_TOOLS:
        found.append(
            _term("tape thickness", _UNKNOWN_TAPE_MM / 2.0, "estimate: not known, 0 to 1.6 mm, nothing taken off")
        )
    return (*found, _scale(girth_mm, calibrated=measuring.calibrated, share=measuring.scale_error), moisture)


def _gauge(girth_mm: float, measuring: Measuring) -> list[Term]:
    """Return the doubts of a gauge; printer and paper cancel while it is the wrap's own set-up, the same way round."""
    own = [
        _term("reading", _VERNIER_STEP_MM / 2.0, "half a vernier step"),
        _term("lay of the strip", _GAUGE_LAY_MM, "estimate"),
    ]
    if measuring.tape.pieces > 1:
        own.append(_term("join of the strip's pieces", (measuring.tape.pieces - 1) * _GAUGE_LAY_MM, "estimate"))
    scale = _scale(girth_mm, calibrated=measuring.calibrated, share=measuring.scale_error)
    if measuring.how == "flat" and measuring.printed == "same":
        return own
    if measuring.how == "flat" and measuring.printed == "other":
        then = replace(
            _scale(girth_mm, calibrated=measuring.tape.scale is not None), what="scale of the gauge's printer"
        )
        papers = _term("thickness of the two papers", math.pi * 2.0 * _PAPER_MM, "estimate: 0.02 mm each")
        return [*own, then, scale, papers]
    return [*own, scale]


def plate_terms(width_mm: float, measuring: Measuring) -> tuple[Term, ...]:
    """Return every source of doubt about the width of a flat blank and its print: nothing goes round anything."""
    share = _MOISTURE_SHARE[measuring.grain]
    return (
        _term("reading", measuring.tape.division_mm / 2.0, "half a division"),
        _scale(width_mm, calibrated=measuring.calibrated),
        _term("paper moisture", share * width_mm, f"estimate: {100 * share:g} % of the length"),
    )


def _tool(kind: str, girth_mm: float, round_factor: float) -> Term:
    """Return the error of the tool itself, carried from what it read to the girth."""
    if kind == "sewing tape":
        return _term("sewing tape", _SEWING_SHARE * girth_mm, "estimate: 0.5 % of the girth")
    if kind == "calliper":
        return _term("calliper", round_factor * _CALLIPER_MM, "estimate: 0.05 mm")
    read_mm = girth_mm / round_factor
    if kind in TAPE_CLASSES:
        name = "class " + kind.split()[1].upper()
        return _term(
            f"tape {name}", round_factor * tape_error_mm(kind, read_mm), "Measuring Instruments Directive, a + b L"
        )
    error = tape_error_mm("class ii", read_mm)
    return _term(kind, round_factor * error, "estimate: as a class II tape")


def _scale(girth_mm: float, *, calibrated: bool, share: float | None = None) -> Term:
    if not calibrated:
        return _term("printer scale", _SCALE_SHARE * girth_mm, "estimate: 0.5 % of the length, never calibrated")
    if share is not None:
        return _term("printer scale", share * girth_mm, f"calibration: its two lengths read to {100 * share:.2g} %")
    reading, length = _CALIBRATION_MM
    return _term("printer scale", girth_mm * reading / length, f"calibration read to {reading} mm on {length:g} mm")


def _term(what: str, half_width_mm: float, source: str) -> Term:
    return Term(what, half_width_mm, half_width_mm / math.sqrt(3.0), source)


def combined_mm(budget: tuple[Term, ...]) -> float:
    """Return the combined standard uncertainty u_c: the root of the sum of squares (JCGM 100:2008, 5.1.2)."""
    return math.sqrt(sum(term.standard_mm**2 for term in budget))


def expanded_mm(budget: tuple[Term, ...]) -> float:
    """Return what the girth may be out by: 3.09 u_c, never more than all half-widths together."""
    return min(COVERAGE * combined_mm(budget), sum(term.half_width_mm for term in budget))


@dataclass(frozen=True)
class OverlapNeed:
    """What an overlap has to cover, part by part, in mm."""

    hold_mm: float
    growth_mm: float
    misfit_mm: float
    doubt_mm: float

    @property
    def sum_mm(self) -> float:
        """All parts together."""
        return self.hold_mm + self.growth_mm + self.misfit_mm + self.doubt_mm

    @property
    def rounded_mm(self) -> float:
        """The overlap to use: rounded up to half a millimetre, never under 3 mm."""
        steps = math.ceil(self.sum_mm / OVERLAP_STEP_MM - 1e-9)
        return max(LEAST_OVERLAP_MM, steps * OVERLAP_STEP_MM)


def overlap_need(girth_mm: float, budget: tuple[Term, ...], *, heat: Heat | None, short_mm: float) -> OverlapNeed:
    """Return the parts of the overlap; without `heat` the growth is that of a steel blank, 0.7 mm."""
    growth = STEEL_GROWTH_MM if heat is None else heat.growth_mm(girth_mm)
    return OverlapNeed(HOLD_MM, growth, short_mm, expanded_mm(budget))
