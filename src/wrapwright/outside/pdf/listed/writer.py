"""Writes pages of a list of names: what pieces share is an image and a few forms, what is their own stands beside.

Each piece is marked content of its own (ISO 32000-1:2008, 14.6) that says its row, its number and its texts, so that
the file can be read back: `/Piece <</Row 12 /Number 34 /name (Ada)>> BDC ... EMC`. Texts that are not plain ASCII are
UTF-16BE after a byte-order mark, as text strings are.
"""

from __future__ import annotations

import base64
import hashlib
import zlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from itertools import zip_longest
from pathlib import Path as File

import numpy as np
import pikepdf
from pikepdf import Array as PdfArray
from pikepdf import Dictionary, Name

from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.path import Path, joined
from wrapwright.core.sheet.lay.printed.labels import MODULE_MM
from wrapwright.core.sheet.lay.printed.values import Bars, LaidPiece, Stamp
from wrapwright.core.sheet.mirror import image_box
from wrapwright.core.sheet.placed import Box
from wrapwright.outside.pdf import content
from wrapwright.outside.pdf.document import Document, within
from wrapwright.outside.pdf.flate import Packed
from wrapwright.outside.pdf.forms import GRID_MM, Matrix, matrix_ops, on_grid, reach_of, round_all, stamp_points
from wrapwright.outside.pdf.listed.letters import Letters
from wrapwright.outside.pdf.listed.values import Form, ListedPage, Outlined, OwnArt, SetLine, SharedArt, WrittenPiece
from wrapwright.outside.pdf.metadata import About
from wrapwright.outside.pdf.sheets import item_ops

BLACK = (0.0, 0.0, 0.0)
PAGE_LEVEL = 2  # a fifth of the time of level 6, for 7 % more bytes
_MODULE_ERROR_MM = 1e-6
_EYE = np.eye(3)
_GRID = np.diag([1.0 / content.WORD_GRID_PT, 1.0 / content.WORD_GRID_PT, 1.0])


def listed_pdf(
    pages: Iterable[ListedPage], art: SharedArt, *, ppi: float, about: About, file: File
) -> Iterator[tuple[WrittenPiece, ...]]:
    """Yield what was written of each page's pieces; the file stands when the last page has been yielded.

    Args:
        pages: in order; at least one.
        art: what all pieces share.
        ppi: of the raster parts.
        about: title, maker and date.
        file: where it goes.

    Raises WrapwrightError (unusable) when the convert route's profile is not a printer's.
    """
    writer = _Writer(Document(art.colour, art.ink, level=PAGE_LEVEL), art, ppi)
    for page in pages:
        yield writer.add(page)
    writer.finish(about, file)


