"""The pages of a layout drawn and written: each art painted once, the labels beside it, and one PDF of all sheets."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path as File
from typing import TYPE_CHECKING

from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.sheet.cut.values import CutList, Layer
from wrapwright.core.sheet.lay.printed.lines import Extras, FirstCut, with_lines
from wrapwright.core.sheet.lay.printed.pages import Pager, label_box
from wrapwright.core.sheet.lay.printed.values import Array, Good, LaidPage
from wrapwright.core.sheet.lay.values import Layout
from wrapwright.core.sheet.mirror import image_frame
from wrapwright.core.sheet.placed import Box
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.lay.gathering import Gathered, Member
from wrapwright.jobs.lay.goods import Goods
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.painting import device_strips, renderer_of
from wrapwright.outside.system.installed import version

if TYPE_CHECKING:
    from wrapwright.outside.pdf.flate import Packed
    from wrapwright.outside.pdf.laid import ArtOf

FILE = "sheets.pdf"


@dataclass(frozen=True, eq=False)
class Printed:
    """The pages, and for each the digests of its pieces' pixels."""

    pages: tuple[LaidPage, ...]
    pixels: tuple[tuple[str | None, ...], ...]


def pages_of(gathered: Gathered, goods: Goods, layout: Layout, cuts: CutList) -> tuple[LaidPage, ...]:
    """Return the pages of a layout with all that stands beside the pieces."""
    sheet = gathered.asked.sheet
    pager = Pager(goods.goods, sheet, goods.codes, goods.pen)
    firsts = _by_eye(cuts)
    found = []
    for number, (page, laid) in enumerate(zip(pager.pages(layout), layout.sheets, strict=True)):
        scale = (sheet.scale_across, sheet.scale_along)
        labels = {
            index: _scaled(box, scale)
            for index, one in enumerate(laid.pieces)
            if (box := label_box(one, goods.goods[one.part])) is not None
        }
        rest = None if laid.rest is None else _scaled(laid.rest, scale)
        words = (f"{gathered.asked.title}  ·  sheet", str(number + 1), "of", str(len(layout.sheets)))
        lines = [_first_cut(layer, scale) for layer in firsts.get(number, [])]
        found.append(with_lines(page, goods.goods, labels, sheet, goods.pen, Extras(lines, words, rest)))
    return tuple(found)


def _by_eye(cuts: CutList) -> dict[int, list[Layer]]:
    """Return for each sheet what lies under the blade when a stroke follows a printed line by eye."""
    found: dict[int, list[Layer]] = {}
    for stroke in cuts.strokes:
        for layer in stroke.layers if stroke.fence_mm is None else ():
            found.setdefault(layer.sheet, []).append(layer)
    return found


def _first_cut(layer: Layer, scale: tuple[float, float]) -> FirstCut:
    upright = layer.edge in ("left", "right")
    left, bottom, right, top = _scaled(layer.box, scale)
    low, high = (bottom, top) if upright else (left, right)
    return FirstCut(upright, layer.at_mm / scale[0 if upright else 1], low, high)


def print_pages(
    gathered: Gathered, goods: Goods, pages: tuple[LaidPage, ...], file: File, scratch: File, bench: Bench, watch: Watch
) -> Printed:
    """Write the PDF of the pages.

    Raises:
        WrapwrightError: unusable, when the profile is not a printer's.
    """
    from wrapwright.outside.pdf.laid import laid_pdf
    from wrapwright.outside.pdf.metadata import About

    asked = gathered.asked
    arts = [
        _art(gathered.members[member], good, asked.sheet.ppi, bench)
        for good, member in zip(goods.goods, goods.members, strict=True)
    ]
    about = About(asked.title, f"Wrapwright {version()}", asked.date.isoformat() if asked.date else "")
    step: Callable[[float], None] = lambda share: watch.step("making the sheets", 0.4 + 0.3 * share)  # noqa: E731
    written = laid_pdf(pages, arts, ppi=asked.sheet.ppi, about=about, file=file, scratch=scratch, step=step)
    return Printed(pages, written.pixels)


def _art(member: Member, good: Good, ppi: float, bench: Bench) -> ArtOf:
    from wrapwright.outside.pdf.document import SheetColour
    from wrapwright.outside.pdf.laid import ArtOf

    composed = member.composed
    colouring = composed.colouring
    raster, vector = composed.parts
    outlines = [composed.draw_list.items[index] for index in vector]
    profile = colouring.page_profile
    return ArtOf(
        colour=SheetColour(colouring.channels, profile.data, profile.description, colouring.there is not None),
        ink=colouring.ink,
        bleed=bleed_outline(good.wrap, good.bleed_mm),
        items=tuple(item for item in outlines if isinstance(item, PlacedOutline)),
        paint=partial(painted, composed, raster, ppi, bench.threads) if raster else None,
    )


def painted(
    composed: Composition, raster: tuple[int, ...], ppi: float, threads: int, to_page: Array, box: Box
) -> Packed:
    """Return the pixels of some of a composition's items over a box of whole pixels, packed.

    Args:
        composed: what is drawn.
        raster: indices of its items.
        ppi: of the page.
        threads: how many strips are made at once.
        to_page: 3x3 matrix, flat mm as seen -> page mm.
        box: page mm, as `image_box` returns it.
    """
    from wrapwright.outside.pdf.flate import packed

    frame = image_frame(to_page, box, ppi)
    renderer = renderer_of(composed, frame, items=raster)
    size = {"width": frame.width_px, "height": frame.height_px, "channels": composed.colouring.channels}
    with device_strips(composed.colouring, renderer.strip) as strip_of:
        return packed(strip_of, **size, threads=threads)


def _scaled(box: Box, scale: tuple[float, float]) -> Box:
    return (box[0] / scale[0], box[1] / scale[1], box[2] / scale[0], box[3] / scale[1])
