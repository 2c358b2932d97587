"""The lines of a page: ticks where the cuts go, the first cuts, the guides that stand free, check bars, its number."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from wrapwright.core.design.borders import trim_outline
from wrapwright.core.design.path import Path, joined
from wrapwright.core.sheet.lay.printed.free import Flags, Ground, Taken
from wrapwright.core.sheet.lay.printed.labels import LINE_MM, Lettering, row_of
from wrapwright.core.sheet.lay.printed.parts import clear_of_trim
from wrapwright.core.sheet.lay.printed.values import Array, Good, LaidPage, LaidPiece, Stamp
from wrapwright.core.sheet.lay.values import Box
from wrapwright.core.sheet.marks import CORNER_MM, line
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.room import corners, sampled

FIRST_CUT = "first cut"
_FIRST_MM = 0.3  # width of the line of a first cut: it must be seen
_LEAST_LINE_MM = 2.0
_STEP_MM = 0.5


@dataclass(frozen=True)
class FirstCut:
    """A line that a stroke follows by eye: upright or level, where, and from where to where it runs; page mm."""

    upright: bool
    at_mm: float
    low_mm: float
    high_mm: float


@dataclass(frozen=True, eq=False)
class Extras:
    """What is drawn beside the pieces of one page.

    Attributes:
        first: the lines of the first cuts.
        words: about the sheet, in a row; numbers by themselves.
        rest: what stays whole, and so without ink.
    """

    first: Sequence[FirstCut] = ()
    words: tuple[str, ...] = ()
    rest: Box | None = None


def with_lines(
    page: LaidPage,
    goods: Sequence[Good],
    labels: Mapping[int, Box],
    sheet: SheetRequest,
    pen: Lettering,
    extras: Extras,
) -> LaidPage:
    """Return the page with its ticks, first cuts, guides, check bars and words, as far as there is room.

    Args:
        page: with its pieces.
        goods: what they are.
        labels: the box of each piece's label, page mm, by its place on the page.
        sheet: the printer's figures.
        pen: sets words.
        extras: first cuts and words.
    """
    ground = Ground(
        printable_of(page, sheet), [_taken(one, goods[one.good], labels.get(i)) for i, one in enumerate(page.pieces)]
    )
    pieces = tuple(_guided(one, index, ground) for index, one in enumerate(page.pieces))
    ticks = [tick for index, one in enumerate(pieces) for tick in _ticks(one, goods[one.good], index, ground)]
    firsts = [segment for cut in extras.first for segment in _first_cut(cut, ground)]
    spared = [*([extras.rest] if extras.rest else []), *(one.box() for one in firsts)]
    bars, taken, name = _bars(ground, spared, pen)
    words = _words(extras.words, ground, [*spared, *taken], pen) if extras.words else ()
    shown = [("ticks", ticks), (FIRST_CUT, firsts), (name, bars), ("sheet number", words)]
    marks = tuple(name for name, what in shown if what)
    return replace(page, pieces=pieces, lines=joined([*ticks, *firsts]), stamps=(*bars, *words), marks=marks)


def printable_of(page: LaidPage, sheet: SheetRequest) -> Box:
    """Return what the printer reaches of a page."""
    top, right, bottom, left = sheet.margins_mm
    return (left, bottom, page.width_mm - right, page.height_mm - top)


def _taken(piece: LaidPiece, good: Good, label: Box | None) -> Taken:
    ring = None
    if good.part.shape.kind != "rectangle":
        ring = np.concatenate(sampled(trim_outline(good.wrap).times(piece.to_page), _STEP_MM * 4))
    return Taken(piece.trim_box, clear_of_trim(good.bleed_mm), label, ring)


def _guided(piece: LaidPiece, index: int, ground: Ground) -> LaidPiece:
    """Return the piece with those of its guides that stand free; with none when less than half of them do."""
    if not piece.guides:
        return piece
    matrix = piece.to_page
    middles = np.array(
        [dash.subpaths[0].points[[0, len(dash.subpaths[0].points) // 2]].mean(axis=0) for dash in piece.guides]
    )
    free = ground.free_points(middles @ matrix[:2, :2].T + matrix[:2, 2], index)
    kept = tuple(dash for dash, stands in zip(piece.guides, free, strict=True) if stands)
    if 2 * len(kept) < len(piece.guides):
        return replace(piece, guides=(), marks=tuple(one for one in piece.marks if one != "guide lines"))
    return replace(piece, guides=kept)


def _ticks(piece: LaidPiece, good: Good, index: int, ground: Ground) -> list[Path]:
    """Return the corner ticks of a piece that stand free of every other piece and its label."""
    found = []
    keep = ground.taken[index].keep
    for place, arriving, leaving in _corners(piece, good):
        for along in (arriving, -leaving):
            start, end = place + along * keep, place + along * (keep + CORNER_MM)
            points = start + (end - start) * np.linspace(0.0, 1.0, 9)[:, None]
            if bool(ground.free_points(points, index).all()):
                found.append(line(start, end))
    return found


def _corners(piece: LaidPiece, good: Good) -> list[tuple[Array, Array, Array]]:
    if good.part.shape.kind == "rectangle":
        left, bottom, right, top = piece.trim_box
        spots = [(left, bottom), (right, bottom), (right, top), (left, top)]
        ways = [np.array(way) for way in ((0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0))]
        return [(np.array(spot), ways[k], ways[(k + 1) % 4]) for k, spot in enumerate(spots)]
    if good.part.shape.kind == "sector":
        return corners(trim_outline(good.wrap).times(piece.to_page))
    return []


def _first_cut(cut: FirstCut, ground: Ground) -> list[Path]:
    """Return the stretches of a first cut's line that keep clear of every trim; nearer ones where there is no other."""
    upright, at = cut.upright, cut.at_mm
    left, bottom, right, top = ground.printable
    low, high = (bottom, top) if upright else (left, right)
    low, high = max(low, cut.low_mm), min(high, cut.high_mm)
    if not (left <= at <= right if upright else bottom <= at <= top):
        return []
    along = np.arange(low, high, _STEP_MM / 2.0)
    points = np.stack([np.full_like(along, at), along] if upright else [along, np.full_like(along, at)], axis=1)
    for keep in (1.0, 0.5):
        near = Ground(ground.printable, [replace(one, keep=one.keep * keep) for one in ground.taken])
        found = _stretches(points, near.free_points(points))
        if found:
            return found
    return []


