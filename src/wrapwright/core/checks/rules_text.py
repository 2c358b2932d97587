"""Rules about text and codes: glyphs, sizes, strokes, contrast, reach round the blank, reading back."""

from __future__ import annotations

import math

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.blank.sight import HAND_MM, READ_HALF_DEG, read_window_mm, seen_round_deg
from wrapwright.core.checks.facts import Facts
from wrapwright.core.checks.telling import apart, worst_copies, worst_measured
from wrapwright.core.design.supplies import Misfit

# Common practice, no source, but for the contrast formula (WCAG 2) and the code's reach.
CAP_HEIGHT_MM = 2.0
STROKE_MM = 0.25
CONTRAST = 3.0
MODULE_MM = 0.4
CODE_DEG = 60.0  # half-angle 30 degrees: GS1 General Specifications, curved surfaces (from memory)


def glyph_missing(facts: Facts) -> list[Finding]:
    """Return an error for each text with characters that no font has."""
    found = []
    for one in facts.elements:
        if one.missing:
            signs = ", ".join(f"{sign} (U+{ord(sign[0]):04X})" for sign in one.missing[:8])
            more = f" and {len(one.missing) - 8} more" if len(one.missing) > 8 else ""
            message = (
                f"{one.name} has {len(one.missing)} character(s) that none of its fonts has (the limit is 0): {signs}"
                f"{more}. {one.advice or 'Name a font that has them, or take them out.'}"
            )
            found.append(Finding("glyph-missing", Severity.ERROR, message, one.name, float(len(one.missing)), 0.0))
    return found


def text_does_not_fit(facts: Facts) -> list[Finding]:
    """Return an error for each text that cannot be brought into its box."""
    return [
        Finding(
            "text-does-not-fit",
            Severity.ERROR,
            f"{one.name} {_missed(one.text_misfit)} Make the box larger, the text shorter, or break it into lines.",
            one.name,
            one.text_misfit.figure_mm,
            one.text_misfit.limit_mm,
            "mm",
        )
        for one in facts.elements
        if one.text_misfit is not None
    ]


def _missed(misfit: Misfit) -> str:
    """Return by how much a text misses its box."""
    figure, limit = apart(misfit.figure_mm, misfit.limit_mm, 1), f"{misfit.limit_mm:.1f}"
    if misfit.what == "capitals":
        figure = apart(misfit.figure_mm, misfit.limit_mm, 2)
        return f"would go into its box only with capitals {figure} mm high, under the smallest of {limit} mm."
    if misfit.what == "turn":
        return f"has a line {figure} mm long, over one turn of its arc ({limit} mm)."
    side = "wide" if misfit.what == "length" else "high"
    return f"is {figure} mm {'long' if side == 'wide' else side}, over the {limit} mm that its box is {side}."


def text_small(facts: Facts) -> list[Finding]:
    """Return a warning for each text whose capitals are under 2 mm high."""
    return [
        Finding(
            "text-small",
            Severity.WARNING,
            f"{one.name} has capitals {apart(one.cap_height_mm, CAP_HEIGHT_MM, 2)} mm high, under {CAP_HEIGHT_MM:g} "
            "mm: dye spreads and closes them. Make it larger.",
            one.name,
            one.cap_height_mm,
            CAP_HEIGHT_MM,
            "mm",
        )
        for one in facts.elements
        if one.cap_height_mm is not None and one.cap_height_mm < CAP_HEIGHT_MM
    ]


def stroke_thin(facts: Facts) -> list[Finding]:
    """Return a warning for each element whose thinnest stroke or line is under 0.25 mm."""
    found = []
    for one in facts.elements:
        thinnest = min((width for width in (one.stem_mm, one.line_mm) if width is not None), default=STROKE_MM)
        if thinnest < STROKE_MM:
            message = (
                f"the thinnest stroke of {one.name} is {apart(thinnest, STROKE_MM, 2)} mm, under {STROKE_MM:g} mm: "
                "it may not hold. Use a heavier weight, a thicker line or a larger size."
            )
            found.append(Finding("stroke-thin", Severity.WARNING, message, one.name, thinnest, STROKE_MM, "mm"))
    return found


