"""What all pieces of a list share, worked out once in each process: the composition, the art, the page's template."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.design.drawlist import DrawList
from wrapwright.core.design.layers import Box, overlap
from wrapwright.core.names.making.own import Inside, Stand, stand_of
from wrapwright.core.names.pieces import depends_on_row
from wrapwright.core.names.values import NamesRequest, Row
from wrapwright.core.sheet.lay.printed.labels import Lettering, needs
from wrapwright.core.sheet.lay.printed.parts import Asked, parts_of
from wrapwright.core.sheet.lay.printed.values import Good, Slip
from wrapwright.core.sheet.lay.values import Stock
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.making.labels import Naming
from wrapwright.jobs.names.making.pages import Pages, code_of
from wrapwright.jobs.names.making.values import Run
from wrapwright.jobs.names.opening import opened_of
from wrapwright.jobs.work.composing import Composition, compose
from wrapwright.jobs.work.opening import Opened

_NAME = "n" * 18  # as long as most names are: so much room is sought for it on the label

if TYPE_CHECKING:
    from wrapwright.outside.fonts.shelf import FontShelf
    from wrapwright.outside.jobfile.together.reading import SheetsAsked
    from wrapwright.outside.pdf.document import SheetColour
    from wrapwright.outside.pdf.listed.values import SharedArt


@dataclass(frozen=True, eq=False)
class Base:
    """What the pieces share.

    Attributes:
        opened: the job as written, without any row.
        composed: the composition of the typical row.
        own: elements that rows change, by their index in the job.
        stand: how the shared items stand.
        inside: tells what needs no clip.
        art: the shared art, ready to be drawn.
        pages: makes the pages.
        naming: sets the names on labels.
        bench: what texts and pictures are read with.
        shelf: the fonts.
    """

    opened: Opened
    composed: Composition
    own: frozenset[int]
    stand: Stand
    inside: Inside
    art: SharedArt
    pages: Pages
    naming: Naming
    bench: Bench
    shelf: FontShelf

    def stands_clear(self, element: int, box: Box) -> bool:
        """Return whether outlines of an own element within a box need no clip and have no shared pixels above them."""
        above = any(other > element and overlap(box, over) for other, over in self.stand.boxes)
        return not above and self.inside.holds_box(box)


@lru_cache(maxsize=1)
def base_of(run: Run) -> Base:
    """Return the base of a run, the same for all shards of one process.

    Raises:
        WrapwrightError: refused when the job file has changed since the run began; as `compose`.
    """
    from wrapwright.jobs.kept.shelf import shelf_of
    from wrapwright.jobs.open_bench import open_bench
    from wrapwright.jobs.work.opening import opened

    bench = open_bench(cache=run.cache, data=run.data, fonts=run.fonts, threads=1)
    shelf = shelf_of(bench) if run.shelf is None else partial(dict, run.shelf)
    job = opened(run.job, None, run.fonts, shelf)
    if job.sha256 != run.job_sha256:
        message = "The job file has been changed while its list was being made."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Make it again.", where=run.job.name)
    return base_from(job, composed_for(job, run.typical, bench), run, bench)


def base_from(job: Opened, composed: Composition, run: Run, bench: Bench) -> Base:
    """Return the base of a run whose typical row is composed already."""
    from wrapwright.outside.fonts.shelf import FontShelf

    own = own_of(job, run.listed)
    stand = stand_of(renumbered(composed.draw_list, job, run.typical), own)
    shelf = FontShelf(job_folder=job.folder, user_folder=bench.folders.fonts)
    pen = lettering_of(bench)
    good, _ = good_of(composed, run.total, run.mark, pen)
    return Base(
        opened=job,
        composed=composed,
        own=own,
        stand=stand,
        inside=Inside.of(replace(stand.draw_list, bleed_mm=good.bleed_mm)),
        art=_art(composed, stand, good),
        pages=Pages(good, composed.opened.job.sheet, run.places, run.total, run.pattern, run.mark, pen),
        naming=Naming(bench),
        bench=bench,
        shelf=shelf,
    )


def names_of(job: Opened) -> NamesRequest:
    """Return what a job asks of its list.

    Raises:
        WrapwrightError: usage, when it has none.
    """
    if job.job.names is None:
        message = "This job has no list of names."
        raise WrapwrightError(Kind.USAGE, message, remedy="Add [names] with its file, or use make.", where=job.name)
    return job.job.names


def own_of(job: Opened, listed: Sequence[str]) -> frozenset[int]:
    """Return the indices of the elements that rows may change; `listed` are the fields that the list gives."""
    names = names_of(job)
    return frozenset(index for index, one in enumerate(job.job.elements) if depends_on_row(one, names, listed))


def composed_for(job: Opened, row: Row, bench: Bench) -> Composition:
    """Return the composition of one row's piece: a job like any other, what the row leaves out not in it.

    Raises:
        WrapwrightError: as `compose`.
    """
    return compose(opened_of(job, row), bench, Watch())


def renumbered(draw_list: DrawList, job: Opened, row: Row) -> DrawList:
    """Return a row's draw list with elements counted as in the whole job, where the row leaves some out."""
    kept = [index for index, one in enumerate(job.job.elements) if one.name not in row.hidden]
    if len(kept) == len(job.job.elements):
        return draw_list
    return replace(
        draw_list,
        items=tuple(replace(item, element=kept[item.element]) for item in draw_list.items),
        extents=tuple(replace(one, element=kept[one.element]) for one in draw_list.extents),
    )


