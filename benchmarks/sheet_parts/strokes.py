"""Strokes of the trimmer: on published instances, against the proven least, on grids, and in stacks."""

from __future__ import annotations

import random
import time
from collections.abc import Iterator
from dataclasses import replace

from benchmarks._packing_data import Instance, folder_of, sheets_in

from wrapwright.core.sheet.cut.least import MOST, least_strokes
from wrapwright.core.sheet.cut.listing import cut_list, strokes_of
from wrapwright.core.sheet.cut.pieces import sheet_block
from wrapwright.core.sheet.cut.replaying import replay
from wrapwright.core.sheet.cut.tidying import tidied
from wrapwright.core.sheet.cut.values import Trimmer
from wrapwright.core.sheet.lay.values import Cell, Laid, LaidSheet, Layout, LayRequest, Part, Shape, Stock
from wrapwright.core.sheet.pack.values import Cut

GOAL = 1.6  # strokes a piece on the published instances
# A published sheet is bare: its own edges are as good as cut ones.
BARE = Trimmer(longest_mm=1e6, least_mm=0.0, slip_mm=0.0)
PRINTED = Trimmer(longest_mm=1e6, least_mm=0.0)
STEPS = 200  # between two looks at the clock
SEED = 20260502


def rows(quick: bool) -> list[str]:  # noqa: FBT001 - as the bench calls it
    """Return the rows of the table: a title, then what was measured against what was asked."""
    return [*_published(quick=quick), *_against_the_least(quick=quick), *_grids(), *_stacks()]


