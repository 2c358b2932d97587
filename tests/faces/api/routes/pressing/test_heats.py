"""Heats over the REST face: what a screen by the oven asks."""

from __future__ import annotations

import re
from typing import Any

import pytest

from wrapwright.core.press.run.faults.values import FAULTS
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater

TICKED = {"ticked": ["open-empty-dry"]}
MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z")
# What the screen is built on: none of these may go.
HEAT_KEYS = {
    "id", "revision", "heater", "recipe", "phase", "soak", "now", "phase_began", "phase_ends", "remaining_s", "over_s",
    "set_c", "dwell_s", "preheat_s", "cool_s", "door_open", "turn_at_s", "pieces", "events", "dose", "words",
    "cautions", "offers",
}  # fmt: skip


@pytest.fixture(scope="module")
def oven(client: Any) -> int:
    kept = keep_heater(KeepHeater("Oven", "oven", 1500.0, 4), client.app.state.bench, Watch())
    keep_heater(KeepHeater("Other", "oven", 1500.0, 4), client.app.state.bench, Watch())
    return kept.id


def test_a_heat_from_start_to_end(client: Any, oven: int) -> None:
    body = {"heater": oven, "recipe": "steel-oven", "pieces": ["a7-3", "A7-4"], "preheat": True, "key": "k"}
    refused = client.post("/api/press/heats", json=body)
    assert (refused.status_code, refused.json()["error"]["where"]) == (422, "open-empty-dry")
    begun = client.post("/api/press/heats", json={**body, **TICKED})
    assert begun.status_code == 201
    told = begun.json()
    assert set(told) >= HEAT_KEYS
    assert MOMENT.fullmatch(told["now"])
    assert (told["phase"], told["heater"]) == ("preheat", {"id": oven, "name": "Oven", "kind": "oven"})
    assert client.post("/api/press/heats", json={**body, **TICKED}).json()["id"] == told["id"]
    where = f"/api/press/heats/{told['id']}"
    busy = client.post("/api/press/heats", json={**body, **TICKED, "pieces": ["B-1"], "key": "other"})
    assert (busy.status_code, busy.json()["error"]["kind"]) == (409, "refused")
    for kind, phase in (("ready", "loading"), ("loaded", "dwell"), ("door-opened", "dwell"), ("door-closed", "dwell")):
        answer = client.post(f"{where}/events", json={"kind": kind, "key": kind})
        assert (answer.status_code, answer.json()["phase"]) == (200, phase)
    twice = client.post(f"{where}/events", json={"kind": "loaded", "key": "loaded"}).json()
    assert [one["kind"] for one in twice["events"]] == ["preheat", "ready", "loaded", "door-opened", "door-closed"]
    stale = client.post(f"{where}/events", json={"kind": "longer", "seconds": 60, "revision": 1})
    assert stale.status_code == 409
    assert client.post(f"{where}/looks", json={"place": 1, "result": "good"}).status_code == 409
    assert client.post(f"{where}/events", json={"kind": "taken-out"}).json()["phase"] == "cool"
    faded = client.post(f"{where}/looks", json={"place": 1, "result": "faded", "note": "pale"}).json()
    assert faded["pieces"][0]["causes"][0]["share"] > 0.1
    assert client.post(f"{where}/looks", json={"place": 2, "result": "good"}).json()["phase"] == "ended"
    assert client.get(where).json()["phase"] == "ended"
    assert [one["id"] for one in client.get("/api/press/heats", params={"piece": "A7-3"}).json()] == [told["id"]]


def test_everything_on_the_screen(client: Any, oven: int) -> None:
    told = client.get("/api/press").json()
    assert MOMENT.fullmatch(told["now"])
    (mine,) = (one for one in told["heaters"] if one["id"] == oven)
    keys = {"id", "name", "kind", "capacity", "rated_w", "circuit", "calibrated", "heat"}
    assert set(mine) >= keys
    assert set(told["recipes"][0]) >= {
        "id", "name", "title", "version", "ware", "heater", "celsius", "seconds", "lidded", "ticks",
    }  # fmt: skip
    assert list(told["faults"]) == list(FAULTS)


@pytest.mark.parametrize(
    ("body", "status"),
    [
        ({"heater": "Kiln"}, 404),
        ({"heater": 99}, 404),
        ({"recipe": "toffee"}, 404),
        ({"set_c": 383}, 422),
        ({"dwell_s": 0}, 422),
        ({"dwell_s": 36000}, 422),
        ({"dwell_s": "NaN"}, 422),
        ({"count": -1}, 422),
        ({"log": "../../etc/passwd"}, 422),
        ({"log": "C:oven.csv"}, 422),
        ({"colour": "red"}, 422),
    ],
)
def test_what_cannot_be_is_refused(client: Any, oven: int, body: dict[str, Any], status: int) -> None:
    del oven
    asked = {"heater": "Other", "recipe": "steel-oven", "count": 1, **TICKED, **body}
    answer = client.post("/api/press/heats", json=asked)
    assert (answer.status_code, bool(answer.json()["error"]["message"])) == (status, True)
    assert all(one["heat"] is None for one in client.get("/api/press").json()["heaters"])


def test_what_there_is_not(client: Any, oven: int) -> None:
    del oven
    assert client.get("/api/press/heats/99").status_code == 404
    assert client.post("/api/press/heats/99/events", json={"kind": "loaded"}).status_code == 404
    assert client.post("/api/press/heats/99/events", json={"kind": "exploded"}).status_code == 422
    assert client.post("/api/press/heats/99/looks", json={"place": 1, "result": "good"}).status_code == 404
