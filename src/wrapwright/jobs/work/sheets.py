"""The sheets: pages arranged, their raster part packed once, and the files that hold them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.sheet.arrange import arrange
from wrapwright.core.sheet.placed import Arrangement, PlacedPage, Slip
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.requests import Output
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.pages.panelling import in_panels
from wrapwright.jobs.work.painting import device_strips, renderer_of
from wrapwright.outside.system.installed import version

BLACK = (0.0, 0.0, 0.0)


@dataclass(frozen=True)
class SheetFile:
    """A finished file: its name, its bytes, and for each page in it (page object, SHA-256 of its pixels or None)."""

    name: str
    data: bytes
    pages: tuple[tuple[PlacedPage, str | None], ...]


def arranged(composed: Composition, bench: Bench) -> Arrangement:
    """Return the pages of a composition: one piece on each, or, where the job allows it, one panel of a piece."""
    from wrapwright.outside.fonts.labels import label_path
    from wrapwright.outside.fonts.shelf import FontShelf

    job = composed.opened.job
    shelf = FontShelf(job_folder=composed.opened.folder, user_folder=bench.folders.fonts)
    slips = [Slip(job.title, piece, job.quantity) for piece in range(1, job.quantity + 1)]
    set_label = partial(label_path, fonts=shelf)
    if not job.wrap.joins_deg:
        found = arrange(
            composed.wrapped.wrap, bleed_mm=job.wrap.bleed_mm, sheet=job.sheet, slips=slips, set_label=set_label
        )
        if found.pages or not job.wrap.panels:
            return found
    return in_panels(composed, slips, set_label)


def output_in_doubt(composed: Composition, output: Output) -> list[WrapwrightError]:
    """Return the problem of an output that cannot hold the page's colours."""
    if output != "png" or composed.colouring.channels != 4:
        return []
    return [unusable("a PNG cannot hold CMYK colours.", remedy="Make it with --as tiff or --as pdf.", where="--as")]


def sheet_files(composed: Composition, pages: tuple[PlacedPage, ...], output: Output, bench: Bench) -> list[SheetFile]:
    """Return the files that hold the sheets: one PDF, or one PNG or TIFF a page."""
    return _WRITERS[output](composed, pages, bench)


def _pdf(composed: Composition, pages: tuple[PlacedPage, ...], bench: Bench) -> list[SheetFile]:
    from wrapwright.core.sheet.mirror import image_box, image_frame
    from wrapwright.outside.pdf.flate import packed
    from wrapwright.outside.pdf.metadata import About
    from wrapwright.outside.pdf.sheets import PlacedImage, SheetColour, SheetPage, sheets_pdf

    job, colouring = composed.opened.job, composed.colouring
    raster, vector = composed.parts
    images: dict[int, tuple[PlacedImage, ...]] = {}
    for page in pages if raster else ():
        if page.panel in images:
            continue
        box = image_box(page.bleed_box, job.sheet.ppi)
        frame = image_frame(page.to_page, box, job.sheet.ppi)
        renderer = renderer_of(composed, frame, items=raster)
        size = {"width": frame.width_px, "height": frame.height_px, "channels": colouring.channels}
        with device_strips(colouring, renderer.strip) as strip_of:
            images[page.panel] = (PlacedImage(packed(strip_of, **size, threads=bench.threads), box),)
    outlines = [composed.draw_list.items[index] for index in vector]
    items = tuple(item for item in outlines if isinstance(item, PlacedOutline))
    profile = colouring.page_profile
    colour = SheetColour(colouring.channels, profile.data, profile.description, colouring.there is not None)
    data = sheets_pdf(
        [SheetPage(page, images.get(page.panel, ()), items) for page in pages],
        colour=colour,
        ink=colouring.ink,
        about=About(job.title, f"Wrapwright {version()}", job.date.isoformat() if job.date else ""),
    )
    digests = {panel: one[0].packed.pixels_sha256 for panel, one in images.items()}
    return [SheetFile("sheets.pdf", data, tuple((page, digests.get(page.panel)) for page in pages))]


def _rasters(ending: str, composed: Composition, pages: tuple[PlacedPage, ...], bench: Bench) -> list[SheetFile]:
    """Return a file a page; the art is the same on all, the marks and words are each page's own."""
    from wrapwright.jobs.work.pages.whole_page import whole_page

    return [
        SheetFile(f"sheet-{_numbers(page)}.{ending}", *_with(page, whole_page(composed, page, ending, bench)))
        for page in pages
    ]


def _numbers(page: PlacedPage) -> str:
    return f"{page.piece:03d}-{page.panel}" if page.panel else f"{page.piece:03d}"


def _with(page: PlacedPage, made: tuple[bytes, str]) -> tuple[bytes, tuple[tuple[PlacedPage, str | None], ...]]:
    return made[0], ((page, made[1]),)


Writer = Callable[[Composition, tuple[PlacedPage, ...], Bench], list[SheetFile]]
_WRITERS: dict[Output, Writer] = {"pdf": _pdf, "png": partial(_rasters, "png"), "tiff": partial(_rasters, "tiff")}
