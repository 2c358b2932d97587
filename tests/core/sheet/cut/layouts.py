"""Layouts to cut: random trees of cells, grids, and the same sheet several times."""

from __future__ import annotations

import itertools
from dataclasses import replace
from random import Random

from wrapwright.core.sheet.lay.values import (
    SIDES,
    Box,
    Cell,
    Laid,
    LaidSheet,
    Layout,
    LayRequest,
    Part,
    Shape,
    Stock,
)

PAPER = (216.0, 279.0)


def tree(random: Random, box: Box, most: int) -> Cell:
    """Return a cell divided at random into at most so many leaves; parts are numbered later."""
    left, bottom, right, top = box
    along = random.choice("xy")
    extent = right - left if along == "x" else top - bottom
    if most < 2 or extent < 60.0 or random.random() < 0.1:
        return Cell(left, bottom, right - left, top - bottom, part=-1 if random.random() < 0.15 else 0)
    count = random.randint(2, min(4, most, int(extent // 25)))
    if random.random() < 0.5:
        ends: list[float] = [round(extent * i / count, 1) for i in range(1, count)]
    else:
        ends, count = [random.randrange(25, int(extent) - 24, 5)], 2
    steps = [0.0, *map(float, ends), extent]
    children = []
    for start, end in itertools.pairwise(steps):
        inner = (left + start, bottom, left + end, top) if along == "x" else (left, bottom + start, right, bottom + end)
        children.append(tree(random, inner, max(1, most // count)))
    return Cell(left, bottom, right - left, top - bottom, "x" if along == "x" else "y", tuple(children))


def laid_out(random: Random, *, most: int = 12, gutter_mm: float | None = None, margin_mm: float = 6.0) -> Layout:
    """Return a layout of one sheet: random cells, pieces somewhere in them, turned, some sides not true."""
    gutter = random.choice([0.0, 3.0, 5.0]) if gutter_mm is None else gutter_mm
    width, height = PAPER
    root = tree(random, (margin_mm, margin_mm, width - margin_mm, height - margin_mm), most)
    parts: list[Part] = []
    pieces: list[Laid] = []
    cell = _filled(root, random, gutter / 2.0, parts, pieces)
    request = LayRequest(tuple(parts), (Stock("paper", width, height, (margin_mm,) * 4),), gutter_mm=gutter)
    return Layout(request, (LaidSheet(0, width, height, tuple(pieces), cell),))


def _filled(cell: Cell, random: Random, clear: float, parts: list[Part], pieces: list[Laid]) -> Cell:
    if cell.children:
        return replace(cell, children=tuple(_filled(one, random, clear, parts, pieces) for one in cell.children))
    if cell.part < 0:
        return cell
    turn = random.choice([0, 90, 180, 270])
    slack = (random.choice([0.0, 0.0, 4.0]), random.choice([0.0, 0.0, 2.5]))
    width, height = cell.width_mm - 2 * clear - slack[0], cell.height_mm - 2 * clear - slack[1]
    true = frozenset(SIDES) if random.random() < 0.7 else frozenset(random.sample(SIDES, random.randint(1, 3)))
    size = (width, height) if turn % 180 == 0 else (height, width)
    parts.append(Part(Shape("rectangle", *size), clear_mm=(clear,) * 4, bleed_mm=(min(clear, 1.0),) * 4, true=true))
    pieces.append(Laid(len(parts) - 1, 0, cell.x_mm + clear, cell.y_mm + clear, turn))
    return replace(cell, part=len(parts) - 1, copy=0, turn_deg=turn)


def several(layout: Layout, sheets: int) -> Layout:
    """Return the layout's one sheet so many times, every copy with its own number."""
    request = replace(layout.request, parts=tuple(replace(one, copies=sheets) for one in layout.request.parts))
    (sheet,) = layout.sheets
    return Layout(request, tuple(_numbered(sheet, copy) for copy in range(sheets)))


def _numbered(sheet: LaidSheet, copy: int) -> LaidSheet:
    assert sheet.cell is not None
    pieces = tuple(replace(one, copy=copy) for one in sheet.pieces)
    return replace(sheet, pieces=pieces, cell=_renumbered(sheet.cell, copy))


def _renumbered(cell: Cell, copy: int) -> Cell:
    children = tuple(_renumbered(one, copy) for one in cell.children)
    return replace(cell, children=children, copy=copy if cell.part >= 0 else -1)


def grid(rows: int, columns: int, *, size: tuple[float, float] = (40.0, 30.0), gutter_mm: float = 3.0) -> Layout:
    """Return one sheet of rows x columns alike pieces with a gutter between them, clear of the paper's edges."""
    width, height = size
    half = gutter_mm / 2.0
    part = Part(Shape("rectangle", width, height), copies=rows * columns, clear_mm=(half,) * 4, name="tag")
    pitch = (width + gutter_mm, height + gutter_mm)
    paper = (columns * pitch[0] + 20.0, rows * pitch[1] + 20.0)
    pieces, levels = [], []
    for row in range(rows):
        y = 10.0 + row * pitch[1]
        cells = []
        for column in range(columns):
            x, copy = 10.0 + column * pitch[0], row * columns + column
            pieces.append(Laid(0, copy, x + half, y + half, 0))
            cells.append(Cell(x, y, *pitch, part=0, copy=copy))
        levels.append(Cell(10.0, y, columns * pitch[0], pitch[1], "x", tuple(cells)))
    cell = Cell(10.0, 10.0, columns * pitch[0], rows * pitch[1], "y", tuple(levels))
    stock = Stock("paper", *paper, (10.0,) * 4)
    return Layout(LayRequest((part,), (stock,), gutter_mm=gutter_mm), (LaidSheet(0, *paper, tuple(pieces), cell),))
