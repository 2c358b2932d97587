"""Laid pieces as the trimmer meets them: boxes to cut, in whole micrometres on their sheet."""

from __future__ import annotations

from wrapwright.core.sheet.cut.blocks import ALIKE, ALL_CUT, BOTTOM, LEFT, RIGHT, TOP, Block, Rect, turned_sides
from wrapwright.core.sheet.lay.values import SIDES, Box, Cell, Laid, LaidSheet, LayRequest, Part

MICRO = 1000  # micrometres in a millimetre
_ONE_LINE = ALIKE + 5
_BITS = dict(zip(SIDES, (LEFT, BOTTOM, RIGHT, TOP), strict=True))


def micro(length_mm: float) -> int:
    """Return whole micrometres."""
    return round(length_mm * MICRO)


def on_sheet(sides: Box, turn_deg: int) -> Box:
    """Return four figures (left, bottom, right, top) of a part as they lie when it is turned anticlockwise."""
    left, bottom, right, top = sides
    for _ in range(turn_deg // 90 % 4):
        left, bottom, right, top = top, left, bottom, right
    return left, bottom, right, top


def trim_box(part: Part, laid: Laid) -> Box:
    """Return the box round a laid copy's trim, in page mm."""
    width, height = part.shape.width_mm, part.shape.height_mm
    if laid.turn_deg % 180:
        width, height = height, width
    return laid.x_mm, laid.y_mm, laid.x_mm + width, laid.y_mm + height


def true_sides(part: Part, turn_deg: int) -> int:
    """Return the bits of the sides that must be cut to the trim, as the part lies."""
    bits = sum(_BITS[side] for side in part.true)
    for _ in range(turn_deg // 90 % 4):
        bits = turned_sides(bits)
    return bits


def rect_of(part: Part, laid: Laid, gutter_mm: float) -> Rect:
    """Return the box that must stay whole: the trim, and where a side need not be true bleed and label beyond it."""
    left, bottom, right, top = trim_box(part, laid)
    true = true_sides(part, laid.turn_deg)
    over = [
        0.0 if true & bit else max(0.0, min(bleed, clear), clear - gutter_mm / 2.0)
        for bit, bleed, clear in zip(
            _BITS.values(), on_sheet(part.bleed_mm, laid.turn_deg), on_sheet(part.clear_mm, laid.turn_deg), strict=True
        )
    ]
    return micro(left - over[0]), micro(bottom - over[1]), micro(right + over[2]), micro(top + over[3]), true


def rects_of(request: LayRequest, sheet: LaidSheet) -> dict[Rect, Laid]:
    """Return the boxes of a sheet's copies, each with its copy; sides less than 0.03 mm apart are made one."""
    rects = [rect_of(request.parts[laid.part], laid, request.gutter_mm) for laid in sheet.pieces]
    across = _merged([0, micro(sheet.width_mm), *(one[side] for one in rects for side in (0, 2))])
    along = _merged([0, micro(sheet.height_mm), *(one[side] for one in rects for side in (1, 3))])
    one_line = [(across[x0], along[y0], across[x1], along[y1], true) for x0, y0, x1, y1, true in rects]
    return dict(zip(one_line, sheet.pieces, strict=True))


def _merged(places: list[int]) -> dict[int, int]:
    found: dict[int, int] = {}
    first = -_ONE_LINE - 1
    for at in sorted(set(places)):
        first = first if at - first <= _ONE_LINE else at
        found[at] = first
    return found


def sheet_block(request: LayRequest, sheet: LaidSheet, *, exact_paper: bool) -> Block:
    """Return the whole sheet as a block; its edges count as cut only where the image sits exactly on the paper."""
    pieces = tuple(sorted(rects_of(request, sheet)))
    return Block(micro(sheet.width_mm), micro(sheet.height_mm), ALL_CUT if exact_paper else 0, pieces)


def copies_in(cell: Cell) -> list[tuple[int, int]]:
    """Return the copies that lie in a cell and those within it."""
    if not cell.children:
        return [(cell.part, cell.copy)] if cell.part >= 0 else []
    return [one for child in cell.children for one in copies_in(child)]