@dataclass
class _Writer:
    """Adds pages to a document.

    Forms are called by a hash of what they draw: the same name is the same form in every shard of a list. They all
    stand in one dictionary of resources, but for pages with pixels of their own.
    """

    document: Document
    art: SharedArt
    ppi: float
    objects: dict[str, pikepdf.Object] = field(default_factory=dict)
    own: dict[str, pikepdf.Object] = field(default_factory=dict)
    grounds: dict[tuple[int, int, int], tuple[str, str | None]] = field(default_factory=dict)
    guides: dict[int, Path] = field(default_factory=dict)
    places: dict[tuple[int, float], str] = field(default_factory=dict)
    letters: Letters = field(default_factory=Letters)
    kept: list[object] = field(default_factory=list)
    shared: pikepdf.Object = field(init=False)

    def __post_init__(self) -> None:
        """Begin the dictionary that pages share; it is filled at the end."""
        self.shared = self.document.pdf.make_indirect(Dictionary())

    def finish(self, about: About, file: File) -> None:
        """Write the file."""
        for name, entry in self.document.resources(self.objects).items():
            self.shared[name] = entry
        self.document.finish(about, file)

    def add(self, listed: ListedPage) -> tuple[WrittenPiece, ...]:
        """Add one page; return what was written of its pieces."""
        page, names = listed.page, dict[str, None]()
        self.own.clear()
        drawn = [_Piece(self, piece, own, names) for piece, own in zip(page.pieces, listed.own, strict=True)]
        written = [one.write() for one in drawn]
        marks = [self.document.set_ink(BLACK)]
        for piece, name in zip_longest(page.pieces, listed.names):
            marks += self._beside(piece, names)
            marks += [] if name is None else [self._line(name, names)]
        if page.lines.subpaths:
            form = self._stamp_form(page.lines, names)
            marks.append(f"q {self._place(_EYE, GRID_MM)} cm /{form} Do Q")
        marks += [self._stamp(stamp, names) for stamp in page.stamps]
        media = (0.0, 0.0, page.width_mm, page.height_mm)
        bleed = within(round_all([piece.bleed_box for piece in page.pieces] or [media]), media)
        trim = within(round_all([piece.trim_box for piece in page.pieces] or [media]), bleed)
        resources: pikepdf.Object = self.shared
        if self.own:
            # Not "or": an image counts as false in pikepdf.
            found = {name: self.own[name] if name in self.own else self.objects[name] for name in names}
            resources = self.document.resources(found)
        body = "\n".join([*(ops for _, ops in written), *marks])
        self.document.page((media, bleed, trim), [body], resources)
        return tuple(one for one, _ in written)

    def ground(self, piece: LaidPiece, box: Box) -> tuple[str, str | None]:
        """Return the form of the shared pixels as they lie under a piece, "" for none, and their digest."""
        key = lies(piece, box, self.ppi)
        if key not in self.grounds:
            self.grounds[key] = self._grounded(piece, box, key)
        return self.grounds[key]

    def _grounded(self, piece: LaidPiece, box: Box, key: tuple[int, int, int]) -> tuple[str, str | None]:
        if self.art.paint is None:
            return "", None
        if key not in self.art.packed:
            self.art.packed[key] = self.art.paint(piece.to_page, box)
        packed = self.art.packed[key]
        own = (0.0, 0.0, box[2] - box[0], box[3] - box[1])
        body = f"{content.clip_ops(self.art.bleed, to_corner(piece, box))}\n{content.image_ops('Im0', own)}"
        name = called("P", f"{body} {packed.pixels_sha256}")
        self.objects[name] = self.form(body, own, {"Im0": self.document.image(packed)}, content.POINTS_PER_MM)
        return name, packed.pixels_sha256

    def run(self, number: int) -> str:
        """Return the form of a shared run of outlines in flat mm, "" where it is empty."""
        if not self.art.runs[number]:
            return ""
        if number not in self.art.drawn:
            eye = np.eye(3)
            ops = [item_ops(item, eye, self.document.set_ink) for item in self.art.runs[number]]
            self.art.drawn[number] = "\n".join([content.clip_ops(self.art.bleed, eye), *ops])
            self.art.called[number] = called("V", self.art.drawn[number])
        name = self.art.called[number]
        if name not in self.objects:
            self.objects[name] = self.form(self.art.drawn[number], reach_of(self.art.bleed), {}, 1.0)
        return name

    def form(self, body: str, box: Box, inner: dict[str, pikepdf.Object], unit: float) -> pikepdf.Object:
        """Return a form of these operators; `box` times `unit` is its bounding box."""
        bounds = PdfArray([pikepdf.Object.parse(content.number(value * unit, 4).encode()) for value in box])
        self.document.digest.update(body.encode("ascii"))
        return self.document.packed_stream(
            body.encode("ascii") + b"\n",
            Type=Name.XObject,
            Subtype=Name.Form,
            FormType=1,
            BBox=bounds,
            Resources=self.document.resources(inner),
        )

    def image(self, packed: Packed) -> str:
        """Return the name of an image of one piece's own."""
        name = f"I{packed.pixels_sha256[:16]}{packed.width:x}"
        if name not in self.own:
            self.own[name] = self.document.image(packed)
        return name

    def _beside(self, piece: LaidPiece, names: dict[str, None]) -> list[str]:
        """Return the number, the shared words, the code and the guides beside a piece."""
        found = [self._stamp(stamp, names) for stamp in piece.stamps]
        if piece.guides:
            if id(piece.guides) not in self.guides:
                self.guides[id(piece.guides)] = joined(piece.guides)
                self.kept.append(piece.guides)
            form = self._stamp_form(self.guides[id(piece.guides)], names)
            found.append(f"q {self._place(piece.to_page, GRID_MM)} cm /{form} Do Q")
        return found

    def _place(self, to_page: Matrix, grid_mm: float) -> str:
        """Return the operands of `cm` from a grid at a place."""
        key = (id(to_page), grid_mm)
        if key not in self.places:
            self.kept.append(to_page)  # so that no other object takes over its id
            self.places[key] = matrix_ops(stamp_points(to_page, grid_mm))
        return self.places[key]

    def _stamp(self, stamp: Stamp, names: dict[str, None]) -> str:
        """Return a shape: as a form, for it stands beside many pieces; a code, which is a piece's own, in modules."""
        if isinstance(stamp.path, Path):
            return f"q {self._place(stamp.to_page, GRID_MM)} cm /{self._stamp_form(stamp.path, names)} Do Q"
        steps = np.rint(stamp.path.boxes / MODULE_MM).astype(np.int64)
        if np.abs(steps * MODULE_MM - stamp.path.boxes).max() < _MODULE_ERROR_MM:
            bars = "\n".join(["%d %d %d %d re"] * len(steps)) % tuple(steps.ravel().tolist())
            return f"q {self._place(stamp.to_page, MODULE_MM)} cm\n{bars}\nf\nQ"
        body, _ = on_grid(stamp.path)
        return f"q {self._place(stamp.to_page, GRID_MM)} cm\n{body.decode('ascii')}Q"

    def _line(self, line: SetLine, names: dict[str, None]) -> str:
        """Return the operators that draw a line of words: each glyph is a form, in whole font units."""
        found: list[str] = []
        unit, at = 0, (0, 0)
        for (path, x, y), upem in zip(line.glyphs, line.upem, strict=True):
            if upem != unit:
                found += ["Q"] if unit else []
                found.append(f"q {self._place(line.to_page, 1.0 / upem)} cm")
                unit, at = upem, (0, 0)
            if (x, y) != at:
                found.append(f"1 0 0 1 {x - at[0]} {y - at[1]} cm")
            found.append(f"/{self._stamp_form(path, names, 1.0)} Do")
            at = (x, y)
        return "\n".join([*found, "Q"]) if unit else ""

    def _stamp_form(self, path: Path | Bars, names: dict[str, None], grid: float = GRID_MM) -> str:
        form = self._form(path, grid)
        if form.name not in self.objects:
            self.document.digest.update(form.body)
            self.objects[form.name] = pikepdf.Stream(
                self.document.pdf,
                form.packed,
                Type=Name.XObject,
                Subtype=Name.Form,
                FormType=1,
                BBox=PdfArray(list(form.box)),
                Resources=Dictionary(),
                Filter=Name.FlateDecode,
            )
        names[form.name] = None
        return form.name

    def _form(self, path: Path | Bars, grid: float) -> Form:
        key = (id(path), grid)
        if key not in self.art.forms:
            body, box = on_grid(path, grid)
            name = called("S", body.decode("ascii"))
            left, bottom, right, top = (int(value) for value in box)
            self.art.forms[key] = Form(path, name, body, zlib.compress(body, 6), (left, bottom, right, top))
        return self.art.forms[key]


