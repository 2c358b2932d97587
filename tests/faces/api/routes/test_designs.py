"""Designs: revisions, two stations, undo, and what can be drawn."""

from __future__ import annotations

from typing import Any

import pytest

FILL = {"kind": "fill", "colour": "#0e3a5a"}
TEXT = {"kind": "text", "text": "Ada", "size": "9 mm", "at": "front"}


@pytest.fixture
def design(client: Any) -> dict[str, Any]:
    answer = client.post("/api/designs", json={"title": "Regatta", "starter": "mug"})
    assert answer.status_code == 201
    made: dict[str, Any] = answer.json()
    return made


def saved(client: Any, design: dict[str, Any], revision: int, *elements: Any, **asked: str) -> Any:
    document = {**design["document"], "element": list(elements)}
    match = {"If-Match": f'"{revision}"'}
    return client.put(f"/api/designs/{design['id']}", json={"document": document}, headers=match, params=asked)


def test_a_change_gives_a_revision_and_its_drawing(client: Any, design: dict[str, Any]) -> None:
    answer = saved(client, design, 1, FILL, TEXT)
    assert answer.status_code == 200
    assert answer.headers["etag"] == '"2"'
    body = answer.json()
    assert (body["design"]["revision"], body["design"]["can_undo"]) == (2, True)
    assert [one["kind"] for one in body["drawn"]["copies"]] == ["fill", "text"]
    assert body["drawn"]["copies"][1]["shapes"][0]["d"].startswith("M")
    assert body["drawn"]["problems"] == []
    straight = client.get(f"/api/designs/{design['id']}", params={"frame": "straight"}).json()
    assert straight["drawn"]["frame"]["kind"] == "straight"
    assert straight["design"] == body["design"]
    first = client.get(f"/api/designs/{design['id']}", params={"revision": 1}).json()
    assert first["design"]["document"] == design["document"]


def test_what_cannot_be_drawn_is_kept_and_told(client: Any, design: dict[str, Any]) -> None:
    body = saved(client, design, 1, FILL, {**TEXT, "text": "", "sise": 3}).json()
    assert body["design"]["revision"] == 2
    assert [one["kind"] for one in body["drawn"]["copies"]] == ["fill"]
    told = [one["message"] for one in body["drawn"]["problems"]]
    assert told == ["It is empty.", 'The key "sise" is not known here.']
    assert {one["element"] for one in body["drawn"]["problems"]} == {1}


def test_two_stations(client: Any, design: dict[str, Any]) -> None:
    assert saved(client, design, 1, FILL).status_code == 200
    late = saved(client, design, 1, TEXT)
    assert late.status_code == 409
    body = late.json()
    assert body["current"] == 2
    assert body["error"]["kind"] == "refused"
    assert (body["error"]["message"], body["error"]["remedy"]) != ("", "")
    assert client.get(f"/api/designs/{design['id']}").json()["design"]["document"]["element"] == [FILL]
    assert saved(client, design, 2, TEXT).status_code == 200


def test_a_change_must_say_what_it_starts_from(client: Any, design: dict[str, Any]) -> None:
    address = f"/api/designs/{design['id']}"
    bare = client.put(address, json={"document": design["document"]})
    assert bare.status_code == 428
    assert "If-Match" in bare.json()["error"]["remedy"]
    for odd in ("*", '"x"', "-1", '"1", "2"'):
        answer = client.put(address, json={"document": design["document"]}, headers={"If-Match": odd})
        assert answer.status_code == 422, odd


def test_undo_and_redo(client: Any, design: dict[str, Any]) -> None:
    address = f"/api/designs/{design['id']}"
    newest = saved(client, design, 1, FILL).json()["design"]["revision"]
    undone = client.post(f"{address}/undo", headers={"If-Match": f'"{newest}"'}).json()
    assert undone["design"]["document"] == design["document"]
    assert undone["design"]["can_redo"]
    assert undone["drawn"]["copies"] == []
    match = {"If-Match": f'"{undone["design"]["newest"]}"'}
    redone = client.post(f"{address}/redo", headers=match, params={"frame": "straight"}).json()
    assert redone["design"]["document"]["element"] == [FILL]
    assert redone["drawn"]["frame"]["kind"] == "straight"


def test_a_set_up_is_used(client: Any, design: dict[str, Any]) -> None:
    setup = client.post("/api/setups", json={"name": "Desk", "sheet": {"paper": "A4", "ppi": 600}}).json()
    answer = client.post(
        f"/api/designs/{design['id']}/setup", json={"setup_id": setup["id"]}, headers={"If-Match": '"1"'}
    )
    assert answer.json()["design"]["document"]["sheet"]["paper"] == "A4"


def test_copied_removed_and_carried_elsewhere(client: Any, design: dict[str, Any]) -> None:
    address = f"/api/designs/{design['id']}"
    saved(client, design, 1, TEXT)
    copy = client.post(f"{address}/copy")
    assert copy.status_code == 201
    assert copy.json()["document"]["element"] == [TEXT]
    packed = client.get(f"{address}/job.zip")
    assert packed.headers["content-type"] == "application/zip"
    assert packed.headers["content-disposition"] == 'attachment; filename="Regatta.zip"'
    assert not list((client.app.state.bench.folders.data / "incoming").glob("*"))
    assert client.delete(address).status_code == 204
    assert client.get(address).status_code == 404
    brought = client.post("/api/designs/import", content=packed.content)
    assert brought.status_code == 201
    assert brought.json()["document"]["element"] == [TEXT]
    empty = b"PK\x05\x06" + bytes(18)  # a zip file of nothing
    for content in (b"no zip file", empty):
        refused = client.post("/api/designs/import", content=content)
        assert (refused.status_code, refused.json()["error"]["where"]) == (422, "design.zip")


def test_what_is_no_document_is_refused(client: Any, design: dict[str, Any]) -> None:
    deep: Any = 1
    for _ in range(40):
        deep = [deep]
    header = {"If-Match": '"1"', "Content-Type": "application/json"}
    bodies = {
        '{"document": 3}': "document",
        '{"document": {}, "more": 1}': "more",
        '{"document": {"format": NaN}}': "document",
        '{"document": {"format": 1, "title": "\\ud800"}}': "document",
        '{"document": {"format": 1, "deep": ' + str(deep) + "}}": "document",
        "{": "body",
        "": "body",
    }
    for text, where in bodies.items():
        answer = client.put(f"/api/designs/{design['id']}", content=text, headers=header)
        assert answer.status_code == 422, text
        assert answer.json()["error"]["where"] == where, text
        assert answer.json()["error"]["message"]