def lettering_of(bench: Bench) -> Lettering:
    """Return a new pen for the labels."""
    from wrapwright.jobs.lay.goods import lettering

    return lettering(bench)


def asked_of(composed: Composition) -> SheetsAsked:
    """Return the sheets as the job alone asks for them."""
    from wrapwright.outside.jobfile.together.reading import PieceAsked, SheetsAsked, paper_of, stock_of

    job = composed.opened.job
    stock: Stock = stock_of(paper_of(job.sheet), job.sheet)
    return SheetsAsked(job.title, (PieceAsked(composed.opened.name),), job.sheet, (stock,), date=job.date)


def good_of(composed: Composition, pieces: int, mark: str, pen: Lettering) -> tuple[Good, SheetsAsked]:
    """Return what is laid of each piece, with room for its label, and the sheets it is laid on.

    Raises:
        WrapwrightError: checks, when it fits no paper.
    """
    from wrapwright.core.sheet.unfit import does_not_fit
    from wrapwright.jobs.lay.goods import fits_any
    from wrapwright.jobs.verdict import stand_or_stop
    from wrapwright.outside.codes.matrix import matrix_modules

    job, wrap, asked = composed.opened.job, composed.wrapped.wrap, asked_of(composed)
    slip = Slip(pieces, pieces, code_of(mark, pieces))
    words = (job.title, "lay on top" if wrap.plate is None else "", _NAME)
    labels = needs((slip,), {slip.code: matrix_modules(slip.code)}, tuple(word for word in words if word), pen)
    wanted = Asked(
        pieces, gutter_mm=asked.gutter_mm, name=job.title, folded=(job.wrap.rim == "fold", job.wrap.base == "fold")
    )
    for bleed in (job.wrap.bleed_mm, 0.0) if job.wrap.bleed_mm > 0.0 else (0.0,):
        for part, level in parts_of(wrap, bleed, wanted, labels):
            if fits_any(part, asked):
                return Good(wrap, bleed, part, level, job.title, "", (slip,)), asked
    stand_or_stop([does_not_fit(wrap, job.sheet)])
    raise AssertionError("does-not-fit cannot be accepted")  # pragma: no cover


def colour_of(composed: Composition) -> SheetColour:
    """Return the colour space of the sheets."""
    from wrapwright.outside.pdf.document import SheetColour

    colouring = composed.colouring
    profile = colouring.page_profile
    return SheetColour(colouring.channels, profile.data, profile.description, colouring.there is not None)


def _art(composed: Composition, stand: Stand, good: Good) -> SharedArt:
    from wrapwright.jobs.lay.printing import painted
    from wrapwright.outside.pdf.listed.values import SharedArt

    shared = replace(composed, draw_list=stand.draw_list)
    ppi = composed.opened.job.sheet.ppi
    return SharedArt(
        colour=colour_of(composed),
        ink=composed.colouring.ink,
        bleed=bleed_outline(good.wrap, good.bleed_mm),
        runs=stand.runs,
        paint=partial(painted, shared, stand.raster, ppi, 1) if stand.raster else None,
    )
