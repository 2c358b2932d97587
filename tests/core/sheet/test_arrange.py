from __future__ import annotations

import json
import re
from dataclasses import replace

import numpy as np
import pytest
from tests.sheet_on_paper.lettering import set_label

from wrapwright.core.base.findings import NEVER_ACCEPTED, Severity
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.plate import Plate
from wrapwright.core.design.borders import trim_outline
from wrapwright.core.sheet.arrange import arrange
from wrapwright.core.sheet.placed import PlacedPage, Slip
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.room import distance, exact_box, sampled

LETTER = SheetRequest()
A4 = SheetRequest(paper="A4", width_mm=210.0, height_mm=297.0)
A3 = SheetRequest(paper="A3", width_mm=297.0, height_mm=420.0)
ROLL = SheetRequest(paper="roll 610 mm", width_mm=610.0, height_mm=None)
STRAIGHT = FlatWrap(235.377, 235.377, 102.0, 6.0)
TAPERED = FlatWrap(210.377, 250.377, 140.0, 5.0)
INVERTED = FlatWrap(250.0, 205.0, 100.0, 6.0)
MUG = FlatWrap(250.0, 250.0, 90.0, 0.0, gap_mm=24.0)
SLIP = Slip("Weir Street regatta", 1, 2, "Ada")


def laid(wrap, sheet=LETTER, bleed=2.0, slips=(SLIP,)):
    return arrange(wrap, bleed_mm=bleed, sheet=sheet, slips=slips, set_label=set_label)


def ink(page: PlacedPage) -> np.ndarray:
    return np.concatenate(list(sampled(page.inked_marks())))


@pytest.mark.parametrize("wrap", [STRAIGHT, INVERTED, MUG])
def test_a_common_wrap_keeps_everything_and_turns_the_page(wrap):
    result = laid(wrap)
    page = result.pages[0]
    assert (page.width_mm, page.height_mm) == (279.4, 215.9)
    arcs = {"guide arcs 3 mm"} if wrap.is_sector else set()
    assert set(page.marks) - arcs == {
        "lay first",
        "lay on top",
        "corner marks",
        "rim",
        "base",
        "label",
        "check bars 100 mm",
    }
    assert arcs <= set(page.marks)
    assert result.findings == ()
    assert result.notes == ()


@pytest.mark.parametrize(
    ("wrap", "sheet"), [(STRAIGHT, LETTER), (TAPERED, A3), (INVERTED, LETTER), (MUG, A4), (STRAIGHT, ROLL)]
)
def test_marks_stay_3_mm_off_the_trim_and_within_the_printable_area(wrap, sheet):
    page = laid(wrap, sheet).pages[0]
    points = ink(page)
    assert distance(points[::7], sampled(page.trim)) >= 3.0 - 0.06
    assert points.min() >= 4.0 - 1e-6
    assert (points <= np.array([page.width_mm - 4.0, page.height_mm - 4.0]) + 1e-6).all()


def test_no_mark_touches_a_wide_bleed():
    page = laid(replace(STRAIGHT, height_mm=90.0), bleed=5.0).pages[0]
    assert distance(ink(page)[::5], sampled(page.bleed)) >= 0.9


def test_it_lies_in_the_middle_when_nothing_pushes_it():
    page = laid(MUG, A3).pages[0]
    left, bottom, right, top = page.trim_box
    assert (left + right) / 2 == pytest.approx(297.0 / 2, abs=1e-6)
    assert (bottom + top) / 2 == pytest.approx(420.0 / 2, abs=1e-6)


def test_words_stand_by_the_right_ends_and_edges():
    page = laid(STRAIGHT).pages[0]
    where = {label.what: label.at_mm for label in page.labels}
    # Mirrored: the left end as seen lies on the page's right.
    assert where["lay first"][0] > page.trim_box[2]
    assert where["lay on top"][0] < page.trim_box[0]
    assert where["rim"][1] > page.trim_box[3]
    assert where["base"][1] < page.trim_box[1]
    assert all(np.linalg.det(page.to_page[:2, :2]) < 0 for page in laid(STRAIGHT).pages)


def test_a_quarter_turn_takes_the_rim_along():
    page = laid(replace(STRAIGHT, lower_mm=400, upper_mm=400), replace(ROLL, width_mm=150.0)).pages[0]
    assert page.turn_deg == 90
    where = {label.what: label.at_mm[0] for label in page.labels}
    assert where["rim"] < page.trim_box[0]
    assert where["base"] > page.trim_box[2]


