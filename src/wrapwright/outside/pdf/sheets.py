"""Writes the sheets as a PDF: exact pages, images shared by all pages, vector art and marks above them.

Driver route: an ICCBased space with the profile given (sRGB). Convert route: PDF/X-4 (ISO 15930-7:2010), device colour
of the output intent's own space, no transparency. The same content gives the same bytes.
"""

from __future__ import annotations

import hashlib
import io
import re
import zlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from itertools import groupby

import numpy as np
import pikepdf
from numpy.typing import NDArray
from pikepdf import Array as PdfArray
from pikepdf import Dictionary, Name

from wrapwright.core.base.colours import Rgb
from wrapwright.core.base.errors import unusable
from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.path import joined
from wrapwright.core.sheet.placed import OWN_WORDS, Box, PlacedPage
from wrapwright.outside.pdf import content
from wrapwright.outside.pdf.flate import Packed
from wrapwright.outside.pdf.metadata import About, info_entries, xmp_packet

Matrix = NDArray[np.float64]
Ink = Callable[[Rgb], tuple[float, ...]]

_DEVICE = {1: Name.DeviceGray, 3: Name.DeviceRGB, 4: Name.DeviceCMYK}
_FILL = {1: "g", 3: "rg", 4: "k"}
_STROKE = {1: "G", 3: "RG", 4: "K"}
_STATIC_ID = b"31415926535897932384626433832795"  # what qpdf writes when asked for an unchanging id


@dataclass(frozen=True)
class SheetColour:
    """The colour space of everything on the sheets.

    Attributes:
        channels: 1, 3 or 4.
        profile: ICC profile: sRGB on the driver route, the printer's on the convert route.
        name: what the profile calls itself.
        converted: True on the convert route: the colours are the printer's own, and the file is PDF/X-4.
    """

    channels: int
    profile: bytes
    name: str
    converted: bool


@dataclass(frozen=True, eq=False)
class PlacedImage:
    """An image and its box in page mm; pages that hand in the same `packed` object share one image."""

    packed: Packed
    box: Box


@dataclass(frozen=True, eq=False)
class SheetPage:
    """A page: the arrangement, the images below, and the vector items above them, bottom to top, in flat mm."""

    page: PlacedPage
    images: tuple[PlacedImage, ...] = ()
    items: tuple[PlacedOutline, ...] = ()


def sheets_pdf(pages: Sequence[SheetPage], *, colour: SheetColour, ink: Ink, about: About) -> bytes:
    """Return the PDF file.

    Args:
        pages: in order.
        colour: the space of images and inks.
        ink: working-space colour (0..1) -> device colour (0..1, as many as the space has channels).
        about: title, maker and date.

    Raises WrapwrightError (unusable) when the convert route's profile is not a printer's.
    """
    if colour.converted:
        _must_be_a_printers(colour)
    writer = _Writer(colour, ink)
    for page in pages:
        writer.add(page)
    return writer.finished(about)


def _must_be_a_printers(colour: SheetColour) -> None:
    kind = colour.profile[12:16]
    if kind == b"prtr":
        return
    kinds = {b"mntr": "a screen", b"scnr": "a camera or scanner", b"spac": "a colour space", b"link": "a device link"}
    raise unusable(
        f"the profile {colour.name!r} describes {kinds.get(kind, 'no device')}, not a printer.",
        remedy='Give the profile of your printer, ink and paper, or let the driver convert: route = "driver".',
        where="colour: profile",
    )


