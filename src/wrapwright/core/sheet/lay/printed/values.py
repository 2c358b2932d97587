"""What stands on a page with many pieces."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.path import Path
from wrapwright.core.sheet.lay.values import Part
from wrapwright.core.sheet.placed import Box

Array = NDArray[np.float64]
Modules = NDArray[np.bool_]
SetLabel = Callable[[str, float], Path]  # words, cap height in mm -> outlines in mm, base line at y = 0
Level = Literal["label", "code", "piece number", ""]


@dataclass(frozen=True)
class Slip:
    """What is written beside one copy.

    Attributes:
        piece: its number on these sheets, from 1.
        of: how many pieces the sheets hold.
        code: what its Data Matrix says.
    """

    piece: int
    of: int
    code: str


@dataclass(frozen=True, eq=False)
class Good:
    """One job's transfer, ready to be laid.

    Attributes:
        wrap: the flat wrap.
        bleed_mm: art beyond the trim.
        part: what is laid of it.
        level: how much its label says: all, code and number, the number alone, or nothing.
        title, name: of its job and of the piece.
        slips: one a copy.
        panel: the number of the wrap's panel, from 1; 0 when it is in one piece.
        ends: what is written at the left and the right end as seen; nothing at a flat blank's.
    """

    wrap: FlatWrap
    bleed_mm: float
    part: Part
    level: Level
    title: str
    name: str
    slips: tuple[Slip, ...]
    panel: int = 0
    ends: tuple[str, str] = ("lay first", "lay on top")


@dataclass(frozen=True, eq=False)
class Bars:
    """Filled rectangles in mm, one a row: left, bottom, width, height."""

    boxes: Array


@dataclass(frozen=True, eq=False)
class Stamp:
    """A filled shape that stands on a page and may stand on others.

    Attributes:
        path: in its own mm; stamps that hand in the same object are drawn by one form.
        to_page: 3x3 matrix, its own mm -> page mm; never mirrors.
    """

    path: Path | Bars
    to_page: Array


@dataclass(frozen=True, eq=False)
class LaidPiece:
    """A copy on a page; all in page mm, after scale correction.

    Attributes:
        good: index of its job.
        slip: what is written beside it.
        to_page: 3x3 matrix, flat mm as seen -> page mm; mirrors.
        turn_deg: anticlockwise, after mirroring.
        trim_box, bleed_box: their boxes.
        stamps: the words and the code beside it.
        guides: the dashes of the lines by which a curved trim is cut, in flat mm as seen; shared by all copies.
        marks: names of what stands beside it.
    """

    good: int
    slip: Slip
    to_page: Array
    turn_deg: int
    trim_box: Box
    bleed_box: Box
    stamps: tuple[Stamp, ...] = ()
    guides: tuple[Path, ...] = ()
    marks: tuple[str, ...] = ()


@dataclass(frozen=True, eq=False)
class LaidPage:
    """A page.

    Attributes:
        width_mm, height_mm: the page, exactly the paper.
        pieces: what lies on it.
        lines: ticks, first cuts and check bars as filled shapes, page mm.
        stamps: words that belong to the sheet.
        marks: names of what stands on it beside the pieces' own.
    """

    width_mm: float
    height_mm: float
    pieces: tuple[LaidPiece, ...]
    lines: Path = field(default_factory=Path)
    stamps: tuple[Stamp, ...] = ()
    marks: tuple[str, ...] = ()
