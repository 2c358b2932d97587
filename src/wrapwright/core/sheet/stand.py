"""Where the marks stand round a piece: clear of its trim, clear of each other, within the paper."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.trim import cuts_mm
from wrapwright.core.design.path import Path
from wrapwright.core.sheet.fitting import Level
from wrapwright.core.sheet.guides import enough, guide_arcs, guide_line, has_line, join_lines
from wrapwright.core.sheet.marks import Mark, SetLabel, check_bar, corner_mark, edge_word, end_word, shifted, turned_box
from wrapwright.core.sheet.placed import Box
from wrapwright.core.sheet.room import Room, Side, corners, distance, sampled

Array = NDArray[np.float64]

CLEAR_MM = 3.0  # from the trim
ENDS = ("lay first", "lay on top")
_COMPASS = np.array([np.cos(np.arange(32) * np.pi / 16), np.sin(np.arange(32) * np.pi / 16)])
_PAST_BLEED_MM = 1.0
_SIDE_OF_RIM: dict[int, Side] = {0: "above", 90: "left", 180: "below", 270: "right"}
_SIDE_OF_BASE: dict[int, Side] = {0: "below", 90: "right", 180: "above", 270: "left"}


@dataclass(frozen=True, eq=False)
class Piece:
    """A wrap as it lies on the paper, mirrored and turned, in true mm before its shift.

    Attributes:
        wrap: the flat wrap.
        to_print: 3x3 matrix, flat mm as seen -> these mm.
        trim: its outline.
        box: round trim and bleed.
        bleed_mm: bleed at rim and base.
        turn_deg: its turn.
        ends: what is written at its left and its right end as seen.
    """

    wrap: FlatWrap
    to_print: Array
    trim: Path
    box: Box
    bleed_mm: float
    turn_deg: int
    ends: tuple[str, str] = ENDS

    @property
    def clear_mm(self) -> float:
        """Distance that marks keep from the trim: 3 mm, and 1 mm from the bleed."""
        return max(CLEAR_MM, self.bleed_mm + _PAST_BLEED_MM)


def stand_round(
    piece: Piece, level: Level, slip: Mark | None, limit: tuple[float, float], *, set_label: SetLabel
) -> tuple[tuple[Mark, ...], Mark | None] | None:
    """Return the marks in their places and the label in its place; None when the level does not fit.

    Args:
        piece: the piece.
        level: what has to stand.
        slip: the widest label, or None.
        limit: printable width and height in true mm.
        set_label: sets words.
    """
    room = Room(sampled(piece.trim), piece.clear_mm, limit, [piece.box])
    if not room.fits([]):
        return None
    for edges in (True, False):
        with_arcs, plain = (
            _stand(piece, level, slip, room.copied(), set_label, way=_Way(edges, arcs_first))
            for arcs_first in (True, False)
        )
        if plain is None:
            continue
        # Words and bars stand outside the arcs where there is room for that, else the arcs break off beside them.
        return with_arcs if with_arcs is not None and _names(with_arcs) >= _names(plain) else plain
    return None


Stood = tuple[tuple[Mark, ...], Mark | None]


@dataclass(frozen=True)
class _Way:
    """How to go about it: whether "rim" and "base" stand, and whether the guide arcs take their room first or last."""

    edges: bool
    arcs_first: bool


def _names(stood: Stood) -> set[str]:
    return {one.name for one in stood[0]}


def _stand(
    piece: Piece, level: Level, slip: Mark | None, room: Room, set_label: SetLabel, *, way: _Way
) -> Stood | None:
    done: list[Mark] = []
    fixed = [*(_ends(piece, set_label) if level.ends else []), *(_corner_marks(piece) if level.corners else [])]
    wanted = [one for one in fixed if _clear_of_trim(one, room)]
    if not room.fits([one.box for one in wanted]):
        return None
    _take_free(wanted, done, room)
    if level.corners and way.arcs_first:
        _take_arcs(piece, done, room)
    if way.edges:
        _take_free(_edges(piece, room, set_label), done, room)
    label = _settled(slip, _label_places(piece), room) if slip else None
    if slip and label is None:
        return None
    if label is not None:
        room.taken.append(label.box)
    if level.bars_mm > 0 and not _stand_bars(level.bars_mm, done, room, set_label):
        return None
    _fill_up(piece, level, done, room, set_label)
    if level.corners and not way.arcs_first:
        _take_arcs(piece, done, room)
    return tuple(done), label


def _fill_up(piece: Piece, level: Level, done: list[Mark], room: Room, set_label: SetLabel) -> None:
    """Take what the level does without but for which there is room all the same: words at the ends, corner marks."""
    if not level.ends:
        _take_free([one for one in _ends(piece, set_label) if _clear_of_trim(one, room)], done, room)
    if not level.corners:
        wanted, kept = _corner_marks(piece), list[Mark]()
        _take_free([one for one in wanted if _clear_of_trim(one, room)], kept, room)
        name = "corner marks" if len(kept) == len(wanted) else "some corner marks"
        done += [replace(one, name=name) for one in kept]


def _take_arcs(piece: Piece, done: list[Mark], room: Room) -> None:
    """Take the guide arcs' dashes that stand free; none when of one arc less than half would be left."""
    trial, arcs = room.copied(), list[Mark]()
    line = guide_line(piece.wrap, piece.to_print, piece.clear_mm)
    for dashes in (*guide_arcs(piece.wrap, piece.to_print, piece.clear_mm), *((line,) if line else ())):
        # Dashes are nearer to each other than other marks may come: they are weighed against those alone.
        free = [one for one in dashes if room.is_free(one.box) and _clear_of_trim(one, room)]
        kept = list[Mark]()
        for one in free:
            if trial.fits([one.box]):
                kept.append(one)
                trial.taken.append(one.box)
        if not enough(len(kept), dashes):
            return
        arcs += kept
    for one in arcs:
        _take(one, done, room)


