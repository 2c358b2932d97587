"""The report of sheets of many jobs: what went in, where every piece lies, how they are cut."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from pathlib import Path as File
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.findings import Finding
from wrapwright.core.blank.statement import blank_statement, wrap_statement
from wrapwright.core.checks.facts import Facts
from wrapwright.core.sheet.cut.values import CutList
from wrapwright.core.sheet.lay.printed.values import LaidPage, LaidPiece
from wrapwright.core.sheet.lay.values import Box, LaidSheet, Layout
from wrapwright.core.sheet.lay.words import rest_words
from wrapwright.jobs.lay.gathering import Gathered, Member
from wrapwright.jobs.lay.goods import Goods
from wrapwright.jobs.lay.printing import FILE, Printed
from wrapwright.jobs.work.reporting import inputs_of, ppi_of, raster_copies
from wrapwright.outside.system.files import file_sha256
from wrapwright.outside.system.installed import version

if TYPE_CHECKING:
    from wrapwright.outside.jobfile.together.report import TogetherReport

Row = dict[str, Any]


def together_report(
    gathered: Gathered, goods: Goods, layout: Layout, cuts: CutList, printed: Printed,
    judged: Sequence[tuple[tuple[Finding, ...], Facts]], files: Sequence[File],
) -> TogetherReport:  # fmt: skip
    """Return the report.

    Args:
        gathered: what was asked, and the jobs.
        goods: what was laid of them.
        layout: where.
        cuts: how it is cut.
        printed: the pages.
        judged: for each job what the checks found, and their facts.
        files: every file made.
    """
    from wrapwright.outside.jobfile.together.report import TogetherReport

    asked = gathered.asked
    return TogetherReport.model_validate(
        {
            "wrapwright": version(),
            "title": asked.title,
            "scale": [asked.sheet.scale_across, asked.sheet.scale_along],
            "lay": _lay(layout, cuts),
            "inputs": [{"path": gathered.name, "sha256": gathered.sha256}] if gathered.name else [],
            "jobs": [
                _job(member, (*member.notes, *notes), *found)
                for member, notes, found in zip(gathered.members, goods.notes, judged, strict=True)
            ],
            "sheets": [
                _sheet(number, page, laid, digests, layout, goods)
                for number, (page, laid, digests) in enumerate(
                    zip(printed.pages, layout.sheets, printed.pixels, strict=True), 1
                )
            ],
            "cuts": [_cut(stroke, goods) for stroke in cuts.strokes],
            "notes": [*layout.notes, *cuts.notes, *_rests(layout)],
            "files": [_file(one) for one in files],
        }
    )


def _lay(layout: Layout, cuts: CutList) -> Row:
    request = layout.request
    papers = []
    for index, stock in enumerate(request.stocks):
        own = [sheet for sheet in layout.sheets if sheet.stock == index]
        if own:
            length = sum(sheet.height_mm for sheet in own) if stock.height_mm is None else None
            papers.append({"paper": stock.paper, "sheets": len(own), "length_mm": length, "price": stock.price})
    return {
        "way": request.way,
        "gutter_mm": request.gutter_mm,
        "pieces": sum(len(sheet.pieces) for sheet in layout.sheets),
        "sheets": len(layout.sheets),
        "bound": layout.bound,
        "least_cost": layout.least_cost,
        "proven": layout.proven,
        "words": layout.words,
        "papers": papers,
        "strokes": len(cuts.strokes),
        "settings": cuts.settings,
        "scissors_cm": cuts.scissors_cm,
    }


def _job(member: Member, notes: Sequence[str], findings: Sequence[Finding], facts: Facts) -> Row:
    from wrapwright.outside.jobfile.report import check_rows, element_rows

    composed = member.composed
    job = composed.opened.job
    return {
        "title": job.title,
        "name": member.asked.name,
        "order": member.asked.order,
        "quantity": job.quantity,
        "working_space": composed.colouring.working.name,
        "inputs": inputs_of(composed),
        "blank": blank_statement(composed.wrapped),
        "wrap": wrap_statement(composed.wrapped),
        "elements": element_rows(job.elements, composed.draw_list, ppi_of(composed, facts), raster_copies(composed)),
        "checks": check_rows(findings),
        "notes": list(dict.fromkeys(notes)),
    }


def _sheet(
    number: int, page: LaidPage, laid: LaidSheet, digests: Sequence[str | None], layout: Layout, goods: Goods
) -> Row:
    across, along = _scale(page, laid)
    known = [digest for digest in digests if digest is not None]
    return {
        "file": FILE,
        "page": number,
        "paper": layout.request.stocks[laid.stock].paper,
        "width_mm": page.width_mm,
        "height_mm": page.height_mm,
        "pixels_sha256": hashlib.sha256("\n".join(known).encode("ascii")).hexdigest() if known else None,
        "marks": list(page.marks),
        "pieces": [_piece(one, digest, goods) for one, digest in zip(page.pieces, digests, strict=True)],
        "rest": _rest(laid.rest, across, along),
    }


def _scale(page: LaidPage, laid: LaidSheet) -> tuple[float, float]:
    return laid.width_mm / page.width_mm, laid.height_mm / page.height_mm


def _piece(piece: LaidPiece, digest: str | None, goods: Goods) -> Row:
    left, bottom, right, top = piece.trim_box
    return {
        "piece": piece.slip.piece,
        "x_mm": left,
        "y_mm": bottom,
        "width_mm": right - left,
        "height_mm": top - bottom,
        "turn_deg": piece.turn_deg,
        "mirrored": True,
        "marks": list(piece.marks),
        "panel": goods.goods[piece.good].panel,
        "job": goods.members[piece.good] + 1,
        "code": piece.slip.code if "data matrix" in piece.marks else "",
        "pixels_sha256": digest,
    }


def _rest(rest: Box | None, across: float, along: float) -> Row | None:
    if rest is None:
        return None
    left, bottom, right, top = rest
    return {
        "x_mm": left / across,
        "y_mm": bottom / along,
        "width_mm": (right - left) / across,
        "height_mm": (top - bottom) / along,
    }


def _cut(stroke: Any, goods: Goods) -> Row:
    return {
        "stroke": stroke.number,
        "kind": stroke.kind,
        "sheets": [layer.sheet + 1 for layer in stroke.layers],
        "fence_mm": stroke.fence_mm,
        "length_mm": stroke.length_mm,
        "turn": stroke.turn,
        "pieces": [goods.goods[part].slips[copy].piece for part, copy in stroke.frees],
    }


def _rests(layout: Layout) -> list[str]:
    found = []
    for number, sheet in enumerate(layout.sheets, 1):
        words = rest_words(sheet, layout.request.stocks[sheet.stock])
        if words:
            found.append(f"Sheet {number}: {words}.")
    return found


def _file(file: File) -> Row:
    return {"path": file.name, "sha256": file_sha256(file), "bytes": file.stat().st_size}
