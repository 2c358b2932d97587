"""One stroke for the screen: its sheet as cut so far, and its paper as it lies at the trimmer, as SVG."""

from __future__ import annotations

from dataclasses import dataclass

from wrapwright.core.sheet.cut.pieces import trim_box
from wrapwright.core.sheet.cut.values import CutList, Layer, Side, Stroke
from wrapwright.core.sheet.cut.words import cut_words, falling, held_part, number_of, part_name
from wrapwright.core.sheet.lay.values import Box, Laid, Layout
from wrapwright.outside.documents.cutting.sheet_plan import line_of, ring_on_sheet
from wrapwright.outside.documents.screen.svg import Point, arrowed, chain, dot, drawing, figure, shape, wide, words

_EDGE = 34.0  # px round the paper, for the distance outside it
# Quarter turns anticlockwise that bring a side to the fence, on the left.
_TURNS: dict[Side, int] = {"left": 0, "top": 1, "right": 2, "bottom": 3}


@dataclass(frozen=True)
class _Scale:
    """Page mm to px, y down, after quarter turns anticlockwise of a box that is drawn at the edge."""

    by: float
    box: Box
    turns: int = 0

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in px of the box as drawn."""
        left, bottom, right, top = self.box
        across, along = self.by * (right - left), self.by * (top - bottom)
        return (along, across) if self.turns % 2 else (across, along)

    def at(self, x: float, y: float) -> Point:
        """Return a place of the page as drawn."""
        left, bottom, right, top = self.box
        x, y = x - left, y - bottom
        width, height = right - left, top - bottom
        for _ in range(self.turns):
            x, y = height - y, x
            width, height = height, width
        return _EDGE + self.by * x, _EDGE + self.by * (height - y)

    def outline(self, box: Box) -> str:
        """Return path data of a box of the page."""
        left, bottom, right, top = box
        return chain(
            [self.at(left, bottom), self.at(right, bottom), self.at(right, top), self.at(left, top)], closed=True
        )


def stroke_view(
    layout: Layout, cuts: CutList, number: int, *, width_px: float = 420.0, height_px: float = 520.0
) -> str:
    """Return the sheet of a stroke's first layer before it falls: cut so far, this stroke, its distance from the fence.

    Numbers count from 1; 0 is the first sheet before anything is cut, and one more than there are strokes the last
    sheet when all is done.
    """
    stroke = cuts.strokes[number - 1] if 1 <= number <= len(cuts.strokes) else None
    sheet_number = stroke.layers[0].sheet if stroke else 0 if number < 1 else len(layout.sheets) - 1
    sheet = layout.sheets[sheet_number]
    by = min((width_px - 2 * _EDGE) / sheet.width_mm, (height_px - 2 * _EDGE) / sheet.height_mm)
    scale = _Scale(by, (0.0, 0.0, sheet.width_mm, sheet.height_mm))
    parts = [shape(scale.outline(scale.box), "f-sheet s-ink-3 wd-thin")]
    under = [layer for layer in stroke.layers if layer.sheet == sheet_number] if stroke else []
    for laid in sheet.pieces:
        here = any(_lies_in(layout, laid, layer.box) for layer in under)
        parts += _piece(layout, laid, scale, "f-accent-soft" if here else "f-panel")
    parts += [shape(scale.outline(layer.box), "wd-hair s-accent") for layer in under]
    done = [one for one in cuts.strokes if one.number < number]
    parts += [_cut(layer, scale) for one in done for layer in one.layers if layer.sheet == sheet_number]
    for layer in under:
        parts.append(shape(chain([scale.at(*one) for one in line_of(layer)]), _accent(stroke)))
    if stroke and under:
        parts += _distance(stroke, under[0], scale)
    spoken = cut_words(layout, cuts)[number - 1].sentence if stroke else f"Sheet {sheet_number + 1}"
    across, along = scale.size
    return drawing(across + 2 * _EDGE, along + 2 * _EDGE, parts, spoken=spoken)


def trimmer_view(
    layout: Layout, cuts: CutList, number: int, *, width_px: float = 420.0, height_px: float = 320.0
) -> str:
    """Return what lies under the blade at a stroke: turned, its edge at the fence, what is held and what comes off.

    Raises:
        IndexError: when there is no such stroke.
    """
    stroke = cuts.strokes[number - 1]
    layer = stroke.layers[0]
    left, bottom, right, top = layer.box
    turns = _TURNS[layer.edge]
    across, along = (top - bottom, right - left) if turns % 2 else (right - left, top - bottom)
    scale = _Scale(min((width_px - 2 * _EDGE) / across, (height_px - 2 * _EDGE) / along), layer.box, turns)
    width, height = scale.size
    parts = [
        shape(scale.outline(falling(layer).box), "f-sheet s-ink-3 wd-thin"),
        shape(scale.outline(held_part(layer).box), "f-sheet s-ink-3 wd-thin"),
    ]
    for laid in layout.sheets[layer.sheet].pieces:
        if _lies_in(layout, laid, layer.box):
            is_held = _lies_in(layout, laid, held_part(layer).box)
            parts += _piece(layout, laid, scale, "f-accent-soft" if is_held else "f-panel")
    ends = [scale.at(*one) for one in line_of(layer)]
    blade = ends[0][0]
    if stroke.fence_mm is not None:
        bar = [(_EDGE - 7, _EDGE - 14), (_EDGE - 1, _EDGE - 14), (_EDGE - 1, _EDGE + height + 14)]
        parts.append(shape(chain([*bar, (_EDGE - 7, _EDGE + height + 14)], closed=True), "f-ink-3"))
        parts += _dimension((_EDGE, _EDGE + height + 18), (blade, _EDGE + height + 18), f"{stroke.fence_mm:.1f} mm")
    parts.append(shape(chain([(blade, _EDGE - 14), (blade, _EDGE + height + 10)]), _accent(stroke)))
    if len(stroke.layers) > 1:
        parts.append(words(f"{len(stroke.layers)} layers", (_EDGE, _EDGE - 22), "wd-strong", anchor="start"))
    spoken = cut_words(layout, cuts)[number - 1].sentence
    return drawing(width + 2 * _EDGE, height + 2 * _EDGE, parts, spoken=spoken)


def _accent(stroke: Stroke | None) -> str:
    """Return the classes of this stroke's line: by eye in the colour of heat."""
    return "wd-thick s-heat" if stroke and stroke.fence_mm is None else "wd-thick s-accent"


