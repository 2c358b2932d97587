"""Laying freely: published irregular strips against their records, with and without a nester; sectors by density."""

from __future__ import annotations

import json
import math
import os
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import shapely
from benchmarks._packing_data import folder_of

from wrapwright.core.base.rings import Ring, turned
from wrapwright.core.sheet.lay.values import LayRequest, Part, Shape, Stock
from wrapwright.core.sheet.nest.alike.blocks import best_sector_layout
from wrapwright.core.sheet.nest.alike.columns import beside, pitch_mm
from wrapwright.core.sheet.nest.free import FreeLaying
from wrapwright.core.sheet.nest.outlines import Lying, lyings
from wrapwright.core.sheet.nest.values import StripAnswer, StripItem, StripRequest
from wrapwright.outside.nesting.spyrrow import can_nest, nested_by_spyrrow

SECONDS, QUICK_SECONDS = 45.0, 10.0
QUICK = ("fu", "jakobs1", "shapes1")
GOAL = 7.0  # percent over the records, on average
STEPS = 40
MOST_CORNERS = 6000  # of all outlines, for our own filling: more take many minutes
# Copies' share of the area in endless patterns of a sector (inner, outer radius in mm, half angle), no gutter: boxes,
# stacked columns, the best lattice of one turn, columns of alternate turns. Searched for once on fine polygons.
SECTORS = {
    (721.9, 886.9, 8.73): (0.867, 0.902, 0.947, 0.993),
    (321.4, 471.4, 16.8): (0.782, 0.828, 0.906, 0.979),
    (150.0, 250.0, 35.0): (0.670, 0.762, 0.882, 0.935),
    (120.0, 220.0, 60.0): (0.584, 0.698, 0.828, 0.855),
}


def rows(quick: bool) -> list[str]:  # noqa: FBT001
    """Return lines of figures; `quick` takes three strips for 10 s each."""
    strips = _strips(QUICK_SECONDS, only=QUICK) if quick else _strips(SECONDS)
    return [*_densities(), "", *_areas(), "", *strips]


def main(words: Sequence[str]) -> None:
    """Print the figures; a word gives the seconds for each strip."""
    seconds = float(words[0]) if words else SECONDS
    print("\n".join([*_densities(), "", *_areas(), "", *_strips(seconds)]))


def _densities() -> list[str]:
    said = ["sectors, endless: share of the area    boxes  stacked  one turn  both turns   (goal)"]
    for radii, goal in SECTORS.items():
        found = densities(*radii)
        met = all(one >= wanted - 0.0015 for one, wanted in zip(found, goal[1:], strict=True))
        shown = "    ".join(f"{one:.3f}" for one in found)
        goals = " ".join(f"{one:.3f}" for one in goal[1:])
        said.append(f"  {radii!s:34} {goal[0]:.3f}    {shown}   ({goals}) {'met' if met else 'NOT MET'}")
    return said


def densities(inner: float, outer: float, half_deg: float) -> tuple[float, float, float]:
    """Return the densities of stacked columns, of the best lattice of one turn, and of columns of alternate turns."""
    found = {one.turn: one for one in lyings(Part(sector(inner, outer, half_deg)), 0.0)}
    one, other = found[0], found[180]
    area, pitch = math.radians(half_deg) * (outer**2 - inner**2), pitch_mm(one)

    def apart(left: Lying, right: Lying, phase: float) -> float:
        return float(beside(left, right, np.arange(-4, 5) * pitch + phase).max())

    phases = np.linspace(0.0, pitch, 49)
    same = min(apart(one, one, phase) for phase in phases)
    both = min(apart(one, other, phase) + apart(other, one, -phase) for phase in phases) / 2.0
    return area / (pitch * apart(one, one, 0.0)), area / (pitch * same), area / (pitch * both)


def sector(inner: float, outer: float, half_deg: float) -> Shape:
    """Return a sector with chords at most 0.02 mm beside its arcs."""
    half = math.radians(half_deg)

    def arc(radius: float) -> Any:
        count = max(4, math.ceil(half / math.acos(1.0 - 0.02 / radius)))
        angles = np.linspace(-half, half, count + 1)
        return np.column_stack([radius * np.sin(angles), radius * np.cos(angles)])

    width, height = 2.0 * outer * math.sin(half), outer - inner * math.cos(half)
    ring = np.concatenate([arc(inner), arc(outer)[::-1]])
    ring += np.array([width / 2.0, -inner * math.cos(half)])
    points = tuple((float(x), float(y)) for x, y in ring)
    return Shape("sector", width, height, inner, outer, half_deg, ring=points)


