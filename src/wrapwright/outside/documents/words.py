"""The facts in words, as rows and sentences that both documents share."""

from __future__ import annotations

import math
from collections.abc import Sequence

from wrapwright.core.base.colours import hex_of, rgb_of
from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.base.places import at_place_words, place_words
from wrapwright.core.base.units import both_words, mm_words
from wrapwright.core.blank.plate import Plate
from wrapwright.outside.documents.facts import BlankFacts, ElementRow, WrapFacts, bare_edges_mm, covers_wall

Row = list[str]

_KINDS = {"straight": "straight wall", "tapered": "tapered wall", "profile": "measured profile", "flat": "flat blank"}
_MARKS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "note"}
_PICTURE = frozenset({"picture", "tile"})


def blank_rows(blank: BlankFacts) -> list[Row]:
    """Return label and value of each fact of the blank."""
    rows = [["Blank", f"{blank.name}, {_KINDS[blank.kind]}" if blank.name else _KINDS[blank.kind].capitalize()]]
    bare = ", bare (tape taken off)" if blank.tape_off else ", bare"
    (low, girth_low), (high, girth_high) = blank.profile[0], blank.profile[-1]
    if blank.kind == "flat":
        rows.append(["Size", f"{mm_words(girth_low)} wide, {mm_words(high - low)} high"])
    elif blank.kind == "straight":
        rows.append(["Girth", both_words(girth_low) + bare])
    else:
        rows.append(["Girth at the top", both_words(girth_high) + bare])
        rows.append(["Girth at the bottom", both_words(girth_low) + bare])
    if blank.kind == "profile":
        position, fullest = max(blank.profile, key=lambda reading: reading[1])
        rows.append(["Fullest", f"{both_words(fullest)}{bare}, at {mm_words(position)}"])
    if blank.kind != "flat":
        rows.append(["Wall", both_words(high - low)])
    rows.append(["Coating", hex_of(rgb_of(blank.coating))])
    if blank.handle:
        rows.append(["Handle", f"{place_words(blank.handle[0])}, {mm_words(blank.handle[1])} bare"])
    for one in blank.keepouts:
        why = f" ({one.why})" if one.why else ""
        size = f"{one.width_mm:g} × {one.height_mm:g} mm"
        place = across_words(one.across_mm) if blank.kind == "flat" else place_words(one.at_deg)
        rows.append(["Keep-out", f"{place}, {mm_words(one.up_mm)} up, {size}{why}"])
    return rows


def across_words(across_mm: float) -> str:
    """Return where something is across a flat blank, as seen."""
    if abs(across_mm) < 0.05:
        return "in the middle"
    return f"{mm_words(abs(across_mm))} {'right' if across_mm > 0 else 'left'} of the middle"


def wrap_rows(wrap: WrapFacts, blank: BlankFacts) -> list[Row]:
    """Return label and value of each fact of the wrap."""
    flat = wrap.flat
    rows = [["Flat width", both_words(flat.trim_width_mm)], ["Flat height", both_words(flat.height_mm)]]
    if flat.is_sector:
        upside = ", upside down" if flat.inverted else ""
        rows.append(
            [
                "Sector",
                f"radii {mm_words(flat.outer_radius_mm)} and {mm_words(flat.inner_radius_mm)}, "
                f"{math.degrees(abs(flat.theta)):.2f}°{upside}",
            ]
        )
    if flat.plate is not None:
        return [*rows, *_plate_rows(wrap, flat.plate)]
    below, above = bare_edges_mm(blank, wrap)
    narrower = f"{mm_words(below)} above the wall's lower edge, {mm_words(above)} below its upper"
    rows.append(["Band", "the whole wall" if covers_wall(blank, wrap) else narrower])
    rows.append(["Seam", at_place_words(flat.seam_deg) if flat.gap_mm == 0 else "at the handle"])
    if flat.gap_mm == 0:
        rows.append(["Overlap", both_words(flat.overlap_mm) if flat.overlap_mm else "none: the ends butt"])
    rows.append(["Bleed, safe", f"{mm_words(wrap.bleed_mm)} at rim and base, {mm_words(wrap.safe_mm)}"])
    return rows


def _plate_rows(wrap: WrapFacts, plate: Plate) -> list[Row]:
    cut = {"circle": "a circle", "outline": "the outline as drawn"}.get(plate.kind, "a rectangle")
    if plate.corner_mm > 0.0:
        cut = f"a rectangle, corners rounded {mm_words(plate.corner_mm)}"
    return [["Cut to", cut], ["Bleed, safe", f"{mm_words(wrap.bleed_mm)} all round, {mm_words(wrap.safe_mm)}"]]


