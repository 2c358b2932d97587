"""The wrap as seen, painted again only where something has changed since it was painted last."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.elements import Fill
from wrapwright.core.design.frame import Frame
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.live.art.artwork import colours_digest, path_digest, supply_digest
from wrapwright.jobs.live.art.coats import Box, Codes, CopyCoats, Cover, coats_of, lay_within, region_of, round_all
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.painting import printed_look


@dataclass(frozen=True, eq=False)
class _Laid:
    """A canvas with the coats that lie on it, by key, bottom to top, and its look; never changed once it is kept."""

    coats: dict[Hashable, CopyCoats]
    colours: Codes
    dither: bool
    seen: NDArray[np.uint8]


def seen_pixels(composed: Composition, frame: Frame, bench: Bench) -> NDArray[np.uint8]:
    """Return sRGB, uint8 (h, w, 3), of a composition on white over an upright frame: as `seen_wrap` gives.

    The array is read-only. A change needs new coats of the changed copies alone, and the canvas laid anew in the box
    that they leave and take.
    """
    wrap, size = composed.draw_list.wrap, (frame.width_px, frame.to_flat.tobytes())
    place = (wrap, composed.draw_list.bleed_mm, size, colours_digest(composed.colouring))
    coats = _coats(composed, frame, bench, place)
    dither = any(isinstance(one, Fill) and one.gradient is not None for one in composed.opened.job.elements)
    before = bench.recent.canvases.find(place)
    if not isinstance(before, _Laid) or before.dither != dither:
        before = None
    now = _laid_over(composed, frame, coats, before, dither=dither)
    bench.recent.canvases.put(place, now)
    return now.seen


def copy_key(composed: Composition, element: int, copy: int) -> Hashable:
    """Return what names the pixels of one copy on its wrap."""
    job, supplied = composed.opened.job, composed.supplied
    return (
        job.elements[element],
        copy,
        supply_digest(supplied.supplies.get(element)),
        path_digest(supplied.masks.get(element)),
        tuple(sorted(job.fields.items())),
        colours_digest(composed.colouring),
    )


def _coats(composed: Composition, frame: Frame, bench: Bench, place: Hashable) -> dict[Hashable, CopyCoats]:
    """Return the coats of every copy that shows, by key, bottom to top."""
    items, shelf = composed.draw_list.items, bench.recent.coats
    found: dict[Hashable, CopyCoats] = {}
    for (element, copy), run in groupby(range(len(items)), lambda at: (items[at].element, items[at].copy)):
        key = (place, copy_key(composed, element, copy))
        make = partial(_coats_of, composed, frame, bench, place, tuple(run))
        made: CopyCoats = shelf.get(key, make, _weight)
        found[key] = made
    return found


def _weight(made: CopyCoats) -> int:
    return made.weight


def _coats_of(composed: Composition, frame: Frame, bench: Bench, place: Hashable, items: Sequence[int]) -> CopyCoats:
    """Return the coats of the items of one copy."""
    from wrapwright.outside.raster.renderer import prepare

    colouring = composed.colouring
    renderer = prepare(composed.draw_list, frame, colouring.pixels, space=colouring.working, items=items)
    region: Cover = bench.recent.coats.get(
        (place, "region"), lambda: region_of(renderer), lambda made: int(made.nbytes)
    )
    return coats_of(renderer, region)[0]


def _laid_over(
    composed: Composition, frame: Frame, coats: dict[Hashable, CopyCoats], before: _Laid | None, *, dither: bool
) -> _Laid:
    """Return the canvas with all coats on it, and its look; only the rows that have changed are looked at anew."""
    from wrapwright.outside.raster.canvas import dithered, rounded

    box: Box = (0, frame.height_px, 0, frame.width_px)
    if before is None:
        colours = np.empty((frame.height_px, frame.width_px, 3), dtype=np.uint16)
        seen = np.empty(colours.shape, dtype=np.uint8)
    else:
        changed = _changed(before.coats, coats, box)
        if changed is None:
            return _Laid(coats, before.colours, dither, before.seen)
        colours, seen, box = before.colours.copy(), before.seen.copy(), changed
    lay_within(colours, coats.values(), box, composed.colouring.working.tone)
    rows = slice(box[0], box[1])
    codes = dithered(colours[rows], box[0]) if dither else rounded(colours[rows])
    seen[rows] = printed_look(composed.colouring, codes)
    seen.flags.writeable = False  # it goes out, and the next change starts from it
    return _Laid(coats, colours, dither, seen)


def _changed(old: dict[Hashable, CopyCoats], new: dict[Hashable, CopyCoats], whole: Box) -> Box | None:
    """Return the box outside of which two canvases are alike, None when they are alike everywhere."""
    if [key for key in old if key in new] != [key for key in new if key in old]:
        return whole
    differing = [old[key] for key in old.keys() - new.keys()] + [new[key] for key in new.keys() - old.keys()]
    return round_all([box for one in differing if (box := one.box) is not None])
