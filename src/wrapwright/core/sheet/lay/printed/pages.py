"""From a layout to its pages: the matrix of each piece, its label in its place, and the lines round it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from wrapwright.core.design.borders import bleed_outline, trim_outline
from wrapwright.core.design.path import Path
from wrapwright.core.sheet.lay.grid import turned_box
from wrapwright.core.sheet.lay.printed.guides import guides_of
from wrapwright.core.sheet.lay.printed.labels import Lettering, stamps_of
from wrapwright.core.sheet.lay.printed.parts import clear_of_trim
from wrapwright.core.sheet.lay.printed.values import Good, LaidPage, LaidPiece, Modules, Stamp
from wrapwright.core.sheet.lay.values import Box, Laid, LaidSheet, Layout
from wrapwright.core.sheet.mirror import mirrored
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.room import exact_box

_Key = tuple[int, int]


@dataclass(frozen=True, eq=False)
class _Turned:
    """What all copies of a good in one turn have alike, in true mm: boxes of trim and bleed before the shift."""

    trim: Box
    bleed: Box


@dataclass
class Pager:
    """Makes pages of a layout.

    Attributes:
        goods: one a part of the layout.
        sheet: the printer's figures.
        codes: the modules of each piece's code.
        pen: sets words.
    """

    goods: Sequence[Good]
    sheet: SheetRequest
    codes: Mapping[str, Modules]
    pen: Lettering
    turned: dict[_Key, _Turned] = field(default_factory=dict)
    guides: dict[int, tuple[Path, ...]] = field(default_factory=dict)

    @property
    def scale(self) -> tuple[float, float]:
        """The printer's, across and along."""
        return self.sheet.scale_across, self.sheet.scale_along

    def pages(self, layout: Layout) -> tuple[LaidPage, ...]:
        """Return the pages, in order."""
        return tuple(self._page(sheet) for sheet in layout.sheets)

    def _page(self, sheet: LaidSheet) -> LaidPage:
        across, along = self.scale
        pieces = tuple(self._piece(laid) for laid in sheet.pieces)
        return LaidPage(sheet.width_mm / across, sheet.height_mm / along, pieces)

    def _piece(self, laid: Laid) -> LaidPiece:
        good, one = self.goods[laid.part], self._turned(laid.part, laid.turn_deg)
        shift = (laid.x_mm - one.trim[0], laid.y_mm - one.trim[1])
        slip = good.slips[laid.copy]
        stamps: tuple[Stamp, ...] = ()
        label = label_box(laid, good)
        if label is not None:
            stamps = stamps_of(
                slip, good.level, words_of(good), self.codes.get(slip.code), label, self.pen, self.scale
            )  # fmt: skip
        guides = self._guides(laid.part)
        return LaidPiece(
            good=laid.part,
            slip=slip,
            to_page=mirrored(laid.turn_deg, self.scale, shift),
            turn_deg=laid.turn_deg,
            trim_box=self._on_page(one.trim, shift),
            bleed_box=self._on_page(one.bleed, shift),
            stamps=stamps,
            guides=guides,
            marks=_marks(good, guides),
        )

    def _turned(self, part: int, turn_deg: int) -> _Turned:
        key = (part, turn_deg)
        if key not in self.turned:
            good, to_print = self.goods[part], mirrored(turn_deg)
            trim = exact_box(trim_outline(good.wrap).times(to_print))
            bleed = exact_box(bleed_outline(good.wrap, good.bleed_mm).times(to_print))
            self.turned[key] = _Turned(trim, _round(trim, bleed))
        return self.turned[key]

    def _guides(self, part: int) -> tuple[Path, ...]:
        if part not in self.guides:
            good = self.goods[part]
            self.guides[part] = guides_of(good.wrap, clear_of_trim(good.bleed_mm))
        return self.guides[part]

    def _on_page(self, box: Box, shift: tuple[float, float]) -> Box:
        across, along = self.scale
        return (
            (box[0] + shift[0]) / across,
            (box[1] + shift[1]) / along,
            (box[2] + shift[0]) / across,
            (box[3] + shift[1]) / along,
        )


def words_of(good: Good) -> tuple[str, ...]:
    """Return the lines of a job's labels, upper first: title and name, and at which end of the wrap it stands."""
    first = "  ·  ".join(one for one in (good.title, good.name) if one)
    box = good.part.label_mm
    if good.wrap.plate is not None or box is None:
        return (first,)
    if box[0] >= good.part.shape.width_mm:
        return (first, good.ends[0])
    if good.part.shape.kind != "sector":
        return (first,)
    # Mirrored, the end that is laid first lies to the right.
    return (first, good.ends[0 if box[0] + box[2] > good.part.shape.width_mm else 1])


def label_box(laid: Laid, good: Good) -> Box | None:
    """Return where a copy's label stands on the sheet, true mm, or None."""
    box = good.part.label_mm
    if box is None or not good.level:
        return None
    wide, high = good.part.shape.width_mm, good.part.shape.height_mm
    beyond = turned_box((-box[0], -box[1], box[2] - wide, box[3] - high), laid.turn_deg)
    if laid.turn_deg % 180:
        wide, high = high, wide
    return (laid.x_mm - beyond[0], laid.y_mm - beyond[1], laid.x_mm + wide + beyond[2], laid.y_mm + high + beyond[3])


def _marks(good: Good, guides: tuple[Path, ...]) -> tuple[str, ...]:
    names = {
        "label": ("label", "data matrix"),
        "code": ("piece number", "data matrix"),
        "piece number": ("piece number",),
    }
    found = names.get(good.level, ())
    return (*found, "guide lines") if guides else found


def _round(one: Box, other: Box) -> Box:
    return (min(one[0], other[0]), min(one[1], other[1]), max(one[2], other[2]), max(one[3], other[3]))
