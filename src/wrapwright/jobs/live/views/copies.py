"""The copies of a composition's elements, bottom to top, each as a screen draws it."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb, hex_of
from wrapwright.core.design.drawlist import AnyItem, DrawList, Extent, PlacedOutline
from wrapwright.core.design.elements import AnyElement, Code, Picture, Text, goes_round, kind_word
from wrapwright.core.design.kinds.ground import Ground, visible_laps
from wrapwright.core.design.path import Path
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.warp import bent
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.live.art.artwork import (
    Artwork,
    artwork_of,
    by_itself,
    digest_of,
    drawn_as_outlines,
    own_ppi,
    path_digest,
    supply_digest,
)
from wrapwright.jobs.live.art.pixels import with_alpha
from wrapwright.jobs.live.art.seen import copy_key
from wrapwright.jobs.live.art.sprites import Sprite, sprite_of
from wrapwright.jobs.live.values import CopyView, Matrix, ShapeView, SpriteView
from wrapwright.jobs.live.views.frames import WHOLE, Canvas
from wrapwright.jobs.live.views.strings import path_data
from wrapwright.jobs.live.views.words import spoken_all, spoken_place, spoken_round
from wrapwright.jobs.work.colouring import Colouring
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.painting import printed_look

SPRITES = "/api/sprites/"


@dataclass(frozen=True, eq=False)
class _Scene:
    """What every copy is seen in; `indices` are the elements' in the document."""

    composed: Composition
    indices: Sequence[int]
    canvas: Canvas
    bench: Bench

    @property
    def colouring(self) -> Colouring:
        return self.composed.colouring


def copies_of(composed: Composition, indices: Sequence[int], canvas: Canvas, bench: Bench) -> tuple[CopyView, ...]:
    """Return all copies, bottom to top; what has not changed since it was last asked for is not worked out again.

    Args:
        composed: the composition.
        indices: for each of its elements, its index in the document's list.
        canvas: the frame they are seen in.
        bench: keeps what was worked out, and how each sprite is drawn.
    """
    scene = _Scene(composed, indices, canvas, bench)
    return tuple(_kept(scene, extent) for extent in composed.draw_list.extents)


def _kept(scene: _Scene, extent: Extent) -> CopyView:
    composed, index = scene.composed, scene.indices[extent.element]
    element = composed.opened.job.elements[extent.element]
    key: Hashable = (scene.canvas, copy_key(composed, extent.element, extent.copy))

    def make() -> tuple[CopyView, Sprite | None]:
        return _fixed(scene, extent) if goes_round(element) else _placed(scene, extent)

    view, sprite = scene.bench.recent.copies.get(key, make)
    if sprite is not None:
        scene.bench.recent.sprites.put(sprite.key, sprite)
    seen: CopyView = view
    return seen if seen.element == index else replace(seen, element=index, key=f"{index}.{seen.copy}")


def _fixed(scene: _Scene, extent: Extent) -> tuple[CopyView, Sprite | None]:
    """Return what goes all round, drawn on the canvas itself."""
    composed, canvas = scene.composed, scene.canvas
    whole = composed.draw_list
    element = composed.opened.job.elements[extent.element]
    supply = composed.supplied.supplies.get(extent.element)
    items = tuple(item for item in whole.items if item.element == extent.element)
    shapes: tuple[ShapeView, ...] = ()
    sprite = None
    if drawn_as_outlines(items):
        shapes = _shapes(items, canvas.paths([item.path for item in _outlines(items)]), scene.colouring)
    else:
        digest = digest_of(element, supply_digest(supply), whole.wrap, whole.bleed_mm)
        border = Canvas(canvas.wrap, canvas.bleed_mm, "flat")
        sprite = sprite_of(
            DrawList(whole.wrap, whole.bleed_mm, tuple(replace(item, element=0) for item in items)),
            border.box,
            scene.colouring,
            digest=digest,
            own_ppi=own_ppi(items, supply),
            bend=(canvas, None) if canvas.straightens else None,
            bent_reach=canvas.box if canvas.straightens else None,
        )
    view = _view(scene, extent, shapes, sprite, matrix=WHOLE, rigid=False, laps=(0,))
    return replace(view, border=path_data(canvas.path(extent.outline)), ppi=own_ppi(items, supply)), sprite


def _placed(scene: _Scene, extent: Extent) -> tuple[CopyView, Sprite | None]:
    """Return a copy that has a place: in its own millimetres when it is rigid, else bent onto the canvas."""
    composed, canvas = scene.composed, scene.canvas
    wrap = composed.draw_list.wrap
    element = composed.opened.job.elements[extent.element]
    supply = composed.supplied.supplies.get(extent.element)
    art = _artwork(scene, extent, element)
    turn = wrap.turn_at(extent.at_deg, extent.across_mm)
    placement = Placement(wrap, turn, extent.up_mm, extent.lay, _turn(element))
    rigid = canvas.rigid(extent.lay)
    ppi = own_ppi([item for item in composed.draw_list.items if _is(item, extent)], supply)
    sprite = None
    shapes: tuple[ShapeView, ...] = ()
    if art.outlines:
        paths = [item.path for item in _outlines(art.items)]
        shapes = _shapes(art.items, paths if rigid else _bent(paths, placement, canvas), scene.colouring)
    else:
        reach = None if rigid else _bent([art.reach_path], placement, canvas)[0].box()
        sprite = sprite_of(
            art.draw_list,
            art.reach,
            scene.colouring,
            digest=art.digest,
            own_ppi=ppi,
            bend=None if rigid else (canvas, placement),
            bent_reach=reach,
        )
    border = art.border if rigid else _bent([art.border], placement, canvas)[0]
    laps = visible_laps(Ground(wrap, composed.draw_list.bleed_mm, {}), bent(art.reach_path, placement))
    view = _view(
        scene, extent, shapes, sprite, matrix=canvas.matrix(placement) if rigid else WHOLE, rigid=rigid, laps=laps
    )
    return replace(view, border=path_data(border), ppi=ppi, turn_deg=_turn(element)), sprite


