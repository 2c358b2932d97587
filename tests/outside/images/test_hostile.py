"""Files made to do harm: each ends in one sentence (or is read, where it does none), in little time and memory."""

from __future__ import annotations

import base64
import struct
import sys
import time
import zlib
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from tests.outside.images.made import chunk, pdf, png, ramps, svg, zeros

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.images import reading
from wrapwright.outside.images.reading import read_art

SECONDS = 20
MEGABYTES = 2000


def noise(count: int) -> bytes:
    return np.random.default_rng(7).integers(0, 256, count, dtype=np.uint8).tobytes()


def jpeg() -> bytes:
    import io

    out = io.BytesIO()
    Image.fromarray(ramps()).resize((400, 300)).save(out, "JPEG", quality=95)
    return out.getvalue()


def after_header(data: bytes) -> bytes:
    """Return the JPEG with noise in place of its coded data."""
    start = data.index(b"\xff\xda")
    return data[: start + 14] + noise(5000).replace(b"\xff", b"\x7f") + b"\xff\xd9"


def tiff(width: int, height: int, following: int) -> bytes:
    """Return a grey TIFF whose next directory is at `following` (0 = none)."""
    tags = [(256, 4, width), (257, 4, height), (258, 3, 8), (259, 3, 1), (262, 3, 1), (273, 4, 200), (277, 3, 1)]
    tags += [(278, 4, height), (279, 4, min(width * height, 100))]
    rows = b"".join(struct.pack("<HHII", tag, kind, 1, value) for tag, kind, value in tags)
    return (b"II*\0" + struct.pack("<IH", 8, len(tags)) + rows + struct.pack("<I", following)).ljust(300, b"\x50")


def repeated(levels: int, outer: str, inner: str) -> bytes:
    """Return an SVG in which each level holds ten of the one below."""
    parts = [outer.format(0, '<rect width="1" height="1"/>')]
    parts += [outer.format(level, inner.format(level - 1) * 10) for level in range(1, levels + 1)]
    return svg(f"<defs>{''.join(parts)}</defs>{inner.format(levels)}")


