"""Arrange parts on sheets within a time: what the sheets job and the screen ask for."""

from __future__ import annotations

import time
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wrapwright.core.sheet.cut.values import Trimmer
from wrapwright.core.sheet.lay.values import Layout, LayRequest
from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from wrapwright.core.sheet.nest.values import Nested

LONGEST_S = 600.0
_NESTS = 4  # strips that are nested within the time
_LEAST_NEST_S = 4.0
_CHUNK = 2000  # steps between two looks at the time and at the wish to stop
# So many steps are searched for each second asked for, where the machine is quick enough: most are, and then the same
# request gives the same layout on all of them.
_STEPS_A_SECOND = 20_000


@dataclass(frozen=True)
class ArrangeParts:
    """Lay these parts, searching for at most so many seconds; cells are put in order for this trimmer."""

    request: LayRequest
    seconds: float = 5.0
    trimmer: Trimmer = field(default_factory=Trimmer)


def arrange_parts(request: ArrangeParts, bench: Bench, watch: Watch) -> Layout:
    """Return the best layout found in the time; at once when it is proven the best.

    Raises:
        WrapwrightError: unusable, when what is pinned cannot stay; stopped by the user.
    """
    from wrapwright.core.sheet.lay.lay import start

    watch.step("arranging", 0.0)
    seconds = min(max(request.seconds, 0.0), LONGEST_S)
    laying = start(request.request, _nester(request.request, seconds, bench))
    begun = time.monotonic()
    left = int(seconds * _STEPS_A_SECOND)
    while left > 0 and not laying.advance(min(_CHUNK, left)):
        left -= _CHUNK
        used = time.monotonic() - begun
        watch.step("arranging", min(used / seconds, 1.0))
        if used >= seconds:
            break
    return tidied_layout(laying.layout, request.trimmer, watch)


def _nester(request: LayRequest, seconds: float, bench: Bench) -> Nested | None:
    """Return somebody who nests outlines, where the library for it is installed and there is time for it."""
    from wrapwright.outside.nesting.spyrrow import nester

    if request.way != "free" or seconds < _LEAST_NEST_S:
        return None
    return nester(bench.folders.cache, seconds=seconds / _NESTS)


def tidied_layout(layout: Layout, trimmer: Trimmer, watch: Watch) -> Layout:
    """Return the layout with its cells in another order where that saves strokes or fence settings in all."""
    from wrapwright.core.sheet.cut import tidying

    if layout.request.way != "trimmer":
        return layout
    watch.step("saving strokes", 1.0)
    held = frozenset((pin.part, pin.copy) for pin in layout.request.pins)
    return tidying.tidied_layout(layout, trimmer, pinned=dict.fromkeys(range(len(layout.sheets)), held))
