"""Arrange parts on sheets within a time: what the sheets job and the screen ask for."""

from __future__ import annotations

import time
from dataclasses import dataclass

from wrapwright.core.sheet.lay.lay import start
from wrapwright.core.sheet.lay.values import Layout, LayRequest
from wrapwright.jobs.bench import Bench, Watch

_STEPS = 2000  # between two looks at the time and at the wish to stop
LONGEST_S = 600.0


@dataclass(frozen=True)
class ArrangeParts:
    """Lay these parts, searching for at most so many seconds."""

    request: LayRequest
    seconds: float = 5.0


def arrange_parts(request: ArrangeParts, bench: Bench, watch: Watch) -> Layout:
    """Return the best layout found in the time; at once when it is proven the best.

    Raises:
        WrapwrightError: stopped by the user.
    """
    del bench
    laying = start(request.request)
    seconds = min(max(request.seconds, 0.0), LONGEST_S)
    begun = time.monotonic()
    while True:
        used = time.monotonic() - begun
        watch.step("arranging", min(used / seconds, 1.0) if seconds > 0 else 1.0)
        if laying.advance(_STEPS) or time.monotonic() - begun >= seconds:
            return laying.layout
