"""A sheet with every stroke's line and number on it, as data for the cut list's pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from wrapwright.core.sheet.cut.pieces import trim_box
from wrapwright.core.sheet.cut.values import CutList, Layer
from wrapwright.core.sheet.cut.words import number_of, part_name, ranges
from wrapwright.core.sheet.lay.values import Box, Laid, Layout, LayRequest, Part, Ring
from wrapwright.outside.documents.sketch import Item, Point, arrowed, backed, drawing, line_moves, ring, shape, words

_EDGE = 3.2  # room round the sheet for numbers that stand out of it, mm drawn
_DIGIT, _TALL = 1.28, 2.3  # a number's digit and height as drawn, mm
_LEAST_PT = 4.4
_ALONG = (0.09, 0.91, 0.2, 0.8, 0.32, 0.68, 0.44, 0.56)


@dataclass
class _Taken:
    """What is written already, as boxes in drawn mm."""

    boxes: list[Box] = field(default_factory=list)

    def free(self, box: Box) -> bool:
        return all(box[2] <= one[0] or one[2] <= box[0] or box[3] <= one[1] or one[3] <= box[1] for one in self.boxes)


@dataclass(frozen=True)
class _Scale:
    """Page mm to drawn mm, y down."""

    by: float
    height_mm: float

    def at(self, x: float, y: float) -> Point:
        return _EDGE + self.by * x, _EDGE + self.by * (self.height_mm - y)

    def corners(self, box: Box) -> list[Point]:
        left, bottom, right, top = box
        return [self.at(left, bottom), self.at(right, bottom), self.at(right, top), self.at(left, top)]


def sheet_plan(
    layout: Layout, alike: Sequence[int], cuts: CutList, *, rest: Box | None, room: tuple[float, float]
) -> dict[str, object]:
    """Return the drawing of the first of some sheets laid alike, with the strokes that cut it and its fellows.

    Lines cut by eye are drawn in the colour of heat, the others in the accent; `rest` is what stays usable; `room` is
    width and height in mm.
    """
    sheet = layout.sheets[alike[0]]
    by = min((room[0] - 2 * _EDGE) / sheet.width_mm, (room[1] - 2 * _EDGE) / sheet.height_mm)
    scale = _Scale(by, sheet.height_mm)
    taken = _Taken()
    paper = (0.0, 0.0, sheet.width_mm, sheet.height_mm)
    items = [shape(line_moves(scale.corners(paper), closed=True), fill="sheet")]
    if rest is not None:
        items += _rest(rest, scale, taken)
    items.append(shape(line_moves(scale.corners(paper), closed=True), stroke="ink3", width_pt=0.6))
    for laid in sheet.pieces:
        items += _piece(layout.request, laid, scale, taken, numbered=len(alike) == 1)
    lines = _lines(cuts, alike)
    items += [_line(layer, scale, by_eye=by_eye) for layer, _, by_eye in lines]
    for layer, numbers, by_eye in lines:
        items.append(_number(layer, ranges(numbers), scale, taken, by_eye=by_eye))
    return drawing(by * sheet.width_mm + 2 * _EDGE, by * sheet.height_mm + 2 * _EDGE, items)


def _rest(rest: Box, scale: _Scale, taken: _Taken) -> list[Item]:
    left, bottom, right, top = rest
    across, along = right - left, top - bottom
    said = f"rest {across:.0f} × {along:.0f} mm"
    items = [shape(line_moves(scale.corners(rest), closed=True), fill="ground")]
    return [*items, *_said(said, rest, scale, taken, colour="ink3")]


def _piece(request: LayRequest, laid: Laid, scale: _Scale, taken: _Taken, *, numbered: bool) -> list[Item]:
    part = request.parts[laid.part]
    box = trim_box(part, laid)
    if part.shape.kind == "circle":
        middle = scale.at((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
        radius = scale.by * part.shape.width_mm / 2
        items = [ring(middle, (radius, radius), fill="accentsoft", stroke="ink3", width_pt=0.5, dash="dashed")]
    elif part.shape.ring:
        points = line_moves([scale.at(*one) for one in ring_on_sheet(part, laid)], closed=True)
        items = [shape(points, fill="accentsoft", stroke="ink3", width_pt=0.5, dash="dashed")]
    else:
        items = [shape(line_moves(scale.corners(box), closed=True), fill="accentsoft")]
    name, number = part_name(request, laid.part), ""
    if numbered and number_of(part, laid.copy):
        number = number_of(part, laid.copy)
        name += f" {number}"
    return [*items, *_said(name, box, scale, taken, colour="ink", short=number)]


def ring_on_sheet(part: Part, laid: Laid) -> Ring:
    """Return a part's outline as it lies on its sheet, page mm."""
    width, height = part.shape.width_mm, part.shape.height_mm
    points = part.shape.ring
    for _ in range(laid.turn_deg // 90 % 4):
        points = tuple((height - y, x) for x, y in points)
        width, height = height, width
    return tuple((laid.x_mm + x, laid.y_mm + y) for x, y in points)


def _said(text: str, box: Box, scale: _Scale, taken: _Taken, *, colour: str, short: str = "") -> list[Item]:
    """Return words in the middle of a box, along its longer side, as large as it holds; `short` where it is small."""
    across, along = scale.by * (box[2] - box[0]), scale.by * (box[3] - box[1])
    upright = along > 1.3 * across
    room, depth = (along, across) if upright else (across, along)
    text, size = next(((one, fit) for one in (text, short) if (fit := _fit(one, room, depth)) >= _LEAST_PT), ("", 0.0))
    if not text:
        return []
    x, y = scale.at((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    half, tall = 0.095 * size * len(text), 0.17 * size
    taken.boxes.append(
        (x - tall, y - half, x + tall, y + half) if upright else (x - half, y - tall, x + half, y + tall)
    )
    return [words(text, (x, y), size_pt=round(size, 2), colour=colour, turn_deg=-90.0 if upright else 0.0)]


def _fit(text: str, room: float, depth: float) -> float:
    """Return the size in points at which words fill most of a room."""
    return min(7.5, 0.8 * room / (0.19 * len(text)), depth / 0.5) if text else 0.0


def _lines(cuts: CutList, alike: Sequence[int]) -> list[tuple[Layer, list[int], bool]]:
    """Return each line on the sheets laid alike: where it is, its strokes' numbers, whether it is cut by eye."""
    found: dict[tuple[object, ...], tuple[Layer, list[int], bool]] = {}
    for stroke in cuts.strokes:
        for layer in stroke.layers:
            if layer.sheet in alike:
                key = (round(layer.at_mm, 1), *(round(one, 1) for one in layer.box))
                entry = found.setdefault(key, (layer, [], stroke.fence_mm is None))
                if stroke.number not in entry[1]:
                    entry[1].append(stroke.number)
    return list(found.values())


def line_of(layer: Layer) -> tuple[Point, Point]:
    """Return the ends of a layer's cut, page mm, from the lower or left one."""
    left, bottom, right, top = layer.box
    if layer.edge in ("left", "right"):
        return (layer.at_mm, bottom), (layer.at_mm, top)
    return (left, layer.at_mm), (right, layer.at_mm)


def _line(layer: Layer, scale: _Scale, *, by_eye: bool) -> Item:
    ends = [scale.at(*one) for one in line_of(layer)]
    return shape(line_moves(ends), stroke="heat" if by_eye else "accent", width_pt=1.1 if by_eye else 0.7)


def _number(layer: Layer, said: str, scale: _Scale, taken: _Taken, *, by_eye: bool) -> Item:
    """Return the stroke's number on its line where nothing is written yet."""
    (x0, y0), (x1, y1) = (scale.at(*one) for one in line_of(layer))
    half = _DIGIT * len(said) / 2 + 0.3
    places = [(x0 + share * (x1 - x0), y0 + share * (y1 - y0)) for share in _ALONG]
    boxes = [(x - half, y - _TALL / 2, x + half, y + _TALL / 2) for x, y in places]
    best = next((i for i, box in enumerate(boxes) if taken.free(box)), 0)
    taken.boxes.append(boxes[best])
    return backed(words(said, places[best], size_pt=6.2, colour="heat" if by_eye else "accent", strong=True))


def trimmer_drawing(width_mm: float) -> dict[str, object]:
    """Return how paper lies at the trimmer: fence on the left, blade on the right, the distance between them."""
    left, right, low, high = 9.0, width_mm - 16.0, 22.0, 5.0
    paper = [(left, low), (width_mm - 5.0, low), (width_mm - 5.0, high), (left, high)]
    items = [
        shape(line_moves(paper, closed=True), fill="sheet", stroke="ink3", width_pt=0.5),
        shape(line_moves([(left, low), (right, low), (right, high), (left, high)], closed=True), fill="accentsoft"),
        shape(line_moves([(left - 1.2, 2.0), (left, 2.0), (left, 25.0), (left - 1.2, 25.0)], closed=True), fill="ink2"),
        shape(line_moves([(right, 2.0), (right, 25.0)]), stroke="accent", width_pt=1.6),
        *arrowed([(left, 13.5), (right, 13.5)], colour="ink"),
        backed(words("fence distance", ((left + right) / 2, 13.5), size_pt=6.8, colour="ink")),
        words("held", ((left + right) / 2, 8.4), size_pt=6.8),
        words("off", ((right + width_mm - 5.0) / 2, 8.4), size_pt=6.8),
        words("fence", (left - 2.4, 13.5), size_pt=6.8, turn_deg=-90.0),
        words("blade", (right, 27.4), size_pt=6.8, colour="accent", strong=True),
    ]
    return drawing(width_mm, 29.5, items)
