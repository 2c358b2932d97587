"""Sheets of the convert route keep PDF/X-4 (ISO 15930-7:2010; x4_rules says which of its rules stand from memory)."""

from __future__ import annotations

import subprocess

import pikepdf
import pytest
from tests.outside.pdf.x4_rules import RULES, broken
from tests.whole.in_colour.colouring import coloured, convert, printer
from tests.witness import need


@pytest.fixture(scope="module", params=["cmyk", "rgb"])
def product(request, workshop):
    made = coloured(workshop, convert("saturation"), request.param, quantity="3", date='"2026-05-02"')
    return made, printer(request.param)


def test_no_rule_is_broken(product):
    assert len(RULES) >= 30
    assert broken(product[0].pdf.read_bytes()) == []


def test_the_driver_route_makes_no_such_claim(workshop):
    """No printer's profile is known there, which the standard asks for."""
    assert "profile-is-a-printers" in broken(coloured(workshop, 'route = "driver"').pdf.read_bytes())


def test_the_printers_profile_is_embedded_byte_for_byte(product):
    made, profile = product
    with pikepdf.open(made.pdf) as pdf:
        (intent,) = pdf.Root.OutputIntents
        assert intent.DestOutputProfile.read_bytes() == profile


def test_three_pieces_share_one_image(product):
    made, _ = product
    assert [(one["page"], one["pieces"][0]["piece"]) for one in made.report["sheets"]] == [(1, 1), (2, 2), (3, 3)]
    with pikepdf.open(made.pdf) as pdf:
        assert len(pdf.pages) == 3
        assert len({one.objgen for page in pdf.pages for one in page.Resources.XObject.values()}) == 1


def test_qpdf_finds_nothing_wrong(product):
    done = subprocess.run([need("qpdf"), "--check", str(product[0].pdf)], capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (0, "")


def test_the_pages_boxes_lie_in_each_other_round_the_piece(product):
    made, _ = product
    piece = made.piece
    with pikepdf.open(made.pdf) as pdf:
        page = pdf.pages[0]
        trim, bleed, media = (
            [float(one) / 72 * 25.4 for one in page[name]] for name in ("/TrimBox", "/BleedBox", "/MediaBox")
        )
    right, top = piece["x_mm"] + piece["width_mm"], piece["y_mm"] + piece["height_mm"]
    assert trim == pytest.approx([piece["x_mm"], piece["y_mm"], right, top], abs=0.001)
    assert all(outer <= inner for outer, inner in zip((*media[:2], *bleed[:2]), (*bleed[:2], *trim[:2]), strict=True))
    assert all(outer >= inner for outer, inner in zip((*media[2:], *bleed[2:]), (*bleed[2:], *trim[2:]), strict=True))
    assert top + 1.9 < bleed[3] <= media[3]