def _published(*, quick: bool) -> Iterator[str]:
    """Yield strokes a piece on the published instances, laid in a short time, each sheet's list replayed."""
    instances = [one for name, some in sheets_in(folder_of(None)) if name.startswith("bpp") for one in some]
    if quick:
        instances = instances[14 :: len(instances) // 12][:12]
    seconds = 0.5 if quick else 1.0
    pieces = sheets = best = plain = strokes = 0
    spent = 0.0
    for one in instances:
        layout = _laid(one, seconds)
        begun = time.process_time()
        tidy = replace(layout, sheets=tuple(tidied(layout.request, sheet, BARE) for sheet in layout.sheets))
        singly = cut_list(tidy, replace(BARE, stack_mm=BARE.paper_mm))
        spent += time.process_time() - begun
        _check(tidy, replay(singly))
        pieces += sum(item[2] for item in one.items)
        sheets += len(layout.sheets)
        best += one.best or 0
        plain += sum(strokes_of(layout.request, sheet, BARE) or 0 for sheet in layout.sheets)
        strokes += len(singly.strokes)
    rate = strokes / pieces
    yield (
        f"{len(instances)} published instances, laid in {seconds:g} CPU s each: {sheets} sheets (best known {best}), "
        f"{strokes} strokes for {pieces} pieces = {rate:.3f} a piece (asked: at most {GOAL}; {plain / pieces:.3f} "
        f"before cells change places), {1000 * spent / sheets:.1f} ms a sheet, every list replayed: "
        f"{_verdict(rate <= GOAL)}"
    )


def _laid(one: Instance, seconds: float) -> Layout:
    from wrapwright.core.sheet.pack.trimmer import Packing

    packing = Packing(one.items, one.sheet, seed=1)
    end = time.process_time() + seconds
    while time.process_time() < end and not packing.advance(STEPS):
        pass
    return _layout(one, packing.best)


def _layout(one: Instance, cuts: tuple[Cut, ...]) -> Layout:
    parts = tuple(Part(Shape("rectangle", float(w), float(h)), copies=n) for w, h, n, _ in one.items)
    stock = Stock("sheet", float(one.sheet[0]), float(one.sheet[1]))
    given = [0] * len(parts)
    sheets = []
    for cut in cuts:
        pieces: list[Laid] = []
        cell = _cell(cut, given, pieces)
        sheets.append(LaidSheet(0, stock.width_mm, float(one.sheet[1]), tuple(pieces), cell))
    return Layout(LayRequest(parts, (stock,)), tuple(sheets))


def _cell(cut: Cut, given: list[int], pieces: list[Laid]) -> Cell:
    sides = (float(cut.x), float(cut.y), float(cut.width), float(cut.height))
    if cut.item < 0:
        return Cell(*sides, cut.along, tuple(_cell(child, given, pieces) for child in cut.children))
    copy, turn = given[cut.item], 90 if cut.turned else 0
    given[cut.item] += 1
    pieces.append(Laid(cut.item, copy, sides[0], sides[1], turn))
    return Cell(*sides, part=cut.item, copy=copy, turn_deg=turn)


def _check(layout: Layout, left: object) -> None:
    """Stop where a copy is not among the rectangles that are left."""
    there = {(one.sheet, tuple(round(side, 2) for side in one.box)) for one in left}  # type: ignore[attr-defined]
    for number, sheet in enumerate(layout.sheets):
        for laid in sheet.pieces:
            shape = layout.request.parts[laid.part].shape
            size = (shape.width_mm, shape.height_mm) if laid.turn_deg == 0 else (shape.height_mm, shape.width_mm)
            box = (laid.x_mm, laid.y_mm, laid.x_mm + size[0], laid.y_mm + size[1])
            if (number, tuple(round(side, 2) for side in box)) not in there:
                raise SystemExit(f"sheet {number + 1}: {laid} is not cut out")


def _against_the_least(*, quick: bool) -> Iterator[str]:
    """Yield how often the strokes equal the least that a search over every order proves."""
    luck = random.Random(SEED)
    equal = more = pieces = 0
    slowest = 0.0
    count = 60 if quick else 400
    for _ in range(count):
        layout = _random_layout(luck)
        (sheet,) = layout.sheets
        pieces += len(sheet.pieces)
        block = sheet_block(layout.request, sheet, exact_paper=False)
        begun = time.process_time()
        ours = strokes_of(layout.request, sheet, PRINTED)
        slowest = max(slowest, time.process_time() - begun)
        least = least_strokes(block.pieces, (0, 0, block.width, block.height))
        equal += ours == least
        more += ours is None or least is None or ours > least
    yield (
        f"{count} random layouts of up to {MOST} pieces (mean {pieces / count:.1f}) with a gutter: the proven least in "
        f"{equal}, more in {more}, slowest {1000 * slowest:.0f} ms: {_verdict(equal == count)}"
    )


def _random_layout(luck: random.Random) -> Layout:
    gutter = luck.choice([2.0, 3.0, 4.0])
    parts: list[Part] = []
    pieces: list[Laid] = []
    cell = _random_cell(luck, (6.0, 6.0, 285.0, 408.0), luck.randint(1, MOST), gutter / 2.0, parts, pieces)
    sheet = LaidSheet(0, 297.0, 420.0, tuple(pieces), cell)
    return Layout(LayRequest(tuple(parts), (Stock("A3", 297.0, 420.0, (6.0,) * 4),), gutter_mm=gutter), (sheet,))


def _random_cell(
    luck: random.Random,
    box: tuple[float, float, float, float],
    count: int,
    clear: float,
    parts: list[Part],
    pieces: list[Laid],
) -> Cell:
    """Return a cell (left, bottom, width, height) with so many pieces; some of their sides need not be true."""
    left, bottom, width, height = box
    if count == 1:
        slack = [luck.choice([0.0, 0.0, 0.0, round(0.2 * side, 1)]) for side in (width, height)]
        size = (width - slack[0] - 2 * clear, height - slack[1] - 2 * clear)
        true = frozenset(luck.choice([("left", "bottom", "right", "top")] * 3 + [("left", "right")]))
        parts.append(Part(Shape("rectangle", *size), clear_mm=(clear,) * 4, bleed_mm=(clear,) * 4, true=true))
        pieces.append(Laid(len(parts) - 1, 0, left + clear, bottom + clear, 0))
        return Cell(*box, part=len(parts) - 1, copy=0)
    first = luck.randint(1, count - 1)
    share = luck.choice([first / count, 0.5, luck.uniform(0.35, 0.65)])
    if width * luck.uniform(0.7, 1.4) > height:
        wide = round(width * share, 1)
        halves, along = [(left, bottom, wide, height), (left + wide, bottom, width - wide, height)], "x"
    else:
        high = round(height * share, 1)
        halves, along = [(left, bottom, width, high), (left, bottom + high, width, height - high)], "y"
    counts = (first, count - first)
    children = tuple(
        _random_cell(luck, half, some, clear, parts, pieces) for half, some in zip(halves, counts, strict=True)
    )
    return Cell(*box, "x" if along == "x" else "y", children)


def grid(rows: int, columns: int, size: tuple[float, float], gutter_mm: float, sheets: int = 1) -> Layout:
    """Return sheets of rows x columns alike pieces."""
    half = gutter_mm / 2.0
    part = Part(Shape("rectangle", *size), copies=rows * columns * sheets, clear_mm=(half,) * 4)
    pitch = (size[0] + gutter_mm, size[1] + gutter_mm)
    paper = (20.0 + columns * pitch[0], 20.0 + rows * pitch[1])
    laid = []
    for number in range(sheets):
        pieces, levels = [], []
        for row in range(rows):
            y, cells = 10.0 + row * pitch[1], []
            for column in range(columns):
                x, copy = 10.0 + column * pitch[0], (number * rows + row) * columns + column
                pieces.append(Laid(0, copy, x + half, y + half, 0))
                cells.append(Cell(x, y, *pitch, part=0, copy=copy))
            levels.append(Cell(10.0, y, columns * pitch[0], pitch[1], "x", tuple(cells)))
        cell = Cell(10.0, 10.0, columns * pitch[0], rows * pitch[1], "y", tuple(levels))
        laid.append(LaidSheet(0, *paper, tuple(pieces), cell))
    return Layout(LayRequest((part,), (Stock("paper", *paper, (10.0,) * 4),), gutter_mm=gutter_mm), tuple(laid))


def _grids() -> Iterator[str]:
    """Yield the grids' strokes a piece against 2 + 2/max(rows, columns)."""
    worst, most = 0.0, 12
    for high in range(1, most + 1):
        for wide in range(1, most + 1):
            layout = grid(high, wide, (40.0, 25.0), 3.0)
            strokes = strokes_of(layout.request, layout.sheets[0], PRINTED) or 0
            worst = max(worst, strokes / (high * wide) - (2 + 2 / max(high, wide)))
    yield (
        f"grids from 1 x 1 to {most} x {most} with a gutter: at most {worst:+.3f} strokes a piece over "
        f"2 + 2/max(r, c): {_verdict(worst <= 1e-9)}"
    )


def _stacks() -> Iterator[str]:
    """Yield what stacks save: twenty sheets of 3 x 2, each squared by eye singly first."""
    layout = grid(3, 2, (95.0, 80.0), 3.0, sheets=20)
    said = []
    for layers in (1, 5, 10):
        cuts = cut_list(layout, replace(PRINTED, stack_mm=layers * 0.12, paper_mm=0.12))
        replay(cuts)
        said.append(f"stacks of {layers}: {len(cuts.strokes)} strokes, {cuts.settings} settings")
    yield f"20 sheets of 3 x 2 pieces, 40 strokes by eye among them; {'; '.join(said)}"


def _verdict(*held: bool) -> str:
    return "held" if all(held) else "MISSED"
