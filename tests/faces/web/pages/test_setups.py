"""Set-ups: listed, opened to be changed, and the field that a scale is measured by."""

from __future__ import annotations

import re
import tomllib
from typing import Any

from tests.house.tree import ROOT

from wrapwright.core.sheet.papers import PAPERS
from wrapwright.faces.web.pages.setups import ACROSS_MM, ALONG_MM, field_job
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.setups import AddSetup, add_setup


def test_the_form_offers_every_paper(client: Any) -> None:
    text = client.get("/setups").text
    for name in PAPERS:
        assert f'<option value="{name}"' in text
    assert "No set-up is kept yet" in text
    assert "Open Sans" in text  # the base font, installed with the product
    assert "gloves" in text


def test_a_set_up_stands_in_words_and_can_be_changed(client: Any, bench: Bench) -> None:
    sheet = {
        "paper": {"roll": "24 in"},
        "margins": ["3 mm", "4 mm", "5 mm", "6 mm"],
        "ppi": 600,
        "scale": [1.0026, 0.996],
    }
    kept = add_setup(AddSetup("Roll <one>", sheet, {}), bench, Watch())
    text = client.get("/setups").text
    assert "Roll &lt;one&gt;" in text
    assert "609.6\u00a0mm" in text
    assert "scale 1.0026 across, 0.9960 along" in text
    form = client.get(f"/setups?change={kept.id}").text
    found = dict(re.findall(r'id="([a-z-]+)"[^>]* data-length="([^"]*)"', form))
    assert found["paper-width"] == "609.6"
    assert [found[f"margin-{side}"] for side in ("top", "right", "bottom", "left")] == ["3", "4", "5", "6"]
    # 190 x 1.0026 and 250 x 0.996: what was measured on the field.
    assert (found["measured-across"], found["measured-along"]) == ("190.494", "249")
    assert '<option value="roll" selected>' in form


def test_a_set_up_that_is_not_there_is_told(client: Any) -> None:
    answer = client.get("/setups?change=99")
    assert answer.status_code == 404
    assert "To the shelf" in answer.text


def test_the_field_is_the_one_that_the_pages_on_sheets_tell_of() -> None:
    written = tomllib.loads((ROOT / "examples" / "two-lengths.toml").read_text(encoding="utf-8"))
    assert field_job() == written
    assert f"{ALONG_MM} x {ACROSS_MM} mm" in (ROOT / "docs" / "sheet.md").read_text(encoding="utf-8")
