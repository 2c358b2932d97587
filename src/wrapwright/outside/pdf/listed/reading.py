"""Reads the sheets of a list back from their content: what each piece says of itself, how it is drawn, its code.

Nothing is rendered: the operators of a page (ISO 32000-1:2008, annex A) are followed with the matrices in force, so
that whatever is read is where it would be printed.
"""

from __future__ import annotations

import hashlib
import math
import re
from pathlib import Path as File

import numpy as np
import pikepdf
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.outside.pdf.listed.drawn import (
    CalledForm,
    Limits,
    Matrix,
    ReadCode,
    ReadForm,
    ReadPage,
    ReadPicture,
    ReadPiece,
    Shape,
)

Array = NDArray[np.float64]
Objects = dict[str, tuple[bool, tuple[int, int]]]  # by name, whether it is an image, and its number in the file

_FOLLOWING = 12  # forms after a code that are told: as many as a piece's number may have digits, and more
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
_BOXES = _NUMERIC + b"re"
_ZERO, _COLON, _MINUS = ord("0"), ord(":"), ord("-")
_TENS = 10.0 ** np.arange(18)
_SPACED = bytes.maketrans(b"mlchre", b"      ")
_PAINT = {b"f": "fill", b"f*": "fill even-odd", b"S": "line", b"F": "fill", b"n": ""}
_INK = {b"scn", b"SCN", b"g", b"G", b"rg", b"RG", b"k", b"K"}
_QUIET = {b"cs", b"CS", b"J", b"j"}  # say nothing that is asked here
_PAGE = {"/Type", "/Parent", "/Resources", "/Contents", "/MediaBox", "/BleedBox", "/TrimBox"}
_FORM = {"/Type", "/Subtype", "/FormType", "/BBox", "/Resources", "/Filter", "/DecodeParms", "/Length"}
_IMAGE = {
    *("/Type", "/Subtype", "/Width", "/Height", "/ColorSpace", "/BitsPerComponent"),
    *("/Filter", "/DecodeParms", "/Length"),
}


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
        self.profiles: dict[tuple[int, int], str] = {}
        self.objects: dict[tuple[int, int], Objects] = {}

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
        reader = _Reader(page.resources)
        if page.resources.is_indirect:  # many pages share one
            reader.objects = self.objects.setdefault(page.resources.objgen, reader.objects)
        reader.strange += sorted(set(page.obj.keys()) - _PAGE)
        reader.follow(body)
        if len(set(reader.inks)) > 1:
            reader.strange.append("another ink beside the pieces")
        size = ((right - left) * _MM, (top - bottom) * _MM)
        return ReadPage(*size, tuple(reader.pieces), tuple(reader.codes), tuple(dict.fromkeys(reader.strange)))

    def profile(self, number: int) -> str:
        """Return the SHA-256 of the colour profile of a page (from 0), "" where it has none.

        That of the file's output intent; without one, that of the page's own space.

        Raises:
            WrapwrightError: unusable, when it is damaged.
        """
        try:
            if "/OutputIntents" in self.pdf.Root:
                found = self.pdf.Root.OutputIntents[0].DestOutputProfile
            elif "/ColorSpace" in self.pdf.pages[number].resources:
                found = self.pdf.pages[number].resources.ColorSpace.CS0[1]
            else:
                return ""
            if found.objgen not in self.profiles:
                self.profiles[found.objgen] = hashlib.sha256(found.read_bytes()).hexdigest()
            return self.profiles[found.objgen]
        except (pikepdf.PdfError, AttributeError, IndexError, TypeError, ValueError) as problem:
            raise _damaged(self.name, number + 1) from problem

    def form(self, number: int, name: str) -> ReadForm:
        """Return what a form draws that page `number` (from 0) calls.

        Raises:
            WrapwrightError: unusable, when it is not there or damaged.
        """
        try:
            found = self.pdf.pages[number].resources.XObject[name]
            reader = _Reader(found.get("/Resources", pikepdf.Dictionary()))
            reader.matrix = (1.0 / _MM, 0.0, 0.0, 1.0 / _MM, 0.0, 0.0)
            reader.piece = ReadPiece(0, 0, {})
            reader.piece.strange.extend(sorted(set(found.keys()) - _FORM))
            reader.follow(found.read_bytes())
            left, bottom, right, top = (float(value) for value in found.BBox)
        except (pikepdf.PdfError, AttributeError, KeyError, TypeError, ValueError) as problem:
            raise _damaged(self.name, number + 1) from problem
        return ReadForm(reader.piece, (left, bottom, right, top))


def _damaged(name: str, page: int = 0) -> Exception:
    where = f"page {page} of {name}" if page else name
    return unusable(f"{where} cannot be read: the file is cut short or damaged.", remedy="Make it again.", where=name)


