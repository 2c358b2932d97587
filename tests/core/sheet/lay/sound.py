"""What must hold of every layout, checked on its pieces and cells alone."""

from __future__ import annotations

from collections import Counter

from wrapwright.core.sheet.lay.grid import room_of, turned_box
from wrapwright.core.sheet.lay.values import Box, Cell, Laid, LaidSheet, Layout, LayRequest, Part, Shape, Stock

HAIR = 1e-6
A4 = Stock("A4", 210.0, 297.0, (4.0, 4.0, 4.0, 4.0))


def rectangle(width: float, height: float, copies: int = 1, **more: object) -> Part:
    """A rectangle with bleed above and below, and a label strip to its right."""
    wishes = {"clear_mm": (1.5, 2.0, 8.0, 2.0), "bleed_mm": (0.0, 2.0, 0.0, 2.0)} | more
    return Part(Shape("rectangle", width, height), copies, **wishes)


def asked(*parts: Part, stocks: tuple[Stock, ...] = (A4,), **more: object) -> LayRequest:
    """A request with a gutter of 3 mm."""
    return LayRequest(parts, stocks, **({"gutter_mm": 3.0} | more))


def room(request: LayRequest, laid: Laid) -> Box:
    """The box of a copy's clear room."""
    part = request.parts[laid.part]
    left, bottom, _, _ = turned_box(part.clear_mm, laid.turn_deg)
    wide, high = room_of(part, laid.turn_deg)
    return (laid.x_mm - left, laid.y_mm - bottom, laid.x_mm - left + wide, laid.y_mm - bottom + high)


def inked(request: LayRequest, laid: Laid) -> Box:
    """The box of a copy's ink."""
    part = request.parts[laid.part]
    left, bottom, right, top = turned_box(part.bleed_mm, laid.turn_deg)
    wide, high = part.shape.width_mm, part.shape.height_mm
    wide, high = (high, wide) if laid.turn_deg % 180 else (wide, high)
    return (laid.x_mm - left, laid.y_mm - bottom, laid.x_mm + wide + right, laid.y_mm + high + top)


def overlap(one: Box, other: Box) -> bool:
    return (
        one[0] < other[2] - HAIR and other[0] < one[2] - HAIR and one[1] < other[3] - HAIR and other[1] < one[3] - HAIR
    )


def inside(inner: Box, outer: Box) -> bool:
    return (
        inner[0] >= outer[0] - HAIR
        and inner[1] >= outer[1] - HAIR
        and inner[2] <= outer[2] + HAIR
        and inner[3] <= outer[3] + HAIR
    )


def leaves(cell: Cell) -> list[Cell]:
    return [one for child in cell.children for one in leaves(child)] if cell.children else [cell]


def box_of(cell: Cell) -> Box:
    return (cell.x_mm, cell.y_mm, cell.x_mm + cell.width_mm, cell.y_mm + cell.height_mm)


def check_cells(cell: Cell) -> None:
    """Children fill their parent, side by side or on top of each other."""
    at = cell.x_mm if cell.along == "x" else cell.y_mm
    for child in cell.children:
        left, bottom, right, top = box_of(child)
        if cell.along == "x":
            assert abs(left - at) < HAIR
            assert abs(bottom - cell.y_mm) < HAIR
            assert abs(child.height_mm - cell.height_mm) < HAIR
            at = right
        else:
            assert abs(bottom - at) < HAIR
            assert abs(left - cell.x_mm) < HAIR
            assert abs(child.width_mm - cell.width_mm) < HAIR
            at = top
        check_cells(child)
    if cell.children:
        end = cell.x_mm + cell.width_mm if cell.along == "x" else cell.y_mm + cell.height_mm
        assert abs(at - end) < HAIR


def check_sheet(request: LayRequest, sheet: LaidSheet) -> None:
    """Nothing overlaps, all ink can be printed, and every piece lies in the one cell that names it."""
    stock = request.stocks[sheet.stock]
    left, bottom, right, top = stock.margins_mm
    printable = (left, bottom, sheet.width_mm - right, sheet.height_mm - top)
    rooms = [room(request, one) for one in sheet.pieces]
    for at, one in enumerate(rooms):
        assert inside(inked(request, sheet.pieces[at]), printable)
        assert not any(overlap(one, other) for other in rooms[:at])
    if sheet.cell is not None:
        check_cells(sheet.cell)
        held = {(one.part, one.copy): one for one in leaves(sheet.cell) if one.part >= 0}
        assert len(held) == len(sheet.pieces)
        for one, box in zip(sheet.pieces, rooms, strict=True):
            cell = held[one.part, one.copy]
            assert inside(box, box_of(cell))
            assert cell.turn_deg == one.turn_deg


def check(layout: Layout) -> Layout:
    """Every copy of what fits lies once; returns the layout."""
    request = layout.request
    for sheet in layout.sheets:
        check_sheet(request, sheet)
    laid = Counter((one.part, one.copy) for sheet in layout.sheets for one in sheet.pieces)
    wanted = {
        (index, copy)
        for index, part in enumerate(request.parts)
        if index not in layout.over
        for copy in range(part.copies)
    }
    assert set(laid) == wanted
    assert set(laid.values()) <= {1}
    for sheet in layout.sheets:
        for one in sheet.pieces:
            assert one.turn_deg in request.parts[one.part].turns
    return layout
