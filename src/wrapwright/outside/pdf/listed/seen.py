"""Draws pieces as seen into pages that are set already: what they share once in the file, their own as outlines."""

from __future__ import annotations

import zlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import Path as File

import numpy as np
import pikepdf
from pikepdf import Array as PdfArray
from pikepdf import Dictionary, Name

from wrapwright.core.base.colours import Rgb
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.path import Path
from wrapwright.core.sheet.placed import Box
from wrapwright.outside.pdf import content
from wrapwright.outside.pdf.forms import GRID_MM, reach_of
from wrapwright.outside.pdf.listed.joining import dated
from wrapwright.outside.pdf.saving import save_pdf

Look = Callable[[Rgb], Rgb]  # a working colour as it looks on the piece, sRGB 0..1
_GRID = np.diag([1.0 / GRID_MM, 1.0 / GRID_MM, 1.0])
_EDGE = "0.72 0.76 0.74 RG"  # the cut, as a hairline


@dataclass(frozen=True, eq=False)
class SeenPicture:
    """Pixels as seen: a JPEG (sRGB), its size in pixels, and its box in flat mm."""

    jpeg: bytes
    width_px: int
    height_px: int
    box: Box


@dataclass(frozen=True, eq=False)
class SeenPiece:
    """One piece: its own outlines between the shared runs, or all of it, when it has pixels of its own.

    Attributes:
        runs: its outlines, bottom to top, one tuple between two of the shared runs.
        picture: all its pixels, when they are its own; then `runs` has all outlines and nothing shared is used.
    """

    runs: tuple[tuple[PlacedOutline, ...], ...] = ()
    picture: SeenPicture | None = None


@dataclass(frozen=True, eq=False)
class SeenShared:
    """What the pieces share.

    Attributes:
        trim: the outline of the finished piece, flat mm; all is clipped to it.
        coating: the bare surface, sRGB.
        picture: the shared pixels, or None.
        runs: the shared outlines in runs, bottom to top.
        look: a working colour as it looks on the piece.
    """

    trim: Path
    coating: Rgb
    picture: SeenPicture | None
    runs: tuple[tuple[PlacedOutline, ...], ...]
    look: Look


@dataclass(frozen=True)
class Drawn:
    """One drawing of a piece on a page.

    Attributes:
        page: from 0, counted among the pages that wait for pieces.
        piece: which.
        scale: page mm for one flat mm.
        at_mm: where the flat plane's origin lies, page mm from the lower left corner.
        window: page mm, what of it is shown; None: all, with a hairline along its cut.
    """

    page: int
    piece: int
    scale: float
    at_mm: tuple[float, float]
    window: Box | None = None


