"""The document on the composing screen: what is done to it, and that the readers of job files read what it writes."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from wrapwright.core.base.places import angle_deg
from wrapwright.core.base.units import length_mm
from wrapwright.core.design.fields import field_names
from wrapwright.faces.web.assets import FOLDER
from wrapwright.outside.jobfile.problems import element_names

Call = Callable[..., Any]
PLACE = "http://modules.example"
CALL = "async ([module, name, given]) => (await import(module))[name](...given)"
CREST = {"kind": "Picture", "file": "crest.svg", "at": ["Front", "112.5 deg"], "width": "70 mm"}


@pytest.fixture(scope="module")
def call(browser: Any) -> Iterator[Call]:
    """Give a way to call a function of the document's modules: module, function, arguments; no server is needed."""
    context = browser.new_context()
    page = context.new_page()
    page.route(f"{PLACE}/**", answered)
    page.goto(f"{PLACE}/")

    def called(module: str, function: str, *given: Any) -> Any:
        return page.evaluate(CALL, [f"{PLACE}/mod/compose/document/{module}.js", function, list(given)])

    yield called
    context.close()


def answered(route: Any) -> None:
    """Answer a request for a module with its file, and any other with an empty page."""
    name = route.request.url.removeprefix(f"{PLACE}/")
    if name.endswith(".js"):
        route.fulfill(content_type="text/javascript", body=(FOLDER / name).read_text(encoding="utf-8"))
    else:
        route.fulfill(content_type="text/html", body="<!doctype html><title>Modules</title>")


def job(*elements: dict[str, Any], **more: Any) -> dict[str, Any]:
    return {"format": 1, "element": list(elements), **more}


def test_lengths_and_places_are_read_back_as_they_were_meant(call: Call) -> None:
    chance = random.Random(3)
    lengths = [0.0, -0.0, 12.5, 1e-7, 1234.567891, *(chance.uniform(-500, 900) for _ in range(200))]
    for mm, text in zip(lengths, [call("measures", "lengthText", mm) for mm in lengths], strict=True):
        assert abs(length_mm(text) - mm) <= 5.01e-7, text
    angles = [0, 90, 180, 270, 360, -45, 359.9999999, 112.5, *(chance.uniform(-360, 720) for _ in range(200))]
    for angle, text in zip(angles, [call("places", "placeText", angle) for angle in angles], strict=True):
        assert abs((angle_deg(text) - angle + 180) % 360 - 180) <= 1.01e-6, text
    assert call("places", "placeText", 450) == "right"
    written = ["12 mm", "12", "2.5 cm", "3 in", '3"', "3 1/8 in", '9-1/4"', "7/8 in", "0.5IN"]
    assert [call("measures", "mmOf", one) for one in written] == pytest.approx([length_mm(one) for one in written])
    assert [call("measures", "mmOf", one) for one in ("wrap", "middle", "1,234 mm", "6' 2 1/2\"", None)] == [None] * 5


def test_names_and_fields_are_those_of_the_job_file(call: Call) -> None:
    document = job({"kind": "text"}, {"kind": "fill"}, {"kind": "Text"}, {"kind": "text", "name": "Ada"}, {"kind": "x"})
    assert call("elements", "namesOf", document) == element_names(document)
    for text in ("{name}", "{{name}} {number}{name}", "no fields", "{ name }", "{{{a}}}"):
        assert set(call("wording", "fieldNames", text)) == field_names(text), text
    assert (
        call("elements", "freeName", job({"kind": "text", "name": "ada"}, {"kind": "x", "name": "Ada 2"}), "Ada")
        == "Ada 3"
    )
    assert "already called" in call("elements", "nameProblem", document, 0, "ADA")
    assert call("elements", "nameProblem", document, 3, "ADA") == ""


def test_a_copy_moves_alone_and_what_is_shared_moves_for_all(call: Call) -> None:
    one = call("elements", "moved", job(CREST), 0, 1, {"at_deg": 180.0})["element"][0]
    assert one == {**CREST, "at": ["front", "back"]}
    assert call("elements", "moved", job(CREST), 0, 0, {"up_mm": 46.25})["element"][0] == {**CREST, "up": "46.25 mm"}
    spread = {"kind": "code", "around": 3}
    one = call("elements", "moved", job(spread), 0, 1, {"at_deg": 100.0})["element"][0]
    assert one == {"kind": "code", "at": ["front", "100 deg", "240 deg"]}
    single = call("elements", "moved", job({"kind": "text"}), 0, 0, {"at_deg": 359.9999999})["element"][0]
    assert single == {"kind": "text", "at": "front"}
    assert call("elements", "turned", job({"kind": "text", "turn": 3}), 0, 360)["element"][0] == {"kind": "text"}
    assert call("elements", "turned", job({"kind": "text"}), 0, 190)["element"][0]["turn"] == -170