NESTED = 8
PATTERN = '<pattern id="a{}" width="1" height="1">{}</pattern>'
BIG_PICTURE = '<image width="9" height="9" href="data:image/png;base64,{}"/>'
ENTITIES = b'<!DOCTYPE s [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>'
EXTERNAL = b'<!DOCTYPE s [<!ENTITY a SYSTEM "file:///etc/passwd">]>'
UNUSABLE: dict[str, tuple[Callable[[], bytes], str]] = {
    "900 megapixels in a megabyte.png": (lambda: png(30000, 30000, colour=0, data=zeros(30001 * 30000)), "900 million"),
    "header without data.png": (
        lambda: b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 60000, 60000, 8, 2, 0, 0, 0)),
        "3600 million",
    ),
    "65000 a side.tif": (lambda: tiff(65000, 65000, 0), "4225 million"),
    "cut.jpg": (lambda: jpeg()[: len(jpeg()) // 2], "cut short or damaged"),
    "cut.png": (lambda: png(90, 90, data=zlib.compress(bytes(271 * 40))), "cut short or damaged"),
    "cut.tif": (lambda: tiff(100, 100, 0), "cut short or damaged"),
    "noise after the header.jpg": (lambda: after_header(jpeg()), "cut short or damaged"),
    "noise after the header.png": (lambda: png(90, 90, data=noise(3000)), "cut short or damaged"),
    "noise after the header.webp": (lambda: b"RIFF\xff\xff\0\0WEBPVP8 " + noise(3000), "cut short or damaged"),
    "noise after the header.avif": (
        lambda: b"\0\0\0\x18ftypavif\0\0\0\0mif1avif" + noise(3000),
        "cut short or damaged",
    ),
    "noise after the header.heic": (
        lambda: b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + noise(3000),
        "cut short or damaged",
    ),
    "directory beyond the end.tif": (lambda: b"II*\0" + struct.pack("<I", 0xFFFFFFF0) + bytes(300), "cut short"),
    "no palette.png": (lambda: png(4, 4, colour=3, data=zlib.compress(b"\0\1\2\3\4" * 4)), "cut short or damaged"),
    "palette of 900.png": (
        lambda: png(4, 4, colour=3, data=zlib.compress(b"\0\1\2\3\4" * 4), before=chunk(b"PLTE", b"\1\2\3" * 900)),
        "cut short or damaged",
    ),
    "empty.png": (lambda: b"", "empty"),
    "text.png": (lambda: b"This is a letter, not a picture.\n", "not a picture"),
    "entities.svg": (lambda: ENTITIES + svg("<text>&b;</text>"), "entities"),
    "outside entity.svg": (lambda: EXTERNAL + svg("<text>&a;</text>"), "entities"),
    "10^8 uses.svg": (lambda: repeated(NESTED, '<g id="a{}">{}</g>', '<use href="#a{}"/>'), "every repeat counted"),
    "10^8 patterns.svg": (
        lambda: repeated(NESTED, PATTERN, '<rect width="1" height="1" fill="url(#a{})"/>'),
        "every repeat counted",
    ),
    "uses in a ring.svg": (
        lambda: svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'),
        "cannot be drawn|empty",
    ),
    "900 megapixels inside.svg": (
        lambda: svg(
            BIG_PICTURE.format(base64.b64encode(png(30000, 30000, colour=0, data=zeros(30001 * 30000))).decode())
        ),
        "900 million",
    ),
    "90000 a side.svg": (lambda: svg("<rect/>", 'width="90000" height="90000"'), "90000 units"),
    "too many nodes.svg": (lambda: svg("<g/>" * 100_001), "more than 100000 nodes"),
    "50000 levels.svg": (lambda: svg("<g>" * 50_000 + "</g>" * 50_000), "levels deep"),
    "not well-formed.svg": (lambda: svg("<g>"), "not well-formed"),
    "no size.svg": (lambda: svg("<rect/>", 'width="0" height="-3"'), "above 0"),
    "too heavy.svg": (lambda: svg("<!-- " + "x" * 20_000_001 + " -->"), "MB are read"),
}
HARMLESS: dict[str, Callable[[], bytes]] = {
    "directory in a ring.tif": lambda: tiff(10, 10, 8),
    "bad EXIF.jpg": lambda: jpeg()[:2] + b"\xff\xe1\0\x26Exif\0\0MM\0*\xff\xff\xff\xff" + noise(22) + jpeg()[2:],
    "profile of 400 MB.png": lambda: png(
        4, 4, data=zlib.compress(bytes(13 * 4)), before=chunk(b"iCCP", b"x\0\0" + zeros(400_000_000))
    ),
    "index beyond the palette.png": lambda: png(
        4, 4, colour=3, data=zlib.compress(b"\0\xff\xfe\xfd\xfc" * 4), before=chunk(b"PLTE", b"\1\2\3")
    ),
    "10^5 frames.gif": lambda: (
        b"GIF89a\x02\0\x02\0\x80\0\0\0\0\0\xff\xff\xff"
        + b"\x21\xf9\x04\0\1\0\0\0,\0\0\0\0\x02\0\x02\0\0\x02\x03\x44\x02\x05\0" * 100_000
        + b";"
    ),
    "script.pdf": lambda: pdf(b"0 0 50 50 re f", catalogue="/OpenAction << /S /JavaScript /JS (while(1);) >>"),
}


def held(file: Path, cache: Path) -> object:
    """Return what reading gives, once it is sure that it took little time."""
    started = time.monotonic()
    try:
        return read_art(file, cache=cache)
    finally:
        assert time.monotonic() - started < SECONDS
        assert list((cache / "work").glob("*")) == []


@pytest.mark.parametrize("name", UNUSABLE)
def test_it_ends_in_one_sentence(tmp_path, name):
    make, words = UNUSABLE[name]
    file = tmp_path / name
    file.write_bytes(make())
    with pytest.raises(WrapwrightError, match=words) as caught:
        held(file, tmp_path / "cache")
    assert caught.value.kind is Kind.UNUSABLE
    assert caught.value.where == name
    assert "\n" not in str(caught.value)
    assert str(tmp_path) not in str(caught.value)


@pytest.mark.parametrize("name", HARMLESS)
def test_what_does_no_harm_is_read(tmp_path, name):
    file = tmp_path / name
    file.write_bytes(HARMLESS[name]())
    assert held(file, tmp_path / "cache").width > 0


@pytest.mark.skipif(sys.platform == "win32", reason="no account of children's memory")
def test_memory_stayed_low():
    """Over all children so far: the corpus above runs in this process's children."""
    import resource

    most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss * (1 if sys.platform == "darwin" else 1024)
    assert most < MEGABYTES * 1e6


def test_the_limits_are_those_promised():
    assert (reading.PIXELS, reading.FILE_BYTES, reading.VECTOR_BYTES) == (200_000_000, 512_000_000, 20_000_000)


LINKS = {
    "absolute": '<image href="{uri}" width="50" height="50"/>',
    "relative": '<image href="canary.png" width="50" height="50"/>',
    "parent": '<image href="../canary.png" width="50" height="50"/>',
    "xlink": '<image xlink:href="{path}" width="50" height="50"/>',
    "use": '<use href="canary.svg#x"/>',
    "fill": '<rect width="50" height="50" fill="url(canary.svg#x)"/>',
    "style": '<rect width="50" height="50" style="fill:url(\'canary.svg#x\')"/>',
    "import": '<style>@import url("canary.css"); </style>',
    "base": '<g xml:base="{uri}"><image href="#" width="50" height="50"/></g>',
    "filter": '<filter id="f"><feImage href="canary.png"/></filter><rect filter="url(#f)" width="50" height="50"/>',
    "drawing in data": '<image width="50" height="50" href="data:image/svg+xml;base64,{nested}"/>',
}


@pytest.mark.parametrize("body", LINKS.values(), ids=LINKS.keys())
def test_a_drawing_reads_no_other_file(tmp_path, body):
    """The canary is bright magenta: were it read, magenta would show."""
    canary = tmp_path / "canary.png"
    Image.new("RGB", (8, 8), (255, 0, 255)).save(canary)
    magenta = '<g id="x"><rect width="50" height="50" fill="#f0f"/></g>'
    (tmp_path / "canary.svg").write_bytes(svg(magenta))
    (tmp_path / "canary.css").write_text("rect { fill: #f0f }", encoding="utf-8")
    nested = base64.b64encode(svg(f'<image href="{canary.as_uri()}" width="50" height="50"/>')).decode()
    file = tmp_path / "drawing.svg"
    content = body.format(uri=canary.as_uri(), path=canary, nested=nested)
    file.write_bytes(svg('<rect x="60" width="30" height="30" fill="#0a0"/>' + content))
    art = read_art(file, cache=tmp_path / "cache", longest_px=100)
    if art.kind == "outlines":
        assert {shape.colour for shape in art.shapes} <= {(0, 170 / 255, 0), (0, 0, 0)}
    else:
        pixels = reading.open_pixels(art, cache=tmp_path / "cache").array
        assert not ((pixels[..., 0] > 100) & (pixels[..., 2] > 100) & (pixels[..., 3] > 0)).any()
    if "style>" not in body and "base" not in body:
        assert any("left out" in note for note in art.notes)


def test_a_picture_carried_in_a_drawing_is_read(tmp_path):
    """So that the test above cannot pass because no picture is ever read."""
    import io

    out = io.BytesIO()
    Image.new("RGB", (8, 8), (255, 0, 255)).save(out, "PNG")
    data = base64.b64encode(out.getvalue()).decode()
    file = tmp_path / "drawing.svg"
    file.write_bytes(svg(f'<image href="data:image/png;base64,{data}" width="50" height="50"/>'))
    art = read_art(file, cache=tmp_path / "cache", longest_px=100)
    pixels = reading.open_pixels(art, cache=tmp_path / "cache").array
    assert tuple(pixels[25, 25]) == (255, 0, 255, 255)


def test_a_page_reads_no_other_file(tmp_path):
    """ISO 32000-1, 7.3.8 and 8.10.4: a stream may say its data, or a form its page, stand in another file."""
    Image.new("RGB", (8, 8), (255, 0, 255)).save(tmp_path / "canary.jpg")
    (tmp_path / "canary.pdf").write_bytes(pdf(b"1 0 1 rg 0 0 100 50 re f"))
    more = (
        "5 0 obj << /Type /XObject /Subtype /Image /Width 8 /Height 8 /ColorSpace /DeviceRGB /BitsPerComponent 8 "
        f"/F ({tmp_path / 'canary.jpg'}) /FFilter /DCTDecode /Length 0 >> stream\n\nendstream endobj\n"
        f"6 0 obj << /Type /XObject /Subtype /Form /BBox [0 0 100 50] "
        f"/Ref << /F ({tmp_path / 'canary.pdf'}) /Page 0 >> "
        "/Length 0 >> stream\n\nendstream endobj\n"
    )
    page = "/MediaBox [0 0 100 50] /Resources << /XObject << /I 5 0 R /F 6 0 R >> >>"
    file = tmp_path / "page.pdf"
    file.write_bytes(pdf(b"q 100 0 0 50 0 0 cm /I Do Q /F Do 0 0.6 0 rg 60 0 20 20 re f", page=page, more=more))
    art = read_art(file, cache=tmp_path / "cache", longest_px=100)
    assert art.kind == "pixels"
    pixels = reading.open_pixels(art, cache=tmp_path / "cache").array
    assert not ((pixels[..., 0] > 100) & (pixels[..., 2] > 100) & (pixels[..., 3] > 0)).any()
