"""A sheet's cells put in a better order: fewer strokes, waste gathered into one strip that can be used again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from wrapwright.core.sheet.cut.blocks import Block, Line, Rect, halves
from wrapwright.core.sheet.cut.hints import hints_of
from wrapwright.core.sheet.cut.jobs import Lying, cuttings_of
from wrapwright.core.sheet.cut.listing import cut_list, limits_of, place_of, sheets_alike, strokes_of
from wrapwright.core.sheet.cut.pieces import MICRO, rect_of, sheet_block, trim_box
from wrapwright.core.sheet.cut.replaying import replay
from wrapwright.core.sheet.cut.search import EXACT, STUCK, Search
from wrapwright.core.sheet.cut.values import Copy, CutList, Trimmer
from wrapwright.core.sheet.lay.values import Box, Cell, Laid, LaidSheet, Layout, LayRequest

# A rest smaller than this either way is not worth keeping; common practice, no source.
LEAST_REST_MM = 50.0
_WORTH_MM2 = 1000.0  # a rest is not moved for less
_MOST_NODES = 24
_EACH = 30_000  # pieces in the blocks that are weighed for sheets of one kind: about a second
_ALL = 200_000  # and for all kinds; later ones, of fewer sheets each, stay as they are

Path = tuple[int, ...]


@dataclass
class Memory:
    """What was found out of one kind of sheet, of use for the next one laid alike: blocks, and whether to change."""

    search: Search
    verdicts: dict[tuple[object, object], bool] = field(default_factory=dict)
    spent: int = 0


def tidied(
    request: LayRequest,
    sheet: LaidSheet,
    trimmer: Trimmer,
    *,
    pinned: frozenset[Copy] = frozenset(),
    memory: Memory | None = None,
) -> LaidSheet:
    """Return the sheet with its cells in an order that needs no more strokes and keeps the largest rest.

    Pieces stay in their own cells, with their turns; cells change places with their neighbours in the same row or
    column, and waste goes to the end. Rows and columns that hold a pinned copy keep their order. Sheets laid alike stay
    alike. A sheet without a tree is returned as it is.
    """
    if sheet.cell is None or not sheet.pieces:
        return sheet
    memory = memory or Memory(Search(limits_of(trimmer), most=_EACH))
    scale = _Scale(request, trimmer, sheet, memory.search)
    if scale.strokes is None:
        return sheet
    start = _plain(sheet.cell)
    everywhere = start
    for path in sorted(_nodes(start), key=len, reverse=True):
        everywhere = _at(everywhere, path, request, pinned)
    if everywhere != start:
        scale.weigh(_with(sheet, everywhere))
    for number in range(_MOST_NODES):
        start = _plain(scale.best.cell or start)
        paths = list(_nodes(start))
        if number >= len(paths):
            break
        other = _at(start, paths[number], request, pinned)
        if other != start:
            scale.weigh(_with(sheet, other))
    best = scale.best
    if best is sheet or (len(sheet.pieces) > EXACT and not _no_worse(request, best, sheet, trimmer, memory)):
        best = sheet
    return replace(best, rest=scale.rest(best))


def tidied_layout(layout: Layout, trimmer: Trimmer, *, pinned: Mapping[int, frozenset[Copy]] | None = None) -> Layout:
    """Return the layout with its sheets tidied, or as it is where the whole list would take more of this trimmer.

    A tidied sheet needs no more strokes by itself; together the sheets may share stacks and fence settings less. The
    layout with fewer strokes in stacks is kept, then the one with fewer settings; `pinned` are the copies, by sheet,
    that stay where they are.
    """
    fixed = pinned or {}
    found = list(layout.sheets)
    spent = 0
    for alike in sheets_alike(layout.sheets):
        if spent > _ALL:
            break
        memory = Memory(Search(limits_of(trimmer), most=_EACH))
        for number in alike:
            stays = fixed.get(number, frozenset())
            found[number] = tidied(layout.request, found[number], trimmer, pinned=stays, memory=memory)
        spent += memory.search.met + memory.spent
    sheets = tuple(found)
    if all(one.pieces == other.pieces for one, other in zip(sheets, layout.sheets, strict=True)):
        return replace(layout, sheets=sheets)
    tidy = replace(layout, sheets=sheets)
    now, before = (cut_list(one, trimmer) for one in (tidy, layout))
    if (len(now.notes), len(now.strokes), now.settings) <= (len(before.notes), len(before.strokes), before.settings):
        return tidy
    rests = tuple(replace(one, rest=rest_of(layout.request, one, trimmer)) for one in layout.sheets)
    return replace(layout, sheets=rests)


def _no_worse(request: LayRequest, best: LaidSheet, sheet: LaidSheet, trimmer: Trimmer, memory: Memory) -> bool:
    """Return whether the best needs no more strokes when searched by itself: of many pieces not all is weighed."""
    which = (place_of(best), place_of(sheet))
    if which not in memory.verdicts:
        found = []
        for this in (best, sheet):
            search = Search(limits_of(trimmer), hints_of(request, this), most=_EACH)
            found.append(strokes_of(request, this, trimmer, search))
            memory.spent += search.met
        one, other = found
        memory.verdicts[which] = other is None or (one is not None and one <= other)
    return memory.verdicts[which]


def rest_of(request: LayRequest, sheet: LaidSheet, trimmer: Trimmer) -> Box | None:
    """Return the largest rectangle with an edge of the paper that the strokes leave whole, in page mm, or None."""
    search = Search(limits_of(trimmer), hints_of(request, sheet))
    return _rest(sheet, sheet_block(request, sheet, exact_paper=trimmer.slip_mm <= 0), search)


def rests(layout: Layout, cuts: CutList) -> dict[int, Box]:
    """Return, by sheet, the largest usable rectangle at the paper's edge that a whole cut list leaves, in page mm."""
    found: dict[int, Box] = {}
    for one in replay(cuts):
        sheet = layout.sheets[one.sheet]
        left, bottom, right, top = one.box
        taken = any(
            left < (box[0] + box[2]) / 2 < right and bottom < (box[1] + box[3]) / 2 < top
            for box in (trim_box(layout.request.parts[laid.part], laid) for laid in sheet.pieces)
        )
        if not taken and _at_edge(one.box, sheet) and _usable(one.box):
            found[one.sheet] = max(one.box, found.get(one.sheet, one.box), key=_area)
    return found