def _take_free(marks: list[Mark], done: list[Mark], room: Room) -> None:
    """Take each mark that stands free of the others and within the paper."""
    for one in marks:
        if room.is_free(one.box) and room.fits([one.box]):
            _take(one, done, room)


def _take(one: Mark, done: list[Mark], room: Room) -> None:
    done.append(one)
    room.taken.append(one.box)


def _clear_of_trim(one: Mark, room: Room) -> bool:
    paths = [one.lines, *(text.path for text in one.words)]
    points = np.concatenate([sub.points for path in paths for sub in path.subpaths])
    # What lies farthest out in each of a compass's directions tells as much as all the curves of the letters.
    points = points[np.unique((points @ _COMPASS).argmax(axis=0))]
    # Half a line's width: a corner mark begins exactly at the limit, its own corners a hair beside it.
    return distance(points, room.chains) >= CLEAR_MM - 0.05


def _ends(piece: Piece, set_label: SetLabel) -> list[Mark]:
    """Return the words at the two ends, at mid height, along the cut; a flat blank has none."""
    if piece.wrap.plate is not None:
        return []
    wrap, half = piece.wrap, np.asarray(piece.wrap.height_mm / 2.0)
    found = []
    left, right_cut = cuts_mm(wrap)
    for what, turn, cut, sign in (
        (piece.ends[0], wrap.from_turn, left, -1.0),
        (piece.ends[1], wrap.to_turn, right_cut, 1.0),
    ):
        x, y = wrap.to_flat(np.asarray(turn), half)
        lean = wrap.tilt(turn)
        right = np.array([np.cos(lean), -np.sin(lean)])
        place = np.array([float(x), float(y)]) + cut * right
        place = piece.to_print[:2, :2] @ place + piece.to_print[:2, 2]
        outward = sign * (piece.to_print[:2, :2] @ right)
        found.append(end_word(what, place, outward, CLEAR_MM, set_label=set_label))
    return found


def _corner_marks(piece: Piece) -> list[Mark]:
    if has_line(piece.wrap):
        return []
    found = join_lines(piece.wrap, piece.to_print, piece.clear_mm)
    for place, arriving, leaving in corners(piece.trim):
        found.append(corner_mark(place, arriving, piece.clear_mm))
        found.append(corner_mark(place, -leaving, piece.clear_mm))
    return found


def _edges(piece: Piece, room: Room, set_label: SetLabel) -> list[Mark]:
    """Return "rim" with an arrow and "base" beside their edges, each only where there is room.

    On a flat blank there is "top" instead.
    """
    found: list[Mark] = []
    walled = (("rim", _SIDE_OF_RIM), ("base", _SIDE_OF_BASE))
    for what, sides in (("top", _SIDE_OF_RIM),) if piece.wrap.plate is not None else walled:
        one = edge_word(what, set_label=set_label)
        side = sides[piece.turn_deg]
        left, bottom, right, top = turned_box(one.box, piece.turn_deg)
        box = room.settle((right - left, top - bottom), side, 0.5)
        if room.fits([box, *(other.box for other in found)]):
            found.append(shifted(one, piece.turn_deg, box[:2]))
    return found


Place = tuple[Side, float, float]  # side, share along it, turn of the mark


def _label_places(piece: Piece) -> list[list[Place]]:
    """Return where the label may stand: level below or above the piece, else upright beside it."""
    base = _SIDE_OF_BASE[piece.turn_deg]
    level: list[Side] = ["above", "below"] if base == "above" else ["below", "above"]
    upright: list[Side] = ["left", "right"]
    return [
        [(side, share, 0.0) for side in level for share in (0.0, 0.5, 1.0)],
        [(side, share, 90.0) for side in upright for share in (0.0, 0.5, 1.0)],
    ]


def _bar_places(turn_deg: float) -> list[list[Place]]:
    """Return where a check bar may stand: on the sides along which it runs, else on the others."""
    level: list[Side] = ["below", "above"]
    upright: list[Side] = ["left", "right"]
    both = [level, upright] if turn_deg == 0.0 else [upright, level]
    return [[(side, share, turn_deg) for side in sides for share in (1.0, 0.0, 0.5)] for sides in both]


def _settled(one: Mark, choices: list[list[Place]], room: Room) -> Mark | None:
    """Return the mark at the place, of the first choice that has any, that makes the whole grow least; or None."""
    for places in choices:
        best: tuple[float, int, float, Box] | None = None
        for order, (side, share, turn) in enumerate(places):
            left, bottom, right, top = turned_box(one.box, turn)
            box = room.settle((right - left, top - bottom), side, share)
            if not (room.is_free(box) and room.fits([box])):
                continue
            growth = round(room.growth(box), 3)
            if best is None or (growth, order) < best[:2]:
                best = (growth, order, turn, box)
        if best:
            return shifted(one, best[2], best[3][:2])
    return None


def _stand_bars(length_mm: float, done: list[Mark], room: Room, set_label: SetLabel) -> bool:
    """Stand one bar along each axis of the page; return whether both found room."""
    bar = check_bar(length_mm, set_label=set_label)
    name = f"check bars {length_mm:g} mm"
    for turn in (0.0, 90.0):
        stood = _settled(bar, _bar_places(turn), room)
        if stood is None:
            return False
        _take(Mark(name, stood.lines, stood.words, stood.box), done, room)
    return True
