"""The sheet on a screen: its page in figures and words, and any part of it as pixels."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from wrapwright.core.base.errors import unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.composing.understood import Document
from wrapwright.jobs.live.values import Box, FindingView

if TYPE_CHECKING:
    from wrapwright.core.sheet.placed import Arrangement, PlacedPage
    from wrapwright.jobs.work.composing import Composition

Side = Literal["printed", "seen"]

MOST_PAGES = 50  # pages that a screen is told of; the others differ in their label alone
LEAST_PPI = 10.0


@dataclass(frozen=True)
class SeeSheet:
    """A design whose sheets are to be seen; its files lie in `folder`."""

    document: Document
    folder: Path


@dataclass(frozen=True)
class SheetPicture:
    """A part of a page as pixels.

    Attributes:
        document, folder: the design.
        page: from 1.
        ppi: pixels per inch, at most the sheet's own.
        side: "printed" as it comes out of the printer; "seen" as looked at through the paper, without the marks.
        box: left, top, width, height in mm from the page's upper left corner; None: the whole page. It is widened to
            whole pixels of the page.
    """

    document: Document
    folder: Path
    page: int = 1
    ppi: float = 60.0
    side: Side = "printed"
    box: Box | None = None


@dataclass(frozen=True)
class MarkView:
    """A mark beside the piece: its name in the report, what it is called and what it is for, and where it stands.

    `boxes` are left, top, width, height in mm from the page's upper left corner, as printed.
    """

    mark: str
    name: str
    words: str
    boxes: tuple[Box, ...]


@dataclass(frozen=True)
class PieceView:
    """A piece on a page: its number, the box of its trim (mm, from the upper left), its turn after mirroring."""

    piece: int
    box: Box
    turn_deg: int


@dataclass(frozen=True)
class SheetPage:
    """One page, in mm."""

    page: int
    width_mm: float
    height_mm: float
    pieces: tuple[PieceView, ...]
    marks: tuple[MarkView, ...]


@dataclass(frozen=True)
class SheetView:
    """The sheets of a design as a screen tells them.

    Attributes:
        title, quantity: of the job.
        paper: its name.
        ppi: of the raster part.
        route: "driver" or "convert".
        outputs: kinds of file that can hold the page's colours.
        pages: the first 50; empty when the wrap does not fit.
        pages_all: how many there are.
        calibrated: whether the printer's scale was measured.
        notes: a sentence for each thing that had to give way.
        findings: does-not-fit and bleed-cut.
        advice: (what, how to set it) of the print dialog, in the ticket's words.
        look: what to look at and measure while printing.
        cautions: of printing.
        before_heat: cautions of preparing and heating this ware, the grave ones first.
        state: for the address of a part of a page, so that the browser may keep it.
    """

    title: str
    quantity: int
    paper: str
    ppi: int
    route: str
    outputs: tuple[str, ...]
    pages: tuple[SheetPage, ...]
    pages_all: int
    calibrated: bool
    notes: tuple[str, ...]
    findings: tuple[FindingView, ...]
    advice: tuple[tuple[str, str], ...]
    look: tuple[str, ...]
    cautions: tuple[str, ...]
    before_heat: tuple[str, ...]
    state: str


def see_sheet(request: SeeSheet, bench: Bench, watch: Watch) -> SheetView:
    """Return what there is to know of a design's sheets.

    Raises:
        WrapwrightError: all that is wrong with the document.
    """
    from wrapwright.jobs.live.composed import state_named, tried_of

    watch.step("arranging the sheet", 0.0)
    composed, arrangement = _arranged(request.document, request.folder, bench)
    job = composed.opened.job
    return SheetView(
        title=job.title,
        quantity=job.quantity,
        paper=job.sheet.paper,
        ppi=job.sheet.ppi,
        route=job.colour.route,
        outputs=("pdf", "tiff") if composed.colouring.channels == 4 else ("pdf", "png", "tiff"),
        pages=tuple(_page_view(page) for page in arrangement.pages[:MOST_PAGES]),
        pages_all=len(arrangement.pages),
        calibrated=job.sheet.calibrated,
        notes=arrangement.notes,
        findings=tuple(
            FindingView(one.rule, one.severity.value, one.message, None, "", accepted=False)
            for one in arrangement.findings
        ),
        state=state_named(tried_of(request.document, request.folder, bench)),
        **_told(composed, arrangement),
    )


def _told(composed: Composition, arrangement: Arrangement) -> dict[str, Any]:
    """Return the print dialog's settings, what to look at, and the cautions of printing."""
    if not arrangement.pages:
        return {"advice": (), "look": (), "cautions": (), "before_heat": ()}
    from wrapwright.jobs.work.papers import work_of
    from wrapwright.outside.documents.steps import cautions_of, printing

    work = work_of(composed, arrangement)
    step = printing(work)
    heat = [one for name in ("heat", "prepare") for one in cautions_of(name, work)]
    return {
        "advice": step.rows,
        "look": step.lines,
        "cautions": tuple(text for text, _ in step.cautions),
        "before_heat": tuple(text for text, _ in sorted(heat, key=lambda one: not one[1])),
    }


def _page_view(page: PlacedPage) -> SheetPage:
    from wrapwright.jobs.live.sheets.words import mark_told

    def box(of: tuple[float, float, float, float]) -> Box:
        left, bottom, right, top = of
        return (left, page.height_mm - top, right - left, top - bottom)

    boxes: dict[str, list[Box]] = {}
    for name, place in page.places:
        boxes.setdefault(name, []).append(box(place))
    marks = tuple(MarkView(name, *mark_told(name), tuple(found)) for name, found in boxes.items())
    piece = PieceView(page.piece, box(page.trim_box), page.turn_deg)
    return SheetPage(page.piece, page.width_mm, page.height_mm, (piece,), marks)


def sheet_picture(request: SheetPicture, bench: Bench, watch: Watch) -> bytes:
    """Return a PNG, sRGB, of a part of a page as it will look on white paper.

    Raises:
        WrapwrightError: unusable; no such page, a box beside it, too many pixels, or what is wrong with the document.
    """
    from wrapwright.jobs.live.sheets.painting import PagePart, page_pixels_of
    from wrapwright.outside.pages.picture import picture_png

    watch.step("drawing the sheet", 0.0)
    composed, arrangement = _arranged(request.document, request.folder, bench)
    if not 1 <= request.page <= len(arrangement.pages):
        remedy = "Look at what the sheet's notes say." if not arrangement.pages else "Ask for one that there is."
        message = f"there is no page {request.page}: the sheet has {len(arrangement.pages)}."
        raise unusable(message, remedy=remedy, where="page")
    ppi = min(max(request.ppi, LEAST_PPI), float(composed.opened.job.sheet.ppi))
    part = PagePart(arrangement.pages[request.page - 1], ppi, request.side == "seen", request.box)
    return picture_png(page_pixels_of(composed, part, bench))


def _arranged(document: Document, folder: Path, bench: Bench) -> tuple[Composition, Arrangement]:
    """Return the composition and its pages; kept, since a screen asks for tile after tile."""
    from wrapwright.jobs.live.composed import composed_of
    from wrapwright.jobs.work.sheets import arranged

    composed = composed_of(document, folder, bench)
    arrangement: Arrangement = bench.recent.pages.get(composed, lambda: arranged(composed, bench))
    return composed, arrangement
