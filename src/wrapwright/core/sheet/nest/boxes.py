"""Everything as boxes, divided by cuts from edge to edge: the answer that laying freely begins with."""

from __future__ import annotations

import math
from collections.abc import Sequence

from wrapwright.core.sheet.lay.values import LayRequest
from wrapwright.core.sheet.nest.finish import Filled
from wrapwright.core.sheet.nest.ground import Down
from wrapwright.core.sheet.nest.kinds import Area, Kind
from wrapwright.core.sheet.nest.outlines import Lying, boxed
from wrapwright.core.sheet.pack.trimmer import MOST_PIECES, Packing
from wrapwright.core.sheet.pack.values import Cut

_SEARCH = 3000


def boxed_plan(
    request: LayRequest, kinds: Sequence[Kind], stock: int, area: Area, need: Sequence[int]
) -> tuple[Filled, ...]:
    """Return sheets of one stock with everything on them as boxes; none when some box does not go on it.

    Args:
        request: whose parts they are.
        kinds: its kinds.
        stock: the paper.
        area: width and height in mm of what can be printed on it.
        need: copies of each kind.
    """
    step = request.step_mm
    which = [at for at, copies in enumerate(need) if copies]
    boxes = [boxed(request.parts[kinds[at].parts[0]], request.gutter_mm) for at in which]
    over = max(0.0, min((one.overhang for some in boxes for one in some), default=0.0))
    margins = request.stocks[stock].margins_mm
    # In whole steps from the paper's corner, as the corners of clear rooms shall lie.
    start = [_up(margins[axis] - over, step[axis]) for axis in (0, 1)]
    sheet = [_down(margins[axis] + area[axis] + over, step[axis]) - start[axis] for axis in (0, 1)]
    items = []
    for at, some in zip(which, boxes, strict=True):
        # What may be turned is as large as it is either way, where steps across and along differ.
        width, height = (max(_up(side, one) for one in step) for side in _sides(some[0]))
        items.append((width, height, need[at], len({one.turn % 180 for one in some}) > 1))
    fit = all(
        (width <= sheet[0] and height <= sheet[1]) or (turn and height <= sheet[0] and width <= sheet[1])
        for width, height, _, turn in items
    )
    if not items or not fit or sum(need) > MOST_PIECES:
        return ()
    packing = Packing(items, (sheet[0], sheet[1]), seed=request.seed)
    packing.advance(_SEARCH)
    origin = tuple(start[axis] * step[axis] - margins[axis] for axis in (0, 1))
    plan = []
    for tree in packing.best:
        down = []
        for leaf in _leaves(tree):
            corner = (origin[0] + leaf.x * step[0], origin[1] + leaf.y * step[1])
            down.append(_laid(leaf, corner, which[leaf.item], boxes[leaf.item], kinds))
        plan.append(Filled(stock, tuple(down), exact=True))
    return tuple(plan)


def _laid(leaf: Cut, corner: tuple[float, float], kind: int, some: Sequence[Lying], kinds: Sequence[Kind]) -> Down:
    one = next(lying for lying in some if (lying.turn - some[0].turn) % 180 == (90 if leaf.turned else 0))
    left, bottom, _, _ = one.bounds
    return Down(kind, corner[0] - left, corner[1] - bottom, kinds[kind].like(one.turn))


def _leaves(cut: Cut) -> list[Cut]:
    if cut.item >= 0:
        return [cut]
    return [leaf for child in cut.children for leaf in _leaves(child)]


def _sides(one: Lying) -> tuple[float, float]:
    left, bottom, right, top = one.bounds
    return right - left, top - bottom


def _up(value: float, unit: float) -> int:
    return math.ceil(value / unit - 1e-6)


def _down(value: float, unit: float) -> int:
    return math.floor(value / unit + 1e-6)
