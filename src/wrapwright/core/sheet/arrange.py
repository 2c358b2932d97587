"""One wrap on each page: which way round, where, with which marks, and what gives way when the paper is small.

Nothing is ever scaled to fit. Lengths on the page are true lengths divided by the printer's measured scale.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline, trim_outline
from wrapwright.core.design.path import joined
from wrapwright.core.sheet.fitting import EDGES, LEVELS, Chance, Level, chances, gave_way
from wrapwright.core.sheet.guides import has_line
from wrapwright.core.sheet.marks import Mark, SetLabel, moved
from wrapwright.core.sheet.mirror import mirrored
from wrapwright.core.sheet.placed import Arrangement, Box, Label, PlacedPage, Slip
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.room import exact_box, union
from wrapwright.core.sheet.slips import slip_marks
from wrapwright.core.sheet.stand import ENDS, Piece, stand_round
from wrapwright.core.sheet.unfit import does_not_fit

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class _Layout:
    """A way that works: the chance taken, how far things gave way, and the marks in true mm before the shift."""

    chance: Chance
    level: Level
    bleed_mm: float
    piece: Piece
    marks: tuple[Mark, ...]
    slip_at: Mark | None

    @property
    def boxes(self) -> list[Box]:
        """Boxes of everything, the piece with its bleed first."""
        slip = [self.slip_at.box] if self.slip_at else []
        return [self.piece.box, *(one.box for one in self.marks), *slip]


def arrange(
    wrap: FlatWrap, *, bleed_mm: float, sheet: SheetRequest, slips: Sequence[Slip], set_label: SetLabel,
    ends: tuple[str, str] = ENDS,
) -> Arrangement:  # fmt: skip
    """Return the pages, one piece on each, all laid out alike; or the finding that says why the wrap does not fit.

    Args:
        wrap: the flat wrap.
        bleed_mm: art beyond the trim at rim and base, as asked.
        sheet: paper, margins and printer scale.
        slips: what is written beside each piece, in order; at least one.
        set_label: sets words: (text, cap height in mm) -> outlines in mm, base line at y = 0.
        ends: what is written at the left and the right end as seen.
    """
    pen = _Pen(tuple(slips), lru_cache(maxsize=None)(set_label), ends)
    layout = _best(wrap, bleed_mm, sheet, pen)
    if layout is None:
        return Arrangement((), (does_not_fit(wrap, sheet),))
    first = _first_page(wrap, layout)
    pages = tuple(_with_slip(first, layout, slip, pen) for slip in slips)
    cut = bleed_mm - layout.bleed_mm
    walled = wrap.plate is None
    findings = (_bleed_cut(bleed_mm, sheet, walled=walled),) if cut > 0 else ()
    notes = gave_way(
        pages[0].marks, bleed_cut_mm=cut, ends=ends if walled else (), guided=has_line(wrap), walled=walled
    )
    return Arrangement(pages, findings, notes)


class _Pen:
    """Sets the words of the labels, each once, and knows those at the ends."""

    def __init__(self, slips: tuple[Slip, ...], set_label: SetLabel, ends: tuple[str, str]) -> None:
        self.slips = slips
        self.set_label = set_label
        self.ends = ends
        self._widest: dict[tuple[str, float], Mark | None] = {}

    def widest(self, what: str, width_mm: float) -> Mark | None:
        """Return the widest label of all pieces, or None when none is wanted."""
        if (what, width_mm) not in self._widest:
            rows = slip_marks(self.slips, what, width_mm=width_mm, set_label=self.set_label)
            self._widest[what, width_mm] = max(rows, key=lambda one: one.box[2] - one.box[0]) if rows else None
        return self._widest[what, width_mm]


def _best(wrap: FlatWrap, bleed_mm: float, sheet: SheetRequest, pen: _Pen) -> _Layout | None:
    for level in LEVELS:
        if not level.bleed and bleed_mm <= 0:
            continue
        found = []
        for order, chance in enumerate(chances(sheet)):
            layout = _try(wrap, bleed_mm if level.bleed else 0.0, chance, level, pen)
            if layout is not None:
                length = _place(layout)[0][1] if math.isinf(chance.height_mm) else 0.0
                found.append((length, order, layout))
        if found:
            return min(found, key=lambda one: one[:2])[2]
    return None


def _try(wrap: FlatWrap, bleed_mm: float, chance: Chance, level: Level, pen: _Pen) -> _Layout | None:
    to_print = mirrored(chance.turn_deg)
    trim = trim_outline(wrap).times(to_print)
    box = union([exact_box(trim), exact_box(bleed_outline(wrap, bleed_mm).times(to_print))])
    if max(box[2] - box[0] - chance.room_mm[0], box[3] - box[1] - chance.room_mm[1]) > 1e-9:
        return None
    piece = Piece(wrap, to_print, trim, box, bleed_mm, chance.turn_deg, pen.ends)
    widest = pen.widest(level.label, _label_width(piece))
    stood = stand_round(piece, level, widest, chance.room_mm, set_label=pen.set_label)
    if stood is None:
        return None
    return _Layout(chance, level, bleed_mm, piece, *stood)


def _label_width(piece: Piece) -> float:
    """Return how long a label may be: as the piece's longer side, and never under 60 mm."""
    left, bottom, right, top = piece.box
    return max(right - left, top - bottom, 60.0)


