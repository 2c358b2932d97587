"""What was typed becomes a job file's tables: bare lengths get the unit of the screen, empty fields are asked for."""

from __future__ import annotations

import pytest

from wrapwright.jobs.live.measured.typed import lengths_read, needed_words, typed


@pytest.mark.parametrize(
    ("text", "unit", "kept"),
    [
        ("9 1/4", "in", "9 1/4 in"),
        ("9¼", "in", "9¼ in"),
        ("235", "mm", "235 mm"),
        (" 23.5 cm ", "mm", "23.5 cm"),
        ('9-1/4"', "mm", '9-1/4"'),
        ("6' 2 1/2″", "mm", "6' 2 1/2″"),
        ("9 1/4", "mm", "9 1/4 mm"),  # the figure is then refused as a girth, with the question for inches
    ],
)
def test_bare_lengths_get_the_unit_and_written_ones_keep_theirs(text: str, unit: str, kept: str) -> None:
    assert typed({"kind": "straight", "girth": text, "wall": "1"}, {}, unit).blank["girth"] == kept


def test_words_and_counts_are_left_alone() -> None:
    form = typed(
        {"kind": "straight", "coating": "#123456", "handle": {"at": "90", "gap": "24"}}, {"overlap": "auto"}, "mm"
    )
    assert form.blank["coating"] == "#123456"
    assert form.blank["handle"] == {"at": "90", "gap": "24 mm"}
    assert form.wrap == {"overlap": "auto"}


def test_what_is_empty_is_asked_for_and_not_kept() -> None:
    assert [one.field for one in typed({}, {}, "mm").needed] == ["blank.kind"]
    form = typed(
        {"kind": "tapered", "diameter_top": "", "diameter_bottom": "80", "height": ""}, {"band": {"from": ""}}, "mm"
    )
    assert [one.field for one in form.needed] == ["blank.diameter_top", "blank.height"]
    assert form.blank == {"kind": "tapered", "diameter_bottom": "80 mm"}
    assert form.wrap == {}
    assert needed_words(form.needed, begun=True) == "Still needed: the diameter at the top and the upright height."


def test_rows_keep_the_number_they_have_in_the_form() -> None:
    rows = [["0", "226"], ["", ""], ["40", "231"], ["90", ""]]
    form = typed({"kind": "profile", "readings": rows}, {}, "mm")
    assert form.blank["readings"] == [["0 mm", "226 mm"], ["40 mm", "231 mm"]]
    assert form.rows["readings"] == [0, 2]
    assert [one.field for one in form.needed] == ["blank.readings.3.1"]
    assert [field for field, _, _ in lengths_read(form)][2:] == ["blank.readings.2.0", "blank.readings.2.1"]


def test_a_place_to_keep_bare_that_was_only_begun_waits() -> None:
    boxes = [
        {"at": "front", "up": "", "width": "", "height": ""},
        {"at": "front", "up": "20", "width": "", "height": "8"},
    ]
    form = typed({"kind": "straight", "girth": "235", "wall": "165", "keepout": boxes}, {}, "mm")
    assert "keepout" not in form.blank
    assert [one.field for one in form.needed] == ["blank.keepout.1.width"]


def test_lengths_are_said_in_the_other_unit() -> None:
    # 9 3/16 in = 233.3625 mm, exactly (16 CFR 500.19).
    form = typed({"kind": "straight", "girth": "9 3/16 in", "wall": "88.9"}, {}, "mm")
    assert list(lengths_read(form)) == [("blank.girth", 233.3625, "233.36 mm"), ("blank.wall", 88.9, "3.5 in")]
