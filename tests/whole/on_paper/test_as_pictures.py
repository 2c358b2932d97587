"""`--as png|tiff`: whole pages that other programs read at the same size and places as the PDF."""

from __future__ import annotations

import hashlib
import io
import math
import subprocess

import numpy as np
import pytest
from PIL import Image, ImageCms
from tests.whole.in_colour.colouring import coloured, convert, image_of, printer
from tests.whole.measuring import blots_of
from tests.whole.product import MM_PER_INCH, Workshop, job_text
from tests.witness import need

from wrapwright import WrapwrightError

PPI = 200
TURN = 225 + math.pi * 0.12
KINDS = ("png", "tiff")


def asked(colour: str = "", **top: str) -> str:
    return job_text(
        'kind = "straight"\ngirth = 225\nwall = 80\ntape = { thickness = 0.0 }',
        'kind = "picture"\nname = "front"\nfile = "stamp.svg"\nat = "front"\nwidth = 26\nup = 30',
        'kind = "picture"\nname = "back"\nfile = "stamp.svg"\nat = "back"\nwidth = 20\nup = 30',
        wrap="overlap = 5",
        sheet=f'paper = "Letter"\nppi = {PPI}\nthickness = 0.12',
        colour=colour,
        **top,
    )


@pytest.fixture(scope="module", params=KINDS)
def product(request, workshop):
    return request.param, workshop.make(asked(quantity="2"), output=request.param)


def test_a_file_a_piece_named_in_the_report(product):
    kind, made = product
    names = [f"sheet-001.{kind}", f"sheet-002.{kind}"]
    assert [one["file"] for one in made.report["sheets"]] == names
    assert [one["path"] for one in made.report["files"]] == [*names, "proof.pdf", "ticket.pdf"]
    assert {one.name for one in made.folder.iterdir()} >= {*names, "proof.pdf", "ticket.pdf", "report.json"}
    for row in made.report["files"]:
        assert hashlib.sha256((made.folder / row["path"]).read_bytes()).hexdigest() == row["sha256"]


def test_it_is_the_paper_at_its_resolution_with_its_profile(product):
    _, made = product
    with Image.open(made.folder / made.sheet["file"]) as image:
        assert image.size == (round(11 * PPI), round(8.5 * PPI))
        assert image.info["dpi"] == pytest.approx((PPI, PPI), abs=0.01)
        assert image.mode == "RGB"
        pixels = np.asarray(image)
        profile = ImageCms.ImageCmsProfile(io.BytesIO(image.info["icc_profile"]))
    assert "sRGB" in ImageCms.getProfileDescription(profile)
    assert made.sheet["pixels_sha256"] == hashlib.sha256(pixels.tobytes()).hexdigest()


def test_another_program_sees_the_same_size_and_places(product, tmp_path):
    _, made = product
    out = tmp_path / "seen.pgm"
    command = [need("mutool"), "draw", "-q", "-c", "gray", "-r", str(PPI), "-o", str(out)]
    subprocess.run([*command, str(made.folder / made.sheet["file"]), "1"], check=True, capture_output=True)
    with Image.open(out) as image:
        pixels = np.array(image, dtype=float)
    assert (pixels.shape[1], pixels.shape[0]) == pytest.approx((11 * PPI, 8.5 * PPI), abs=1)
    pitch, piece, high = MM_PER_INCH / PPI, made.piece, made.sheet["height_mm"]
    top = round((high - piece["y_mm"] - piece["height_mm"]) / pitch)
    rows = slice(top, round((high - piece["y_mm"]) / pitch))
    columns = slice(round(piece["x_mm"] / pitch), round((piece["x_mm"] + piece["width_mm"]) / pitch))
    front, back = blots_of(pixels[rows, columns], (columns.start * pitch, high - top * pitch), PPI)
    assert front.x - back.x == pytest.approx(TURN / 2, abs=pitch)
    assert front.x == pytest.approx(piece["x_mm"] + piece["width_mm"] - TURN / 4, abs=pitch)
    assert front.y == pytest.approx(piece["y_mm"] + 30, abs=pitch)
    assert math.sqrt(front.area) == pytest.approx(26.0, abs=0.05)


def test_the_pdf_holds_the_same_page(product, workshop):
    kind, made = product
    pdf = workshop.make(asked(quantity="2"))
    assert pdf.piece == made.piece
    shown = pdf.page("mutool", PPI)
    with Image.open(made.folder / made.sheet["file"]) as image:
        pixels = np.asarray(image.convert("L"), dtype=float)
    assert kind in KINDS
    assert np.abs(shown - pixels).mean() < 0.2
    assert (np.abs(shown - pixels) > 100).mean() < 1e-4  # only edges differ, and by a share of a pixel


def test_a_cmyk_page_is_a_tiff_and_no_png(workshop):
    files = {"printer.icc": printer("cmyk")}
    made = workshop.make(asked(convert("relative", black_point=False)), files, output="tiff")
    with Image.open(made.folder / "sheet-001.tiff") as image:
        assert image.mode == "CMYK"
        assert image.info["icc_profile"] == printer("cmyk")
        assert np.asarray(image)[2, 2].tolist() == [0, 0, 0, 0]  # bare paper is no ink
    with pytest.raises(WrapwrightError, match="PNG cannot hold CMYK") as refused:
        workshop.make(asked(convert("relative", black_point=False)), files, output="png")
    assert refused.value.kind == "unusable"


def test_the_art_has_the_pdfs_own_codes(tmp_path):
    """On a page of pixels and in the PDF's image the same colours are the same bytes."""
    workshop = Workshop(tmp_path, tmp_path / "cache")
    pdf = coloured(workshop, convert("relative", black_point=False))
    page = coloured(workshop, convert("relative", black_point=False), output="tiff")
    with Image.open(page.folder / "sheet-001.tiff") as image:
        assert image.info["icc_profile"] == printer("rgb")
        whole = np.asarray(image)
    inner = image_of(pdf)[20:-20:5, 20:-20:5].reshape(-1, 3)
    on_page = {tuple(one) for one in np.unique(whole.reshape(-1, 3), axis=0)}
    share = np.mean([tuple(one) in on_page for one in inner])
    assert share > 0.95