@pytest.mark.parametrize("sheet", [LETTER, A3])
def test_scale_is_corrected_along_the_feed_and_across_it(sheet):
    skewed = replace(sheet, scale_across=0.99, scale_along=1.01)
    page = laid(STRAIGHT, skewed).pages[0]
    lying = page.width_mm > page.height_mm
    assert lying == (sheet is LETTER)
    x, y = (1.01, 0.99) if lying else (0.99, 1.01)
    row = page.report_row()
    assert row["width_mm"] == pytest.approx(241.377 / x, abs=1e-6)
    assert row["height_mm"] == pytest.approx(102.0 / y, abs=1e-6)


def test_check_bars_are_exactly_100_mm_and_corrected_too():
    page = laid(STRAIGHT, replace(LETTER, scale_across=0.99, scale_along=1.01)).pages[0]
    sizes = [tuple(np.ptp(sub.points, axis=0)) for sub in page.lines.subpaths]
    assert any(size[0] == pytest.approx(100 / 1.01, abs=1e-9) for size in sizes)
    assert any(size[1] == pytest.approx(100 / 0.99, abs=1e-9) for size in sizes)


def marks_by_height(heights, sheet=LETTER):
    return [laid(FlatWrap(180.0, 180.0, height, 5.0), sheet, bleed=3.0) for height in heights]


def test_things_give_way_in_their_order():
    tight = replace(LETTER, width_mm=215.9, height_mm=215.9)
    ranks = []
    for result in marks_by_height((182.0, 190.0, 193.0, 196.0, 200.0, 203.0, 207.0), tight):
        page = result.pages[0]
        bars = 100 if "check bars 100 mm" in page.marks else 50 if "check bars 50 mm" in page.marks else 0
        ranks.append((bars, "corner marks" in page.marks, "label" in page.marks, page.bleed_mm))
    seen = list(dict.fromkeys(ranks))
    assert (0, False, True, 0.0) in seen
    assert (100, True, True, 3.0) in seen
    for bars, corner, label, bleed in seen:
        assert not (corner is False and bleed > 0 and bars > 0)  # bars go before corner marks
        assert not (label is False and bleed > 0 and corner)  # corner marks before the label
    assert [rank[3] for rank in ranks] == sorted((rank[3] for rank in ranks), reverse=True)


def test_each_thing_that_gives_way_is_said():
    result = laid(FlatWrap(240.0, 240.0, 207.0, 6.0))
    assert [one.rule for one in result.findings] == ["bleed-cut"]
    finding = result.findings[0]
    assert finding.severity is Severity.WARNING
    assert (finding.figure, finding.limit, finding.unit) == (0.0, 2.0, "mm")
    text = " ".join(result.notes)
    assert "check bars" in text
    assert "corner marks" in text
    assert "bleed of 2 mm" in text


def test_nothing_is_scaled_to_fit():
    for height in (100.0, 190.0, 207.9):
        row = laid(FlatWrap(200.0, 200.0, height, 5.0)).pages[0].report_row()
        assert sorted((row["width_mm"], row["height_mm"])) == pytest.approx(sorted((205.0, height)), abs=1e-6)


def test_too_tall_says_by_how_much_and_what_would_fit():
    result = laid(FlatWrap(240.0, 240.0, 212.0, 6.0))
    assert result.pages == ()
    (finding,) = result.findings
    assert finding.rule == "does-not-fit"
    assert finding.rule in NEVER_ACCEPTED
    assert finding.severity is Severity.ERROR
    assert "4.1 mm too tall" in finding.message
    assert "Tabloid" in finding.message
    band = float(re.search(r"band ([\d.]+) mm high", finding.message).group(1))
    assert laid(FlatWrap(240.0, 240.0, band, 6.0)).pages
    assert laid(FlatWrap(240.0, 240.0, band + 0.1, 6.0)).pages == ()


def test_on_a_taper_the_band_offered_fits_too():
    wrap = FlatWrap(200.0, 240.0, 205.0, 6.0)
    message = laid(wrap).findings[0].message
    band = float(re.search(r"band ([\d.]+) mm high", message).group(1))
    assert 199.0 <= band < 205.0
    assert laid(replace(wrap, height_mm=band, upper_mm=wrap.turn_length(band))).pages


def test_much_too_large_offers_no_band_but_a_paper_or_a_roll():
    message = laid(FlatWrap(300.0, 300.0, 250.0, 6.0)).findings[0].message
    assert "band" not in message
    assert "Tabloid" in message
    message = laid(FlatWrap(700.0, 700.0, 600.0, 6.0)).findings[0].message
    assert "roll at least 608 mm" in message