def text_contrast(facts: Facts) -> list[Finding]:
    """Return a warning for each text with less than 3:1 of contrast once printed; never rounded up."""
    found = []
    for row, label, away in worst_measured(facts, lambda one: None if one.contrast is None else -one.contrast):
        if -away < CONTRAST:
            message = (
                f"{label} has a contrast of {_down(-away)}:1 as printed, under {CONTRAST:g}:1: it is hard to read. "
                "Choose a colour further from what lies behind it, or give it an outline."
            )
            found.append(Finding("text-contrast", Severity.WARNING, message, row.element, -away, CONTRAST, ":1"))
    return found


def _down(ratio: float) -> str:
    """Return a ratio with two digits, cut, not rounded."""
    return f"{int(ratio * 100) / 100:.2f}"


def text_too_long(facts: Facts) -> list[Finding]:
    """Return a warning for each text longer than a third of the girth: one view cannot read it."""
    found = []
    for copy, degrees in worst_copies(facts, lambda one: one.span_deg if one.kind == "text" else None):
        if degrees > 2.0 * READ_HALF_DEG + 1e-9:
            limit, near = read_window_mm(copy.round_mm), read_window_mm(copy.round_mm, HAND_MM)
            seen = copy.round_mm * seen_round_deg(copy.round_mm, HAND_MM) / 180.0
            message = (
                f"{copy.label} is {apart(copy.span_mm, limit, 1)} mm long, over a third of the girth ({limit:.1f} "
                f"mm): a far eye cannot read it from one side, one {HAND_MM:g} mm away reads {near:.1f} mm and sees "
                f"{seen:.1f} mm. Break it into lines or make it smaller."
            )
            found.append(Finding("text-too-long", Severity.WARNING, message, copy.element, copy.span_mm, limit, "mm"))
    return found


def code_module(facts: Facts) -> list[Finding]:
    """Return an error for each code whose modules are under 0.4 mm."""
    return [
        Finding(
            "code-module",
            Severity.ERROR,
            f"{one.name} has modules of {apart(one.module_mm, MODULE_MM, 2)} mm, under {MODULE_MM:g} mm: phones "
            f"cannot be sure of it. Make it at least {math.ceil(MODULE_MM / one.module_mm * 100)} % of its width, or "
            "say less in it.",
            one.name,
            one.module_mm,
            MODULE_MM,
            "mm",
        )
        for one in facts.elements
        if one.module_mm is not None and one.module_mm < MODULE_MM - 1e-9
    ]


def code_wide(facts: Facts) -> list[Finding]:
    """Return a warning for each code that reaches more than 60 degrees round the blank."""
    found = []
    for copy, degrees in worst_copies(facts, lambda one: one.span_deg if one.kind == "code" else None):
        if degrees > CODE_DEG + 1e-9:
            limit = copy.round_mm * CODE_DEG / 360.0
            message = (
                f"{copy.label} reaches {apart(degrees, CODE_DEG)} degrees round the blank, over {CODE_DEG:g}: its "
                f"sides turn away from the camera. Make it no wider than {limit:.1f} mm."
            )
            found.append(Finding("code-wide", Severity.WARNING, message, copy.element, degrees, CODE_DEG, "deg"))
    return found


def code_unreadable(facts: Facts) -> list[Finding]:
    """Return an error for each code that was not read back from the print."""
    return [
        Finding(
            "code-unreadable",
            Severity.ERROR,
            f"{label} could not be read back from its own print. Make it larger, darker on a lighter ground, or move "
            "what lies over it.",
            row.element,
        )
        for row, label, _ in worst_measured(facts, lambda one: 1.0 if one.code_read is False else None)
    ]