def called(kind: str, what: str) -> str:
    """Return the name of a form: the same for all forms that draw the same."""
    return kind + base64.b32encode(hashlib.sha256(what.encode("ascii")).digest()[:10]).decode("ascii")[:10]


@dataclass
class _Piece:
    """Draws one piece on its page."""

    writer: _Writer
    laid: LaidPiece
    own: OwnArt
    names: dict[str, None]

    def write(self) -> tuple[WrittenPiece, str]:
        """Return what is said of it, and its operators."""
        box = image_box(self.laid.bleed_box, self.writer.ppi)
        at = " ".join(content.number(value * content.POINTS_PER_MM, 6) for value in box[:2])
        corner = f"1 0 0 1 {at} cm"
        body, pixels = self._pixels(box, corner)
        shared = f"{matrix_ops(to_corner(self.laid, box))} cm"
        digest = hashlib.sha256(f"{self.own.row} {self.own.piece} {pixels}".encode("ascii"))
        for number in range(max(len(self.own.runs) + 1, len(self.writer.art.runs))):
            name = "" if self.own.alone or number >= len(self.writer.art.runs) else self.writer.run(number)
            if name:
                self.names[name] = None
                body.append(f"q {corner} q {shared} /{name} Do Q Q")
            run = self.own.runs[number] if number < len(self.own.runs) else ()
            if run:
                ops = self._outlines(run, box)
                digest.update(ops.encode("ascii"))
                body.append(f"q {corner} {content.WORD_GRID_PT} 0 0 {content.WORD_GRID_PT} 0 0 cm\n{ops}\nQ")
        said = WrittenPiece(digest.hexdigest(), pixels)
        return said, "\n".join([f"/Piece <<{told_of(self.own)}>> BDC", *body, "EMC"])

    def _pixels(self, box: Box, corner: str) -> tuple[list[str], str | None]:
        """Return the operators that draw its pixels, and their digest."""
        own, writer = self.own, self.writer
        if own.alone:
            if own.paint is None:
                return [], None
            packed = own.paint(self.laid.to_page, box)
            return [self._image(packed, box)], packed.pixels_sha256
        name, digest = writer.ground(self.laid, box)
        body = []
        if name:
            self.names[name] = None
            body.append(f"q {corner} /{name} Do Q")
        for patch in own.patches:
            there = common(image_box(box_on_page(patch, self.laid.to_page), writer.ppi), box)
            if there is not None and own.paint is not None:
                packed = own.paint(self.laid.to_page, there)
                body.append(self._image(packed, there))
                digest = hashlib.sha256(f"{digest} {packed.pixels_sha256}".encode("ascii")).hexdigest()
        return body, digest

    def _image(self, packed: Packed, box: Box) -> str:
        name = self.writer.image(packed)
        self.names[name] = None
        clip = content.clip_ops(self.writer.art.bleed, content.page_points() @ self.laid.to_page)
        return f"q {clip}\n{content.image_ops(name, box)} Q"

    def _outlines(self, run: tuple[Outlined, ...], box: Box) -> str:
        """Return the operators of its own outlines, in whole steps of a grid of 5 micrometres from its corner."""
        matrix = _GRID @ to_corner(self.laid, box)
        clip = [f"{content.path_ops(self.writer.art.bleed, matrix, 0)}\nW n"] if self.own.clipped else []
        return "\n".join([*clip, *(self._own(item, matrix) for item in run)])

    def _own(self, item: Outlined, matrix: Matrix) -> str:
        if isinstance(item, PlacedOutline):
            return own_ops(item, matrix, self.writer.document)
        return f"{self.writer.document.set_ink(item.colour)}\n{self.writer.letters.ops(item, matrix)}\nf"