def _artwork(scene: _Scene, extent: Extent, element: AnyElement) -> Artwork:
    supplied, values = scene.composed.supplied, scene.composed.opened.job.fields
    supply, mask = supplied.supplies.get(extent.element), supplied.masks.get(extent.element)
    key = (by_itself(element), supply_digest(supply), path_digest(mask), tuple(sorted(values.items())))
    art: Artwork = scene.bench.recent.artworks.get(key, lambda: artwork_of(element, supply, mask, values))
    return art


def _view(
    scene: _Scene,
    extent: Extent,
    shapes: tuple[ShapeView, ...],
    sprite: Sprite | None,
    *,
    matrix: Matrix,
    rigid: bool,
    laps: tuple[int, ...],
) -> CopyView:
    element = scene.composed.opened.job.elements[extent.element]
    index, wide = scene.indices[extent.element], goes_round(element)
    wrap = scene.canvas.wrap
    plain = wrap.plate is None
    return CopyView(
        key=f"{index}.{extent.copy}",
        element=index,
        copy=extent.copy,
        name=element.name,
        kind=kind_word(element),
        at_deg=extent.at_deg if plain else wrap.at_of(wrap.turn_at(0.0, extent.across_mm)),
        up_mm=extent.up_mm,
        turn_deg=0.0,
        width_mm=extent.width_mm,
        height_mm=extent.height_mm,
        lay=extent.lay,
        fixed=wide,
        matrix=matrix,
        rigid=rigid,
        border="",
        shapes=shapes,
        sprite=None if sprite is None else SpriteView(f"{SPRITES}{sprite.key}.png", sprite.box),
        laps=laps,
        ppi=None,
        spoken=_spoken(element.name, extent, wide=wide, plain=plain),
        across_mm=extent.across_mm,
    )


def _spoken(name: str, extent: Extent, *, wide: bool, plain: bool) -> str:
    if wide:
        return spoken_round(name) if plain else spoken_all(name)
    return spoken_place(name, extent.at_deg, extent.up_mm, across_mm=None if plain else extent.across_mm)


def _shapes(items: Sequence[AnyItem], paths: Sequence[Path], colouring: Colouring) -> tuple[ShapeView, ...]:
    """Return the outlines among items, each drawn along its path."""
    return tuple(_shape(item, path, colouring) for item, path in zip(_outlines(items), paths, strict=True))


def _shape(item: PlacedOutline, path: Path, colouring: Colouring) -> ShapeView:
    """Return a shape in the colour, and with the opacity, by which a screen shows what the renderer does."""
    colour, opacity = _seen(item.colour, item.opacity * item.copy_opacity, colouring)
    line = item.stroke_mm > 0.0
    return ShapeView(
        d=path_data(path),
        fill="" if line else colour,
        stroke=colour if line else "",
        stroke_mm=round(item.stroke_mm, 6),
        even_odd=item.even_odd,
        opacity=opacity,
    )


def _seen(colour: Rgb, opacity: float, colouring: Colouring) -> tuple[str, float]:
    """Return the colour and the opacity for a screen, which blends encoded codes, of a colour in linear light."""
    codes = np.rint(np.clip(colouring.working.colours(np.array([[colour]])), 0.0, 1.0) * 255.0).astype(np.uint8)
    if opacity >= 1.0:
        red, green, blue = (printed_look(colouring, codes)[0, 0] / 255.0).tolist()
        return hex_of((red, green, blue)), 1.0
    tone = colouring.working.tone
    light = tone.decode(codes) * np.float32(opacity)
    white, black = (_eight(tone.encode(light + np.float32(paper))) for paper in (1.0 - opacity, 0.0))
    seen = printed_look(colouring, white)
    red, green, blue, alpha = (with_alpha(white, black, seen)[0, 0] / 255.0).tolist()
    return hex_of((red, green, blue)), round(alpha, 4)


def _eight(codes: NDArray[np.uint16]) -> NDArray[np.uint8]:
    return ((codes.astype(np.uint32) + 128) // 257).astype(np.uint8)


def _outlines(items: Sequence[AnyItem]) -> Iterator[PlacedOutline]:
    return (item for item in items if isinstance(item, PlacedOutline))


def _is(item: AnyItem, extent: Extent) -> bool:
    return (item.element, item.copy) == (extent.element, extent.copy)


def _bent(paths: Sequence[Path], placement: Placement, canvas: Canvas) -> list[Path]:
    """Return paths in local mm as they lie in a frame (y up)."""
    return canvas.paths([bent(path, placement) for path in paths], placement.turn)


def _turn(element: AnyElement) -> float:
    return element.turn_deg if isinstance(element, Picture | Text | Code) else 0.0
