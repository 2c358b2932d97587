"""The figures that the check of a list uses are those the checks of a single piece use."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.jobs.names.conftest import Given

from wrapwright.core.checks.gather import facts_of
from wrapwright.core.checks.run import RULES_WITHOUT_PIXELS, run_rules
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.checking import check_names
from wrapwright.jobs.names.values import CheckNames
from wrapwright.jobs.work.composing import compose
from wrapwright.jobs.work.judging import asked_of
from wrapwright.jobs.work.opening import opened

SHARED = {"glyph-missing", "text-does-not-fit", "text-small", "stroke-thin", "text-too-long"}
SHARED |= {"crosses-seam", "over-handle", "off-wrap", "over-keepout", "uncoated", "code-module", "code-wide"}
TEXTS = """[[element]]
kind = "text"
name = "name"
text = "{name}"
width = "60 mm"
height = "16 mm"
up = "140 mm"
[[element]]
kind = "text"
name = "free"
text = "to {name}"
size = "9 mm"
at = ["front", "120 deg"]
up = "100 mm"
[[element]]
kind = "text"
name = "turned"
text = "{name}"
size = "6 mm"
up = "60 mm"
turn = 40
[[element]]
kind = "text"
name = "small"
text = "{name}\\\\n{name}"
height = "4 mm"
up = "20 mm"
[[element]]
kind = "code"
name = "code"
text = "{name} {name} {name} {name}"
width = "18 mm"
at = "back"
up = "60 mm"
"""
BLANKS = {
    "straight": 'kind = "straight"\ngirth = 235\nwall = 165\n',
    "tapered": 'kind = "tapered"\ngirth_top = 270\ngirth_bottom = 200\nwall = 165\n',
    "kept free": 'kind = "straight"\ngirth = 235\nwall = 165\ncoated = { from = "12 mm", to = "150 mm" }\n'
    'keepout = [ { at = "25 deg", up = "100 mm", width = "8 mm", height = "8 mm" } ]\n',
    "mug": 'kind = "straight"\ngirth = 255\nwall = 165\nhandle = { at = "back", gap = "24 mm" }\n',
}
MUST = {
    "straight": "crosses-seam",
    "tapered": "crosses-seam",
    "kept free": "over-keepout",
    "mug": "over-handle",
}
NAMES = ["Ada", "Wolfeschlegelsteinhausen Bergerdorff", "😀 Eve"]


@pytest.mark.parametrize("blank", BLANKS)
def test_the_rows_say_what_single_pieces_say(given: Given, bench: Bench, blank: str, tmp_path: Path) -> None:
    """Each row made a job of its own, composed and held against the rules gives the same for the same texts."""
    head = f"format = 1\naccept = []\n[blank]\n{BLANKS[blank]}[wrap]\noverlap = 0\n{TEXTS}"
    listed = given(*NAMES, header="name", job=f'{head}[names]\nfile = "crew.csv"\n')
    checked = check_names(CheckNames(listed), bench, Watch())
    ours = {(one.problem.row, one.problem.field, one.problem.rule) for one in checked.problems}
    theirs = set()
    for number, name in enumerate(NAMES, start=2):
        single = tmp_path / "single.toml"
        single.write_text(f'{head}[fields]\nname = "{name}"\n', encoding="utf-8")
        composed = compose(opened(single, None, tmp_path), bench, Watch())
        findings = run_rules(facts_of(composed.draw_list, asked_of(composed)), RULES_WITHOUT_PIXELS)
        theirs |= {(number, one.element or "", one.rule) for one in findings if one.rule in SHARED}
    assert {one for one in ours if one[2] in SHARED} == theirs
    assert {rule for _, _, rule in theirs} >= {"glyph-missing", "text-small", "text-too-long"}
    assert MUST[blank] in {rule for _, _, rule in theirs}