def test_sizing_keeps_what_the_element_has_a_figure_for(call: Call) -> None:
    def sized(element: dict[str, Any], to: dict[str, float], width: float, height: float) -> dict[str, Any]:
        was = {"width_mm": width, "height_mm": height}
        made: dict[str, Any] = call("elements", "sized", job(element), 0, to, was)["element"][0]
        return made

    assert sized({"width": "70 mm"}, {"width_mm": 84.0, "height_mm": 60.0}, 70, 50) == {"width": "84 mm"}
    assert sized({"height": "50 mm"}, {"width_mm": 84.0, "height_mm": 60.0}, 70, 50) == {"height": "60 mm"}
    assert sized({"width": 70, "height": 50}, {"height_mm": 60.0}, 70, 50) == {"width": 70, "height": "60 mm"}
    assert sized({"size": "9 mm"}, {"width_mm": 60.0, "height_mm": 18.0}, 40, 12) == {"size": "13.5 mm"}
    # In a box that is wider than what is seen in it, both grow by the same share.
    both = {"width": "80 mm", "height": "40 mm"}
    assert sized(both, {"width_mm": 90.0, "height_mm": 60.0}, 60, 40) == {"width": "120 mm", "height": "60 mm"}
    assert sized({"width": "2 3/4 in"}, {"width_mm": 139.7}, 69.85, 30) == {"width": "139.7 mm"}
    assert sized({"width": "wrap", "height": "90 mm"}, {"height_mm": 45.0}, 240, 90)["width"] == "wrap"


def test_opposite_spread_order_and_removal(call: Call) -> None:
    made = call("elements", "oppositeCopy", job({"kind": "text", "at": "112.5 deg"}), 0, 0)
    assert (made["job"]["element"][0]["at"], made["copy"], made["already"]) == (["112.5 deg", "292.5 deg"], 1, False)
    again = call("elements", "oppositeCopy", made["job"], 0, 1)
    assert (again["copy"], again["already"], again["job"]) == (0, True, made["job"])
    assert call("elements", "spread", job({"kind": "text", "at": "front"}), 0, 0, 5)["element"][0] == {
        "kind": "text",
        "around": 5,
    }
    tilted = call("elements", "spread", job({"kind": "text", "at": "30 deg"}), 0, 0, 3)["element"][0]
    assert tilted["at"] == ["30 deg", "150 deg", "left"]
    assert call("elements", "removedCopy", job(CREST), 0, 0)["element"] == [{**CREST, "at": "112.5 deg"}]
    assert call("elements", "removedCopy", job({"kind": "fill"}), 0, 0)["element"] == []
    order = job({"name": "a"}, {"name": "b"}, {"name": "c"})
    names = [one["name"] for one in call("elements", "reordered", order, 0, 9)["element"]]
    assert names == ["b", "c", "a"]
    twin = call("elements", "duplicated", job({**CREST, "name": "Crest"}), 0)
    assert [one["name"] for one in twin["job"]["element"]] == ["Crest", "Crest 2"]
    assert twin["job"]["element"][1]["at"] == ["15 deg", "127.5 deg"]
    ground = call("adding", "addedFill", job({"kind": "fill"}, {"kind": "text"}), "#ffffff")
    assert [one["kind"] for one in ground["job"]["element"]] == ["fill", "fill", "text"]
    # A fill covers the whole wrap: it goes behind a pattern, which would be lost under it.
    ground = call("adding", "addedFill", job({"kind": "tile"}, {"kind": "text"}), "#ffffff")
    assert [one["kind"] for one in ground["job"]["element"]] == ["fill", "tile", "text"]


def test_values_set_and_taken_out_leave_no_empty_table(call: Call) -> None:
    with_line = call("elements", "withValue", job({"kind": "text"}), 0, "outline.width", "0.5 mm")
    assert with_line["element"][0] == {"kind": "text", "outline": {"width": "0.5 mm"}}
    assert call("elements", "withValue", with_line, 0, "outline.width")["element"][0] == {"kind": "text"}
    text = {"kind": "text", "text": "{name}"}
    begun = call("wording", "withFields", job(text))
    assert begun["fields"] == {"name": "name"}
    assert "fields" not in call("wording", "withFields", {**begun, "element": []})
    kept = call("wording", "withFields", {**begun, "element": [], "fields": {"name": "Ada"}})
    assert kept["fields"] == {"name": "Ada"}
