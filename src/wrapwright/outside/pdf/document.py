"""The PDF file around the pages: colour space, images and streams each once, metadata in step, the same bytes.

Driver route: an ICCBased space with the profile given (sRGB). Convert route: PDF/X-4 (ISO 15930-7:2010), device colour
of the output intent's own space, no transparency.
"""

from __future__ import annotations

import hashlib
import re
import zlib
from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path as File
from typing import BinaryIO

import pikepdf
from pikepdf import Array as PdfArray
from pikepdf import Dictionary, Name

from wrapwright.core.base.colours import Rgb
from wrapwright.core.base.errors import unusable
from wrapwright.core.sheet.placed import Box
from wrapwright.outside.pdf import content
from wrapwright.outside.pdf.flate import Packed
from wrapwright.outside.pdf.metadata import About, info_entries, xmp_packet
from wrapwright.outside.pdf.saving import save_pdf

Ink = Callable[[Rgb], tuple[float, ...]]

_DEVICE = {1: Name.DeviceGray, 3: Name.DeviceRGB, 4: Name.DeviceCMYK}
_FILL = {1: "g", 3: "rg", 4: "k"}
_STROKE = {1: "G", 3: "RG", 4: "K"}
_STATIC_ID = b"31415926535897932384626433832795"  # what qpdf writes when asked for an unchanging id
_TAIL = 2048  # bytes at the file's end that hold its trailer


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


@dataclass
class Document:
    """A pikepdf document that grows, each stream in it once; `level` is how hard its pages are packed (zlib's 1 to 9).

    Raises WrapwrightError (unusable) when the convert route's profile is not a printer's.
    """

    colour: SheetColour
    ink: Ink
    pdf: pikepdf.Pdf = field(default_factory=pikepdf.new)
    digest: hashlib._Hash = field(default_factory=hashlib.sha256)
    streams: dict[bytes, pikepdf.Object] = field(default_factory=dict)
    level: int = field(default=6, kw_only=True)

    def __post_init__(self) -> None:
        """Put the profile in first: everything refers to it."""
        if self.colour.converted:
            _must_be_a_printers(self.colour)
        profile = self.packed_stream(self.colour.profile, N=self.colour.channels)
        self.digest.update(hashlib.sha256(self.colour.profile).digest())
        self.profile = profile
        device = _DEVICE[self.colour.channels]
        self.space = device if self.colour.converted else self._based(profile, device)

    def _based(self, profile: pikepdf.Object, device: pikepdf.Object) -> pikepdf.Object:
        profile.Alternate = device
        return self.pdf.make_indirect(PdfArray([Name.ICCBased, profile]))

    def space_of(self, colour: SheetColour) -> pikepdf.Object:
        """Return a further space with a profile of its own; on the driver route only."""
        self.digest.update(hashlib.sha256(colour.profile).digest())
        return self._based(self.packed_stream(colour.profile, N=colour.channels), _DEVICE[colour.channels])

    def resources(
        self, objects: dict[str, pikepdf.Object] | None = None, space: pikepdf.Object | None = None
    ) -> Dictionary:
        """Return a resource dictionary: the colour space (the document's unless given), images and forms by name."""
        shared = Dictionary()
        if not self.colour.converted:
            shared.ColorSpace = Dictionary(CS0=self.space if space is None else space)
        if objects:
            shared.XObject = Dictionary({f"/{name}": one for name, one in objects.items()})
        return shared

    def page(self, boxes: tuple[Box, Box, Box], parts: list[str], resources: object) -> None:
        """Add a page of these media, bleed and trim boxes (page mm) with its content, one stream a part."""
        streams = [self.stream(part.encode("ascii") + b"\n") for part in parts if part]
        self.digest.update(repr(boxes).encode())
        media, bleed, trim = boxes
        page = Dictionary(
            Type=Name.Page,
            MediaBox=_box(media),
            BleedBox=_box(bleed),
            TrimBox=_box(trim),
            Resources=resources,
            Contents=PdfArray(streams),
        )
        self.pdf.pages.append(pikepdf.Page(self.pdf.make_indirect(page)))

    def set_ink(self, colour: Rgb, *, stroke: bool = False, ink: Ink | None = None) -> str:
        """Return the operators that choose a colour; `ink` stands for the document's own."""
        values = " ".join(content.number(value, 6) for value in (ink or self.ink)(colour))
        if not self.colour.converted:
            return f"/CS0 CS {values} SCN" if stroke else f"/CS0 cs {values} scn"
        return f"{values} {(_STROKE if stroke else _FILL)[self.colour.channels]}"

    def image(self, packed: Packed, owner: pikepdf.Pdf | None = None) -> pikepdf.Object:
        """Return a new image, or one that another file owns, whose colour space is then given when it is copied."""
        self.digest.update(packed.pixels_sha256.encode())
        return pikepdf.Stream(
            owner or self.pdf,
            packed.data,
            Type=Name.XObject,
            Subtype=Name.Image,
            Width=packed.width,
            Height=packed.height,
            ColorSpace=self.space if owner is None else _DEVICE[packed.channels],
            BitsPerComponent=8,
            Filter=Name.FlateDecode,
            DecodeParms=Dictionary(Predictor=15, Colors=packed.channels, BitsPerComponent=8, Columns=packed.width),
        )

    def stream(self, data: bytes) -> pikepdf.Object:
        """Return the stream of these bytes, one for all that are alike."""
        key = hashlib.sha256(data).digest()
        self.digest.update(key)
        if key not in self.streams:
            packed = zlib.compress(data, self.level)
            self.streams[key] = pikepdf.Stream(self.pdf, packed, Filter=Name.FlateDecode)
        return self.streams[key]

    def packed_stream(self, data: bytes, **entries: object) -> pikepdf.Object:
        """Return a new packed stream."""
        return pikepdf.Stream(self.pdf, zlib.compress(data, 6), Filter=Name.FlateDecode, **entries)

    def finish(self, about: About, out: BinaryIO | File) -> None:
        """Write the file, to a path or to an open file that can be read and written anywhere."""
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
        _save(self.pdf, digest, out)


def within(box: Box, outer: Box) -> Box:
    """Return the part of a box that lies in another."""
    return (max(box[0], outer[0]), max(box[1], outer[1]), min(box[2], outer[2]), min(box[3], outer[3]))


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


def _save(pdf: pikepdf.Pdf, digest: str, out: BinaryIO | File) -> None:
    save_pdf(
        pdf,
        out,
        static_id=True,
        force_version="1.6",
        fix_metadata_version=False,
        compress_streams=False,
        stream_decode_level=pikepdf.StreamDecodeLevel.none,
        object_stream_mode=pikepdf.ObjectStreamMode.disable,
    )
    if isinstance(out, File):
        with out.open("r+b") as file:
            _give_id(file, digest)
    else:
        _give_id(out, digest)


def _give_id(file: BinaryIO, digest: str) -> None:
    """Put the content's own id into the trailer instead of the unchanging one."""
    start = max(0, file.seek(0, 2) - _TAIL)
    file.seek(start)
    tail = file.read()
    at, new = tail.rindex(b"/ID ["), digest[:32].encode("ascii")
    for match in re.finditer(re.escape(_STATIC_ID), tail[at:]):
        file.seek(start + at + match.start())
        file.write(new)


def _box(box: Box) -> pikepdf.Object:
    """Return a page box in points."""
    return PdfArray([Decimal(content.number(value * content.POINTS_PER_MM)) for value in box])