def _stretches(points: Array, free: Flags) -> list[Path]:
    found = []
    edges = np.flatnonzero(np.diff(np.concatenate([[0], free.astype(np.int8), [0]])))
    for start, end in edges.reshape(-1, 2):
        one, other = points[start], points[end - 1]
        if float(np.hypot(*(other - one))) >= _LEAST_LINE_MM:
            found.append(line(one, other, _FIRST_MM))
    return found


def _bars(ground: Ground, spared: Sequence[Box], pen: Lettering) -> tuple[tuple[Stamp, ...], list[Box], str]:
    """Return check bars along both axes, the boxes they take, and their name; none where there is no room for both."""
    for length in (100.0, 50.0):
        path, box = pen.bar(length)
        wide, high = box[2] - box[0], box[3] - box[1]
        level = ground.spot((wide, high), spared)
        taken = [(level[0], level[1], level[0] + wide, level[1] + high)] if level else []
        upright = ground.spot((high, wide), [*spared, *taken])
        if level is None or upright is None:
            continue
        taken.append((upright[0], upright[1], upright[0] + high, upright[1] + wide))
        stamps = (_stamped(path, box, level, turned=False), _stamped(path, box, upright, turned=True))
        return stamps, taken, f"check bars {length:g} mm"
    return (), [], ""


def _words(text: Sequence[str], ground: Ground, taken: Sequence[Box], pen: Lettering) -> tuple[Stamp, ...]:
    row, length = row_of(text, LINE_MM, pen)
    box = (0.0, -LINE_MM / 3.0, length, LINE_MM)
    size = (length, box[3] - box[1])
    for turned in (False, True):
        spot = ground.spot(size[::-1] if turned else size, taken)
        if spot is not None:
            x, y = spot
            return tuple(_stamped(path, box, (x, y + at) if turned else (x + at, y), turned=turned) for path, at in row)
    return ()


def _stamped(path: Path, box: Box, to: tuple[float, float], *, turned: bool) -> Stamp:
    """Return a shape whose box's lower left corner comes to a place, level or reading upwards."""
    x, y = to
    level = [[1.0, 0.0, x - box[0]], [0.0, 1.0, y - box[1]]]
    upright = [[0.0, -1.0, x + box[3]], [1.0, 0.0, y - box[0]]]
    return Stamp(path, np.array([*(upright if turned else level), [0.0, 0.0, 1.0]]))
