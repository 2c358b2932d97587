"""Joins documents of a few pages each into one, object by object: no page is held in memory after it is written."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path as File
from typing import BinaryIO

import pikepdf

_DAY = "2000-01-01"
_CATALOG, _PAGES, _INFO = 1, 2, 3
_INHERITED = ("/Resources", "/MediaBox", "/CropBox", "/Rotate")  # ISO 32000-1:2008, table 30
_LEFT_OUT = ("/Parent", "/StructParents", "/Tabs")  # of a page: its old tree, and a structure that is not taken along


def joined_pdf(parts: Sequence[File], file: File, *, title: str, on: str = "") -> None:
    """Write one PDF of all pages of the parts, in order; the same parts give the same bytes.

    Args:
        parts: PDF files; one is open at a time.
        file: where it goes.
        title: of the document.
        on: its date, "2026-05-02", or "" for none (its dates are then 2000-01-01).
    """
    with file.open("wb") as out:
        joiner = _Joiner(out)
        for part in parts:
            with pikepdf.open(part) as pdf:
                joiner.add(pdf)
        joiner.finish(_info(title, on))


def dated(pdf: pikepdf.Pdf, title: str, on: str) -> None:
    """Give a document its title and its date, and nothing else that says when it was made."""
    pdf.docinfo = pdf.make_indirect(_info(title, on))


def _info(title: str, on: str) -> pikepdf.Dictionary:
    day = f"D:{(on or _DAY).replace('-', '')}000000Z"
    return pikepdf.Dictionary(
        Title=pikepdf.String(title), CreationDate=pikepdf.String(day), ModDate=pikepdf.String(day)
    )


@dataclass
class _Joiner:
    """Writes the file (ISO 32000-1:2008, 7.5): head, objects as they come, the table of where they lie, trailer."""

    out: BinaryIO
    offsets: dict[int, int] = field(default_factory=dict)
    kids: list[int] = field(default_factory=list)
    last: int = _INFO
    at: int = 0
    digest: hashlib._Hash = field(default_factory=hashlib.sha256)

    def __post_init__(self) -> None:
        """Write the head; the second line says that the file is not text."""
        self._put(b"%PDF-1.7\n%\xbf\xf7\xa2\xfe\n")

    def add(self, pdf: pikepdf.Pdf) -> None:
        """Write the pages of a document with all that they refer to."""
        taken = _Taken(self)
        pages = [page.obj for page in pdf.pages]
        for page in pages:
            self.kids.append(taken.number(page))
        for number, page in zip(self.kids[-len(pages) :], pages, strict=True):
            entries = {key: value for key, value in _page(page) if key not in _LEFT_OUT}
            self.put_object(number, taken.entries(entries, b"/Parent %d 0 R" % _PAGES))
        for number, one in taken.rest():
            self.put_object(number, taken.whole(one))

    def finish(self, info: pikepdf.Dictionary) -> None:
        """Write what holds the pages together."""
        kids = b" ".join(b"%d 0 R" % number for number in self.kids)
        self.put_object(_CATALOG, b"<</Type/Catalog/Pages %d 0 R>>" % _PAGES)
        self.put_object(_PAGES, b"<</Type/Pages/Count %d/Kids[%b]>>" % (len(self.kids), kids))
        self.put_object(_INFO, info.unparse())
        start, size, mark = self.at, self.last + 1, self.digest.hexdigest()[:32].encode("ascii")
        self._put(b"xref\n0 %d\n0000000000 65535 f \n" % size)
        for number in range(1, size):
            self._put(b"%010d 00000 n \n" % self.offsets[number])
        refs = b"/Root %d 0 R/Info %d 0 R/ID[<%b><%b>]" % (_CATALOG, _INFO, mark, mark)
        self._put(b"trailer\n<</Size %d%b>>\nstartxref\n%d\n%%%%EOF\n" % (size, refs, start))

    def put_object(self, number: int, body: bytes) -> None:
        """Write one object."""
        self.offsets[number] = self.at
        self._put(b"%d 0 obj\n%b\nendobj\n" % (number, body))

    def _put(self, data: bytes) -> None:
        self.out.write(data)
        self.digest.update(data)
        self.at += len(data)


@dataclass
class _Taken:
    """The objects of one document: the numbers they have in the whole, and which are still to be written."""

    joiner: _Joiner
    numbers: dict[tuple[int, int], int] = field(default_factory=dict)
    waiting: list[tuple[int, pikepdf.Object]] = field(default_factory=list)

    def number(self, one: pikepdf.Object) -> int:
        """Return an object's number in the whole; a new one for one that was not met."""
        if one.objgen not in self.numbers:
            self.joiner.last += 1
            self.numbers[one.objgen] = self.joiner.last
        return self.numbers[one.objgen]

    def rest(self) -> Iterator[tuple[int, pikepdf.Object]]:
        """Yield what is still to be written, and what that brings with it."""
        while self.waiting:
            yield self.waiting.pop()

    def whole(self, one: pikepdf.Object) -> bytes:
        """Return an object as it stands by itself."""
        if isinstance(one, pikepdf.Stream):
            raw = one.read_raw_bytes()
            entries = {str(key): value for key, value in one.stream_dict.items() if key != "/Length"}
            head = self.entries(entries, b"/Length %d" % len(raw))
            return head + b"\nstream\n" + raw + b"\nendstream"
        return self._direct(one)

    def entries(self, entries: Mapping[str, object], more: bytes = b"") -> bytes:
        """Return a dictionary."""
        said = (pikepdf.Name(key).unparse() + b" " + self._value(value) for key, value in entries.items())
        return b"<<" + b"".join(said) + more + b">>"

    def _value(self, value: object) -> bytes:
        if isinstance(value, pikepdf.Object) and value.is_indirect:
            if value.objgen not in self.numbers:
                self.waiting.append((self.number(value), value))
            return b"%d 0 R" % self.number(value)
        return self._direct(value)

    def _direct(self, value: object) -> bytes:
        if isinstance(value, pikepdf.Dictionary):
            return self.entries({str(key): one for key, one in value.items()})
        if isinstance(value, pikepdf.Array):
            return b"[" + b" ".join(self._value(one) for one in value) + b"]"
        if isinstance(value, pikepdf.Object):
            return value.unparse()
        return _plain(value)


def _plain(value: object) -> bytes:
    if value is None:
        return b"null"
    if isinstance(value, bool):
        return b"true" if value else b"false"
    return (f"{value:f}" if isinstance(value, Decimal) else str(value)).encode("ascii")


def _page(page: pikepdf.Object) -> Iterator[tuple[str, object]]:
    """Yield a page's entries, those that it has from above among them."""
    for key, value in page.items():
        yield str(key), value
    for key in _INHERITED:
        above = page
        while key not in above and "/Parent" in above:
            above = above.Parent
        if above is not page and key in above:
            yield key, above[key]
