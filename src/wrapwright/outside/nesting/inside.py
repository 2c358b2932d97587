"""The nesting child's main part: a strip and its outlines on standard input, the places on standard output."""

from __future__ import annotations

import json
import sys
import threading
from typing import Any

from wrapwright.outside.system.child_inside import serve

_LOOK_S = 0.05


def nest(asked: dict[str, Any]) -> dict[str, Any]:
    """Return `length` and `spots` [[item, x, y, turn]] of the shortest strip found, or of the first short enough."""
    import spyrrow

    items = [
        spyrrow.Item(
            str(index),
            [(float(x), float(y)) for x, y in item["ring"]],
            int(item["copies"]),
            [float(turn) for turn in item["turns"]],
        )
        for index, item in enumerate(asked["items"])
    ]
    strip = spyrrow.StripPackingInstance("", float(asked["height"]), items)
    config = spyrrow.StripPackingConfig(
        early_termination=True,
        total_computation_time=max(1, round(float(asked["seconds"]))),
        num_workers=1,
        seed=int(asked["seed"]) % 2**32,
    )
    told, found = spyrrow.ProgressQueue(), []
    work = threading.Thread(target=lambda: found.append(strip.solve(config, progress=told)), daemon=True)
    work.start()
    while work.is_alive():
        work.join(_LOOK_S)
        for kind, solution in told.drain():
            right = kind in (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas)
            if right and solution.width <= float(asked["enough"]):
                return _said(solution)  # the process ends with its answer, and the search with it
    return _said(found[0]) if found else {}


def _said(solution: Any) -> dict[str, Any]:
    spots = [
        [int(one.id), float(one.translation[0]), float(one.translation[1]), float(one.rotation)]
        for one in solution.placed_items
    ]
    return {"length": float(solution.width), "spots": spots}


if __name__ == "__main__":
    serve(lambda _: nest(json.load(sys.stdin)))