class _Scale:
    """Weighs one sheet's ways of lying against the best so far; what it has searched for one it knows for the next.

    Fewer strokes are better, then a rest that is larger by something worth having.
    """

    def __init__(self, request: LayRequest, trimmer: Trimmer, sheet: LaidSheet, search: Search) -> None:
        self.request = request
        self.trimmer = trimmer
        self.search = search
        self.best = sheet
        self.strokes = self._strokes(sheet)
        self._rest: float | None = None

    def _block(self, sheet: LaidSheet) -> Block:
        return sheet_block(self.request, sheet, exact_paper=self.trimmer.slip_mm <= 0)

    def _searching(self, sheet: LaidSheet) -> Search:
        self.search.hints.update(hints_of(self.request, sheet))
        return self.search

    def _strokes(self, sheet: LaidSheet) -> tuple[int, int] | None:
        """Return strokes that the trimmer cannot make, and all; None when it cannot be parted from edge to edge."""
        found = self._searching(sheet).best(self._block(sheet))
        return None if found.faults >= STUCK.faults else (found.faults, found.strokes)

    def rest(self, sheet: LaidSheet) -> Box | None:
        """Return the largest usable rectangle that the sheet's strokes leave at its edge."""
        return _rest(sheet, self._block(sheet), self._searching(sheet))

    def _area(self, sheet: LaidSheet) -> float:
        rest = self.rest(sheet)
        return _area(rest) if rest else 0.0

    def weigh(self, other: LaidSheet) -> None:
        """Keep the sheet where it is better."""
        strokes = self._strokes(other)
        if strokes is None or self.strokes is None or strokes > self.strokes:
            return
        if strokes == self.strokes:
            if self._rest is None:
                self._rest = self._area(self.best)
            rest = self._area(other)
            if rest < self._rest + _WORTH_MM2:
                return
            self._rest = rest
        else:
            self._rest = None
        self.best, self.strokes = other, strokes


def _area(box: Box) -> float:
    return (box[2] - box[0]) * (box[3] - box[1])


def _rest(sheet: LaidSheet, block: Block, search: Search) -> Box | None:
    if not block.pieces:
        return 0.0, 0.0, sheet.width_mm, sheet.height_mm
    kept = [box for box in _offcuts(sheet, block, search) if _usable(box)]
    return max(kept, key=_area, default=None)


def _usable(box: Box) -> bool:
    return min(box[2] - box[0], box[3] - box[1]) >= LEAST_REST_MM


def _offcuts(sheet: LaidSheet, block: Block, search: Search) -> list[Box]:
    found = []
    for one in cuttings_of(Lying(0, 0, 0, block), search):
        low, high = halves(one.lying.block, one.line)
        for half, is_high in ((low, False), (high, True)):
            box = _box(one.lying, one.line, half, high=is_high)
            if not half.pieces and _at_edge(box, sheet):
                found.append(box)
    return found


def _box(lying: Lying, line: Line, half: Block, *, high: bool) -> Box:
    left = lying.left + (line.at if high and line.upright else 0)
    bottom = lying.bottom + (line.at if high and not line.upright else 0)
    return left / MICRO, bottom / MICRO, (left + half.width) / MICRO, (bottom + half.height) / MICRO


