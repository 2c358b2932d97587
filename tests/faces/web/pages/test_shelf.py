"""The shelf, empty and with something on it."""

from __future__ import annotations

from typing import Any

from wrapwright.faces.web.pages.shelf import FEW
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.blanks import AddBlank, add_blank, list_starters
from wrapwright.jobs.kept.designs import NewDesign, RemoveDesign, new_design, remove_design

TUMBLER = {"kind": "straight", "girth": "9 1/4 in", "wall": "6 1/2 in"}


def put(bench: Bench, name: str) -> int:
    return add_blank(AddBlank(name, TUMBLER), bench, Watch()).id


def test_an_empty_shelf_says_what_to_do_first(client: Any) -> None:
    text = client.get("/").text
    assert "Measure your first blank" in text
    assert text.count("<h1") == 1
    assert "measure yours" in text
    starters = list_starters()
    assert len(starters) >= 8
    for one in starters:
        assert f'href="/measure?starter={one.key}"' in text
        assert one.name in text


def test_a_blank_stands_with_its_figures(client: Any, bench: Bench) -> None:
    kept = put(bench, "Tumbler <590>")
    text = client.get("/").text
    assert "Tumbler &lt;590&gt;" in text
    assert "<590>" not in text
    assert f'href="/measure/{kept}"' in text
    assert f'src="/api/blanks/{kept}/drawing.svg' in text
    assert 'data-mm="234.95"' in text
    assert "234.9\u00a0mm" in text or "235.0\u00a0mm" in text  # half-way: either rounding


def test_lengths_follow_the_unit(client: Any, bench: Bench) -> None:
    put(bench, "Tumbler")
    asked = client.get("/?unit=in")
    assert "9.250\u00a0in" in asked.text
    assert "unit=in" in asked.headers["set-cookie"]
    assert "9.250\u00a0in" in client.get("/").text  # the choice is kept
    client.get("/?unit=mm")
    assert "9.250\u00a0in" not in client.get("/").text


def test_a_search_leaves_only_what_it_finds(client: Any, bench: Bench) -> None:
    put(bench, "Blue tumbler")
    put(bench, "Mug")
    text = client.get("/?search=blue").text
    assert "Blue tumbler" in text
    assert "Mug" not in text
    assert "No design has that" in text
    assert "Shapes to start from" not in text
    assert "No blank has that" in client.get("/?search=%3Cb%3E").text
    assert "<b>" not in client.get("/?search=%3Cb%3E").text


def test_the_last_design_stays_one_step_away_while_it_is_there(client: Any, bench: Bench) -> None:
    made = new_design(NewDesign("Regatta", blank_id=put(bench, "Mug")), bench, Watch())
    client.get(f"/designs/{made.id}")
    assert f'href="/designs/{made.id}/sheet"' in client.get("/history").text
    remove_design(RemoveDesign(made.id), bench, Watch())
    text = client.get("/history").text
    assert "/sheet" not in text
    assert "open a design on the shelf first" in text


def test_many_designs_are_shown_a_few_at_first(client: Any, bench: Bench) -> None:
    kept = put(bench, "Mug")
    for number in range(FEW + 1):
        new_design(NewDesign(f"Design {number}", blank_id=kept), bench, Watch())
    text = client.get("/").text
    assert f"Show all {FEW + 1}" in text
    assert text.count('data-design="') == FEW + 1
    assert "Show all" not in client.get("/?search=design").text
