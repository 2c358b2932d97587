"""A list's routes: a table streamed in, mapped, paged, changed in place, decided about, asked to be made."""

from __future__ import annotations

import time
from typing import Any

import pytest

DOCUMENT = {
    "format": 1,
    "blank": {"kind": "straight", "girth": "235 mm", "wall": "100 mm"},
    "sheet": {"paper": "A4", "ppi": 100},
    "fields": {"name": "name"},
    "element": [{"kind": "text", "text": "{name}", "width": "70 mm", "height": "16 mm"}],
}
TABLE = b"First name;Team\r\nAda;Weir\r\nBob ;Weir\r\nEve;Lock\r\n"


@pytest.fixture(scope="module")
def base(client: Any) -> str:
    """The address of the list of a design, all its rows checked."""
    made = client.post("/api/designs", json={"title": "Crew", "document": DOCUMENT}).json()["id"]
    base = f"/api/designs/{made}/names"
    assert client.get(base).status_code == 404
    assert client.put(f"{base}/table/crew.csv", content=TABLE).status_code == 201
    checked(client, base)
    return base


def checked(client: Any, base: str) -> dict[str, Any]:
    until = time.monotonic() + 20
    while time.monotonic() < until:
        view: dict[str, Any] = client.get(base).json()
        if view["check"]["checked"] == view["check"]["rows"]:
            return view
        time.sleep(0.02)
    raise AssertionError("the rows were not checked")


def test_how_it_was_understood(client: Any, base: str) -> None:
    view = client.get(base).json()
    assert view["table"]["file"] == "crew.csv"
    assert (view["table"]["encoding"], view["table"]["separator"]) == ("utf-8", "semicolon")
    assert [one["feeds"] for one in view["columns"]] == [["{name}"], []]  # the nearest name is offered
    assert view["check"]["waiting"] == 1


def test_a_mapping_starts_from_the_newest(client: Any, base: str) -> None:
    now = client.get(base).json()
    mapping = now["mapping"] | {"quantity": "Team"}
    late = client.put(base, json={"mapping": mapping}, headers={"If-Match": '"99"'})
    assert (late.status_code, client.put(base, json={"mapping": mapping}).status_code) == (409, 428)
    wrong = client.put(base, json={"mapping": {"file": 3, "odd": 1}}, headers={"If-Match": '"1"'})
    assert wrong.status_code == 422
    assert client.get(base).json()["list_revision"] == now["list_revision"]


def test_a_cell_is_changed_and_its_row_told(client: Any, base: str) -> None:
    row = client.patch(f"{base}/rows/3", json={"cells": {"First name": "Bob"}}).json()
    assert (row["state"], row["file_cells"], row["problems"]) == ("fine", {"First name": "Bob "}, [])
    page = client.get(f"{base}/rows", params={"order": "changed"}).json()
    assert [one["number"] for one in page["rows"]] == [3]
    assert client.patch(f"{base}/rows/77", json={"cells": {"Team": "x"}}).status_code == 404
    assert client.patch(f"{base}/rows/3", json={"cells": {"Rank": "x"}}).status_code == 422
    assert client.post(f"{base}/decisions", json={"verb": "forget", "rows": [3]}).json()["rows"] == 1
    assert client.get(f"{base}/rows/3").json()["state"] == "waits"


def test_any_row_is_drawn(client: Any, base: str) -> None:
    drawn = client.get(f"{base}/rows/4/drawn").json()
    proof = client.get(drawn["proof"]["url"])
    assert (proof.headers["content-type"], "immutable" in proof.headers["cache-control"]) == ("image/jpeg", True)
    assert client.get(f"{base}/rows/9/drawn").status_code == 404


def test_it_is_made_once_nothing_waits(client: Any, base: str) -> None:
    refused = client.post(f"{base}/made", json={})
    assert (refused.status_code, "1 problem waits" in refused.json()["error"]["message"]) == (409, True)
    client.post(f"{base}/decisions", json={"verb": "accept", "rule": "spaces"})
    client.app.state.makings.close()  # it is asked for here, and made elsewhere
    made = client.post(f"{base}/made", json={"order": "piles", "rows": [2]})
    assert (made.status_code, made.json()["names"]["rows"]) == (201, [2])
    assert client.post(f"/api/made/{made.json()['id']}/stop").json()["state"] == "stopped"


def test_what_is_changed_after_the_sign_off_is_told(client: Any, base: str) -> None:
    nobody = client.get(f"{base}/signed").json()
    assert (nobody["words"], nobody["whole"], len(nobody["list_sha256"])) == ([], False, 64)
    assert client.post(f"{base}/signed", json={"by": " "}).status_code == 422
    signed = client.post(f"{base}/signed", json={"by": "M. Weir"}).json()
    assert (signed["whole"], "M. Weir" in signed["words"][0]) == (True, True)
    client.patch(f"{base}/rows/4", json={"cells": {"First name": "Eva"}})
    told = client.get(f"{base}/signed").json()
    assert (told["whole"], told["words"][1]) == (False, "1 row was edited after the sign-off: 4.")


def test_what_is_no_table_is_told(client: Any, base: str) -> None:
    answer = client.put(f"{base}/table/report.csv", content=b"%PDF-1.7 and so on")
    assert (answer.status_code, answer.json()["error"]["message"]) == (422, "it is a PDF, not a table.")
    assert client.put(f"{base}/table/crew.csv", params={"separator": "slash"}, content=TABLE).status_code == 422


def test_it_is_taken_away(client: Any, base: str) -> None:
    assert client.delete(base).status_code == 204
    assert client.get(base).status_code == 404
