"""The papers that go with the sheets: the proof and the ticket."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import rgb_of
from wrapwright.core.base.findings import Finding
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.measuring.wall import tape_taken_off
from wrapwright.core.checks.facts import Facts
from wrapwright.core.design.borders import bleed_outline, safe_outline, trim_outline
from wrapwright.core.design.elements import goes_round, kind_word
from wrapwright.core.design.frame import seen_frame
from wrapwright.core.sheet.placed import Arrangement
from wrapwright.data.recipes import family
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.painting import seen_wrap
from wrapwright.jobs.work.reporting import ppi_of, raster_copies

if TYPE_CHECKING:
    from wrapwright.outside.documents.facts import BlankFacts, Box, ElementRow, FlatPicture, WrapFacts
    from wrapwright.outside.documents.proof import ProofData, View
    from wrapwright.outside.documents.steps import SheetFacts, Work
    from wrapwright.outside.documents.ticket import TicketData

SIDES_DEG = (0.0, 90.0, 180.0, 270.0)
# Pixels per inch of the flat wrap on proof and ticket, at its own size; the page shows it smaller.
SEEN_PPI = 150.0
# Papers that Letter users have in the house; everyone else gets A4.
LETTER_USERS = ("letter", "legal", "tabloid")


@dataclass(frozen=True, eq=False)
class SeenWrap:
    """The flat wrap as printed on white, sRGB (h, w, 3), and with the coating showing through, as a picture."""

    colours: NDArray[np.uint8]
    art: FlatPicture


def seen_of(composed: Composition) -> SeenWrap:
    """Return the flat wrap as seen, for proof and ticket."""
    colours, box = seen_wrap(composed, SEEN_PPI)
    return SeenWrap(colours, _on_coating(composed, colours, box))


def _on_coating(composed: Composition, colours: NDArray[np.uint8], box: Box) -> FlatPicture:
    """Return the colours as they look with the coating showing through, as a picture."""
    from wrapwright.core.colour.coating import on_coating
    from wrapwright.outside.documents.facts import FlatPicture
    from wrapwright.outside.pages.picture import picture_png

    # Each channel of the result hangs on the same channel of the print alone: 256 values say it all.
    codes = np.repeat(np.arange(256)[:, None], 3, axis=1) / 255.0
    table = np.rint(on_coating(codes, rgb_of(composed.opened.job.blank.coating)) * 255.0).astype(np.uint8)
    coated = np.stack([table[:, band][colours[..., band]] for band in range(3)], axis=-1)
    return FlatPicture(picture_png(coated), box)


def _first_sheet(composed: Composition, seen: SeenWrap, wrap: WrapFacts) -> tuple[WrapFacts, FlatPicture]:
    """Return what lies on the first page: the wrap, or its first panel with the part of the art that is on it."""
    if not wrap.panels:
        return wrap, seen.art
    panel = wrap.panels[0]
    left, bottom, right, top = bleed_outline(panel, wrap.bleed_mm).box()
    whole, (high, wide) = seen.art.box, seen.colours.shape[:2]
    pitch = (whole[2] - whole[0]) / wide, (whole[3] - whole[1]) / high
    columns = max(0, int((left - whole[0]) / pitch[0])), min(wide, math.ceil((right - whole[0]) / pitch[0]))
    rows = max(0, int((whole[3] - top) / pitch[1])), min(high, math.ceil((whole[3] - bottom) / pitch[1]))
    part = seen.colours[rows[0] : rows[1], columns[0] : columns[1]]
    box = (
        whole[0] + columns[0] * pitch[0],
        whole[3] - rows[1] * pitch[1],
        whole[0] + columns[1] * pitch[0],
        whole[3] - rows[0] * pitch[1],
    )
    return replace(wrap, flat=panel, trim=trim_outline(panel), panels=()), _on_coating(composed, part, box)


def proof_data(
    composed: Composition, seen: SeenWrap, findings: Sequence[Finding], facts: Facts, panels: tuple[FlatWrap, ...] = ()
) -> ProofData:
    """Return what the proof shows; `panels` are those of a wrap that is printed in several pieces."""
    from wrapwright.outside.documents.proof import ProofData

    job = composed.opened.job
    return ProofData(
        title=job.title,
        blank=_blank(composed),
        wrap=_wrap(composed, panels),
        art=seen.art,
        views=_views(composed, seen),
        elements=_elements(composed, facts),
        findings=tuple(findings),
        quantity=job.quantity,
        date=_date(composed),
        paper=_paper(composed),
        notes=composed.remarks,
    )


def ticket_data(composed: Composition, seen: SeenWrap, findings: Sequence[Finding], sheets: Arrangement) -> TicketData:
    """Return what the ticket says."""
    from wrapwright.jobs.press.plan.for_job import is_double
    from wrapwright.jobs.press.plan.on_ticket import heat_facts
    from wrapwright.outside.documents.ticket import TicketData

    job, recipe = composed.opened.job, composed.recipe
    wrap = _wrap(composed, sheets.panels)
    on_page, art = _first_sheet(composed, seen, wrap)
    return TicketData(
        title=job.title,
        blank=_blank(composed),
        wrap=wrap,
        on_page=on_page,
        sheet=_sheet(composed, sheets),
        art=art,
        ware=recipe.ware if recipe else "unknown",
        heater=_heater(composed),
        recipe=recipe,
        heat=heat_facts(composed.heat, composed.heated),
        double=is_double(job, recipe),
        findings=tuple(findings),
        quantity=job.quantity,
        date=_date(composed),
        paper=_paper(composed),
    )


def work_of(composed: Composition, sheets: Arrangement) -> Work:
    """Return what the ticket's steps are about, of a composition whose pages are arranged."""
    from wrapwright.jobs.press.plan.for_job import is_double
    from wrapwright.outside.documents.steps import Work

    recipe = composed.recipe
    return Work(
        _blank(composed),
        _wrap(composed, sheets.panels),
        _sheet(composed, sheets),
        ware=recipe.ware if recipe else "unknown",
        heater=_heater(composed),
        recipe=recipe,
        double=is_double(composed.opened.job, recipe),
    )


