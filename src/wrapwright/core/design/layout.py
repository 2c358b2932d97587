"""From the elements of a design to the draw list of one wrap."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError, raise_all
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.drawlist import DrawList
from wrapwright.core.design.elements import AnyElement, Code, Fill, Picture, Text, Tile
from wrapwright.core.design.fields import filled
from wrapwright.core.design.kinds.code import lay_code
from wrapwright.core.design.kinds.fill import lay_fill
from wrapwright.core.design.kinds.ground import Ground, Layer, Recolour, stacked
from wrapwright.core.design.kinds.picture import lay_picture
from wrapwright.core.design.kinds.text import lay_text
from wrapwright.core.design.kinds.tile import lay_tile
from wrapwright.core.design.path import Path
from wrapwright.core.design.supplies import Supplies

# Every kind of element and the function that lays it.
KINDS: tuple[tuple[type[Any], Callable[[int, Any, Ground], Layer]], ...] = (
    (Fill, lay_fill),
    (Picture, lay_picture),
    (Tile, lay_tile),
    (Text, lay_text),
    (Code, lay_code),
)


@dataclass(frozen=True, eq=False)
class Laid:
    """A design laid out: its draw list and sentences for the user about what was changed to fit (no rule's)."""

    draw_list: DrawList
    remarks: tuple[str, ...] = ()


def lay_out(
    elements: Sequence[AnyElement],
    *,
    wrap: FlatWrap,
    bleed_mm: float,
    supplies: Supplies,
    masks: Mapping[int, Path] | None = None,
    fields: Mapping[str, str] | None = None,
    recolour: Recolour | None = None,
) -> Laid:
    """Return the draw list of one piece, bottom to top, in flat mm as seen.

    Args:
        elements: back to front.
        wrap: the flat wrap.
        bleed_mm: art beyond the trim at rim and base.
        supplies: by element index, the art read, the text set, the code made.
        masks: by element index, the filled shape of a picture's mask file in shares of its page, y up.
        fields: values of the fields; when given, a text or code that names another is an error.
        recolour: what a solid colour becomes by changes in CIELAB; needed when vector art is adjusted.

    Items are not cut at the trim: a reader limits all of them to `bleed_outline`. An element that reaches past an
    end stands in the list again one whole turn away, so that it goes on at the other end. Every problem is
    raised in one go, each with its element's name.
    """
    ground = Ground(wrap, bleed_mm, supplies, masks or {}, recolour)
    layers, problems = [], []
    for index, element in enumerate(elements):
        try:
            if fields is not None and isinstance(element, Text | Code):
                filled(element.text, fields, where=element.name)
            layers.append(_lay(index, element, ground))
        except WrapwrightError as problem:
            problems.append(problem)
    raise_all(problems)
    whole = stacked(layers)
    return Laid(DrawList(wrap, bleed_mm, whole.items, whole.extents), whole.remarks)


def lay_some(elements: Mapping[int, AnyElement], ground: Ground) -> Layer:
    """Return what a few elements of a design put on the wrap, by their index in it, bottom to top.

    Raises:
        WrapwrightError: every problem in one go, each with its element's name.
    """
    layers, problems = [], []
    for index, element in sorted(elements.items()):
        try:
            layers.append(_lay(index, element, ground))
        except WrapwrightError as problem:
            problems.append(problem)
    raise_all(problems)
    return stacked(layers)


def _lay(index: int, element: AnyElement, ground: Ground) -> Layer:
    for kind, lay in KINDS:
        if isinstance(element, kind):
            return lay(index, element, ground)
    raise WrapwrightError(Kind.FAULT, f"no way to lay a {type(element).__name__}.")
