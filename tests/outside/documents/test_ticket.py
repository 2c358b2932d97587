"""The ticket, read back by poppler and PDFium."""

from __future__ import annotations

import dataclasses

import pytest
from tests.outside.documents.reading import fonts, letters, pages, spoken
from tests.outside.documents.samples import blank, sheet, ticket_data, wrap

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.data.press import cautions
from wrapwright.outside.documents.facts import HeatFacts
from wrapwright.outside.documents.ticket import ticket_pdf

ODD = '#import "x": y $a$ \\ // *b*'
WORST = tuple(
    Finding(f"rule-{i}", Severity.ERROR, "#panic() \\ $x$ // " + "many words of one long message " * 12, f"e{i}",
            accepted=True)
    for i in range(40)
)  # fmt: skip


def test_every_setting_and_distance_is_said(cache, tmp_path):
    words = spoken(ticket_pdf(ticket_data(date="2026-05-02"), cache=cache), tmp_path)
    for fact in (
        "Weir Street regatta", "24 pieces, 2026-05-02", "Letter, portrait: 215.9 × 279.4 mm",
        "Actual size, 100 %", "borderless and expand off", "Off in the driver: the sheet is already mirrored",
        "Text on the paper reads backwards", "Colour control on", "Nozzle check first", "100 mm along and across",
        "Off by more than 0.5 mm: stop", "Let the print dry", "Cut on the trim line: 241.4 mm × 102 mm",
        "Cut all marks away: what stays on the paper prints on the piece or the oven.",
        "Lower edge 10 mm (3/8 in) above", "upper edge 53 mm (2 1/16 in) below", "lay first", "laps over it by 6 mm",
        "at the left", "weld line, put the seam on it", "Tape only on the overlap and outside the band",
        "Sleeve over the wrap", "190–205 °C (374–401 °F), 4–7 min", "common practice, no source",
        "maker's instructions come first", "Second thermometer", "At temperature", "Result, and why",
        "2 warnings, 1 note.", "picture-ppi", "lay on top", "rim",
    ):  # fmt: skip
        assert fact in words, fact


def test_every_shipped_caution_stands_there_when_the_ware_is_not_known(cache, tmp_path):
    words = spoken(ticket_pdf(ticket_data(ware="unknown", heater="unknown"), cache=cache), tmp_path)
    for one in cautions():
        assert one.text in words, one.name
    # The hazards of this work, named here once more so that none can drop out of the file unseen.
    for word in ("burst", "gloves", "Ventilate", "birds", "flammable", "straw", "gasket", "stickers", "dry", "dented",
                 "vacuum", "in water", "bare heating elements", "leaves the room", "second thermometer", "food again",
                 "electrical load", "crush and burn", "handle ink", "on the lip", "dishwasher", "local codes",
                 "test piece", "pictures you may use", "personal data"):  # fmt: skip
        assert word in words, word


def test_a_paper_named_by_its_size_and_a_seam_at_an_angle_are_said_once(cache, tmp_path):
    data = ticket_data(sheet=dataclasses.replace(sheet("straight"), paper="330.2 x 482.6 mm"))
    flat = dataclasses.replace(data.wrap.flat, seam_deg=112.5)
    data = dataclasses.replace(data, wrap=dataclasses.replace(data.wrap, flat=flat))
    words = spoken(ticket_pdf(data, cache=cache), tmp_path)
    assert "Paper portrait: 215.9 × 279.4 mm" in words
    assert "on the seam's line, at 112.5 deg;" in words


def test_cautions_stand_at_their_steps(cache, tmp_path):
    words = spoken(ticket_pdf(ticket_data(), cache=cache), tmp_path)
    places = [words.index(text) for text in (
        "Nozzle check", "Wear gloves when you handle ink", "Cut on the trim line", "Reject cracked", "Printed side",
        "190–205", "Never heat a closed vessel", "Peel in one movement")]  # fmt: skip
    assert places == sorted(places)


def test_a_mug_in_a_press_has_its_own_words(cache, tmp_path):
    words = spoken(ticket_pdf(ticket_data("mug"), cache=cache), tmp_path)
    assert "180–205 °C (356–401 °F), 150–240 s" in words
    assert "End 1 (marked lay first) to the right of the handle, end 2 (marked lay on top) to its left" in words
    assert "12 mm from the handle's middle" in words
    assert "A press can crush and burn" in words
    assert "Do not cool hot ceramic or glass in water." in words
    for absent in ("Sleeve over", "weld line", "never used for food again", "vacuum", "laps over"):
        assert absent not in words, absent


