"""PDF pages as outlines: held against poppler, which had no part in reading them."""

from __future__ import annotations

import io
import subprocess
from pathlib import Path

import cv2
import numpy as np
import pikepdf
import pytest
import typst
from tests.outside.images.made import pdf
from tests.outside.images.show import as_svg, rendered, unlike
from tests.witness import need

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.images.reading import open_pixels, read_art

pytestmark = pytest.mark.usefixtures("without_child")

F_SHAPE = b"1 0 0 rg 20 5 10 40 re f 0 0.4 0 rg 30 35 30 10 re f 0 0 1 rg 30 20 20 8 re f"


def poppler(file: Path) -> np.ndarray:
    """Return the first page drawn by poppler on white, four pixels a point."""
    stem = file.with_suffix("")
    subprocess.run([need("pdftoppm"), "-png", "-singlefile", "-cropbox", "-r", "288", str(file), str(stem)], check=True)
    return cv2.imread(str(stem.with_suffix(".png")))[..., ::-1].astype(float)


def paged(tmp_path, data):
    file = tmp_path / "page.pdf"
    file.write_bytes(data)
    return file, read_art(file, cache=tmp_path / "cache", longest_px=400)


CONTENTS = {
    "fills": F_SHAPE,
    "even-odd": b"0 0 0 rg 5 5 m 95 5 l 95 45 l 5 45 l h 20 10 m 80 10 l 80 40 l 20 40 l h f*",
    "curves": b"0.2 0.4 0.6 rg 10 10 m 30 60 70 60 90 10 c h f",
    "v and y curves": b"0.2 0.4 0.6 rg 10 10 m 50 60 90 10 v 60 0 10 10 y f",
    "line": b"1 0 0 RG 6 w 10 10 m 50 40 l 90 10 l S",
    "round line": b"1 0 0 RG 6 w 1 J 1 j 10 10 m 50 40 l 90 10 l S",
    "dashes": b"1 0 0 RG 6 w [9 4] 3 d 10 10 m 50 40 l 90 10 l S",
    "matrix": b"q 0.8 0.6 -0.6 0.8 30 -20 cm 0 0.5 0 rg 10 10 30 20 re f 3 w 50 10 20 20 re S Q",
    "clip": b"q 50 25 m 90 25 l 50 45 l h W n 0 0 1 rg 0 0 100 50 re f Q 1 0 0 rg 5 5 10 10 re f",
    "two clips": b"q 10 0 50 50 re W n 30 10 m 90 10 l 30 50 l h W n 0 0 1 rg 0 0 100 50 re f Q",
    "fill and line": b"0.9 0.9 0.5 rg 0 0.2 0.3 RG 4 w 20 10 60 30 re B",
    "grey": b"0.5 g 20 10 60 30 re f",
}


@pytest.mark.parametrize("content", CONTENTS.values(), ids=CONTENTS.keys())
def test_solid_pages_are_outlines_and_look_right(tmp_path, content):
    file, art = paged(tmp_path, pdf(content))
    assert (art.kind, art.width, art.height) == ("outlines", 100, 50)
    assert unlike(rendered(as_svg(art, 400, 200), 400, 200), poppler(file)) < 40


@pytest.mark.parametrize("turn", [0, 90, 180, 270, -90])
def test_a_turned_and_cropped_page_is_upright(tmp_path, turn):
    page = f"/MediaBox [-10 -10 110 60] /CropBox [10 0 70 50] /Rotate {turn}"
    file, art = paged(tmp_path, pdf(F_SHAPE, page=page))
    assert art.kind == "outlines"
    width, height = (240, 200) if turn % 180 == 0 else (200, 240)
    assert (art.width * 4, art.height * 4) == (width, height)
    assert unlike(rendered(as_svg(art, width, height), width, height), poppler(file)) < 40


def test_forms_within_forms(tmp_path):
    inner = b"0 0.5 0.5 rg 0 0 10 10 re f"
    outer = b"q 1 0 0 1 5 5 cm /In Do Q q 0.5 0.5 -0.5 0.5 30 5 cm /In Do Q"
    names = "/Resources << /XObject << /{} {} 0 R >> >>"
    more = "".join(
        f"{number} 0 obj << /Type /XObject /Subtype /Form /BBox [0 0 100 50] /Matrix [2 0 0 2 0 0] /Length {len(text)} "
        f"{extra} >> stream\n{text.decode()}\nendstream endobj\n"
        for number, text, extra in ((5, outer, names.format("In", 6)), (6, inner, ""))
    )
    page = f"/MediaBox [0 0 100 50] {names.format('Out', 5)}"
    file, art = paged(tmp_path, pdf(b"q 0.5 0 0 0.5 0 0 cm /Out Do Q", page=page, more=more))
    assert (art.kind, len(art.shapes)) == ("outlines", 2)
    assert unlike(rendered(as_svg(art, 400, 200), 400, 200), poppler(file)) < 40


