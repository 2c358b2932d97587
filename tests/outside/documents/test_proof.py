"""The proof, read back by poppler and PDFium."""

from __future__ import annotations

import dataclasses

import cv2
import numpy as np
import pytest
from tests.outside.documents.reading import fonts, letters, pages, spoken
from tests.outside.documents.samples import blank, proof_data, wrap

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.outside.documents.facts import ElementRow
from wrapwright.outside.documents.proof import proof_pdf, proof_png

ODD = '#import "x": y $a$ \\ // *b* _i_ <l> @r `c` ~'


def test_the_facts_are_there(cache, tmp_path):
    words = spoken(proof_pdf(proof_data(date="2026-05-02"), cache=cache), tmp_path)
    for fact in (
        "Weir Street regatta", "24 pieces", "2026-05-02", "Steel tumbler 590 ml, straight wall", "235 mm (9 1/4 in)",
        "165 mm (6 1/2 in)", "#fdfdfb", "10 mm above the wall's lower edge, 53 mm below its upper", "at the left",
        "6 mm (1/4 in)", "± 1.4 mm", "Front", "Right", "Back", "Left", "Seam", "reading ± 0.8", "printer scale ± 1.2",
        "harbour", "70.0 × 60.0 mm", "171 ppi", "vector", "112 deg, 62.5 mm up, true",
        "171 ppi at its worst point, under 200 ppi: use a larger file.", "warning", "note", "never-calibrated",
        "Colour is an approximation", "Shine is not shown",
    ):  # fmt: skip
        assert fact in words, fact
    # girth + pi t with t = 0.12 (P8): 235.377, and 6 more with the overlap.
    assert "235.4 mm" in words
    assert "241.4 mm (9 1/2 in) with overlap" in words


def test_a_taper_shows_its_sector(cache, tmp_path):
    words = spoken(proof_pdf(proof_data("tapered"), cache=cache), tmp_path)
    # theta = (236 - 198)/90 rad = 24.192 deg; outer radius = (236 + 0.377)/theta = 559.84, inner 469.84 (closed form).
    assert "radii 559.8 mm and 469.8 mm, 24.19°" in words
    assert "upper arc 242.4 mm, lower arc 204.4 mm, along the wall 90 mm" in words


def test_a_handle_replaces_the_seam(cache, tmp_path):
    words = spoken(proof_pdf(proof_data("mug"), cache=cache), tmp_path)
    assert "at the handle" in words
    assert "back, 24 mm bare" in words
    assert "234.4 mm" in words
    assert "Seam at" in words
    assert "overlap" not in words


def test_one_page_of_the_asked_paper_when_lists_are_short(cache):
    # O20, O22: A4 210 x 297 mm, Letter 8.5 x 11 in, lying down.
    assert pages(proof_pdf(proof_data(), cache=cache)) == [pytest.approx((792.0, 612.0), abs=0.01)]
    a4 = pages(proof_pdf(proof_data(paper="A4"), cache=cache))
    assert a4 == [pytest.approx((297 / 25.4 * 72, 210 / 25.4 * 72), abs=0.01)]


def test_long_lists_go_on_and_nothing_is_lost(cache, tmp_path):
    findings = tuple(
        Finding(f"rule-{i}", list(Severity)[i % 3], f"Message {i} end{i}x. " + "Long words follow here. " * 9)
        for i in range(50)
    )
    elements = tuple(ElementRow(f"element-{i}x", "picture", i * 7.0, 51, 70, 60, "true", False, 170) for i in range(70))
    pdf = proof_pdf(proof_data(findings=findings, elements=elements), cache=cache)
    words = spoken(pdf, tmp_path)
    assert len(pages(pdf)) > 2
    assert all(f"end{i}x." in words for i in range(50))
    assert all(f"element-{i}x" in words for i in range(70))
    assert "17 errors, 17 warnings, 16 notes." in words
    for number, _, _, (left, bottom, right, top) in letters(pdf):
        assert left >= 0, number
        assert right <= 792, number
        assert bottom >= 0, number
        assert top <= 612, number


@pytest.mark.parametrize("kind", ["straight", "tapered"])
def test_notes_that_the_foot_cannot_hold_go_on_and_lie_on_no_drawing(kind, cache, tmp_path):
    notes = tuple(f"picture {i}: it carries no colour profile, note{i}x." for i in range(12))
    pdf = proof_pdf(dataclasses.replace(proof_data(kind), notes=notes), cache=cache)
    words = spoken(pdf, tmp_path)
    assert len(pages(pdf)) == 2
    assert all(f"note{i}x." in words for i in range(12))
    assert words.index("next page.") < words.index("note11x.")
    box = np.array([one for number, _, _, one in letters(pdf) if number == 0])
    both = np.minimum(box[:, None, 2:], box[None, :, 2:]) - np.maximum(box[:, None, :2], box[None, :, :2])
    shared = np.clip(both, 0.0, None).prod(axis=2)
    place = np.arange(len(box))
    shared[abs(place[:, None] - place[None, :]) <= 2] = 0.0  # itself, and the letters that a ligature joins
    area = (box[:, 2:] - box[:, :2]).prod(axis=1)
    assert (shared / np.minimum(area[:, None], area[None, :])).max() < 0.4


def test_words_are_never_markup(cache, tmp_path):
    data = dataclasses.replace(
        proof_data(title=ODD, findings=(Finding("text-small", Severity.WARNING, ODD + " #panic()", ODD),)),
        blank=blank("straight", name='#read("/etc/hostname") #ODD'),
    )
    words = spoken(proof_pdf(data, cache=cache), tmp_path)
    assert words.count(ODD) >= 2
    assert '#read("/etc/hostname")' in words
    assert "#panic()" in words


@pytest.mark.parametrize(
    "title",
    [
        "x" * 3000,
        "word " * 400,
        "مرحبا بالعالم " * 20,
        "\U0001f600\u200d\u2764 " * 30,
        "",
        "a\x00b\x1b\n\tc\ud800d\u202ee",
    ],
)
def test_strange_titles_do_not_break_it(title, cache):
    pdf = proof_pdf(proof_data(title=title), cache=cache)
    assert len(pages(pdf)) == 1
    assert all(box[0] >= 0 and box[2] <= 792 for _, _, _, box in letters(pdf))


def test_lettering_is_embedded_and_large_enough(cache, tmp_path):
    pdf = proof_pdf(proof_data("tapered"), cache=cache)
    table = fonts(pdf, tmp_path)
    assert table
    assert all(row[-5] == "yes" for row in table)
    assert all("OpenSans" in row[0] for row in table)
    assert min(size for _, _, size, _ in letters(pdf)) >= 7.5 - 1e-3


def test_the_png_is_the_page(cache):
    raster = cv2.imdecode(np.frombuffer(proof_png(proof_data(), cache=cache, ppi=100), np.uint8), cv2.IMREAD_COLOR)
    assert raster.shape == (850, 1100, 3)
    assert raster.min() < 60
    assert (raster == 255).mean() > 0.3


def test_a_butt_join_and_a_misfit_are_said(cache, tmp_path):
    flat = dataclasses.replace(wrap("straight").flat, overlap_mm=0.0)
    data = dataclasses.replace(proof_data(), wrap=dataclasses.replace(wrap("straight"), flat=flat, misfit_mm=1.23))
    words = spoken(proof_pdf(data, cache=cache), tmp_path)
    assert "none: the ends butt" in words
    assert "differ by up to 1.2 mm" in words