def budget_rows(wrap: WrapFacts) -> list[Row]:
    """Return the overlap's terms: what, half-width, standard uncertainty, source."""
    return [[term.what, f"± {term.half_width_mm:.2f}", f"{term.standard_mm:.2f}", term.source] for term in wrap.budget]


def budget_words(wrap: WrapFacts) -> str:
    """Return the overlap's terms in one sentence; empty without an overlap or without terms."""
    if not wrap.budget or wrap.flat.overlap_mm == 0:
        return ""
    terms = ", ".join(f"{term.what} ± {term.half_width_mm:.1f}" for term in wrap.budget)
    return (
        f"The overlap gives the tape a hold, takes the growth of the hot wall, and covers what is not known: "
        f"{terms} mm."
    )


def within_words(wrap: WrapFacts) -> str:
    """Return how true the place on the piece is, in words."""
    if wrap.flat.plate is not None:
        return (
            f"Estimated from these readings: the print's width is within ± {mm_words(2.0 * wrap.opposite_mm)} of the "
            "blank's."
        )
    said = (
        f"Estimated from these readings: what is printed lands within ± {mm_words(wrap.within_mm)} of its place round "
        f"the piece, front and back within {mm_words(wrap.opposite_mm)} of exactly opposite."
    )
    if wrap.misfit_mm > 0.05:
        said += (
            f" The wall bulges: the wrap and the girth differ by up to {mm_words(wrap.misfit_mm)}, distances round the "
            f"piece from the sheet's by up to {100.0 * wrap.misfit_share:.1f}\u00a0%."
        )
    return said


def element_rows(elements: Sequence[ElementRow]) -> list[Row]:
    """Return name, kind, place, centre height, size, lay and sharpness of each copy."""
    return [
        [
            one.name,
            one.kind,
            _place(one),
            mm_words(one.up_mm),
            f"{one.width_mm:.1f} × {one.height_mm:.1f} mm",
            one.lay,
            _sharpness(one),
        ]
        for one in elements
    ]


def _place(one: ElementRow) -> str:
    if one.across_mm is not None:
        return "all of it" if one.all_round else across_words(one.across_mm)
    return "all round" if one.all_round else place_words(round(one.at_deg, 1))


def _sharpness(one: ElementRow) -> str:
    if one.vector:
        return "vector"
    return "–" if one.effective_ppi is None else f"{one.effective_ppi:.0f} ppi"


def finding_rows(findings: Sequence[Finding]) -> list[dict[str, str]]:
    """Return the findings as the templates draw them: errors first, each in the order it was found."""
    order = list(Severity)
    ranked = sorted(findings, key=lambda one: order.index(one.severity))
    return [
        {
            "mark": _MARKS[one.severity],
            "word": f"{_MARKS[one.severity]}, accepted" if one.accepted else _MARKS[one.severity],
            "rule": one.rule,
            "element": one.element or "",
            "message": one.message,
        }
        for one in ranked
    ]


def tally_words(findings: Sequence[Finding]) -> str:
    """Return how many findings there are, in words."""
    counts = {severity: sum(one.severity is severity for one in findings) for severity in Severity}
    parts = [f"{count} {severity.value}{'s' if count != 1 else ''}" for severity, count in counts.items() if count]
    if not parts:
        return "Every check passed."
    return f"{', '.join(parts)}."


def accepted_words(findings: Sequence[Finding]) -> str:
    """Return the sentence that names the errors accepted by the user; empty when there are none."""
    rules = sorted({one.rule for one in findings if one.accepted})
    if not rules:
        return ""
    return f"Made in spite of {'an error' if len(rules) == 1 else 'errors'}, accepted by name: {', '.join(rules)}."


def proof_notes(elements: Sequence[ElementRow], *, flat: bool = False) -> list[str]:
    """Return what a proof cannot show, in words."""
    notes = [
        "Colour is an approximation: dye is transparent, so each channel's light is the print's, relative to white, "
        "times the coating's. White is no ink. Your screen and printer, and the light you look by, differ.",
        "Shine is not shown: metallic and clear coatings are drawn with their colour alone."
        + ("" if flat else " Lip, foot and handle are drawn, not measured."),
    ]
    if any(one.kind in _PICTURE for one in elements):
        notes.append("Use only pictures you may use.")
    return notes