@dataclass
class _Writer:
    """Collects pages into one pikepdf document, each stream once."""

    colour: SheetColour
    ink: Ink
    pdf: pikepdf.Pdf = field(default_factory=pikepdf.new)
    digest: hashlib._Hash = field(default_factory=hashlib.sha256)
    streams: dict[bytes, pikepdf.Object] = field(default_factory=dict)
    images: dict[int, tuple[str, pikepdf.Object, Packed]] = field(default_factory=dict)
    drawn: dict[tuple[int, int], str] = field(default_factory=dict)
    marks: dict[tuple[int, ...], str] = field(default_factory=dict)
    kept: list[object] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Put the profile in first: everything refers to it."""
        profile = self._packed_stream(self.colour.profile, N=self.colour.channels)
        self.digest.update(hashlib.sha256(self.colour.profile).digest())
        self.profile = profile
        device = _DEVICE[self.colour.channels]
        self.space = device if self.colour.converted else self.pdf.make_indirect(PdfArray([Name.ICCBased, profile]))
        if not self.colour.converted:
            profile.Alternate = device

    def add(self, sheet: SheetPage) -> None:
        """Add one page."""
        page = sheet.page
        parts = [self._head(sheet)]
        for _own, run in groupby(sheet.items, key=lambda item: bool(item.fields)):
            parts.append("\n".join(self._item(item, page) for item in run))
        parts += self._marks(page)
        streams = [self._stream(part.encode("ascii") + b"\n") for part in _few(parts)]
        media = (0.0, 0.0, page.width_mm, page.height_mm)
        bleed = _within(page.bleed_box, media)
        trim = _within(page.trim_box, bleed)
        self.digest.update(repr((media, bleed, trim)).encode())
        shared = Dictionary()
        if not self.colour.converted:
            shared.ColorSpace = Dictionary(CS0=self.space)
        if sheet.images:
            shared.XObject = Dictionary()
            for one in sheet.images:
                name, image, _ = self._image(one.packed)
                shared.XObject[f"/{name}"] = image
        self.pdf.pages.append(
            pikepdf.Page(
                self.pdf.make_indirect(
                    Dictionary(
                        Type=Name.Page,
                        MediaBox=_box(media),
                        BleedBox=_box(bleed),
                        TrimBox=_box(trim),
                        Resources=shared,
                        Contents=PdfArray(streams),
                    )
                )
            )
        )

    def _head(self, sheet: SheetPage) -> str:
        """Return the clip to the bleed and the images below."""
        draws = [content.image_ops(self._image(one.packed)[0], one.box) for one in sheet.images]
        return "\n".join(["q", content.clip_ops(sheet.page.bleed, content.page_points()), *draws])

    def _marks(self, page: PlacedPage) -> list[str]:
        """Return what stands beside the piece: first what all pages have alike, then this piece's own words."""
        points = content.page_points()
        own = [label for label in page.labels if label.what in OWN_WORDS and label.path.subpaths]
        return [self._alike(page), *(content.word_ops(label.path, points) for label in own)]

    def _alike(self, page: PlacedPage) -> str:
        paths = [label.path for label in page.labels if label.what not in OWN_WORDS]
        key = tuple(id(path) for path in (page.lines, *paths))
        if key not in self.marks:
            self.kept += [page.lines, *paths]
            points, words = content.page_points(), joined(paths)
            parts = [f"Q\n{self._set_ink((0.0, 0.0, 0.0))}"]
            if page.lines.subpaths:
                parts.append(content.fill_ops(page.lines, points))
            if words.subpaths:
                parts.append(content.word_ops(words, points))
            self.marks[key] = "\n".join(parts)
        return self.marks[key]

    def _item(self, item: PlacedOutline, page: PlacedPage) -> str:
        key = (id(item), id(page.to_page))
        if key not in self.drawn:
            self.kept += [item, page.to_page]  # so that no other object takes over their ids
            self.drawn[key] = self._drawn(item, content.page_points() @ page.to_page)
        return self.drawn[key]

    def _drawn(self, item: PlacedOutline, matrix: Matrix) -> str:
        clips = [content.clip_ops(clip, matrix) for clip in item.clips]
        if item.stroke_mm > 0:
            paint = content.stroke_ops(item.path, matrix, item.stroke_mm)
        else:
            paint = content.fill_ops(item.path, matrix, even_odd=item.even_odd)
        body = [*clips, self._set_ink(item.colour, stroke=item.stroke_mm > 0), paint]
        return "\n".join(["q", *body, "Q"] if clips else body)

    def _set_ink(self, colour: Rgb, *, stroke: bool = False) -> str:
        values = " ".join(content.number(value, 6) for value in self.ink(colour))
        if not self.colour.converted:
            return f"/CS0 CS {values} SCN" if stroke else f"/CS0 cs {values} scn"
        return f"{values} {(_STROKE if stroke else _FILL)[self.colour.channels]}"

    def _image(self, packed: Packed) -> tuple[str, pikepdf.Object, Packed]:
        if id(packed) not in self.images:
            image = pikepdf.Stream(
                self.pdf,
                packed.data,
                Type=Name.XObject,
                Subtype=Name.Image,
                Width=packed.width,
                Height=packed.height,
                ColorSpace=self.space,
                BitsPerComponent=8,
                Filter=Name.FlateDecode,
                DecodeParms=Dictionary(Predictor=15, Colors=packed.channels, BitsPerComponent=8, Columns=packed.width),
            )
            self.digest.update(packed.pixels_sha256.encode())
            self.images[id(packed)] = (f"Im{len(self.images)}", image, packed)
        return self.images[id(packed)]

    def _stream(self, data: bytes) -> pikepdf.Object:
        key = hashlib.sha256(data).digest()
        self.digest.update(key)
        if key not in self.streams:
            self.streams[key] = self._packed_stream(data)
        return self.streams[key]

    def _packed_stream(self, data: bytes, **entries: object) -> pikepdf.Object:
        return pikepdf.Stream(self.pdf, zlib.compress(data, 6), Filter=Name.FlateDecode, **entries)

    def finished(self, about: About) -> bytes:
        """Return the file's bytes."""
        self.digest.update(repr(about).encode())
        digest = self.digest.hexdigest()
        root = self.pdf.Root
        root.ViewerPreferences = Dictionary(PrintScaling=Name("/None"))
        packet = xmp_packet(about, digest=digest, standard=self.colour.converted)
        root.Metadata = pikepdf.Stream(self.pdf, packet, Type=Name.Metadata, Subtype=Name.XML)
        if self.colour.converted:
            intent = Dictionary(
                Type=Name.OutputIntent,
                S=Name.GTS_PDFX,
                OutputConditionIdentifier=pikepdf.String(self.colour.name),
                Info=pikepdf.String(self.colour.name),
                DestOutputProfile=self.profile,
            )
            root.OutputIntents = PdfArray([self.pdf.make_indirect(intent)])
        info = {key: pikepdf.String(text) for key, text in info_entries(about).items()}
        self.pdf.docinfo = self.pdf.make_indirect(Dictionary(info | {"/Trapped": Name("/False")}))
        return _saved(self.pdf, digest)


