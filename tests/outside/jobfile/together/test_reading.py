"""Sheets files as they are understood."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.outside.jobfile.together.reading import read_sheets

PLAIN = 'format = 1\n[[piece]]\njob = "mug.toml"\n'


def test_what_is_left_out_has_its_usual_value():
    asked = read_sheets(PLAIN, stem="friday")
    assert asked.title == "friday"
    assert (asked.pieces[0].job, asked.pieces[0].quantity, asked.pieces[0].turns) == (
        "mug.toml",
        None,
        (0, 90, 180, 270),
    )
    assert (asked.way, asked.gutter_mm) == ("trimmer", 3.0)
    assert [stock.paper for stock in asked.stocks] == ["Letter"]
    assert asked.colour is None
    assert (asked.trimmer.longest_mm, asked.trimmer.slip_mm, asked.trimmer.paper_mm) == (460.0, 1.5, 0.12)


def test_all_of_it():
    text = """format = 1
title = "Friday"
accept = ["Picture-PPI"]
[[piece]]
job = "mug.toml"
quantity = 12
name = "blue"
order = "A17"
turns = [0, 180]
[[piece]]
job = "tag.toml"
[sheet]
papers = [{ paper = "A4", price = 0.2, at_hand = 30 }, { paper = { roll = "610 mm" }, price = 4 }]
margins = [3, 4, 14, 5]
ppi = 600
thickness = "0.1 mm"
scale = [1.01, 0.99]
[lay]
way = "Free"
gutter = "1/8 in"
[trimmer]
longest = "320 mm"
stack = "2 mm"
least = "30 mm"
slip = "1 mm"
[colour]
route = "driver"
"""
    asked = read_sheets(text, stem="x")
    assert asked.pieces[0].quantity == 12
    assert (asked.pieces[0].name, asked.pieces[0].order, asked.pieces[0].turns) == ("blue", "A17", (0, 180))
    sheet, roll = asked.stocks
    # True mm are file mm times the printer's scale; margins left, bottom, right, top.
    assert (sheet.width_mm, sheet.height_mm) == pytest.approx((210 * 1.01, 297 * 0.99))
    assert sheet.margins_mm == pytest.approx((5 * 1.01, 14 * 0.99, 4 * 1.01, 3 * 0.99))
    assert (sheet.price, sheet.at_hand, roll.height_mm, roll.price) == (0.2, 30, None, 4.0)
    assert asked.sheet.paper == "A4"
    assert (asked.way, asked.gutter_mm) == ("free", pytest.approx(3.175))
    assert (asked.trimmer.longest_mm, asked.trimmer.layers, asked.trimmer.least_mm) == (320.0, 20, 30.0)
    assert asked.colour is not None
    assert asked.accept == {"picture-ppi"}


def test_every_problem_is_told_at_once():
    text = PLAIN + 'quantity = 0\norder = "a b"\nturns = [45]\n[lay]\nway = "knife"\ngutter = -1\n'
    with pytest.raises(SeveralProblemsError) as caught:
        read_sheets(text, stem="x")
    assert {one.where for one in caught.value.problems} == {
        "piece 1: quantity",
        "piece 1: order",
        "piece 1: turns 1",
        "lay: way",
        "lay: gutter",
    }


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("format = 2\n", "the format 2 is not known"),
        ("format = 1\n", "missing and needed"),
        ("format = 1\npiece = []\n", "it is empty"),
        (PLAIN + '[colour]\nroute = "convert"\n', "needs the printer's profile"),
        (PLAIN + "[sheet]\npapers = [{ paper = 'A4', price = 0 }]\n", "not more than the limit of 0"),
        (PLAIN.replace("[[piece]]", "[piece]"), "Write [[piece]], in double brackets"),
        ("format = 1\n[[piece]\n", "is not TOML"),
    ],
)
def test_what_is_wrong_is_said_in_a_sentence(text: str, said: str):
    with pytest.raises(WrapwrightError) as caught:
        read_sheets(text, stem="x", where="x.toml")
    assert said in str(caught.value)


def test_a_file_that_is_no_toml_is_called_what_it_is():
    with pytest.raises(WrapwrightError, match="the sheets file is not TOML"):
        read_sheets("format = ", stem="x")