@dataclass
class SeenPages:
    """Pages that pieces are drawn into; the same pieces give the same bytes.

    Attributes:
        frames: the pages as set.
        count: how many of them, at the end, wait for pieces.
        shared: what all pieces share.
    """

    frames: bytes
    count: int
    shared: SeenShared
    pdf: pikepdf.Pdf = field(init=False)
    pieces: dict[int, pikepdf.Object] = field(default_factory=dict)
    common: dict[str, pikepdf.Object] = field(default_factory=dict)
    drawn: dict[int, list[Drawn]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Open the pages, and put in what is shared."""
        self.pdf = pikepdf.open(BytesIO(self.frames))
        shared = self.shared
        ground = [f"{_rgb(shared.coating)} rg", _path(shared.trim), "f"]
        inner = {}
        if shared.picture is not None:
            inner["Im"] = self._image(shared.picture)
            ground.append(_placed("Im", shared.picture.box))
        self.common["G"] = self._form("\n".join(ground), inner)
        for number, run in enumerate(shared.runs):
            if run:
                self.common[f"V{number}"] = self._form(self._outlines(run), {})
        self.edge = self._form(f"{_EDGE}\n0.1 w\n{_path(shared.trim)}\nS", {}, grow=1.0)

    def add(self, key: int, piece: SeenPiece) -> None:
        """Put in one piece under a number of its own."""
        inner = dict(self.common)
        body = [f"q {_path(self.shared.trim)}\nW n"]
        alone = piece.picture is not None
        if piece.picture is not None:
            inner = {"Im": self._image(piece.picture)}
            body.append(f"{_rgb(self.shared.coating)} rg\n{_path(self.shared.trim)}\nf")
            body.append(_placed("Im", piece.picture.box))
        else:
            body.append("/G Do")
        for number in range(max(len(piece.runs) + 1, len(self.shared.runs))):
            if not alone and f"V{number}" in inner:
                body.append(f"/V{number} Do")
            if number < len(piece.runs) and piece.runs[number]:
                body.append(self._outlines(piece.runs[number]))
        self.pieces[key] = self._form("\n".join([*body, "Q"]), inner)

    def draw(self, drawn: Drawn) -> None:
        """Remember that a piece stands on a page."""
        self.drawn.setdefault(drawn.page, []).append(drawn)

    def save(self, file: File, *, title: str, on: str) -> None:
        """Write the file."""
        first = len(self.pdf.pages) - self.count
        for number, here in sorted(self.drawn.items()):
            self._fill(self.pdf.pages[first + number], here)
        dated(self.pdf, title, on)
        save_pdf(self.pdf, file, deterministic_id=True)

    def _fill(self, page: pikepdf.Page, here: Sequence[Drawn]) -> None:
        names: dict[str, pikepdf.Object] = {"Edge": self.edge}
        body = ["q"]
        for one in here:
            names[f"N{one.piece}"] = self.pieces[one.piece]
            body.append(_draw_ops(one))
        if "/XObject" not in page.resources:
            page.resources.XObject = Dictionary()
        for name, form in names.items():
            page.resources.XObject[f"/{name}"] = form
        page.contents_add(self._packed("\n".join([*body, "Q"]).encode("ascii")), prepend=True)

    def _outlines(self, run: Sequence[PlacedOutline]) -> str:
        ops = [f"q {GRID_MM} 0 0 {GRID_MM} 0 0 cm"]
        for item in run:
            clips = [f"{content.path_ops(clip, _GRID, 0)}\nW n" for clip in item.clips]
            path, ink = content.path_ops(item.path, _GRID, 0), _rgb(self.shared.look(item.colour))
            if item.stroke_mm > 0:
                paint = f"{ink} RG {content.number(item.stroke_mm / GRID_MM, 2)} w 1 J 1 j\n{path}\nS"
            else:
                paint = f"{ink} rg\n{path}\n{'f*' if item.even_odd else 'f'}"
            ops.append("\n".join(["q", *clips, paint, "Q"]))
        return "\n".join([*ops, "Q"])

    def _image(self, picture: SeenPicture) -> pikepdf.Object:
        return pikepdf.Stream(
            self.pdf,
            picture.jpeg,
            Type=Name.XObject,
            Subtype=Name.Image,
            Width=picture.width_px,
            Height=picture.height_px,
            ColorSpace=Name.DeviceRGB,
            BitsPerComponent=8,
            Filter=Name.DCTDecode,
        )

    def _form(self, body: str, inner: dict[str, pikepdf.Object], grow: float = 0.0) -> pikepdf.Object:
        left, bottom, right, top = reach_of(self.shared.trim)
        box = (left - grow, bottom - grow, right + grow, top + grow)
        bounds = PdfArray([pikepdf.Object.parse(content.number(value, 3).encode()) for value in box])
        resources = Dictionary()
        if inner:
            resources.XObject = Dictionary({f"/{name}": one for name, one in inner.items()})
        return self._packed(
            body.encode("ascii"), Type=Name.XObject, Subtype=Name.Form, FormType=1, BBox=bounds, Resources=resources
        )

    def _packed(self, body: bytes, **entries: object) -> pikepdf.Stream:
        return pikepdf.Stream(self.pdf, zlib.compress(body, 6), Filter=Name.FlateDecode, **entries)


def _draw_ops(one: Drawn) -> str:
    unit = content.POINTS_PER_MM
    scale = content.number(one.scale * unit, 6)
    place = " ".join(content.number(value * unit, 4) for value in one.at_mm)
    lines = [f"{scale} 0 0 {scale} {place} cm /N{one.piece} Do"]
    if one.window is not None:
        left, bottom = (content.number(value * unit, 3) for value in one.window[:2])
        size = (content.number((one.window[axis + 2] - one.window[axis]) * unit, 3) for axis in (0, 1))
        lines.insert(0, f"{left} {bottom} {' '.join(size)} re W n")
    else:
        lines.append("/Edge Do")
    return f"q {' '.join(lines)} Q"


def _path(path: Path) -> str:
    return content.path_ops(path, np.eye(3), 4)


def _placed(name: str, box: Box) -> str:
    left, bottom = (content.number(value, 5) for value in box[:2])
    wide, high = content.number(box[2] - box[0], 5), content.number(box[3] - box[1], 5)
    return f"q {wide} 0 0 {high} {left} {bottom} cm /{name} Do Q"


def _rgb(colour: Rgb) -> str:
    return " ".join(content.number(value, 4) for value in colour)