def test_uneven_margins_are_safe_whichever_way_the_page_is_turned():
    uneven = replace(LETTER, margins_mm=(3.0, 3.0, 14.0, 3.0))
    page = laid(STRAIGHT, uneven).pages[0]
    points = ink(page)
    assert points[:, 0].min() >= 14.0 - 1e-6
    assert points[:, 0].max() <= 279.4 - 14.0 + 1e-6
    # Too long for that, but not for the true margins: the page stays upright and the piece is turned.
    page = laid(FlatWrap(252.0, 252.0, 102.0, 6.0), uneven).pages[0]
    assert (page.width_mm, page.height_mm, page.turn_deg) == (215.9, 279.4, 90)


def test_every_piece_lies_alike_and_has_its_own_label():
    slips = [Slip("Crew", k, 3, name) for k, name in enumerate(("Ada", "Bartholomew Longfellow", ""), 1)]
    pages = laid(STRAIGHT, slips=slips).pages
    assert [page.piece for page in pages] == [1, 2, 3]
    assert len({json.dumps(page.report_row() | {"piece": 0}) for page in pages}) == 1
    texts = [next(label.text for label in page.labels if label.what == "label") for page in pages]
    assert "Ada" in texts[0]
    assert "Bartholomew" in texts[1]
    assert "3 of 3" in texts[2]
    assert len({next(label.at_mm for label in page.labels if label.what == "label") for page in pages}) == 1


def test_a_long_title_is_cut_and_the_number_stays():
    page = laid(STRAIGHT, slips=[Slip("A title " * 40, 7, 9, "Ada")]).pages[0]
    text = next(label.text for label in page.labels if label.what == "label")
    assert "…" in text
    assert "piece 7 of 9" in text
    assert "Ada" in text
    assert "check bars 100 mm" in page.marks


def test_report_numbers_are_the_box_round_the_trim():
    page = laid(TAPERED, A3).pages[0]
    row = page.report_row()
    box = exact_box(trim_outline(TAPERED).times(page.to_page))
    assert row["x_mm"] == pytest.approx(box[0], abs=1e-6)
    assert row["y_mm"] == pytest.approx(box[1], abs=1e-6)
    assert row["turn_deg"] == 0
    assert row["mirrored"] is True


def flat(width: float, height: float, plate: Plate) -> FlatWrap:
    return FlatWrap(width, width, height, seam_deg=180.0, plate=plate)


@pytest.mark.parametrize(
    ("plate", "guides"),
    [
        (Plate("rectangle"), "corner marks"),
        (Plate("rectangle", 6.0), "guide line 3 mm"),
        (Plate("circle"), "guide line 3 mm"),
    ],
    ids=["sharp", "rounded", "circle"],
)
def test_a_flat_blank_has_a_top_and_no_ends(plate, guides):
    result = laid(flat(95.0, 95.0, plate))
    assert result.notes == ()
    page = result.pages[0]
    assert set(page.marks) == {guides, "top", "check bars 100 mm", "label"}
    assert {label.text for label in page.labels if label.what == "top"} == {"top"}
    assert distance(ink(page), sampled(page.trim)) >= 2.9


def test_what_gives_way_round_a_flat_blank_is_told_in_its_words():
    small = SheetRequest(paper="card", width_mm=106.0, height_mm=106.0)
    result = laid(flat(97.5, 97.5, Plate("circle")), small)
    assert [one.message.split(": ")[0] for one in result.findings] == [
        "There is room for the blank on card but not for its bleed"
    ]
    assert "0 mm of 2 mm is left all round" in result.findings[0].message
    assert "band" not in result.findings[0].message
    assert any("no room on the page for the dashed line to cut by" in note for note in result.notes)
    assert not any(word in note for note in result.notes for word in ("lay first", "lay on", "corner marks", " rim"))


def test_a_flat_blank_too_large_for_its_paper_is_offered_a_larger_one_alone():
    (finding,) = laid(flat(300.0, 250.0, Plate("rectangle"))).findings
    assert (finding.rule, finding.severity) == ("does-not-fit", Severity.ERROR)
    assert finding.message.startswith("The blank is 300.0 x 250.0 mm")
    assert finding.message.endswith("lies. Tabloid would take it as it is.")
    assert not any(word in finding.message for word in ("band", "wrap", "panels"))
