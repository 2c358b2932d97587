"""An element by itself, in its own millimetres: laid by the same code as on the wrap, on a plane without end."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any

import numpy as np

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.drawlist import AnyItem, DrawList, PlacedOutline, PlacedPicture
from wrapwright.core.design.elements import AnyElement, Code, Picture, Text
from wrapwright.core.design.layers import item_box
from wrapwright.core.design.layout import lay_out
from wrapwright.core.design.path import Path, rectangle
from wrapwright.core.design.supplies import Art, CodeModules, SetText, Supply
from wrapwright.jobs.live.views.strings import segments
from wrapwright.jobs.work.colouring import Colouring, recolouring

# A straight wrap so large that everything fits: its point opposite the seam, at height 0, is the origin of local mm.
PLANE = FlatWrap(lower_mm=1e6, upper_mm=1e6, height_mm=1.0, seam_deg=180.0)
ENDLESS_MM = 1e5

MOST_SEGMENTS = 1500  # of outlines; more of them a browser draws faster as pixels


@dataclass(frozen=True, eq=False)
class Artwork:
    """One copy of an element in local mm (a to the right, b up, its centre at the origin, before its turn).

    Attributes:
        draw_list: its items on a plane without end.
        border: its visible border.
        reach: the box that it can mark, lines' widths in.
        digest: names all that shapes its pixels, wherever it lies.
        outlines: whether it can be drawn as outlines; else as pixels.
    """

    draw_list: DrawList
    border: Path
    reach: tuple[float, float, float, float]
    digest: str
    outlines: bool

    @property
    def items(self) -> tuple[AnyItem, ...]:
        """Return its items, bottom to top."""
        return self.draw_list.items

    @property
    def reach_path(self) -> Path:
        """Return `reach` as a path."""
        return rectangle(*self.reach)


def by_itself(element: AnyElement) -> AnyElement:
    """Return an element without what only says where it lies."""
    plain: dict[str, Any] = {"name": "", "at_deg": (0.0,), "up_mm": 0.0, "across_mm": 0.0}
    if isinstance(element, Picture | Text | Code):
        plain["turn_deg"] = 0.0
    if isinstance(element, Picture | Text):
        plain["lay"] = "true"
    return replace(element, **plain)


def artwork_of(element: AnyElement, supply: Supply, mask: Path | None, values: Mapping[str, str]) -> Artwork:
    """Return an element that does not go round the wrap, by itself."""
    alone = by_itself(element)
    laid = lay_out(
        (alone,),
        wrap=PLANE,
        bleed_mm=ENDLESS_MM,
        supplies={0: supply},
        masks={} if mask is None else {0: mask},
        fields=values,
        recolour=recolouring,
    ).draw_list
    (extent,) = laid.extents
    boxes = [item_box(laid, item) for item in laid.items]
    reach = _round(boxes) if boxes else extent.outline.box()
    digest = digest_of(alone, supply_digest(supply), path_digest(mask))
    return Artwork(laid, extent.outline, reach, digest, drawn_as_outlines(laid.items))


def drawn_as_outlines(items: Iterable[AnyItem]) -> bool:
    """Return whether a browser can draw items as they are: few opaque shapes that nothing clips.

    A single translucent shape counts too: its colour and opacity can be chosen so that it looks as in linear light.
    """
    found = tuple(items)
    if any(not isinstance(item, PlacedOutline) or item.clips for item in found):
        return False
    shapes = [item for item in found if isinstance(item, PlacedOutline)]
    clear = [item for item in shapes if min(item.opacity, item.copy_opacity) < 1.0]
    return sum(segments(item.path) for item in shapes) <= MOST_SEGMENTS and (not clear or len(shapes) == 1)


def digest_of(*parts: Any) -> str:
    """Return the SHA-256 of values that are written alike when they are alike."""
    return hashlib.sha256(repr(tuple(_plain(part) for part in parts)).encode("utf-8")).hexdigest()


def _plain(part: Any) -> Any:
    """Return a value whose `repr` says all of it and nothing else."""
    if is_dataclass(part) and not isinstance(part, type):
        return (type(part).__name__, *((one.name, _plain(getattr(part, one.name))) for one in fields(part)))
    return part


def supply_digest(supply: Supply) -> str:
    """Return what names an element's supply."""
    if isinstance(supply, Art):
        return f"art {supply.id}"
    if isinstance(supply, SetText):
        return f"text {path_digest(supply.path)} {supply.width_mm!r} {supply.height_mm!r}"
    if isinstance(supply, CodeModules):
        return f"code {supply.dark.shape} {hashlib.sha256(np.packbits(supply.dark).tobytes()).hexdigest()}"
    return ""


def path_digest(path: Path | None) -> str:
    """Return the SHA-256 of a path's points, "" for none."""
    if path is None:
        return ""
    found = hashlib.sha256()
    for sub in path.subpaths:
        found.update(f"{sub.closed} {len(sub.points)} ".encode())
        found.update(np.ascontiguousarray(sub.points).tobytes())
    return found.hexdigest()


def colours_digest(colouring: Colouring) -> str:
    """Return what names the way colours go."""
    there = colouring.there
    profile = "" if there is None else f"{there.device.sha256} {there.intent} {there.black_point}"
    return f"{colouring.working.name} {colouring.working.profile.sha256} {profile}"


def own_ppi(items: Iterable[AnyItem], supply: Supply) -> float | None:
    """Return the least pixels per inch of pictures among items, None when there is none."""
    from wrapwright.core.checks.gather import effective_ppi

    if not isinstance(supply, Art) or supply.kind != "pixels":
        return None
    return min((effective_ppi(item, supply) for item in items if isinstance(item, PlacedPicture)), default=None)


def _round(boxes: list[tuple[float, float, float, float]]) -> tuple[float, float, float, float]:
    left, bottom, right, top = zip(*boxes, strict=True)
    return min(left), min(bottom), max(right), max(top)