def _areas() -> list[str]:
    said = ["sectors on papers, gutter 3 mm: laid freely / in a grid of boxes"]
    for radii in SECTORS:
        shape, counts = sector(*radii), []
        for area in ((287.0, 410.0), (320.0, 470.0), (600.0, 900.0), (1500.0, 1500.0)):
            grid = max(
                math.floor((area[0] + 3.0) / (wide + 3.0)) * math.floor((area[1] + 3.0) / (high + 3.0))
                for wide, high in ((shape.width_mm, shape.height_mm), (shape.height_mm, shape.width_mm))
            )
            counts.append(f"{area[0]:g} x {area[1]:g}: {len(best_sector_layout(shape, area, 3.0, 10_000))}/{grid}")
        said.append(f"  {radii!s:34} {'   '.join(counts)}")
    return said


def _strips(seconds: float, *, only: Sequence[str] = ()) -> list[str]:
    file = folder_of(None) / "irregular_strip.json"
    held = json.loads(file.read_text(encoding="utf-8"))["instances"]
    said = [
        f"irregular strips: length over the record, one thread, {seconds:g} s by the clock each (s: processor time)"
    ]
    gaps: list[float] = []
    for row in held:
        if only and row["name"] not in only:
            continue
        record = float(row["best"]["strip_length"])
        line = f"  {row['name']:10} record {record:10.2f}   "
        if sum(part["n"] * len(part["outer"]) for part in row["parts"]) <= MOST_CORNERS:
            ours, took = own_length(row)
            line += f"ours {_over(ours, record)} {took:5.1f} s"
        else:
            line += "ours  not tried       "
        if can_nest():
            before = os.times().children_user
            length = nested_length(row, seconds)
            gaps.append((length / record - 1.0) * 100.0)
            line += f"   nested {_over(length, record)} {os.times().children_user - before:5.1f} s"
        said.append(line)
        print(line, file=sys.stderr, flush=True)
    if gaps:
        mean = sum(gaps) / len(gaps)
        said.append(
            f"  mean of {len(gaps)} nested {mean:+.2f} % (goal {GOAL:g}): {'met' if mean <= GOAL else 'NOT MET'}"
        )
    else:
        said.append("  not nested: the extra nest is not installed")
    return said


def _over(length: float, record: float) -> str:
    return f"{(length / record - 1.0) * 100.0:+6.2f} %"


def nested_length(row: dict[str, Any], seconds: float) -> float:
    """Return the length of a strip by spyrrow, checked; infinite when nothing came of it."""
    items = tuple(
        StripItem(_ring(part), int(part["n"]), tuple(round(turn) for turn in part["rot"])) for part in row["parts"]
    )
    request = StripRequest(items, float(row["strip_height"]))
    with tempfile.TemporaryDirectory() as folder:
        answer = nested_by_spyrrow(request, folder=Path(folder), seconds=seconds)
    return math.inf if answer is None else _checked(request, answer)


def _checked(request: StripRequest, answer: StripAnswer) -> float:
    """Return the length that the outlines reach where they are said to lie; infinite if they overlap or stand out.

    The nester counts in single precision: a ten-thousandth of the strip's height, squared, is let pass.
    """
    lie = [
        shapely.affinity.translate(
            shapely.Polygon(turned(request.items[spot.item].ring, spot.turn_deg)), spot.x_mm, spot.y_mm
        )
        for spot in answer.spots
    ]
    left, bottom, right, top = shapely.union_all([one.buffer(0) for one in lie]).bounds
    hair = request.height_mm * 1e-4
    tree = shapely.STRtree(lie)
    for at, one in enumerate(lie):
        for other in tree.query(one):
            if other > at and one.intersection(lie[other]).area > hair * hair * 1e2:
                return math.inf
    return right - left if bottom > -hair and top < request.height_mm + hair else math.inf


def own_length(row: dict[str, Any]) -> tuple[float, float]:
    """Return the length of a strip by our own nesting, and the processor time it took.

    Lengths of instances are made such that the strip is 300 mm wide, as papers are.
    """
    scale = 300.0 / float(row["strip_height"])
    parts = []
    for part in row["parts"]:
        ring = tuple((x * scale, y * scale) for x, y in _ring(part))
        left, bottom, right, top = shapely.Polygon(ring).bounds
        moved = tuple((x - left, y - bottom) for x, y in ring)
        turns = tuple(round(turn) for turn in part["rot"])
        parts.append(Part(Shape("outline", right - left, top - bottom, ring=moved), int(part["n"]), turns))
    begun = time.process_time()
    laying = FreeLaying(LayRequest(tuple(parts), (Stock("strip", 300.0, None),), 0.0, "free"))
    laying.advance(STEPS)
    height = laying.sheets[0].height_mm if len(laying.sheets) == 1 else math.inf
    return height / scale, time.process_time() - begun


def _ring(part: dict[str, Any]) -> Ring:
    ring = tuple((float(x), float(y)) for x, y in part["outer"])
    return ring[:-1] if ring[0] == ring[-1] else ring


if __name__ == "__main__":
    main(sys.argv[1:])
