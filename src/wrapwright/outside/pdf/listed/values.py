"""What is drawn of a list's pieces: what all share, and what is each piece's own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.path import Path
from wrapwright.core.names.making.letters import PlacedLetters
from wrapwright.core.sheet.lay.printed.values import Bars, LaidPage
from wrapwright.core.sheet.placed import Box
from wrapwright.outside.pdf.document import Ink, SheetColour
from wrapwright.outside.pdf.flate import Packed

Matrix = NDArray[np.float64]
Paint = Callable[[Matrix, Box], Packed]  # a piece's matrix (flat mm -> page mm), a box of whole pixels (page mm)


@dataclass(frozen=True, eq=False)
class Form:
    """A shape that stands beside many pieces, worked out.

    Attributes:
        shape: itself, kept so that no other object takes over its identity.
        name: the same for all that draw the same.
        body: its operators; packed: the same deflated.
        box: round it, whole steps of its grid.
    """

    shape: Path | Bars
    name: str
    body: bytes
    packed: bytes
    box: tuple[int, int, int, int]


@dataclass(frozen=True, eq=False)
class SharedArt:
    """What all pieces have in common.

    Attributes:
        colour: the space of its colours.
        ink: working-space colour (0..1) -> device colour.
        bleed: outline to which it is clipped, flat mm as seen.
        runs: its outlines above the pixels, in runs, bottom to top; the pieces' own outlines stand between two runs.
        paint: packs its raster part; None when it has none.
        packed: pixels that were packed already, by how they lie on the grid of pixels; filled while it is drawn, so
            that a process packs them once for all its shards.
        drawn: the operators of runs, likewise; `called` are the names of their forms.
        forms: shapes beside the pieces, likewise, by their identity and grid.
    """

    colour: SheetColour
    ink: Ink
    bleed: Path
    runs: tuple[tuple[PlacedOutline, ...], ...]
    paint: Paint | None = None
    packed: dict[tuple[int, int, int], Packed] = field(default_factory=dict)
    drawn: dict[int, str] = field(default_factory=dict)
    called: dict[int, str] = field(default_factory=dict)
    forms: dict[tuple[int, float], Form] = field(default_factory=dict)


Outlined = PlacedOutline | PlacedLetters


@dataclass(frozen=True, eq=False)
class SetLine:
    """A line of words beside a piece, glyph by glyph: each stands in the file once.

    Attributes:
        glyphs: outline in font units, and where it stands (font units from the line's start).
        upem: font units an em of each glyph.
        to_page: 3x3 matrix, ems from the line's start -> page mm; never mirrors.
    """

    glyphs: tuple[tuple[Path, int, int], ...]
    upem: tuple[int, ...]
    to_page: Matrix


@dataclass(frozen=True, eq=False)
class OwnArt:
    """What one piece has of its own.

    Attributes:
        row, piece: their numbers.
        words: (element, its text as set), for what the file says of the piece.
        runs: its outlines, bottom to top, one tuple between two of the shared runs.
        clipped: whether its outlines are limited to the bleed; not needed where they surely lie inside.
        patches: boxes in flat mm whose pixels are its own.
        paint: packs its pixels, shared and own together; needed for patches.
        alone: nothing shared is used: `runs` has one tuple with all outlines, and all its pixels are its own.
    """

    row: int
    piece: int
    words: tuple[tuple[str, str], ...] = ()
    runs: tuple[tuple[Outlined, ...], ...] = ()
    clipped: bool = False
    patches: tuple[Box, ...] = ()
    paint: Paint | None = None
    alone: bool = False


@dataclass(frozen=True, eq=False)
class ListedPage:
    """A page, and for each of its pieces, in their order, its own art and its name on the label, None for none."""

    page: LaidPage
    own: tuple[OwnArt, ...]
    names: tuple[SetLine | None, ...] = ()


@dataclass(frozen=True)
class WrittenPiece:
    """What was written of a piece: the SHA-256 of its own operators and pixels, and of the pixels alone."""

    sha256: str
    pixels_sha256: str | None = field(default=None)
