"""A layout as the screen draws it: outlines, places and strokes, y counted down."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from wrapwright.core.sheet.lay.values import Laid, Layout
from wrapwright.jobs.tray.view import Box, CopyView, LayerView, Matrix, PieceView, SheetLaid, StrokeView

if TYPE_CHECKING:
    from wrapwright.core.sheet.cut.values import CutList, Layer
    from wrapwright.jobs.lay.goods import Goods

ART_PX = 384  # of the proof picture that stands for a piece


@dataclass
class Drawn:
    """Draws a layout.

    Attributes:
        goods: what is laid.
        layout: how it lies.
        places: for each part its place in the tray.
    """

    goods: Goods
    layout: Layout
    places: tuple[int, ...]
    counts: dict[int, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Count what lies on the sheets."""
        for sheet in self.layout.sheets:
            for laid in sheet.pieces:
                self.counts[laid.part] = self.counts.get(laid.part, 0) + 1

    def piece(self, place: int, row: PieceView) -> PieceView:
        """Return the row of a piece with its shape; unchanged when it fits no paper."""
        from wrapwright.core.design.borders import trim_outline
        from wrapwright.jobs.live.proofs import proof_frame
        from wrapwright.jobs.live.views.frames import Canvas
        from wrapwright.jobs.live.views.strings import path_data

        if place not in self.places:
            return row
        part = self.places.index(place)
        good = self.goods.goods[part]
        _, art = proof_frame(Canvas(good.wrap, good.bleed_mm, "flat"), ART_PX)
        return replace(
            row,
            width_mm=good.part.shape.width_mm,
            height_mm=good.part.shape.height_mm,
            outline=path_data(trim_outline(good.wrap)),
            art=art,
            turns=good.part.turns,
            laid=self.counts.get(part, 0),
        )

    def sheet(self, number: int) -> SheetLaid:
        """Return a sheet with all that lies on it."""
        sheet = self.layout.sheets[number]
        stock = self.layout.request.stocks[sheet.stock]
        left, bottom, right, top = stock.margins_mm
        high = sheet.height_mm
        room = (left, bottom, sheet.width_mm - right, high - top)
        words = ""
        if sheet.rest is not None:
            wide, tall = sheet.rest[2] - sheet.rest[0], sheet.rest[3] - sheet.rest[1]
            words = f"{wide:.0f} × {tall:.0f} mm stays whole"
        return SheetLaid(
            stock.paper,
            sheet.width_mm,
            high,
            _down(room, high),
            tuple(self._copy(laid, number, high) for laid in sheet.pieces),
            None if sheet.rest is None else _down(sheet.rest, high),
            words,
        )

    def _copy(self, laid: Laid, sheet: int, high: float) -> CopyView:
        from wrapwright.core.sheet.cut.pieces import on_sheet, trim_box

        part = self.goods.goods[laid.part].part
        box = trim_box(part, laid)
        clear = on_sheet(part.clear_mm, laid.turn_deg)
        wide = (box[0] - clear[0], box[1] - clear[1], box[2] + clear[2], box[3] + clear[3])
        pins = {(pin.part, pin.copy) for pin in self.layout.request.pins}
        return CopyView(
            self.places[laid.part],
            laid.copy,
            _down(box, high),
            _down(wide, high),
            laid.turn_deg,
            self._matrix(laid, high),
            (laid.part, laid.copy) in pins,
        )

    def _matrix(self, laid: Laid, high: float) -> Matrix:
        """Return the matrix from flat mm as seen, y down, to the sheet, y down."""
        from wrapwright.core.design.borders import trim_outline
        from wrapwright.core.sheet.mirror import mirrored
        from wrapwright.core.sheet.room import exact_box

        to_print = mirrored(laid.turn_deg)
        box = exact_box(trim_outline(self.goods.goods[laid.part].wrap).times(to_print))
        shift = (laid.x_mm - box[0], laid.y_mm - box[1])
        (a, c), (b, d) = to_print[0, :2].tolist(), to_print[1, :2].tolist()
        return (a, -b, -c, d, shift[0], high - shift[1])


def strokes_of(layout: Layout, cuts: CutList) -> tuple[StrokeView, ...]:
    """Return the strokes with what lies under the blade at each."""
    from wrapwright.core.sheet.cut.words import cut_words

    told = cut_words(layout, cuts)
    return tuple(
        StrokeView(
            stroke.number,
            stroke.kind,
            words.sentence,
            stroke.fence_mm,
            stroke.length_mm,
            tuple(_layer(one, cuts.sheets[one.sheet][1]) for one in stroke.layers),
            stroke.caution,
        )
        for stroke, words in zip(cuts.strokes, told, strict=True)
    )


def _layer(one: Layer, high: float) -> LayerView:
    left, bottom, right, top = one.box
    upright = one.edge in ("left", "right")
    ends = (one.at_mm, bottom, one.at_mm, top) if upright else (left, one.at_mm, right, one.at_mm)
    return LayerView(one.sheet, _down(one.box, high), (ends[0], high - ends[1], ends[2], high - ends[3]))


def _down(box: tuple[float, float, float, float], high: float) -> Box:
    """Return left, top, width, height of left, bottom, right, top."""
    left, bottom, right, top = box
    return (left, high - top, right - left, top - bottom)
