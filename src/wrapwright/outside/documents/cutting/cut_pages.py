"""The cut list as pages to stand at the trimmer: sheets with numbered strokes, the table, and what to mind."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from wrapwright.core.sheet.cut.listing import sheets_alike
from wrapwright.core.sheet.cut.tidying import rests
from wrapwright.core.sheet.cut.values import CutList, Stroke
from wrapwright.core.sheet.cut.words import (
    CAUTIONS,
    StrokeWords,
    cut_words,
    how_words,
    names_of,
    ranges,
    summary_words,
)
from wrapwright.core.sheet.lay.printed.parts import clear_of_trim
from wrapwright.core.sheet.lay.values import Box, Layout
from wrapwright.outside.documents.cutting.sheet_plan import sheet_plan, trimmer_drawing
from wrapwright.outside.documents.typeset import pdf_of

_TEMPLATE = "cut_list.typ"
PAPERS = {"Letter": (215.9, 279.4), "A4": (210.0, 297.0)}
_MARGIN, _GUTTER, _FIGURE = 11.0, 6.0, 62.0
# How many kinds of sheet there are at most, how many stand side by side then, and how tall each is drawn, mm.
_ROOMS = ((2, 2, 118.0), (4, 2, 83.0), (999, 3, 76.0))


@dataclass(frozen=True, eq=False)
class CutPages:
    """What the pages say.

    Attributes:
        title: of the job or the run.
        layout: the sheets.
        cuts: their cut list.
        date: "2026-05-02", or "" for none.
        paper: the pages' own, "Letter" or "A4".
        called: what each kind of sheet is called, where the layout shows only some of each kind; else the numbers of
            the layout's own sheets.
    """

    title: str
    layout: Layout
    cuts: CutList
    date: str = ""
    paper: str = "Letter"
    called: tuple[str, ...] = ()


def cut_list_pdf(data: CutPages, *, cache: Path) -> bytes:
    """Return the cut list as PDF, as many pages as it takes.

    Raises:
        WrapwrightError: set-up, when the base face is missing.
    """
    return pdf_of(_TEMPLATE, _words(data), {}, cache=cache, on=data.date)


def _words(data: CutPages) -> dict[str, object]:
    page = PAPERS[data.paper]
    trimmer = data.cuts.trimmer
    return {
        "kind": "Cut list",
        "title": data.title,
        "date": data.date,
        "page": list(page),
        "margin": _MARGIN,
        "gutter": _GUTTER,
        "figure_width": _FIGURE,
        "summary": summary_words(data.layout, data.cuts),
        "trimmer": f"For a trimmer that cuts {trimmer.longest_mm:.0f} mm at once, stacks of {trimmer.stack_mm:g} mm "
        f"({trimmer.layers} sheets of {trimmer.paper_mm:g} mm), and holds {trimmer.least_mm:g} mm at least.",
        "how": how_words(data.cuts),
        "cautions": list(CAUTIONS),
        "figure": trimmer_drawing(_FIGURE),
        **_sheets(data, page[0] - 2 * _MARGIN),
        "rows": [_row(one) for one in table_rows(data.layout, data.cuts)],
        "scissors": scissor_rows(data.layout, data.cuts),
        "notes": list(data.cuts.notes),
    }


def _sheets(data: CutPages, width_mm: float) -> dict[str, object]:
    found = []
    kinds = sheets_alike(data.layout.sheets)
    columns, tallest = next((columns, tall) for most, columns, tall in _ROOMS if len(kinds) <= most)
    room = ((width_mm - _GUTTER * (columns - 1)) / columns, tallest)
    left = rests(data.layout, data.cuts)
    for kind, alike in enumerate(kinds):
        sheet = data.layout.sheets[alike[0]]
        word = "Sheet" if len(alike) == 1 else "Sheets"
        said = f"{word} {ranges(one + 1 for one in alike)}{', alike' if len(alike) > 1 else ''}"
        said = data.called[kind] if len(data.called) == len(kinds) else said
        by_hand = not any(layer.sheet in alike for stroke in data.cuts.strokes for layer in stroke.layers)
        rest = sheet.rest if by_hand else left.get(alike[0])
        plan = sheet_plan(data.layout, alike, data.cuts, rest=rest, room=room)
        size = f"{sheet.width_mm:.1f} × {sheet.height_mm:.1f} mm{', by scissors' if by_hand else ''}"
        found.append({"said": said, "size": size, "plan": plan})
    return {"sheets": found, "columns": columns}


def table_rows(layout: Layout, cuts: CutList) -> list[tuple[str, StrokeWords]]:
    """Return the table's rows with their numbers; strokes by eye at one place of sheets laid alike are one row."""
    group = {number: i for i, alike in enumerate(sheets_alike(layout.sheets)) for number in alike}
    rows: list[tuple[list[int], Stroke]] = []
    open_rows: dict[tuple[object, ...], int] = {}
    for stroke in cuts.strokes:
        layer = stroke.layers[0]
        place = (layer.edge, *(round(one, 1) for one in (*layer.box, layer.at_mm)))
        key = (group[layer.sheet], place, stroke.turn)
        at = open_rows.get(key) if stroke.fence_mm is None and not stroke.caution else None
        if at is None:
            open_rows[key] = len(rows)
            rows.append(([stroke.number], stroke))
        else:
            numbers, whole = rows[at]
            numbers.append(stroke.number)
            both = (*whole.layers, *stroke.layers), (*whole.frees, *stroke.frees)
            rows[at] = (numbers, replace(whole, layers=both[0], frees=both[1]))
    told = cut_words(layout, replace(cuts, strokes=tuple(stroke for _, stroke in rows)))
    return [(ranges(numbers), _one_by_one(numbers, said)) for (numbers, _), said in zip(rows, told, strict=True)]


def _one_by_one(numbers: list[int], said: StrokeWords) -> StrokeWords:
    return said if len(numbers) == 1 else replace(said, what=f"{said.what}, one at a time", layers=1)


def _row(row: tuple[str, StrokeWords]) -> dict[str, object]:
    numbers, said = row
    return {
        "number": numbers,
        "fence": said.fence.removesuffix(" mm"),
        "what": said.what,
        "turn": said.turn,
        "lies": said.short,
        "length": said.length.removesuffix(" mm"),
        "layers": said.layers,
        "then": said.then,
        "caution": said.caution,
    }


def scissor_words(what: str, bleed_mm: Box) -> str:
    """Return how scissors find a trim: so far inside the dashes round it, or where no dashes found room, the print."""
    if what == "the sides":
        return "the sides, from corner mark to corner mark"
    bleed = max(bleed_mm)
    edge = f"{bleed:g} mm inside the print's edge" if bleed else "along the print's edge"
    where = f"{clear_of_trim(bleed):g} mm inside the dashes; where there are none, {edge}"
    if what == "two arcs and two slanting ends":
        return f"the ends from corner mark to corner mark, the arcs {where}"
    return f"{what}, {where}"


def scissor_rows(layout: Layout, cuts: CutList) -> list[list[str]]:
    """Return what is left to scissors: pieces, what is followed, centimetres."""
    found: dict[tuple[int, str], list[tuple[int, float]]] = {}
    for one in cuts.scissors:
        found.setdefault((one.part, one.what), []).append((one.copy, one.length_cm))
    return [
        [
            names_of(layout.request, [(part, copy) for copy, _ in copies]),
            scissor_words(what, layout.request.parts[part].bleed_mm),
            f"{sum(length for _, length in copies):.1f} cm",
        ]
        for (part, what), copies in found.items()
    ]
