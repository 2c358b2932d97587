"""The marks beside a piece: lines, check bars, arrow and words, each as filled shapes in true millimetres."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path, polygon, rectangle
from wrapwright.core.sheet.placed import Box, Label
from wrapwright.core.sheet.room import exact_box

Array = NDArray[np.float64]
SetLabel = Callable[[str, float], Path]  # words, cap height in mm -> outlines in mm, base line at y = 0

LINE_MM = 0.2
TICK_MM = 3.0
CORNER_MM = 4.0
WORD_MM = 2.4  # cap height of the words at ends and edges
LABEL_MM = 2.6
CAPTION_MM = 1.7


@dataclass(frozen=True, eq=False)
class Mark:
    """A thing that stands beside the piece.

    Attributes:
        name: for the report.
        lines: filled shapes without the words.
        words: its words.
        box: round both.
    """

    name: str
    lines: Path
    words: tuple[Label, ...]
    box: Box


def line(start: Array, end: Array, width_mm: float = LINE_MM) -> Path:
    """Return a straight line of that width as a filled shape with square cut ends."""
    step = (end - start) / float(np.linalg.norm(end - start)) * width_mm / 2.0
    side = np.array([-step[1], step[0]])
    ring = [start - side, end - side, end + side, start + side]
    return polygon([(float(x), float(y)) for x, y in ring])


def bar(length_mm: float) -> Path:
    """Return a check bar along x: the outer edges of its end ticks lie exactly `length_mm` apart."""
    middle = TICK_MM / 2.0
    parts = (
        rectangle(0.0, middle - LINE_MM / 2.0, length_mm, middle + LINE_MM / 2.0),
        rectangle(0.0, 0.0, LINE_MM, TICK_MM),
        rectangle(length_mm - LINE_MM, 0.0, length_mm, TICK_MM),
    )
    return Path(tuple(sub for part in parts for sub in part.subpaths))


def arrow(height_mm: float) -> Path:
    """Return an arrow that points up, its foot at the origin, as wide as two thirds of its height."""
    half, neck, shaft = height_mm / 3.0, height_mm * 0.5, height_mm * 0.09
    return polygon(
        [(-shaft, 0), (shaft, 0), (shaft, neck), (half, neck), (0, height_mm), (-half, neck), (-shaft, neck)]
    )


def motion(turn_deg: float, to: tuple[float, float]) -> Array:
    """Return the 3x3 matrix that turns anticlockwise about the origin and then moves it to `to`."""
    angle = math.radians(turn_deg)
    cos, sin = math.cos(angle), math.sin(angle)
    return np.array([[cos, -sin, to[0]], [sin, cos, to[1]], [0.0, 0.0, 1.0]])


def words(what: str, text: str, height_mm: float, *, set_label: SetLabel) -> Label:
    """Return words that start at the origin."""
    return Label(what, text, (0.0, 0.0), height_mm, 0.0, set_label(text, height_mm))


def moved(label: Label, turn_deg: float, to: tuple[float, float]) -> Label:
    """Return the label turned about the origin, then moved."""
    matrix = motion(turn_deg, to)
    at = matrix @ np.array([*label.at_mm, 1.0])
    path = label.path.times(matrix)
    return replace(label, at_mm=(float(at[0]), float(at[1])), turn_deg=label.turn_deg + turn_deg, path=path)


def mark(name: str, lines: Path, texts: tuple[Label, ...]) -> Mark:
    """Return the mark of these parts, with the box round them."""
    shapes = [exact_box(path) for path in (lines, *(text.path for text in texts)) if path.subpaths]
    left, bottom = min(box[0] for box in shapes), min(box[1] for box in shapes)
    right, top = max(box[2] for box in shapes), max(box[3] for box in shapes)
    return Mark(name, lines, texts, (left, bottom, right, top))


def shifted(one: Mark, turn_deg: float, to: tuple[float, float]) -> Mark:
    """Return the mark turned by quarter turns and moved so that its box's lower left corner lies at `to`."""
    left, bottom, right, top = turned_box(one.box, turn_deg)
    step = (to[0] - left, to[1] - bottom)
    lines = one.lines.times(motion(turn_deg, step))
    texts = tuple(moved(text, turn_deg, step) for text in one.words)
    return Mark(one.name, lines, texts, (to[0], to[1], right + step[0], top + step[1]))


def turned_box(box: Box, turn_deg: float) -> Box:
    """Return the box after quarter turns about the origin."""
    ends = np.array([[box[0], box[2]], [box[1], box[3]], [1.0, 1.0]])
    x, y, _ = motion(turn_deg, (0.0, 0.0)) @ ends
    return (float(x.min()), float(y.min()), float(x.max()), float(y.max()))


def check_bar(length_mm: float, *, set_label: SetLabel) -> Mark:
    """Return a check bar along x with its caption below it."""
    text = words("caption", f"{length_mm:g} mm: off by more than 0.5 mm? stop", CAPTION_MM, set_label=set_label)
    box = exact_box(text.path)
    caption = moved(text, 0.0, ((length_mm - box[2] - box[0]) / 2.0, -1.2 - CAPTION_MM))
    return mark("check bar", bar(length_mm), (caption,))


def edge_word(what: str, *, set_label: SetLabel) -> Mark:
    """Return the word "rim" (on a flat blank "top") with an arrow towards it, or "base"."""
    text = words(what, what, WORD_MM, set_label=set_label)
    if what == "base":
        return mark(what, Path(), (text,))
    right = exact_box(text.path)[2]
    return mark(what, arrow(WORD_MM * 1.2).times(motion(0.0, (right + 1.8, 0.0))), (text,))


def corner_mark(place: Array, along: Array, clear_mm: float) -> Mark:
    """Return a short line that goes on from a corner in direction `along`, beginning `clear_mm` from it."""
    path = line(place + along * clear_mm, place + along * (clear_mm + CORNER_MM))
    return mark("corner marks", path, ())


def end_word(what: str, place: Array, outward: Array, clear_mm: float, *, set_label: SetLabel) -> Mark:
    """Return words along one end of the wrap, their nearer edge `clear_mm` outside it.

    Args:
        what: "lay first" or "lay on top".
        place: middle of the end, true mm.
        outward: unit vector out of the wrap, square to the end.
        clear_mm: distance kept.
        set_label: sets the words.
    """
    text = words(what, what, WORD_MM, set_label=set_label)
    left, bottom, right, top = exact_box(text.path)
    # The words run upwards along a steep end and to the right along a flatter one, so that their heads stay up.
    along = np.array([-outward[1], outward[0]])
    if (along[1] if abs(along[0]) < 0.35 else along[0]) < 0:
        along = -along
    turn = math.degrees(math.atan2(along[1], along[0]))
    up = np.array([-along[1], along[0]])
    reach = -bottom if float(up @ outward) > 0 else top
    start = place + outward * (clear_mm + reach) - along * (left + right) / 2.0
    return mark(what, Path(), (moved(text, turn, (float(start[0]), float(start[1]))),))
