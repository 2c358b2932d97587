"""The cut list of a layout."""

from __future__ import annotations

from collections.abc import Sequence

from wrapwright.core.base.errors import unusable
from wrapwright.core.sheet.cut.blocks import BOTTOM, LEFT, RIGHT, TOP, Block
from wrapwright.core.sheet.cut.hints import hints_of
from wrapwright.core.sheet.cut.jobs import SIDE_NAMES, Cutting, Job, Lying, cuttings_of, ordered, stacked
from wrapwright.core.sheet.cut.pieces import MICRO, micro, rects_of, sheet_block
from wrapwright.core.sheet.cut.scissors import scissor_work
from wrapwright.core.sheet.cut.search import STUCK, Hints, Limits, Search
from wrapwright.core.sheet.cut.values import Copy, CutList, Layer, ScissorWork, Stroke, Trimmer
from wrapwright.core.sheet.lay.values import Laid, LaidSheet, Layout, LayRequest

# Quarter turns anticlockwise that bring a side of the sheet to the fence, which stands on the left.
_FACING = {LEFT: 0, TOP: 1, RIGHT: 2, BOTTOM: 3}
_TURNS = ("", "quarter turn left", "half turn", "quarter turn right")


def cut_list(layout: Layout, trimmer: Trimmer) -> CutList:
    """Return the strokes that cut every copy of the layout to its finished trim, and what is left to scissors.

    The strokes are as few as the layout allows (proven by search for sheets of up to `search.EXACT` pieces, and no more
    than the layout's own tree needs on others); like sheets and like blocks lie in stacks. Sheets without a tree are
    for scissors alone. What the trimmer cannot do is marked on its stroke, with a sentence in `notes`.

    Raises:
        WrapwrightError: unusable, when a figure of the trimmer cannot be.
    """
    request = layout.request
    search = Search(limits_of(trimmer), _all_hints(layout))
    cuttings: list[Cutting] = []
    scissors: list[ScissorWork] = []
    notes: list[str] = []
    freed: dict[tuple[int, int, int], Copy] = {}
    for number, sheet in enumerate(layout.sheets):
        block = sheet_block(request, sheet, exact_paper=trimmer.slip_mm <= 0)
        search.begin()
        trimmed = sheet.cell is not None and bool(block.pieces) and search.best(block).faults < STUCK.faults
        if sheet.cell is not None and block.pieces and not trimmed:
            notes.append(f"Sheet {number + 1} cannot be parted from edge to edge: cut it with scissors.")
        if trimmed:
            cuttings += cuttings_of(Lying(number, 0, 0, block), search)
            freed.update(_freed(request, number, sheet))
        notes += _edge_notes(request, number, sheet, block) if trimmed else ()
        works = (scissor_work(request.parts[one.part], one, number, trimmed=trimmed) for one in sheet.pieces)
        scissors += [work for work in works if work is not None]
    jobs = ordered(stacked(cuttings, trimmer.layers))
    strokes = [_stroke(i, job, freed, trimmer) for i, job in enumerate(jobs, 1)]
    notes += _limit_notes(layout, trimmer, strokes, search)
    return CutList(
        trimmer,
        tuple((sheet.width_mm, sheet.height_mm) for sheet in layout.sheets),
        tuple(strokes),
        _settings(strokes),
        tuple(scissors),
        tuple(notes),
    )


def strokes_of(request: LayRequest, sheet: LaidSheet, trimmer: Trimmer, search: Search | None = None) -> int | None:
    """Return how many strokes one sheet needs by itself; None when it cannot be parted from edge to edge."""
    block = sheet_block(request, sheet, exact_paper=trimmer.slip_mm <= 0)
    best = (search or Search(limits_of(trimmer), hints_of(request, sheet))).best(block)
    return None if best.faults >= STUCK.faults else best.strokes


def limits_of(trimmer: Trimmer) -> Limits:
    """Return the trimmer's limits as the search takes them.

    Raises:
        WrapwrightError: unusable, when a figure of the trimmer cannot be.
    """
    figures = (
        ("longest stroke", trimmer.longest_mm, trimmer.longest_mm > 0.0, "more than 0"),
        ("paper's thickness", trimmer.paper_mm, trimmer.paper_mm > 0.0, "more than 0"),
        ("stack", trimmer.stack_mm, trimmer.stack_mm >= 0.0, "0 or more"),
        ("narrowest strip", trimmer.least_mm, trimmer.least_mm >= 0.0, "0 or more"),
        ("slip of the image", trimmer.slip_mm, trimmer.slip_mm >= 0.0, "0 or more"),
    )
    for what, figure, is_right, wanted in figures:
        if not is_right:
            raise unusable(f"The trimmer's {what} is {figure:g} mm.", remedy=f"Give {wanted} mm.", where="trimmer")
    return Limits(micro(trimmer.longest_mm), micro(trimmer.least_mm))


