"""A cut list in words: one sentence a stroke, for the ticket, the table and the screen."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from wrapwright.core.sheet.cut.pieces import trim_box
from wrapwright.core.sheet.cut.replaying import Rectangle
from wrapwright.core.sheet.cut.values import Copy, CutList, Layer, Side, Stroke
from wrapwright.core.sheet.lay.values import Layout, LayRequest, Part

OPPOSITE: dict[Side, Side] = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}
HOW = (
    "Fence on the left, blade on the right, print up; what lies under the clamp, against the fence, is held.",
    "An edge is named as it lies on the drawing; a turn is from how that paper lay at its last stroke.",
    "Distances count from edges already cut, never from the paper's own edge: the image sits on the paper only to "
    "about {slip:.1f} mm. That is why the first strokes of every sheet are made by eye, on a printed line.",
    "Set the fence once and cut all that is listed for it. Stacks: knock the cut edges flush first.",
)
_LONGEST_NAME = 22
_RUNS = 4  # runs of numbers beyond which copies are counted
CAUTIONS = (
    "Blade: keep fingers behind the clamp, never reach under the arm, latch the arm when you put it down.",
    "Cut all marks away: what stays on the paper prints on the piece or the oven.",
)


@dataclass(frozen=True)
class StrokeWords:
    """A stroke in words.

    Attributes:
        number: the stroke's.
        fence: "95.0 mm", or "by eye" on a printed line.
        what: what lies under the blade.
        turn: what is done with the paper first, "" for nothing.
        lies: which edge lies at the fence, or which printed line is cut.
        short: the same in a word or two, for a table.
        length: of the cut.
        layers: how many.
        then: what comes of it.
        caution: as in the stroke.
    """

    number: int
    fence: str
    what: str
    turn: str
    lies: str
    short: str
    length: str
    layers: int
    then: str
    caution: str

    @property
    def sentence(self) -> str:
        """The stroke as a sentence with its number."""
        stack = f" ({self.layers} layers)" if self.layers > 1 else ""
        fence = "" if self.fence == "by eye" else f"Fence {self.fence}. "
        caution = f" {self.caution}" if self.caution else ""
        turn = f"{self.turn}, " if self.turn else ""
        return f"{self.number}. {fence}{self.what}{stack}: {turn}{self.lies}, {self.length} long; {self.then}.{caution}"


def cut_words(layout: Layout, cuts: CutList) -> tuple[StrokeWords, ...]:
    """Return every stroke in words, lengths in mm with one decimal."""
    holds = _Holds(layout)
    return tuple(_words(layout.request, stroke, holds) for stroke in cuts.strokes)


def how_words(cuts: CutList) -> list[str]:
    """Return how the list is read and what it counts on."""
    kept = [one.format(slip=cuts.trimmer.slip_mm) for one in HOW]
    return kept if cuts.trimmer.slip_mm > 0 else [*kept[:2], *kept[3:]]


def summary_words(layout: Layout, cuts: CutList) -> str:
    """Return the list's figures as a sentence."""
    pieces = sum(len(sheet.pieces) for sheet in layout.sheets)
    deepest = max((len(one.layers) for one in cuts.strokes), default=1)
    said = [
        f"{_many(pieces, 'piece')} on {_many(len(layout.sheets), 'sheet')}",
        f"{_many(len(cuts.strokes), 'stroke')}",
        f"{_many(cuts.settings, 'fence setting')}",
    ]
    if deepest > 1:
        said.append(f"stacks of up to {deepest}")
    if cuts.scissors:
        said.append(f"{cuts.scissors_cm:.1f} cm of scissors")
    return ", ".join(said) + "."


def number_of(part: Part, copy: int) -> str:
    """Return the number that a copy is called by; none where it is the only one and pieces are not numbered through."""
    return str(max(part.first, 1) + copy) if part.copies > 1 or part.first else ""


def names_of(request: LayRequest, copies: Iterable[Copy]) -> str:
    """Return copies by name: "tag 1–6, wrap 2"; many single ones are counted: "9 × tag"."""
    by_part: dict[int, list[int]] = {}
    for part, copy in sorted(set(copies)):
        by_part.setdefault(part, []).append(max(request.parts[part].first, 1) + copy)
    by_name: dict[str, None] = {}  # in order, each once
    for part, numbers in by_part.items():
        name = part_name(request, part)
        told = ranges(numbers)
        said = f"{len(numbers)} × {name}" if told.count(",") >= _RUNS else f"{name} {told}"
        by_name.setdefault(said if number_of(request.parts[part], 0) else name, None)
    names = list(by_name)
    return ", ".join(names) if len(names) <= 4 else f"{', '.join(names[:3])} and {len(names) - 3} more"