def _saved(pdf: pikepdf.Pdf, digest: str) -> bytes:
    out = io.BytesIO()
    pdf.save(
        out,
        static_id=True,
        force_version="1.6",
        fix_metadata_version=False,
        compress_streams=False,
        stream_decode_level=pikepdf.StreamDecodeLevel.none,
        object_stream_mode=pikepdf.ObjectStreamMode.disable,
    )
    at, new = out.getvalue().rindex(b"/ID ["), digest[:32].encode("ascii")
    with out.getbuffer() as data:
        for start in _places(bytes(data[at:]), _STATIC_ID):
            data[at + start : at + start + len(new)] = new
    return out.getvalue()


def _places(data: bytes, wanted: bytes) -> list[int]:
    """Return where the bytes stand."""
    return [match.start() for match in re.finditer(re.escape(wanted), data)]


def _few(parts: list[str]) -> list[str]:
    """Return the parts without the empty ones."""
    return [part for part in parts if part]


def _within(box: Box, outer: Box) -> Box:
    return (max(box[0], outer[0]), max(box[1], outer[1]), min(box[2], outer[2]), min(box[3], outer[3]))


def _box(box: Box) -> pikepdf.Object:
    """Return a page box in points."""
    return PdfArray([Decimal(content.number(value * content.POINTS_PER_MM)) for value in box])
