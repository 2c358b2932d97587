"""Lay the tray while one looks: the sheets, what lies on them, how sure it is that they are the fewest, the strokes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.findings import Severity
from wrapwright.core.sheet.lay.values import Layout
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.tray.drawn import Drawn, strokes_of
from wrapwright.jobs.tray.values import Tray, refuse_more
from wrapwright.jobs.tray.view import PieceView, TrayView

if TYPE_CHECKING:
    from wrapwright.jobs.lay.goods import Goods
    from wrapwright.jobs.tray.gathering import TrayGathered
    from wrapwright.outside.jobfile.together.reading import SheetsAsked

LONGEST_S = 20.0
MOST_STROKES = 2000  # more are on the cut list, not on the screen
MOST_LAID = 3000  # pieces laid while somebody waits


@dataclass(frozen=True)
class LayTray:
    """Lay this tray, searching for at most so many seconds."""

    tray: Tray
    seconds: float = 0.5


def lay_tray(request: LayTray, bench: Bench, watch: Watch) -> TrayView:
    """Return the tray as it lies on its sheets; what is wrong with a piece stands beside it and the others are laid.

    Raises:
        WrapwrightError: missing, for a set-up that is no more; unusable, for a paper or a trimmer that is none, and for
            more than 3000 pieces.
    """
    from wrapwright.jobs.lay.arranging import ArrangeParts, arrange_parts
    from wrapwright.jobs.lay.goods import goods_of, pinned, request_of
    from wrapwright.jobs.tray.gathering import gathered_tray

    tray = request.tray
    refuse_more(tray, MOST_LAID, "Take several trays, or print a sheets file on the command line.")
    found = gathered_tray(tray, bench, watch)
    if found.gathered is None:
        return TrayView(_pieces(tray, found, None, None))
    goods = goods_of(found.gathered, bench)
    asked = found.gathered.asked
    wanted = request_of(goods, asked)
    wanted, loose = pinned(wanted, goods, found.gathered.pins)
    seconds, notes = min(request.seconds, LONGEST_S), tuple[str, ...]()
    try:
        layout = arrange_parts(ArrangeParts(wanted, seconds, asked.trimmer), bench, watch)
    except WrapwrightError as error:
        if not wanted.pins or error.kind is Kind.STOPPED:
            raise
        # What was put by hand cannot stay there: better a layout without it than none.
        notes, loose = (f"{error.message} {error.remedy}".strip(),), tuple(range(len(tray.pins)))
        layout = arrange_parts(ArrangeParts(replace(wanted, pins=()), seconds, asked.trimmer), bench, watch)
    view = _view(found, goods, layout, asked, tray)
    return replace(view, loose=loose, notes=(*notes, *view.notes))


def _view(found: TrayGathered, goods: Goods, layout: Layout, asked: SheetsAsked, tray: Tray) -> TrayView:
    from wrapwright.core.sheet.cut.listing import cut_list
    from wrapwright.core.sheet.cut.words import CAUTIONS, how_words, summary_words

    cuts = cut_list(layout, asked.trimmer)
    drawn = Drawn(goods, layout, tuple(found.places[member] for member in goods.members))
    return TrayView(
        pieces=_pieces(tray, found, goods, drawn),
        sheets=tuple(drawn.sheet(number) for number in range(len(layout.sheets))),
        words=layout.words,
        bound=layout.bound,
        proven=layout.proven,
        cost=_cost(layout),
        strokes=strokes_of(layout, cuts)[:MOST_STROKES],
        strokes_all=len(cuts.strokes),
        cut_words=summary_words(layout, cuts) if layout.sheets else "",
        how=(*how_words(cuts), *CAUTIONS) if cuts.strokes else (),
        notes=(*layout.notes, *cuts.notes),
    )


def _cost(layout: Layout) -> float | None:
    """Return what the paper costs; None when a price is not known. A roll's price is that of a metre."""
    total = 0.0
    for sheet in layout.sheets:
        stock = layout.request.stocks[sheet.stock]
        if stock.price is None:
            return None
        total += stock.price * (sheet.height_mm / 1000.0 if stock.height_mm is None else 1.0)
    return round(total, 4)


def _pieces(tray: Tray, found: TrayGathered, goods: Goods | None, drawn: Drawn | None) -> tuple[PieceView, ...]:
    """Return the rows of the tray, the ones that cannot be laid with the reason."""
    members = {found.places[member]: member for member in range(len(found.places))}
    rows = []
    for place, piece in enumerate(tray.pieces):
        design = found.designs[place]
        wrong = [f"{one.error.message} {one.error.remedy}".strip() for one in found.troubles if one.piece == place]
        row = PieceView(piece.design, 0, "", piece.quantity)
        if design is not None:
            row = replace(row, revision=design.revision, title=design.title)
        if goods is not None and drawn is not None and place in members:
            member = members[place]
            wrong += [one.message for one in goods.findings[member] if one.severity is Severity.ERROR]
            said = [one.message for one in goods.findings[member] if one.severity is not Severity.ERROR]
            row = replace(drawn.piece(place, row), notes=(*said, *goods.notes[member]))
        rows.append(replace(row, problems=tuple(wrong)))
    return tuple(rows)