def _at_edge(box: Box, sheet: LaidSheet) -> bool:
    return min(box[0], box[1]) <= 0.0 or box[2] >= round(sheet.width_mm, 3) or box[3] >= round(sheet.height_mm, 3)


def _plain(cell: Cell) -> Cell:
    """Return the cell without rows in rows of the same direction, and without cells of no size."""
    if not cell.children:
        return cell
    children: list[Cell] = []
    for child in map(_plain, cell.children):
        children += child.children if child.along == cell.along and child.children else (child,)
    return replace(cell, children=tuple(one for one in children if min(one.width_mm, one.height_mm) > 1e-9))


def _nodes(cell: Cell, path: Path = ()) -> Iterator[Path]:
    if cell.children:
        yield path
    for i, child in enumerate(cell.children):
        yield from _nodes(child, (*path, i))


def _at(cell: Cell, path: Path, request: LayRequest, pinned: frozenset[Copy]) -> Cell:
    """Return the tree with the children of the node at a path in order, widest first and waste last."""
    if path:
        children = list(cell.children)
        children[path[0]] = _at(children[path[0]], path[1:], request, pinned)
        return replace(cell, children=tuple(children))
    if _holds(cell, pinned):
        return cell
    full = [one for one in cell.children if _holds(one, None)]
    full.sort(key=lambda one: _rank(one, cell.along, request))
    return _in_a_row(cell, full)


def _holds(cell: Cell, copies: frozenset[Copy] | None) -> bool:
    """Return whether a cell holds one of these copies, or any for None."""
    if cell.children:
        return any(_holds(child, copies) for child in cell.children)
    return cell.part >= 0 and (copies is None or (cell.part, cell.copy) in copies)


def _rank(cell: Cell, along: str, request: LayRequest) -> tuple[float, ...]:
    """Return what cells of a row or column are ordered by: how far their pieces reach across it, then their size."""
    axis = 1 if along == "x" else 0
    corner = (cell.x_mm, cell.y_mm)
    rects = sorted(_rects(cell, request))
    reach = max(rect[axis + 2] for rect in rects) / MICRO - corner[axis]
    start = min(rect[axis] for rect in rects) / MICRO - corner[axis]
    extent = cell.width_mm if along == "x" else cell.height_mm
    return round(-reach, 2), round(start, 2), round(-extent, 2), -len(rects)


def _rects(cell: Cell, request: LayRequest) -> list[Rect]:
    """Return the boxes of a cell's pieces, as if each lay in the lower left corner of its own cell."""
    if cell.children:
        return [rect for child in cell.children for rect in _rects(child, request)]
    if cell.part < 0:
        return []
    laid = Laid(cell.part, cell.copy, cell.x_mm, cell.y_mm, cell.turn_deg)
    return [rect_of(request.parts[cell.part], laid, request.gutter_mm)]


def _in_a_row(cell: Cell, full: list[Cell]) -> Cell:
    """Return the cell with its children one after the other, and what is left over as one cell of waste."""
    upright = cell.along == "x"
    at, children = 0.0, list[Cell]()
    for one in full:
        x, y = (cell.x_mm + at, cell.y_mm) if upright else (cell.x_mm, cell.y_mm + at)
        children.append(_moved(one, x - one.x_mm, y - one.y_mm))
        at += one.width_mm if upright else one.height_mm
    over = (cell.width_mm if upright else cell.height_mm) - at
    if over > 1e-6:
        if upright:
            children.append(Cell(cell.x_mm + at, cell.y_mm, over, cell.height_mm))
        else:
            children.append(Cell(cell.x_mm, cell.y_mm + at, cell.width_mm, over))
    return replace(cell, children=tuple(children))


def _moved(cell: Cell, dx: float, dy: float) -> Cell:
    children = tuple(_moved(one, dx, dy) for one in cell.children)
    return replace(cell, x_mm=cell.x_mm + dx, y_mm=cell.y_mm + dy, children=children)


def _with(sheet: LaidSheet, cell: Cell) -> LaidSheet:
    """Return the sheet with its pieces moved along with their cells."""
    assert sheet.cell is not None
    before, after = _leaves(sheet.cell), _leaves(cell)
    pieces = []
    for one in sheet.pieces:
        old, new = before[one.part, one.copy], after[one.part, one.copy]
        pieces.append(replace(one, x_mm=one.x_mm + new.x_mm - old.x_mm, y_mm=one.y_mm + new.y_mm - old.y_mm))
    return replace(sheet, pieces=tuple(pieces), cell=cell)


def _leaves(cell: Cell) -> dict[Copy, Cell]:
    if not cell.children:
        return {(cell.part, cell.copy): cell} if cell.part >= 0 else {}
    return {copy: leaf for child in cell.children for copy, leaf in _leaves(child).items()}