def part_name(request: LayRequest, part: int) -> str:
    """Return what a part is called, shortened where it is long."""
    name = request.parts[part].name or f"piece {part + 1}"
    return name if len(name) <= _LONGEST_NAME else f"{name[: _LONGEST_NAME - 1].rstrip()}…"


def ranges(numbers: Iterable[int]) -> str:
    """Return numbers with runs drawn together: "1–3, 5"."""
    found: list[list[int]] = []
    for one in sorted(set(numbers)):
        if found and one == found[-1][1] + 1:
            found[-1][1] = one
        else:
            found.append([one, one])
    return ", ".join(str(a) if a == b else f"{a}, {b}" if b == a + 1 else f"{a}–{b}" for a, b in found)


class _Holds:
    """Knows which copies lie in a rectangle of a sheet."""

    def __init__(self, layout: Layout) -> None:
        self.middles: list[list[tuple[float, float, Copy]]] = []
        self.sheets = len(layout.sheets)
        for sheet in layout.sheets:
            row = []
            for laid in sheet.pieces:
                left, bottom, right, top = trim_box(layout.request.parts[laid.part], laid)
                row.append(((left + right) / 2, (bottom + top) / 2, (laid.part, laid.copy)))
            self.middles.append(row)

    def copies(self, one: Rectangle) -> list[Copy]:
        left, bottom, right, top = one.box
        return [copy for x, y, copy in self.middles[one.sheet] if left < x < right and bottom < y < top]

    def all_of(self, sheet: int) -> int:
        return len(self.middles[sheet])


def _words(request: LayRequest, stroke: Stroke, holds: _Holds) -> StrokeWords:
    inside = [holds.copies(Rectangle(layer.sheet, layer.box)) for layer in stroke.layers]
    sheets = [layer.sheet + 1 for layer in stroke.layers]
    word = "Sheet" if len(set(sheets)) == 1 else "Sheets"
    what = f"{word} {ranges(sheets)}"
    if any(len(copies) < holds.all_of(layer.sheet) for copies, layer in zip(inside, stroke.layers, strict=True)):
        what = f"{names_of(request, [one for copies in inside for one in copies])} of {what[0].lower()}{what[1:]}"
    lies, short = _lies(request, stroke, holds)
    return StrokeWords(
        stroke.number,
        "by eye" if stroke.fence_mm is None else f"{stroke.fence_mm:.1f} mm",
        what,
        stroke.turn,
        lies,
        short,
        f"{stroke.length_mm:.1f} mm",
        len(stroke.layers),
        _then(request, stroke, holds),
        stroke.caution,
    )


def _lies(request: LayRequest, stroke: Stroke, holds: _Holds) -> tuple[str, str]:
    """Return how the paper lies, in a clause and in a word or two."""
    first = stroke.layers[0]
    if stroke.fence_mm is not None:
        if len({layer.edge for layer in stroke.layers}) == 1:
            return f"{first.edge} edge to the fence", first.edge
        return f"{first.edge} edge to the fence, the rest laid alike", f"{first.edge}, rest alike"
    off, kept = holds.copies(falling(first)), holds.copies(held_part(first))
    if not off or not kept:
        side = OPPOSITE[first.edge] if not off else first.edge
        return f"cut on the printed line along the {side} edge", f"line along {side}"
    between = f"between {names_of(request, kept)} and {names_of(request, off)}"
    return f"cut on the printed line {between}", "line in the gap"


def _then(request: LayRequest, stroke: Stroke, holds: _Holds) -> str:
    off = {copy for layer in stroke.layers for copy in holds.copies(falling(layer))}
    kept = any(holds.copies(held_part(layer)) for layer in stroke.layers)
    done = set(stroke.frees)
    said = [f"{names_of(request, off)} off" if off else "waste off"]
    if off and not kept:
        said.insert(0, "hold the waste")
    if done:
        said.append("done" if done == off else f"{names_of(request, done)} done")
    return ", ".join(said)


def held_part(layer: Layer) -> Rectangle:
    """Return the half of a layer that is held."""
    return Rectangle(layer.sheet, _half(layer, layer.edge))


def falling(layer: Layer) -> Rectangle:
    """Return the half of a layer that comes off."""
    return Rectangle(layer.sheet, _half(layer, OPPOSITE[layer.edge]))


def _half(layer: Layer, side: Side) -> tuple[float, float, float, float]:
    left, bottom, right, top = layer.box
    at = layer.at_mm
    halves = {
        "left": (left, bottom, at, top),
        "right": (at, bottom, right, top),
        "bottom": (left, bottom, right, at),
        "top": (left, at, right, top),
    }
    return halves[side]


def _many(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
