"""The Press screen as it is served, and what it takes from a making."""

from __future__ import annotations

import json
import re
from typing import Any

from wrapwright.faces.web.pages.pressing.press import Wanted, modules, wanted_of

PRESS = {"recipe": {"name": "steel-oven"}, "heater": {"name": "Left oven"}}


def start(text: str) -> dict[str, Any]:
    """Return what the page hands to its scripts."""
    found = re.search(r'<script type="application/json" id="start"[^>]*>(.*?)</script>', text, re.DOTALL)
    assert found
    told: dict[str, Any] = json.loads(found[1])
    return told


def test_the_address_chooses_beforehand(client: Any) -> None:
    told = start(client.get("/press?pieces=A7-3,A7-4&recipe=steel-oven&heater=2").text)
    assert (told["pieces"], told["recipe"], told["heater"], told["count"]) == ("A7-3,A7-4", "steel-oven", "2", 0)


def test_a_making_that_is_gone_leaves_the_address_as_it_is(client: Any) -> None:
    assert start(client.get("/press?made=12&pieces=A1").text)["pieces"] == "A1"
    assert client.get("/press?made=-1").status_code == 422


def test_the_cautions_of_a_load_stand_on_the_page(client: Any) -> None:
    told = start(client.get("/press").text)["cautions"]
    assert {"Never heat a closed vessel: it can burst.", "Nobody leaves the room while it heats."} <= {
        one["text"] for one in told if one["grave"]
    }


def test_pieces_that_carry_a_code_are_told_by_it() -> None:
    pieces = [{"piece": 1, "code": "A7-1"}, {"piece": 2, "code": "A7-2"}]
    report = {"sheets": [{"pieces": pieces}, {"pieces": pieces[:1]}], "jobs": [{}, {"press": PRESS}]}
    assert wanted_of(report, 5) == Wanted("A7-1,A7-2", 0, "steel-oven", "Left oven")


def test_pieces_without_a_code_are_called_by_their_making() -> None:
    sheets = [{"pieces": [{"piece": 1}]}, {"pieces": [{"piece": 2}]}]
    assert wanted_of({"sheets": sheets, "press": None}, 12) == Wanted("MAKING 12-1,MAKING 12-2")
    assert wanted_of({}, 12) == Wanted()


def test_every_module_of_the_screen_is_asked_for_at_once() -> None:
    assert {"mod/press/press.js", "mod/press/heat/card.js", "mod/press/watch/clock.js"} <= set(modules())