def _heater(composed: Composition) -> str:
    """Return "oven", "press" or "unknown" of what heats: the job's own heater, else the recipe's kind."""
    if composed.heat is not None and composed.heat.heater is not None:
        return family(composed.heat.heater.heater.kind)
    return family(composed.recipe.heater) if composed.recipe else "unknown"


def _sheet(composed: Composition, sheets: Arrangement) -> SheetFacts:
    from wrapwright.core.sheet.guides import guides_mm
    from wrapwright.outside.documents.bench_drawings import Page
    from wrapwright.outside.documents.steps import SheetFacts

    job, first = composed.opened.job, sheets.pages[0]
    there = composed.colouring.there
    bars = [mark for mark in first.marks if mark.startswith("check bars")]
    return SheetFacts(
        paper=job.sheet.paper,
        page=Page(first.width_mm, first.height_mm, first.to_page, first.turn_deg),
        pages=len(sheets.pages),
        ppi=job.sheet.ppi,
        guides_mm=guides_mm(first.marks),
        bleed_mm=first.bleed_mm,
        check_bar_mm=float(bars[0].split()[2]) if bars else 0.0,
        route=job.colour.route,
        profile=there.device.description if there else "",
        intent=job.colour.intent,
        black_point=job.colour.black_point,
        scaled=job.sheet.calibrated,
        notes=sheets.notes,
    )


def _date(composed: Composition) -> str:
    date = composed.opened.job.date
    return date.isoformat() if date else ""


def _paper(composed: Composition) -> str:
    return "Letter" if composed.opened.job.sheet.paper.casefold() in LETTER_USERS else "A4"


def _blank(composed: Composition) -> BlankFacts:
    from wrapwright.outside.documents.facts import BlankFacts

    blank = composed.opened.job.blank
    ware = composed.recipe.ware if composed.recipe else ""
    return BlankFacts(
        name=blank.name,
        kind=blank.kind,
        profile=composed.wrapped.profile,
        coating=blank.coating,
        handle=(blank.handle.at_deg, blank.handle.gap_mm) if blank.handle else None,
        weld=ware in ("steel", "double-walled", "aluminium"),
        keepouts=blank.keepouts,
        tape_off=tape_taken_off(blank, thickness_mm=composed.wrapped.thickness_mm),
    )


def _wrap(composed: Composition, panels: tuple[FlatWrap, ...]) -> WrapFacts:
    from wrapwright.outside.documents.facts import WrapFacts

    wrapped, request = composed.wrapped, composed.opened.job.wrap
    return WrapFacts(
        flat=wrapped.wrap,
        band_from_mm=wrapped.band_from_mm,
        trim=trim_outline(wrapped.wrap),
        safe=safe_outline(wrapped.wrap, request.safe_mm),
        bleed_mm=request.bleed_mm,
        safe_mm=request.safe_mm,
        rim=request.rim,
        base=request.base,
        budget=wrapped.overlap_budget,
        misfit_mm=wrapped.misfit_mm,
        misfit_share=wrapped.distance_error,
        opposite_mm=wrapped.opposite_error_mm,
        panels=panels,
        within_mm=wrapped.opposite_error_mm + wrapped.misfit_mm / 2.0,
    )


def _elements(composed: Composition, facts: Facts) -> tuple[ElementRow, ...]:
    from wrapwright.outside.documents.facts import ElementRow

    elements, raster = composed.opened.job.elements, raster_copies(composed)
    flat = composed.wrapped.wrap.plate is not None
    return tuple(
        ElementRow(
            name=elements[extent.element].name,
            kind=kind_word(elements[extent.element]),
            at_deg=extent.at_deg,
            up_mm=extent.up_mm,
            width_mm=extent.width_mm,
            height_mm=extent.height_mm,
            lay=extent.lay,
            vector=(extent.element, extent.copy) not in raster,
            effective_ppi=ppi,
            all_round=goes_round(elements[extent.element]),
            across_mm=extent.across_mm if flat else None,
        )
        for extent, ppi in zip(composed.draw_list.extents, ppi_of(composed, facts), strict=True)
    )


def _views(composed: Composition, seen: SeenWrap) -> tuple[View, ...]:
    from wrapwright.outside.documents.proof import VIEW_PX, View
    from wrapwright.outside.pages.picture import picture_png
    from wrapwright.outside.raster.piece.dye import FlatArt
    from wrapwright.outside.raster.piece.plate import PLATE_PX, plate_view
    from wrapwright.outside.raster.piece.view import Piece, piece_views, snug

    blank = composed.opened.job.blank
    art = FlatArt(seen.colours, seen_frame(seen.art.box, SEEN_PPI))
    if composed.wrapped.wrap.plate is not None:
        view = plate_view(composed.wrapped.wrap, art, coating=rgb_of(blank.coating), size_px=PLATE_PX)
        return (View(0.0, picture_png(view)),)
    piece = Piece(
        profile=composed.wrapped.profile,
        wrap=composed.wrapped.wrap,
        band_from_mm=composed.wrapped.band_from_mm,
        coating=rgb_of(blank.coating),
        handle=(blank.handle.at_deg, blank.handle.gap_mm) if blank.handle else None,
    )
    views = snug(piece_views(piece, art, at_deg=SIDES_DEG, size_px=VIEW_PX))
    return tuple(View(at, picture_png(view)) for at, view in zip(SIDES_DEG, views, strict=True))
