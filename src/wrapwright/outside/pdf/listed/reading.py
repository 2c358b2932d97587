"""Reads the sheets of a list back from their content: what each piece says of itself, how it is drawn, its code.

Nothing is rendered: the operators of a page (ISO 32000-1:2008, annex A) are followed with the matrices in force, so
that whatever is read is where it would be printed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path as File

import numpy as np
import pikepdf
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.names.matching import Outline

Array = NDArray[np.float64]
Matrix = tuple[float, float, float, float, float, float]

_EYE: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
_MM = 25.4 / 72.0
_STRING = rb"\((?:\\.|[^\\()])*\)|<[0-9A-Fa-f\s]*>"
_HEAD = re.compile(rb"/Piece\s*<<((?:" + _STRING + rb"|[^()<>])*)>>\s*BDC", re.DOTALL)
_ENTRY = re.compile(rb"/([^\s()<>/]+)\s*(" + _STRING + rb"|-?\d+)", re.DOTALL)
_ESCAPE = re.compile(r"\\([0-7]{1,3}|.)", re.DOTALL)
_ESCAPED = {"n": "\n", "r": "\r", "t": "\t", "b": "\b", "f": "\f"}
_RUN = re.compile(  # a path, up to what paints it or clips to it
    rb"(?:[-+.\d]+\s+){2}(?:m|(?:[-+.\d]+\s+){2}re)\s[-+.\d\smlchre]*(?=\s)"
)
_RUN_OP = b"~"
_BUILD = frozenset((b"m", b"l", b"c", b"h", b"re", _RUN_OP))
_NUMERIC = b"0123456789+-. \r\n\t\f\x00"
_ZERO, _COLON, _MINUS = ord("0"), ord(":"), ord("-")
_TENS = 10.0 ** np.arange(18)
_SPACED = bytes.maketrans(b"mlchre", b"      ")
_PAINT = {b"f": "fill", b"f*": "fill even-odd", b"S": "line", b"F": "fill", b"n": ""}
_INK = {b"scn", b"SCN", b"g", b"G", b"rg", b"RG", b"k", b"K"}


@dataclass(frozen=True, eq=False)
class Shape:
    """A painted path.

    Attributes:
        matrix: its units -> page mm.
        ops: its construction operators, one letter each ("e" for re).
        numbers: their operands.
        paint: "fill", "fill even-odd" or "line".
        ink: operands of the colour operator in force, fill or line as painted.
        wide: of a line, in its units.
    """

    matrix: Matrix
    ops: str
    numbers: Array
    paint: str
    ink: tuple[float, ...]
    wide: float = 0.0

    def outline(self) -> Outline:
        """Return its curves in page mm, edges that close a chain among them."""
        return _outline(self.ops, self.numbers, self.matrix)


@dataclass(frozen=True, eq=False)
class ReadPiece:
    """What the content says of one piece.

    Attributes:
        row, number: as it says; 0 where it says none.
        words: by element, the text it says.
        shapes: what is drawn of its own, in order.
        forms: (name, its matrix onto the page, mm) of the shared forms it calls, in order.
        pictures: (its pixels' bytes row by row, box in page mm) of the pictures of its own, in order.
    """

    row: int
    number: int
    words: dict[str, str]
    shapes: list[Shape] = field(default_factory=list)
    forms: list[tuple[str, Matrix]] = field(default_factory=list)
    pictures: list[tuple[bytes, tuple[float, float, float, float]]] = field(default_factory=list)


@dataclass(frozen=True, eq=False)
class ReadCode:
    """A code that is drawn as rectangles: its modules, True is dark, top row first; and its middle, page mm."""

    modules: NDArray[np.bool_]
    middle: tuple[float, float]


@dataclass(frozen=True, eq=False)
class ReadPage:
    """One page: its size in mm, its pieces in order, and the codes beside them."""

    width_mm: float
    height_mm: float
    pieces: tuple[ReadPiece, ...]
    codes: tuple[ReadCode, ...]


class SheetsRead:
    """A file of sheets, open; a context manager."""

    def __init__(self, file: File) -> None:
        """Open the file.

        Raises:
            WrapwrightError: unusable, when it is cut short, damaged or no PDF.
        """
        self.name = file.name
        try:
            self.pdf = pikepdf.open(file, attempt_recovery=False)
            self.count = len(self.pdf.pages)
        except (pikepdf.PdfError, OSError) as problem:
            raise _damaged(self.name) from problem
        self.images: dict[str, bool] = {}

    def __enter__(self) -> SheetsRead:
        """Return itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """Close the file."""
        self.pdf.close()

    def page(self, number: int) -> ReadPage:
        """Return a page, from 0.

        Raises:
            WrapwrightError: unusable, when its content is damaged.
        """
        try:
            page = self.pdf.pages[number]
            contents = page.obj.get("/Contents")
            streams = contents if isinstance(contents, pikepdf.Array) else [contents]
            body = b"\n".join(one.read_bytes() for one in streams if one is not None)
            left, bottom, right, top = (float(value) for value in page.mediabox)
        except (pikepdf.PdfError, AttributeError, TypeError, ValueError) as problem:
            raise _damaged(self.name, number + 1) from problem
        if self.pdf.get_warnings():
            raise _damaged(self.name, number + 1)
        reader = _Reader(self, page.resources)
        reader.follow(body)
        return ReadPage((right - left) * _MM, (top - bottom) * _MM, tuple(reader.pieces), tuple(reader.codes))

    def form(self, number: int, name: str) -> ReadPiece:
        """Return what a form draws that page `number` (from 0) calls; in mm for each of its own units.

        Raises:
            WrapwrightError: unusable, when it is not there or damaged.
        """
        try:
            found = self.pdf.pages[number].resources.XObject[name]
            reader = _Reader(self, found.get("/Resources", pikepdf.Dictionary()))
            reader.matrix = (1.0 / _MM, 0.0, 0.0, 1.0 / _MM, 0.0, 0.0)
            reader.piece = ReadPiece(0, 0, {})
            reader.follow(found.read_bytes())
        except (pikepdf.PdfError, AttributeError, KeyError, TypeError, ValueError) as problem:
            raise _damaged(self.name, number + 1) from problem
        return reader.piece

    def is_picture(self, resources: pikepdf.Object, name: str) -> bool:
        """Return whether a name stands for an image and not for a form."""
        if name not in self.images:
            found = resources.get("/XObject", pikepdf.Dictionary()).get(name)
            self.images[name] = found is not None and found.get("/Subtype") == "/Image"
        return self.images[name]


def _damaged(name: str, page: int = 0) -> Exception:
    where = f"page {page} of {name}" if page else name
    return unusable(f"{where} cannot be read: the file is cut short or damaged.", remedy="Make it again.", where=name)


class _Reader:
    """Follows the operators of one page."""

    def __init__(self, sheets: SheetsRead, resources: pikepdf.Object) -> None:
        self.sheets, self.resources = sheets, resources
        self.pieces: list[ReadPiece] = []
        self.codes: list[ReadCode] = []
        self.piece: ReadPiece | None = None
        self.heads: list[bytes] = []
        self.runs: list[bytes] = []
        self.matrix: Matrix = _EYE
        self.stack: list[tuple[Matrix, tuple[float, ...], float]] = []
        self.ink: tuple[float, ...] = ()
        self.wide = 1.0
        self.do = {
            b"q": self._save, b"Q": self._restore, b"cm": self._move, b"Do": self._call, b"BDC": self._begin,
            b"EMC": self._end, b"w": self._width,
        }  # fmt: skip

    def follow(self, body: bytes) -> None:
        """Read all operators; a path's are taken out whole before the rest is told apart."""
        tokens = _RUN.sub(self._run, _HEAD.sub(self._head, body)).split()
        path: list[bytes] = []  # what it is made of so far, as written
        start = 0  # where the next operator's operands begin
        for at, token in enumerate(tokens):
            if token in self.do:
                self.do[token](tokens[start:at])
            elif token in _BUILD:
                path.append(self.runs[int(tokens[at - 1])] if token == _RUN_OP else b" ".join(tokens[start : at + 1]))
            elif token in _PAINT:
                if path and token != b"n":
                    self._paint(b" ".join(path), _PAINT[token])
                path = []
            elif token in _INK:
                self.ink = tuple(map(float, tokens[start:at]))
            elif not (token.isalpha() or token == b"W*"):
                continue  # an operand
            start = at + 1

    def _run(self, found: re.Match[bytes]) -> bytes:
        self.runs.append(found[0])
        return b" %d %b " % (len(self.runs) - 1, _RUN_OP)

    def _head(self, found: re.Match[bytes]) -> bytes:
        self.heads.append(found[1])
        return b" %d BDC " % (len(self.heads) - 1)

    def _save(self, _: list[bytes]) -> None:
        self.stack.append((self.matrix, self.ink, self.wide))

    def _restore(self, _: list[bytes]) -> None:
        if self.stack:
            self.matrix, self.ink, self.wide = self.stack.pop()

    def _move(self, operands: list[bytes]) -> None:
        a, b, c, d, e, f = map(float, operands)
        m = self.matrix
        self.matrix = (
            a * m[0] + b * m[2], a * m[1] + b * m[3], c * m[0] + d * m[2], c * m[1] + d * m[3],
            e * m[0] + f * m[2] + m[4], e * m[1] + f * m[3] + m[5],
        )  # fmt: skip

    def _mm(self) -> Matrix:
        m = self.matrix
        return (m[0] * _MM, m[1] * _MM, m[2] * _MM, m[3] * _MM, m[4] * _MM, m[5] * _MM)

    def _width(self, operands: list[bytes]) -> None:
        self.wide = float(operands[0])

    def _call(self, operands: list[bytes]) -> None:
        if self.piece is None or not operands:
            return
        name = operands[0].decode("ascii", "replace")
        if not self.sheets.is_picture(self.resources, name):
            self.piece.forms.append((name, self._mm()))
            return
        pixels = self.resources.XObject[name].read_bytes()
        a, _, _, d, e, f = self._mm()
        self.piece.pictures.append((pixels, (e, f, e + a, f + d)))

    def _begin(self, operands: list[bytes]) -> None:
        if len(operands) == 1 and operands[0].isdigit():
            said = {name.decode("ascii"): value for name, value in _ENTRY.findall(self.heads[int(operands[0])])}
            words = {_name(name[2:]): _text(value) for name, value in said.items() if name.startswith("T.")}
            self.piece = ReadPiece(_whole(said.get("Row")), _whole(said.get("Number")), words)
        else:
            self.piece = ReadPiece(0, 0, {})
        self.pieces.append(self.piece)

    def _end(self, _: list[bytes]) -> None:
        self.piece = None

    def _paint(self, path: bytes, how: str) -> None:
        letters = path.replace(b"re", b"e").translate(None, _NUMERIC).decode("ascii")
        code = self.piece is None and not letters.strip("e")
        if self.piece is None and not code:
            return
        matrix = self._mm()
        numbers = _numbers(path.translate(_SPACED))
        if self.piece is not None:
            self.piece.shapes.append(Shape(matrix, letters, numbers, how, self.ink, self.wide))
        else:
            self.codes.append(_code(numbers.reshape(-1, 4), matrix))


def _numbers(text: bytes) -> Array:
    """Return the numbers of a text; whole ones, as nearly all are, are read all together."""
    if b"." in text:
        return np.array(list(map(float, text.split())))
    codes = np.frombuffer(b" %b " % text, dtype=np.uint8)
    digit = (codes >= _ZERO) & (codes < _COLON)
    edges = np.flatnonzero(digit[1:] != digit[:-1]) + 1
    starts, ends = edges[::2], edges[1::2]
    if len(starts) == 0:
        return np.zeros(0)
    lengths = ends - starts
    at = np.flatnonzero(digit)
    places = np.repeat(ends, lengths) - at - 1
    sums = np.add.reduceat((codes[at] - np.uint8(_ZERO)) * _TENS[places], np.cumsum(lengths) - lengths)
    return np.where(codes[starts - 1] == _MINUS, -sums, sums)


def _whole(value: bytes | None) -> int:
    return int(value) if value is not None and value.isdigit() else 0


def _name(name: str) -> str:
    """Return what a PDF name says: #hh is a byte of UTF-8."""
    plain = re.sub(rb"#([0-9A-Fa-f]{2})", lambda one: bytes([int(one[1], 16)]), name.encode("ascii"))
    return plain.decode("utf-8", "replace")


def _text(value: bytes) -> str:
    """Return what a PDF text string says (ISO 32000-1:2008, 7.9.2)."""
    if value.startswith(b"<"):
        data = bytes.fromhex(value[1:-1].decode("ascii"))
    else:
        plain = _ESCAPE.sub(_unescaped, value[1:-1].decode("latin-1"))
        data = plain.encode("latin-1")
    if data.startswith(b"\xfe\xff"):
        return data[2:].decode("utf-16-be", "surrogatepass")
    return data.decode("latin-1")


def _unescaped(found: re.Match[str]) -> str:
    said = found[1]
    return chr(int(said, 8)) if said[0] in "01234567" else _ESCAPED.get(said, said)


def _code(boxes: Array, matrix: Matrix) -> ReadCode:
    """Return the modules of a code drawn as (left, bottom, width, height) in units of its own."""
    unit = float(boxes[:, 2:].min())
    low = boxes[:, :2].min(axis=0)
    high = (boxes[:, :2] + boxes[:, 2:]).max(axis=0)
    across, up = (max(1, min(400, round(one))) for one in ((high - low) / unit).tolist())
    modules = np.zeros((up, across), dtype=np.bool_)
    boxes = np.rint(np.concatenate([boxes[:, :2] - low, boxes[:, 2:]], axis=1) / unit).astype(np.int64)
    for left, bottom, wide, tall in boxes.tolist():
        modules[bottom : bottom + tall, left : left + wide] = True
    x, y = ((low + high) / 2.0).tolist()
    a, b, c, d, e, f = matrix
    return ReadCode(modules[::-1], (a * x + c * y + e, b * x + d * y + f))


_COUNTS = np.zeros(256, dtype=np.int64)
_COUNTS[[ord("m"), ord("l"), ord("c")]] = (2, 2, 6)


def _outline(letters: str, numbers: Array, matrix: Matrix) -> Outline:
    if "e" in letters:
        letters, numbers = _without_boxes(letters, numbers)
    ops = np.frombuffer(letters.encode("ascii"), dtype=np.uint8)
    counts = _COUNTS[ops]
    if len(ops) == 0 or int(counts.sum()) != len(numbers) or letters[0] != "m":
        return Outline(np.zeros((0, 4, 2)), np.zeros(0, dtype=np.bool_))
    points = numbers.reshape(-1, 2)
    a, b, c, d, e, f = matrix
    points = points @ np.array([[a, b], [c, d]]) + np.array([e, f])
    last = np.cumsum(counts) // 2 - 1  # the point on which each operator ends; of h the one before it
    begun = np.maximum.accumulate(np.where(ops == ord("m"), last, 0))
    ends = np.where(ops == ord("h"), begun, last)
    start = np.concatenate([[0], ends[:-1]])
    lines, bends = (ops == ord("l")) | (ops == ord("h")), ops == ord("c")
    drawn = lines | bends
    curves = np.empty((len(ops), 4, 2))
    curves[:, 0], curves[:, 3] = points[start], points[ends]
    curves[:, 1], curves[:, 2] = curves[:, 0], curves[:, 3]
    curves[bends, 1], curves[bends, 2] = points[last[bends] - 2], points[last[bends] - 1]
    closing = (ops == ord("h")) & (np.abs(curves[:, 0] - curves[:, 3]).max(axis=1) == 0.0)
    kept = drawn & ~closing
    return Outline(curves[kept], lines[kept])


def _without_boxes(letters: str, numbers: Array) -> tuple[str, Array]:
    """Return construction operators with every `re` as the four edges it stands for."""
    out, found, at = "", [], 0
    for one in letters:
        count = 4 if one == "e" else int(_COUNTS[ord(one)])
        here = numbers[at : at + count]
        at += count
        if one == "e" and len(here) == 4:
            x, y, wide, tall = here.tolist()
            out += "mlllh"
            found.append(np.array([x, y, x + wide, y, x + wide, y + tall, x, y + tall]))
        else:
            out += one
            found.append(here)
    return out, np.concatenate(found) if found else np.zeros(0)