def _edge_notes(request: LayRequest, number: int, sheet: LaidSheet, block: Block) -> list[str]:
    """Return a sentence about copies that reach the paper's own edge, where nothing can be cut."""
    edges = (0, 0, block.width, block.height)
    reaching = [
        (laid.part, laid.copy)
        for rect, laid in rects_of(request, sheet).items()
        if any(rect[4] & 1 << i and not block.cut & 1 << i and rect[i] == edge for i, edge in enumerate(edges))
    ]
    if not reaching:
        return []
    names = "1 piece reaches" if len(reaching) == 1 else f"{len(reaching)} pieces reach"
    return [
        f"Sheet {number + 1}: {names} the paper's own edge, where there is nothing to cut and the image may sit off. "
        "Give the paper a margin."
    ]


def _all_hints(layout: Layout) -> Hints:
    found: dict[object, tuple[object, ...]] = {}
    hints: Hints = {}
    for sheet in layout.sheets:
        alike = tuple((one.part, one.x_mm, one.y_mm, one.turn_deg) for one in sheet.pieces)
        if alike not in found:
            found[alike] = alike
            for pieces, lines in hints_of(layout.request, sheet).items():
                hints[pieces] = tuple(sorted({*hints.get(pieces, ()), *lines}))
    return hints


def _freed(request: LayRequest, number: int, sheet: LaidSheet) -> dict[tuple[int, int, int], Copy]:
    """Return the sheet's copies by where their boxes begin."""
    return {(number, rect[0], rect[1]): (laid.part, laid.copy) for rect, laid in rects_of(request, sheet).items()}


def _stroke(number: int, job: Job, freed: dict[tuple[int, int, int], Copy], trimmer: Trimmer) -> Stroke:
    first = job.cuttings[0]
    block, upright = first.lying.block, first.line.upright
    length = (block.height if upright else block.width) / MICRO
    before = _FACING[first.parent.held] if first.parent else 0
    copies = [
        freed[lying.sheet, lying.left + lying.block.pieces[0][0], lying.bottom + lying.block.pieces[0][1]]
        for one in job.cuttings
        for lying in one.freed
    ]
    fence = job.hold.fence / MICRO if job.hold.fence else None
    return Stroke(
        number,
        "margin" if fence is None else "part" if first.parts else "trim",
        tuple(_layer(one) for one in job.cuttings),
        fence,
        length,
        _TURNS[(_FACING[first.held] - before) % 4],
        tuple(sorted(copies)),
        _caution(number, job, length, trimmer),
    )


def _layer(one: Cutting) -> Layer:
    sheet, left, bottom, block = one.lying
    box = (left / MICRO, bottom / MICRO, (left + block.width) / MICRO, (bottom + block.height) / MICRO)
    at = (one.line.at + (left if one.line.upright else bottom)) / MICRO
    return Layer(sheet, box, SIDE_NAMES[one.held], at)


def _caution(number: int, job: Job, length: float, trimmer: Trimmer) -> str:
    if job.hold.fault == "long":
        return (
            f"Stroke {number} is {length:.1f} mm long and this trimmer cuts {trimmer.longest_mm:.1f} mm at most: "
            "cut it with a knife along a steel rule."
        )
    if job.hold.fault == "narrow":
        line, block = job.cuttings[0].line, job.cuttings[0].lying.block
        width = max(line.at, (block.width if line.upright else block.height) - line.at) / MICRO
        return (
            f"Stroke {number} leaves {width:.1f} mm for the clamp and this trimmer holds {trimmer.least_mm:.1f} mm at "
            "least: cut it with a knife along a steel rule."
        )
    return ""


def _settings(strokes: Sequence[Stroke]) -> int:
    """Return how often the fence is set."""
    fences = [one.fence_mm for one in strokes if one.fence_mm is not None]
    return sum(one != other for one, other in zip(fences, [None, *fences], strict=False))


def _limit_notes(layout: Layout, trimmer: Trimmer, strokes: Sequence[Stroke], search: Search) -> list[str]:
    """Return what the trimmer's limits forbid, and what the order that keeps to them costs."""
    notes = [one.caution for one in strokes if one.caution]
    if not search.bound:
        return notes
    free = Search(Limits(2**60, 0), search.hints)
    more = 0
    for number, sheet in enumerate(layout.sheets):
        block = sheet_block(layout.request, sheet, exact_paper=trimmer.slip_mm <= 0)
        if sheet.cell is not None and search.best(block).faults < STUCK.faults:
            more = search.best(block).strokes - free.best(block).strokes
            if more > 0:
                notes.append(
                    f"Sheet {number + 1} takes {more} {'stroke' if more == 1 else 'strokes'} more than the fewest, so "
                    "that no stroke is too long and no strip too narrow to be held."
                )
    return notes


def sheets_alike(sheets: Sequence[LaidSheet]) -> list[list[int]]:
    """Return the sheets' indices, those with the same parts in the same places together, in the order of the first.

    A sheet for scissors is never like one for the trimmer.
    """
    groups: dict[object, list[int]] = {}
    for number, sheet in enumerate(sheets):
        groups.setdefault(place_of(sheet), []).append(number)
    return list(groups.values())


def place_of(sheet: LaidSheet) -> object:
    """Return what is the same of two sheets with the same parts in the same places."""
    return sheet.width_mm, sheet.height_mm, sheet.cell is None, tuple(sorted(map(_place, sheet.pieces)))


def _place(laid: Laid) -> tuple[int, float, float, int]:
    return laid.part, round(laid.x_mm, 3), round(laid.y_mm, 3), laid.turn_deg