def _place(layout: _Layout) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the page's size and the shift in true mm: the piece in the middle of the printable area if it can be."""
    chance, boxes = layout.chance, layout.boxes
    block, piece = union(boxes), boxes[0]
    size, shift = [chance.width_mm, chance.height_mm], [0.0, 0.0]
    for axis in (0, 1):
        scale, low_margin = chance.scale[axis], chance.margins_mm[axis]
        if math.isinf(size[axis]):
            length = (block[axis + 2] - block[axis]) / scale + low_margin + chance.margins_mm[axis + 2]
            size[axis] = float(math.ceil(length - 1e-9))
        low = low_margin * scale
        high = (size[axis] - chance.margins_mm[axis + 2]) * scale
        wanted = (low + high) / 2.0 - (piece[axis] + piece[axis + 2]) / 2.0
        shift[axis] = min(max(wanted, low - block[axis]), high - block[axis + 2])
    return (size[0], size[1]), (shift[0], shift[1])


def _first_page(wrap: FlatWrap, layout: _Layout) -> PlacedPage:
    """Return the page without its label, which alone differs between pieces."""
    chance, (size, shift) = layout.chance, _place(layout)
    to_page = mirrored(chance.turn_deg, chance.scale, shift)
    from_print = to_page @ np.linalg.inv(layout.piece.to_print)
    trim = trim_outline(wrap).times(to_page)
    bleed = bleed_outline(wrap, layout.bleed_mm).times(to_page)
    trim_box = exact_box(trim)
    return PlacedPage(
        piece=0,
        width_mm=size[0],
        height_mm=size[1],
        to_page=to_page,
        turn_deg=chance.turn_deg,
        trim=trim,
        bleed=bleed,
        trim_box=trim_box,
        bleed_box=union([trim_box, exact_box(bleed)]),
        bleed_mm=layout.bleed_mm,
        lines=joined(one.lines for one in layout.marks).times(from_print),
        labels=tuple(_on_page(text, from_print) for one in layout.marks for text in one.words),
        marks=tuple(dict.fromkeys(one.name for one in layout.marks)),
        places=tuple((one.name, _box_at(from_print, one.box)) for one in layout.marks),
    )


def _with_slip(page: PlacedPage, layout: _Layout, slip: Slip, pen: _Pen) -> PlacedPage:
    """Return the page of one piece; its label begins where the widest one was given room."""
    if layout.slip_at is None:
        return replace(page, piece=slip.piece)
    width, what = _label_width(layout.piece), layout.level.label
    own = slip_marks([slip], what, width_mm=width, set_label=pen.set_label)[0]
    anchor = layout.slip_at.words[0]
    from_print = page.to_page @ np.linalg.inv(layout.piece.to_print)
    text = _on_page(moved(own.words[0], anchor.turn_deg, anchor.at_mm), from_print)
    return replace(
        page,
        piece=slip.piece,
        labels=(*page.labels, text),
        marks=(*page.marks, own.name),
        places=(*page.places, (own.name, exact_box(text.path))),
    )


def _on_page(text: Label, matrix: Array) -> Label:
    return replace(text, at_mm=_at(matrix, text.at_mm), path=text.path.times(matrix))


def _at(matrix: Array, at: tuple[float, float]) -> tuple[float, float]:
    x, y, _ = matrix @ np.array([*at, 1.0])
    return float(x), float(y)


def _box_at(matrix: Array, box: Box) -> Box:
    """Return a box after a shift and a scale; neither turns it."""
    return (*_at(matrix, box[:2]), *_at(matrix, box[2:]))


def _bleed_cut(asked_mm: float, sheet: SheetRequest, *, walled: bool) -> Finding:
    message = (
        f"There is room for the {'wrap' if walled else 'blank'} on {sheet.paper} but not for its bleed: 0 mm of "
        f"{asked_mm:g} mm is left {EDGES[walled]}. Cut exactly on the trim, "
        f"take {'a lower band or ' if walled else ''}a larger paper."
    )
    return Finding("bleed-cut", Severity.WARNING, message, figure=0.0, limit=asked_mm, unit="mm")
