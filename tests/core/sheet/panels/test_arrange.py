"""Panels on their pages: each fits, each says what it meets, and mark meets mark where they join."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.sheet_on_paper.lettering import set_label

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.sheet.panels.arrange import arrange_panels, ends_of, panel_fits
from wrapwright.core.sheet.panels.joins import JoinsAsked, panels_of
from wrapwright.core.sheet.placed import Slip
from wrapwright.core.sheet.request import SheetRequest

LETTER = SheetRequest()
SLIP = Slip("Flask")
WIDE = FlatWrap(330.0, 330.0, 150.0, 6.0)
STEEP = FlatWrap(290.0, 330.0, 170.0, 6.0)


def arranged(wrap, slips=(SLIP,)):
    panels = panels_of(JoinsAsked(wrap, 4.0), lambda one: panel_fits(one, LETTER, 2.0))
    return arrange_panels(panels, bleed_mm=2.0, sheet=LETTER, slips=slips, set_label=set_label)


def marks_in_flat(page, low, high):
    """Middles of the corner marks in flat mm that lie beside rim and base at turns between two bounds."""
    back = np.linalg.inv(page.to_page)
    boxes = [box for name, box in page.places if name == "corner marks"]
    middles = np.array([[(box[0] + box[2]) / 2, (box[1] + box[3]) / 2, 1.0] for box in boxes]) @ back.T
    return middles[(middles[:, 0] > low) & (middles[:, 0] < high), :2]


@pytest.mark.parametrize("wrap", [WIDE, STEEP])
def test_the_marks_of_two_panels_meet_at_their_join(wrap):
    found = arranged(wrap)
    first, second = found.pages
    assert (first.panel, second.panel) == (1, 2)
    for page in found.pages:
        left, bottom, right, top = page.bleed_box
        assert min(left, bottom, page.width_mm - right, page.height_mm - top) >= 4.0 - 1e-9
    join = found.panels[0].to_turn
    assert join == 180.0
    here = [marks_in_flat(page, -1.5, 1.5) for page in (first, second)]
    upright = [one[(np.abs(one[:, 0]) < 0.2)] for one in here]
    assert len(upright[0]) == len(upright[1]) == 2  # one beyond the rim, one beyond the base
    assert np.allclose(np.sort(upright[0], axis=0), np.sort(upright[1], axis=0), atol=0.01)


def test_each_end_says_what_it_meets():
    assert ends_of(1, 3) == ("lay first", "under panel 2")
    assert ends_of(2, 3) == ("meets panel 1", "under panel 3")
    assert ends_of(3, 3) == ("meets panel 2", "lay on top")
    first, second = arranged(WIDE).pages
    assert {"lay first", "under panel 2"} <= set(first.marks)
    assert {"meets panel 1", "lay on top"} <= set(second.marks)


def test_pieces_come_one_after_the_other_with_all_their_panels():
    found = arranged(WIDE, slips=[Slip("Flask", 1, 2), Slip("Flask", 2, 2)])
    assert [(page.piece, page.panel) for page in found.pages] == [(1, 1), (1, 2), (2, 1), (2, 2)]
    assert [row["panel"] for row in (page.report_row() for page in found.pages)] == [1, 2, 1, 2]
    labels = [label.text for page in found.pages for label in page.labels if label.what == "label"]
    assert [text.split("  ·  ")[:2] for text in labels] == [
        ["Flask, panel 1 of 2", "piece 1 of 2"],
        ["Flask, panel 2 of 2", "piece 1 of 2"],
        ["Flask, panel 1 of 2", "piece 2 of 2"],
        ["Flask, panel 2 of 2", "piece 2 of 2"],
    ]


def test_a_panel_needs_room_for_its_marks_too():
    small = replace(LETTER, paper="own", width_mm=150.0, height_mm=200.0)
    flat = FlatWrap(120.0, 120.0, 142.0 - 16.0, 3.0)
    assert panel_fits(flat, small, 2.0)
    assert not panel_fits(replace(flat, height_mm=193.0), small, 2.0)