def test_text_of_a_typeset_page_is_outlines(tmp_path):
    source = """#set page(width: 200pt, height: 100pt, margin: 10pt)
#set text(size: 24pt, fill: rgb("#804020"))
office fi _é_ 42"""
    file, art = paged(tmp_path, typst.compile(source.encode()))
    assert art.kind == "outlines"
    assert {tuple(round(255 * part) for part in shape.colour) for shape in art.shapes} == {(0x80, 0x40, 0x20)}
    # Poppler hints small glyphs a little, hence the wider bound; 51 would be a whole pixel.
    assert unlike(rendered(as_svg(art, 800, 400), 800, 400), poppler(file)) < 50


PAINTED = {
    "axial shading": (
        b"/S sh",
        "/Shading << /S << /ShadingType 2 /ColorSpace /DeviceRGB /Coords [0 0 100 0] "
        "/Function << /FunctionType 2 /Domain [0 1] /C0 [1 0 0] /C1 [0 0 1] /N 1 >> >> >>",
    ),
    "blend mode": (
        b"1 0 0 rg 0 0 60 50 re f /B gs 0 1 1 rg 30 0 60 50 re f",
        "/ExtGState << /B << /BM /Multiply >> >>",
    ),
    "inline picture": (b"q 80 0 0 40 10 5 cm BI /W 1 /H 2 /CS /G /BPC 8 ID \x30\xc0 EI Q", ""),
}


@pytest.mark.parametrize(("content", "resources"), PAINTED.values(), ids=PAINTED.keys())
def test_what_is_not_solid_becomes_pixels(tmp_path, content, resources):
    file, art = paged(tmp_path, pdf(content, page=f"/MediaBox [0 0 100 50] /Resources << {resources} >>"))
    assert (art.kind, art.width, art.height, art.bands) == ("pixels", 400, 200, 4)
    array = open_pixels(art, cache=tmp_path / "cache").array.astype(float)
    shown = array[..., :3] * array[..., 3:] / 255 + 255 - array[..., 3:]
    wanted = poppler(file)
    # The two smooth a picture of two pixels differently: only its middles are compared.
    places = (slice(20, 180, 40), slice(60, 340, 40))
    assert np.abs(shown[places] - wanted[places]).max() < (60 if content.startswith(b"q 80") else 8)
    assert np.ptp(wanted[..., :2]) > 100


def test_pages_beyond_the_first_are_said(tmp_path):
    with pikepdf.open(io.BytesIO(pdf(F_SHAPE))) as file:
        file.pages.append(file.pages[0])
        out = io.BytesIO()
        file.save(out)
    _, art = paged(tmp_path, out.getvalue())
    assert "It has 2 pages; the first is used." in art.notes


def test_scripts_are_never_run(tmp_path):
    _, art = paged(tmp_path, pdf(F_SHAPE, catalogue="/OpenAction << /S /JavaScript /JS (app.alert(1)) >>"))
    assert art.kind == "outlines"


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: pdf(F_SHAPE, page="/MediaBox [0 0 90000 50]"), "90000 x 50 units"),
        (lambda: pdf(b""), "empty"),
        (
            lambda: (
                b"%PDF-1.7\n1 0 obj << /Type /Catalog /Pages 2 0 R >> endobj 2 0 obj << /Type /Pages /Kids [] "
                b"/Count 0 >> endobj trailer << /Root 1 0 R >>"
            ),
            "damaged|no pages",
        ),
        (lambda: b"%PDF-1.7\n" + bytes(range(256)) * 20, "damaged"),
        (lambda: _locked(), "encrypted"),
    ],
    ids=["too wide", "blank", "no pages", "noise", "encrypted"],
)
def test_unusable_pages_get_their_sentence(tmp_path, make, words):
    with pytest.raises(WrapwrightError, match=words) as caught:
        paged(tmp_path, make())
    assert caught.value.kind is Kind.UNUSABLE
    assert "\n" not in str(caught.value)


def _locked():
    with pikepdf.open(io.BytesIO(pdf(F_SHAPE))) as file:
        out = io.BytesIO()
        file.save(out, encryption=pikepdf.Encryption(user="key", owner="key"))
    return out.getvalue()