def own_ops(item: PlacedOutline, matrix: Matrix, document: Document) -> str:
    """Return the operators that draw an outline; `matrix` (3x3) takes its mm to steps of the grid."""
    clips = [f"{content.path_ops(clip, matrix, 0)}\nW n" for clip in item.clips]
    path = content.path_ops(item.path, matrix, 0)
    ink = document.set_ink(item.colour, stroke=item.stroke_mm > 0)
    if item.stroke_mm > 0:
        scale = float(np.sqrt(abs(np.linalg.det(matrix[:2, :2]))))
        paint = f"{content.number(item.stroke_mm * scale, 2)} w 1 J 1 j\n{path}\nS"
    else:
        paint = f"{path}\n{'f*' if item.even_odd else 'f'}"
    return "\n".join(["q", *clips, ink, paint, "Q"] if clips else [ink, paint])


def lies(piece: LaidPiece, box: Box, ppi: float) -> tuple[int, int, int]:
    """Return how a piece lies on the grid of pixels: its turn, and thousandths of a pixel from its box's corner."""
    across, up = (round((piece.bleed_box[axis] - box[axis]) / (25.4 / ppi) * 1000.0) for axis in (0, 1))
    return piece.turn_deg, across, up


def to_corner(piece: LaidPiece, box: Box) -> Matrix:
    """Return the 3x3 matrix from flat mm as seen to points from the lower left corner of a piece's pixels."""
    away = np.array([[1.0, 0.0, -box[0]], [0.0, 1.0, -box[1]], [0.0, 0.0, 1.0]])
    return np.asarray(content.page_points() @ away @ piece.to_page)


def told_of(own: OwnArt) -> str:
    """Return what the marked content says of a piece, as the entries of a PDF dictionary."""
    words = " ".join(f"{name_object(name)} {text_object(text)}" for name, text in own.words)
    return f"/Row {own.row} /Number {own.piece} {words}".rstrip()


def name_object(name: str) -> str:
    """Return a PDF name that says which element a text belongs to; other bytes than letters and digits as #hh."""
    plain = "".join(
        chr(byte) if chr(byte).isalnum() and byte < 128 else f"#{byte:02X}" for byte in name.encode("utf-8")
    )
    return f"/T.{plain}"


def text_object(text: str) -> str:
    """Return a PDF text string in ASCII."""
    if text.isascii() and text.isprintable():
        escaped = text.replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")
        return f"({escaped})"
    return f"<FEFF{text.encode('utf-16-be', 'surrogatepass').hex().upper()}>"


def box_on_page(box: Box, to_page: Matrix) -> Box:
    """Return the box on the page round a box in flat mm."""
    corners = np.array([(box[x], box[y]) for x in (0, 2) for y in (1, 3)])
    points = corners @ to_page[:2, :2].T + to_page[:2, 2]
    low, high = points.min(axis=0).tolist(), points.max(axis=0).tolist()
    return (low[0], low[1], high[0], high[1])


def common(one: Box, other: Box) -> Box | None:
    """Return what two boxes have in common, None where that is nothing."""
    both = (max(one[0], other[0]), max(one[1], other[1]), min(one[2], other[2]), min(one[3], other[3]))
    return both if both[0] < both[2] - 1e-9 and both[1] < both[3] - 1e-9 else None
