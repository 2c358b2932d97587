"""Joins the shards of a list into one file: what they share stands in it once."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path as File

import pikepdf
from pikepdf import Array as PdfArray
from pikepdf import Dictionary

from wrapwright.outside.pdf.document import Document, SheetColour
from wrapwright.outside.pdf.metadata import About


@dataclass(frozen=True)
class Pages:
    """Some pages of a file that `listed_pdf` wrote: from `first` to before `last`, from 0."""

    file: File
    first: int
    last: int


def merged_pdf(parts: Sequence[Pages], colour: SheetColour, *, about: About, file: File) -> int:
    """Write one PDF of all these pages, in order; return how many there are.

    Args:
        parts: of files that were written with this colour; at least one.
        colour: the space of their colours.
        about: title, maker and date.
        file: where it goes.
    """
    joiner = _Joiner(Document(colour, lambda rgb: tuple(rgb)))
    for part in parts:
        with pikepdf.open(part.file) as shard:
            joiner.add(shard, part)
    joiner.finish(about, file)
    return len(joiner.document.pdf.pages)


@dataclass
class _Joiner:
    """Adds the pages of shards to a document; alike objects of several shards become one."""

    document: Document
    objects: dict[bytes, pikepdf.Object] = field(default_factory=dict)
    names: dict[str, pikepdf.Object] = field(default_factory=dict)
    shared: pikepdf.Object = field(init=False)

    def __post_init__(self) -> None:
        """Begin the dictionary that pages share."""
        self.shared = self.document.pdf.make_indirect(Dictionary())

    def add(self, shard: pikepdf.Pdf, part: Pages) -> None:
        """Add pages of a shard."""
        known: dict[tuple[int, int], pikepdf.Object] = {}
        for number in range(part.first, part.last):
            source = shard.pages[number].obj
            new = Dictionary({key: plain(value) for key, value in source.items() if key in _PLAIN})
            new.Resources = self._resources(source.Resources, known)
            new.Contents = PdfArray([self._stream(one) for one in source.Contents])
            self.document.pdf.pages.append(pikepdf.Page(self.document.pdf.make_indirect(new)))

    def _resources(self, source: pikepdf.Object, known: dict[tuple[int, int], pikepdf.Object]) -> pikepdf.Object:
        """Return a page's resources: those that pages of all shards share, or a page's own."""
        shared = source.is_indirect
        if shared and source.objgen in known:
            return self.shared
        found = {}
        for name, one in source.get("/XObject", Dictionary()).items():
            if one.objgen not in known:
                known[one.objgen] = self._taken(one)
            found[str(name)[1:]] = known[one.objgen]
        if not shared:
            return self.document.resources(found)
        known[source.objgen] = self.shared
        self.names |= found
        return self.shared

    def finish(self, about: About, file: File) -> None:
        """Write the file."""
        for name, entry in self.document.resources(self.names).items():
            self.shared[name] = entry
        self.document.finish(about, file)

    def _stream(self, one: pikepdf.Object) -> pikepdf.Object:
        raw = one.read_raw_bytes()
        self.document.digest.update(hashlib.sha256(raw).digest())
        return pikepdf.Stream(self.document.pdf, raw, Filter=one.Filter)

    def _taken(self, one: pikepdf.Object) -> pikepdf.Object:
        """Return the document's own object for a shard's form or image."""
        key = _key(one)
        if key not in self.objects:
            self.document.digest.update(key)
            self.objects[key] = self._own(one)
        return self.objects[key]

    def _own(self, one: pikepdf.Object) -> pikepdf.Object:
        entries = {str(name)[1:]: plain(value) for name, value in one.items() if name in _STREAM}
        new = pikepdf.Stream(self.document.pdf, one.read_raw_bytes(), **entries)
        if "/ColorSpace" in one:
            new.ColorSpace = self.document.space
        if "/Resources" in one:
            inner = {str(name)[1:]: self._taken(inside) for name, inside in _inner(one).items()}
            bare = not inner and "/ColorSpace" not in one.Resources
            new.Resources = Dictionary() if bare else self.document.resources(inner)
        return new


def plain(value: object) -> object:
    """Return a direct value of one file as one that another file may hold."""
    if isinstance(value, pikepdf.Object):
        return pikepdf.Object.parse(value.unparse(resolved=True))
    return value


_PLAIN = ("/Type", "/MediaBox", "/BleedBox", "/TrimBox")
_STREAM = (
    "/Type", "/Subtype", "/FormType", "/BBox", "/Width", "/Height", "/BitsPerComponent", "/Filter", "/DecodeParms",
)  # fmt: skip


def _inner(one: pikepdf.Object) -> dict[str, pikepdf.Object]:
    if "/Resources" not in one or "/XObject" not in one.Resources:
        return {}
    return {str(name): inside for name, inside in one.Resources.XObject.items()}


def _key(one: pikepdf.Object) -> bytes:
    """Return what tells a form or image apart: its bytes, its entries, and what it refers to."""
    digest = hashlib.sha256(one.read_raw_bytes())
    for name in _STREAM:
        if name in one:
            value = one[name]
            said = value.unparse(resolved=True) if isinstance(value, pikepdf.Object) else str(value).encode("ascii")
            digest.update(name.encode("ascii") + said)
    for name, inside in sorted(_inner(one).items()):
        digest.update(str(name).encode() + _key(inside))
    return digest.digest()
