"""Outlines nested in a strip by spyrrow (the extra `nest`), in a child that cannot take the product with it."""

from __future__ import annotations

import importlib.util
import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.nest.values import StripAnswer, StripRequest, StripSpot
from wrapwright.outside.system.child import ChildLimits, run_child, working_folder

_INSIDE = "wrapwright.outside.nesting.inside"
_START_S = 10.0  # for starting the child and for its last step
_MEMORY = 1_500_000_000
MOST_POINTS = 100_000  # of all outlines together


def can_nest() -> bool:
    """Return whether the library is installed."""
    return importlib.util.find_spec("spyrrow") is not None


def nester(folder: Path, *, seconds: float) -> Callable[[StripRequest], StripAnswer | None] | None:
    """Return a nester that takes so long for each strip, or None when the library is not installed.

    Args:
        folder: where the child gets its working folder.
        seconds: for one strip; less is taken when a length that is good enough is found before.
    """
    if not can_nest():
        return None
    return lambda request: nested_by_spyrrow(request, folder=folder, seconds=seconds)


def nested_by_spyrrow(request: StripRequest, *, folder: Path, seconds: float) -> StripAnswer | None:
    """Return where every copy lies in the strip; None when nothing came of it (not installed, ended, out of time).

    One thread of the child works. The same request does not always give the same answer: the search is cut off by the
    clock. What comes back is complete, but whether it is right is for the caller to see.
    """
    if not can_nest() or not request.items or sum(len(item.ring) for item in request.items) > MOST_POINTS:
        return None
    limit = max(1.0, seconds)
    limits = ChildLimits(memory_bytes=_MEMORY, cpu_s=math.ceil(2.0 * limit + _START_S), wall_s=limit + _START_S)
    try:
        with working_folder(folder) as place:
            asked = place / "strip.json"
            asked.write_text(json.dumps(_asked(request, limit)), encoding="utf-8", newline="\n")
            answer = run_child(_INSIDE, {}, folder=place, content=asked, limits=limits)
    except WrapwrightError as problem:
        if problem.kind is Kind.STOPPED:
            raise
        return None
    return _understood(request, answer)


def _asked(request: StripRequest, seconds: float) -> dict[str, Any]:
    items = [{"ring": item.ring, "copies": item.copies, "turns": item.turns} for item in request.items]
    return {
        "items": items,
        "height": request.height_mm,
        "enough": request.enough_mm,
        "seed": request.seed,
        "seconds": seconds,
    }


def _understood(request: StripRequest, answer: dict[str, Any]) -> StripAnswer | None:
    """Return the answer, or None when it does not hold every copy once at turns that are allowed."""
    try:
        spots = tuple(
            StripSpot(int(item), float(x), float(y), round(float(turn)) % 360)
            for item, x, y, turn in answer.get("spots", [])
        )
        length = float(answer.get("length", 0.0))
    except (TypeError, ValueError):
        return None
    for index, item in enumerate(request.items):
        turns = [spot.turn_deg for spot in spots if spot.item == index]
        if len(turns) != item.copies or not set(turns) <= {turn % 360 for turn in item.turns}:
            return None
    complete = len(spots) == sum(item.copies for item in request.items)
    return StripAnswer(length, spots) if complete and math.isfinite(length) else None
