"""What the sheet says once it is turned back: words read by tesseract, the code by OpenCV's decoder (written by
another library), and both in the file as paths that nothing covers."""

from __future__ import annotations

import subprocess

import cv2
import numpy as np
import pikepdf
import pytest
from PIL import Image
from tests.sheet_on_paper.test_mirrored import read
from tests.whole.product import job_text, svg
from tests.witness import need

DPI = 300
WORDS = "REGATTA 2026: BERTH 14"
CUP = 'kind = "straight"\ngirth = 231.6\nwall = 92\ncoating = "#fffffe"'
TAPER = 'kind = "tapered"\ngirth_top = 246\ngirth_bottom = 214\nwall = 96'
PENNANT = svg(20, 12, '<path fill="#7a2e1d" d="M0 0 L20 6 L0 12 Z"/><circle cx="5" cy="6" r="2" fill="#ffffff"/>')
SHADED = svg(
    20,
    12,
    '<linearGradient id="g"><stop offset="0" stop-color="#fff"/><stop offset="1" stop-color="#acd"/></linearGradient>'
    '<rect width="20" height="12" fill="url(#g)"/>',
)


@pytest.fixture(scope="module", params=[CUP, TAPER], ids=["straight", "tapered"])
def product(request, workshop):
    return workshop.make(
        job_text(
            request.param,
            'kind = "fill"\nname = "ground"\ngradient = { from = "#e8eef4", to = "#ffffff", along = "up" }',
            'kind = "picture"\nname = "shaded"\nfile = "shaded.svg"\nat = "back"\nwidth = 30\nup = 60',
            'kind = "picture"\nname = "pennant"\nfile = "pennant.svg"\nat = "back"\nwidth = 30\nup = 25',
            'kind = "text"\nname = "words"\ntext = "LANTERN HARBOUR"\nat = "front"\nsize = 6\nup = 60',
            f'kind = "code"\nname = "code"\ntext = "{WORDS}"\nat = "right"\nwidth = 30\nup = 45',
            wrap="overlap = 5",
            sheet='paper = "A4"\nppi = 150',
        ),
        {"shaded.svg": SHADED, "pennant.svg": PENNANT},
    )


def seen(product) -> np.ndarray:
    """The piece as it will be seen: the printed page turned back, the front upright (a quarter of a sector's angle)."""
    pixels = product.crop("pdftoppm", DPI)[0][:, ::-1].astype(np.uint8)
    return levelled(product, pixels)


def levelled(product, pixels: np.ndarray) -> np.ndarray:
    sector = product.report["wrap"]["sector"]
    if sector is None:
        return pixels
    return np.asarray(Image.fromarray(pixels).rotate(-sector["angle_deg"] / 4, Image.Resampling.BICUBIC, fillcolor=255))


def test_tesseract_reads_the_page_turned_back_and_not_the_page(product, tmp_path):
    tesseract = need("tesseract")
    assert "LANTERN" in read(tesseract, seen(product), tmp_path / "seen.png")
    printed = read(tesseract, seen(product)[:, ::-1], tmp_path / "printed.png")
    assert "LANTERN" not in printed
    assert "HARBOUR" not in printed


def test_opencv_reads_the_code_of_the_page_turned_back(product):
    text, corners, _ = cv2.QRCodeDetector().detectAndDecode(seen(product))
    assert text == WORDS
    # ISO/IEC 18004: a quiet zone of four modules belongs to the symbol's whole width.
    side = np.linalg.norm(corners[0][1] - corners[0][0]) * 25.4 / DPI
    modules = 25  # version 2 at level M: 22 letters and digits fit (38 at most; version 1 holds 20)
    assert side == pytest.approx(30 * modules / (modules + 8), abs=0.2)


def test_the_report_tells_outlines_from_pixels(product):
    rows = {one["name"]: (one["vector"], one["effective_ppi"]) for one in product.report["elements"]}
    vector, own = rows.pop("shaded")
    assert vector is False
    assert own >= 300.0  # art that must become pixels is drawn at twice the sheet's ppi or finer
    assert rows == {
        "ground": (False, 150.0),
        "pennant": (True, None),
        "words": (True, None),
        "code": (True, None),
    }


def test_no_fonts_and_no_image_over_the_paths(product, tmp_path):
    done = subprocess.run([need("pdffonts"), str(product.pdf)], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[2:] == []
    with pikepdf.open(product.pdf) as pdf:
        page = pdf.pages[0]
        operators = [str(one.operator) for one in pikepdf.parse_content_stream(page)]
        assert "BT" not in operators
        assert operators.count("Do") == 1
        fills = [k for k, one in enumerate(operators) if one in ("f", "f*")]
        assert len(fills) >= 4  # the pennant's two colours, the words, the code; marks besides
        # Later marks cover earlier ones (ISO 32000-1, 8.2): the one image lies below every path.
        assert operators.index("Do") < fills[0]
        # Without the image, words and code are still there and read.
        del page.Resources["/XObject"]
        kept = [one for one in pikepdf.parse_content_stream(page) if str(one.operator) != "Do"]
        page.Contents = pdf.make_stream(pikepdf.unparse_content_stream(kept))
        pdf.save(tmp_path / "paths.pdf")
    subprocess.run(
        [need("pdftoppm"), "-gray", "-r", str(DPI), "-singlefile", str(tmp_path / "paths.pdf"), str(tmp_path / "p")],
        check=True,
    )
    with Image.open(tmp_path / "p.pgm") as image:
        page = levelled(product, np.asarray(image)[:, ::-1].copy())
    assert cv2.QRCodeDetector().detectAndDecode(page)[0] == WORDS
    assert "LANTERN" in read(need("tesseract"), page, tmp_path / "paths.png")


def test_outlines_stay_sharp_at_any_enlargement(product):
    """At 1200 dpi, eight times the sheet's ppi, a letter's edge is still a step of one or two pixels."""
    piece, high = product.piece, product.sheet["height_mm"]
    words = product.element("words")
    x = (piece["x_mm"] + piece["width_mm"] - 75) / 25.4 * 1200
    y = (high - piece["y_mm"] - words["up_mm"] - 8) / 25.4 * 1200
    out = product.folder / "letters"
    cut = ["-x", str(round(x)), "-y", str(round(y)), "-W", "2000", "-H", "700"]
    subprocess.run(
        [need("pdftoppm"), "-gray", "-r", "1200", *cut, "-singlefile", str(product.pdf), str(out)], check=True
    )
    with Image.open(out.with_suffix(".pgm")) as image:
        pixels = np.asarray(image).astype(int)
    dark, between = (pixels < 60).sum(), ((pixels >= 60) & (pixels < 200)).sum()
    edges = (np.abs(np.diff((pixels < 130).astype(int), axis=1)) > 0).sum()
    assert dark > 20000
    assert between < 2.0 * edges  # a raster at 150 ppi would spread each edge over eight