def test_the_convert_route_turns_the_drivers_colour_off(cache, tmp_path):
    given = sheet("straight", route="convert", profile="desk-printer.icc", intent="relative", black_point=False)
    words = spoken(ticket_pdf(ticket_data(sheet=given), cache=cache), tmp_path)
    assert "Colour control off: the page is already in desk-printer.icc (relative intent" in words
    assert "compensation off" in words
    assert "The page is sRGB" not in words


def test_without_check_bars_the_trim_is_measured(cache, tmp_path):
    words = spoken(ticket_pdf(ticket_data(sheet=sheet("straight", check_bar_mm=0.0)), cache=cache), tmp_path)
    assert "No room for check bars on this page: measure the trim instead, 241.4 mm × 102 mm" in words


def test_a_folded_edge_is_not_cut(cache, tmp_path):
    folded = dataclasses.replace(wrap("straight"), base="fold")
    words = spoken(ticket_pdf(dataclasses.replace(ticket_data(), wrap=folded), cache=cache), tmp_path)
    assert "Do not cut at the base" in words


def test_accepted_errors_stand_first(cache, tmp_path):
    findings = (
        Finding("over-handle", Severity.ERROR, "Covers the handle by 3 mm.", accepted=True),
        Finding("art-short", Severity.ERROR, "Short by 1 mm.", accepted=True),
    )
    words = spoken(ticket_pdf(ticket_data(findings=findings), cache=cache), tmp_path)
    line = "Made in spite of errors, accepted by name: art-short, over-handle."
    assert line in words
    assert words.index(line) < words.index("Paper")


@pytest.mark.parametrize("paper", ["Letter", "A4"])
@pytest.mark.parametrize("kind", ["straight", "tapered", "mug"])
def test_the_worst_case_is_still_one_page_with_all_its_cautions(kind, paper, cache, tmp_path):
    given = sheet(kind, route="convert", profile="p" * 400, check_bar_mm=0.0)
    data = dataclasses.replace(
        ticket_data(kind, title=ODD * 30, sheet=given, findings=WORST, ware="unknown", heater="unknown", paper=paper),
        blank=blank(kind, name="Blank " * 60, weld=True),
        wrap=dataclasses.replace(wrap(kind), rim="fold", base="fold"),
    )
    pdf = ticket_pdf(data, cache=cache)
    (size,) = pages(pdf)
    words = spoken(pdf, tmp_path)
    assert all(one.text in words for one in cautions())
    assert "Result, and why" in words
    assert "more: the proof and the report list them all." in words
    assert "#panic() \\ $x$ //" in words
    inside = [box for _, _, _, box in letters(pdf)]
    assert min(box[0] for box in inside) >= 20
    assert max(box[2] for box in inside) <= size[0] - 20
    assert min(box[1] for box in inside) >= 20
    assert max(box[3] for box in inside) <= size[1] - 20
    assert min(one for _, _, one, _ in letters(pdf)) >= 7.5 - 1e-3


@pytest.mark.parametrize("kind", ["straight", "tapered"])
def test_the_worst_case_with_an_estimate_is_one_page_too(kind, cache, tmp_path):
    heat = HeatFacts(
        "195 °C (383 °F), about 14.5 min (10–21.5 min)",
        (("Load", "12 pieces, outer shell of 0.55 mm steel, in " + "W" * 60), ("Estimate", "word " * 25)),
        ("An estimate, never a promise: try one piece first.", "word " * 28),
        (("Far above the maker's limit, and so on. " * 4, True),),
    )
    given = sheet(kind, route="convert", profile="p" * 400, check_bar_mm=0.0)
    data = dataclasses.replace(
        ticket_data(kind, title=ODD * 30, sheet=given, findings=WORST, ware="unknown", heater="unknown", heat=heat),
        blank=blank(kind, name="Blank " * 60, weld=True),
        wrap=dataclasses.replace(wrap(kind), rim="fold", base="fold"),
    )
    pdf = ticket_pdf(data, cache=cache)
    (size,) = pages(pdf)
    words = spoken(pdf, tmp_path)
    assert "195 °C (383 °F), about 14.5 min (10–21.5 min)" in words
    assert all(one.text in words for one in cautions())
    inside = [box for _, _, _, box in letters(pdf)]
    assert max(box[3] for box in inside) <= size[1] - 20
    assert min(one for _, _, one, _ in letters(pdf)) >= 7.5 - 1e-3


def test_lettering_is_embedded(cache, tmp_path):
    table = fonts(ticket_pdf(ticket_data(title="Größe, Привет, Ελλάδα, مرحبا"), cache=cache), tmp_path)
    assert table
    assert all(row[-5] == "yes" for row in table)


def test_without_a_recipe_the_makers_are_named(cache, tmp_path):
    words = spoken(ticket_pdf(ticket_data(recipe=None), cache=cache), tmp_path)
    assert "No recipe named" in words
    assert "from the makers of the blank, the ink and the paper" in words
    assert "°C" not in words
