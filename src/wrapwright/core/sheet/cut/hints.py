"""What a layout's own cuts tell the search about blocks of many pieces."""

from __future__ import annotations

from wrapwright.core.sheet.cut.blocks import Block, Line, Rect, partings, turned
from wrapwright.core.sheet.cut.pieces import copies_in, rects_of
from wrapwright.core.sheet.cut.search import EXACT, Hints, cornered
from wrapwright.core.sheet.lay.values import Cell, LaidSheet, LayRequest


def hints_of(request: LayRequest, sheet: LaidSheet) -> Hints:
    """Return, for every set of pieces that the sheet's tree parts from the end, the lines that part it."""
    found: dict[tuple[Rect, ...], set[Line]] = {}
    if sheet.cell is not None and len(sheet.pieces) > EXACT:
        rects = {(laid.part, laid.copy): rect for rect, laid in rects_of(request, sheet).items()}
        _walk(sheet.cell, rects, found)
    return {pieces: tuple(sorted(lines)) for pieces, lines in found.items()}


def _walk(cell: Cell, rects: dict[tuple[int, int], Rect], found: dict[tuple[Rect, ...], set[Line]]) -> None:
    groups = [[rects[one] for one in copies_in(child)] for child in cell.children]
    groups = [group for group in groups if group]
    for end in range(len(groups), 1, -1):
        pieces = [one for group in groups[:end] for one in group]
        _note(pieces, len(pieces) - len(groups[end - 1]), found, upright=cell.along == "x")
    for child in cell.children:
        _walk(child, rects, found)


def _note(pieces: list[Rect], low: int, found: dict[tuple[Rect, ...], set[Line]], *, upright: bool) -> None:
    """Note the lines that part the first `low` of the pieces from the rest, for all four turns of them."""
    placed = cornered(tuple(sorted(pieces)))
    block = Block(max(one[2] for one in placed), max(one[3] for one in placed), 0, placed)
    axis = 0 if upright else 1
    gaps = partings(block, upright=upright)
    for lines in gaps:
        below = sum(one[axis + 2] <= lines[0].at for one in placed)
        if below == low:
            _note_turns(block, lines, found)


def _note_turns(block: Block, lines: list[Line], found: dict[tuple[Rect, ...], set[Line]]) -> None:
    for _ in range(4):
        found.setdefault(block.pieces, set()).update(lines)
        height = block.height
        lines = [Line(not one.upright, one.at if one.upright else height - one.at) for one in lines]
        block = turned(block)