class _Reader:
    """Follows the operators of one page."""

    def __init__(self, resources: pikepdf.Object) -> None:
        self.resources = resources
        self.pieces: list[ReadPiece] = []
        self.codes: list[ReadCode] = []
        self.piece: ReadPiece | None = None
        self.strange: list[str] = []
        self.heads: list[bytes] = []
        self.runs: list[bytes] = []
        self.matrix: Matrix = _EYE
        self.stack: list[tuple[Matrix, tuple[float, ...], float, Limits]] = []
        self.limits: Limits = ()
        self.limiting = False
        self.objects: Objects = {}
        self.ink: tuple[float, ...] = ()
        self.inks: list[tuple[float, ...]] = []  # set beside the pieces
        self.wide = 1.0
        self.do = {
            b"q": self._save, b"Q": self._restore, b"cm": self._move, b"Do": self._call, b"BDC": self._begin,
            b"EMC": self._end, b"w": self._width, b"W": self._limit,
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
                self._painted(b" ".join(path), _PAINT[token])
                path = []
            elif token in _INK:
                self.ink = tuple(map(float, tokens[start:at]))
                self.inks += [self.ink] if self.piece is None else []
            elif token not in _QUIET:
                if not (token.isalpha() or token.endswith(b"*")):
                    continue  # an operand
                self._odd(token.decode("ascii"))
            start = at + 1

    def _run(self, found: re.Match[bytes]) -> bytes:
        self.runs.append(found[0])
        return b" %d %b " % (len(self.runs) - 1, _RUN_OP)

    def _head(self, found: re.Match[bytes]) -> bytes:
        self.heads.append(found[1])
        return b" %d BDC " % (len(self.heads) - 1)

    def _odd(self, what: str) -> None:
        """Note what no sheet of ours has."""
        (self.strange if self.piece is None else self.piece.strange).append(what)

    def _save(self, _: list[bytes]) -> None:
        self.stack.append((self.matrix, self.ink, self.wide, self.limits))

    def _restore(self, _: list[bytes]) -> None:
        if self.stack:
            self.matrix, self.ink, self.wide, self.limits = self.stack.pop()

    def _limit(self, _: list[bytes]) -> None:
        self.limiting = True

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
        if not operands:
            return
        name = operands[0].decode("ascii", "replace")
        picture, number = self._object(name)
        if self.piece is None:
            if picture:
                self._odd("a picture beside the pieces")
            elif self.codes and len(self.codes[-1].forms) < _FOLLOWING:
                self.codes[-1].forms.append(CalledForm(number, name, self._mm()))
            return
        self.piece.order.append(("picture" if picture else "form", self.limits))
        if picture:
            self._picture(self.resources.XObject[name], self.piece)
        else:
            self.piece.forms.append(CalledForm(number, name, self._mm()))

    def _object(self, name: str) -> tuple[bool, tuple[int, int]]:
        """Return whether a name stands for an image and not for a form, and its number in the file."""
        if name not in self.objects:
            found = self.resources.get("/XObject", pikepdf.Dictionary()).get(name)
            picture = found is not None and found.get("/Subtype") == "/Image"
            number: tuple[int, int] = (0, 0) if found is None else found.objgen
            self.objects[name] = (picture, number)
        return self.objects[name]

    def _picture(self, image: pikepdf.Object, piece: ReadPiece) -> None:
        a, b, c, d, e, f = self._mm()
        piece.strange.extend(sorted(set(image.keys()) - _IMAGE))
        if b or c:
            piece.strange.append("a turned picture")
        size = (int(image.Width), int(image.Height))
        piece.pictures.append(ReadPicture(image.read_bytes(), *size, (e, f, e + a, f + d)))

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

    def _painted(self, path: bytes, how: str) -> None:
        """Take a path that is painted, or limits what follows, or both."""
        if not path:
            if self.limiting:
                self._odd("W")
        elif how and self.piece is not None:
            self.piece.shapes.append(self._shape(path, how))
            self.piece.order.append(("shape", self.limits))
        elif how:
            self._beside(path, how)
        if self.limiting and path:
            self.limits = (*self.limits, self._shape(path, "limit"))
        self.limiting = False

    def _beside(self, path: bytes, how: str) -> None:
        """Take a path that is painted beside the pieces: the boxes of a code, and no other."""
        if path.translate(None, _BOXES) or how != "fill" or self.limits:
            self._odd("a path beside the pieces")
        else:
            shape = self._shape(path, how)
            self.codes.append(_code(shape.numbers.reshape(-1, 4), shape.matrix, self.ink))

    def _shape(self, path: bytes, how: str) -> Shape:
        letters = path.replace(b"re", b"e").translate(None, _NUMERIC).decode("ascii")
        return Shape(self._mm(), letters, _numbers(path.translate(_SPACED)), how, self.ink, self.wide)


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


def _code(boxes: Array, matrix: Matrix, ink: tuple[float, ...]) -> ReadCode:
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
    middle = (a * x + c * y + e, b * x + d * y + f)
    return ReadCode(modules[::-1], middle, unit * math.sqrt(abs(a * d - b * c)), ink)