def _lies_in(layout: Layout, laid: Laid, box: Box) -> bool:
    left, bottom, right, top = trim_box(layout.request.parts[laid.part], laid)
    x, y = (left + right) / 2, (bottom + top) / 2
    return box[0] < x < box[2] and box[1] < y < box[3]


def _piece(layout: Layout, laid: Laid, scale: _Scale, fill: str) -> list[str]:
    """Return a copy's trim with its name where it has room."""
    part = layout.request.parts[laid.part]
    box = trim_box(part, laid)
    left, bottom, right, top = box
    middle = scale.at((left + right) / 2, (bottom + top) / 2)
    if part.shape.kind == "circle":
        out = [dot(middle, scale.by * part.shape.width_mm / 2, f"wd-thin s-line {fill}")]
    elif part.shape.ring:
        points = [scale.at(*one) for one in ring_on_sheet(part, laid)]
        out = [shape(chain(points, closed=True), f"s-line {fill}")]
    else:
        out = [shape(scale.outline(box), f"s-line {fill}")]
    corner, far = scale.at(left, bottom), scale.at(right, top)
    across, along = abs(far[0] - corner[0]), abs(far[1] - corner[1])
    number = number_of(part, laid.copy)
    for said in (f"{part_name(layout.request, laid.part)} {number}".rstrip(), number or "1"):
        if wide(said, size=11.0) < max(across, along) - 6 and min(across, along) > 13:
            turn = -90.0 if wide(said, size=11.0) > across - 6 else 0.0
            return [*out, words(said, middle, "wd-small", turn_deg=turn)]
    return out


def _cut(layer: Layer, scale: _Scale) -> str:
    return shape(chain([scale.at(*one) for one in line_of(layer)]), "wd-hair s-ink-2")


def _distance(stroke: Stroke, layer: Layer, scale: _Scale) -> list[str]:
    """Return the fence's distance beside the block, or the words for a printed line."""
    if stroke.fence_mm is None:
        (x, y), _ = sorted((scale.at(*one) for one in line_of(layer)), key=lambda one: (one[1], one[0]))
        upright = layer.edge in ("left", "right")
        place = (x, y - 10) if upright else (x + 4, y - 9)
        return [words("printed line", place, "wd-small wd-halo f-heat", anchor="middle" if upright else "start")]
    left, bottom, right, top = layer.box
    said = f"{stroke.fence_mm:.1f} mm"
    edge = {"left": left, "right": right, "bottom": bottom, "top": top}[layer.edge]
    if layer.edge in ("left", "right"):
        level = scale.at(edge, top)[1] - 12
        return _dimension((scale.at(edge, top)[0], level), (scale.at(layer.at_mm, top)[0], level), said)
    plumb = scale.at(left, edge)[0] - 12
    return _dimension((plumb, scale.at(left, edge)[1]), (plumb, scale.at(left, layer.at_mm)[1]), said)


def _dimension(start: Point, end: Point, said: str) -> list[str]:
    """Return a dimension line with its words in its middle, or beside it where it is short."""
    upright = abs(end[0] - start[0]) < 1e-6
    length = abs(end[1] - start[1]) if upright else abs(end[0] - start[0])
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    room = wide(said) + 12
    back = f'<rect class="f-panel" x="{figure(middle[0] - room / 2)}" y="{figure(middle[1] - 8)}" '
    back += f'width="{figure(room)}" height="16" rx="3"/>'
    if upright and length > room:
        turned = words(said, middle, "wd-strong wd-halo", turn_deg=-90.0)
        return [arrowed([start, end], "accent"), turned]
    return [
        arrowed([start, end], "accent"),
        *([back] if length > room else []),
        words(said, middle, "wd-strong wd-halo"),
    ]
