"""What was made, printed from the browser: only at the address that a set-up keeps, and only once."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from tests.jobs.kept.given import QUIET
from tests.jobs.print.conftest import made as left
from tests.outside.printer.fake_printer import Fake, fake, gone, media, says

from wrapwright.jobs.kept.made import FinishMaking, finish_making, folder_made
from wrapwright.outside.printer.asking import Operation
from wrapwright.outside.printer.encoding import Tag, one
from wrapwright.outside.store.rows.designs import design_kept
from wrapwright.outside.store.rows.made import add_made_row, tell_row

__all__ = ["fake"]

BLANK = {"kind": "straight", "girth": "120 mm", "wall": "40 mm"}


@pytest.fixture(scope="module")
def made(client: Any) -> int:
    """What a making has left, without waiting for one."""
    document = {"format": 1, "blank": BLANK, "element": []}
    design = client.post("/api/designs", json={"title": "Band", "document": document}).json()["id"]
    bench = client.app.state.bench
    with bench.kept().writing() as connection:
        row = add_made_row(connection, design_kept(connection, design, 0), "pdf", [], bench.clock())
        tell_row(connection, row.id, "making", "", 0.5)
    left(folder_made(row.id, bench), name="Band")
    assert finish_making(FinishMaking(row.id, "done"), bench, QUIET).state == "done"
    return int(row.id)


@pytest.fixture
def setup(client: Any, fake: Fake) -> Iterator[int]:
    """A set-up that prints at the fake printer."""
    number = client.post("/api/setups", json={"name": "Desk", "sheet": {"paper": "Letter"}}).json()["id"]
    kept = client.put(f"/api/setups/{number}/printer", json={"address": fake.address})
    assert (kept.status_code, kept.json()["address"]) == (200, fake.address)
    fake.heard.clear()
    yield number
    client.delete(f"/api/setups/{number}")


def test_a_set_ups_printer_is_looked_at(client: Any, fake: Fake, setup: int) -> None:
    seen = client.get(f"/api/setups/{setup}/printer").json()
    assert (seen["name"], seen["words"], seen["actual_size"]) == ("Fake", "idle", True)
    assert [(paper["paper"], paper["margins_mm"], paper["loaded"]) for paper in seen["papers"]] == [
        ("Letter", [3.0, 3.0, 3.0, 3.0], True),
        ("A4", [3.0, 3.0, 3.0, 3.0], False),
    ]
    assert client.get("/api/printers").json()["setups"][0]["address"] == fake.address
    gone_now = client.put(f"/api/setups/{setup}/printer", json={"address": ""})
    assert gone_now.json()["address"] == ""
    assert client.get(f"/api/setups/{setup}/printer").status_code == 404
    assert client.get("/api/printers").json() == {"setups": [], "found": []}


def test_from_ready_to_printed(client: Any, fake: Fake, setup: int, made: int) -> None:
    ready = client.get(f"/api/made/{made}/printing", params={"setup": setup}).json()
    assert (ready["printer"], ready["folder"], ready["findings"]) == ("Fake", False, [])
    assert ready["paper"].startswith("Letter (")
    assert fake.jobs == {}
    fake.ends = 5
    answer = client.post(f"/api/made/{made}/prints", json={"setup": setup, "copies": 2})
    sent = answer.json()["sent"]
    assert (answer.status_code, sent["state"], sent["copies"], sent["title"]) == (201, "printing", 2, "Band")
    assert fake.printed() == [client.get(f"/api/made/{made}/files/sheets.pdf").content]
    again = client.post(f"/api/made/{made}/prints", json={"setup": setup, "copies": 2}).json()
    assert (again["sent_now"], again["sent"]["id"], len(fake.jobs)) == (False, sent["id"], 1)
    fake.jobs[1].state = 9
    assert client.get(f"/api/prints/{sent['id']}").json()["state"] == "done"
    assert [row["id"] for row in client.get(f"/api/made/{made}/prints").json()] == [sent["id"]]


def test_a_print_is_cancelled(client: Any, fake: Fake, setup: int, made: int) -> None:
    fake.ends = 5
    sent = client.post(f"/api/made/{made}/prints", json={"setup": setup}).json()["sent"]
    assert client.post(f"/api/prints/{sent['id']}/stop").json()["state"] == "stopped"
    assert fake.jobs[1].state == 7


def test_what_speaks_against_it_is_told_and_stops_it(client: Any, fake: Fake, setup: int, made: int) -> None:
    fake.attributes = says(media_col_ready=one(Tag.BEGIN, "media-col-ready", media(21000, 29700)))
    ready = client.get(f"/api/made/{made}/printing", params={"setup": setup}).json()
    assert [(found["rule"], found["severity"]) for found in ready["findings"]] == [("printer-paper", "error")]
    refused = client.post(f"/api/made/{made}/prints", json={"setup": setup})
    assert (refused.status_code, refused.json()["error"]["kind"]) == (409, "checks")
    assert fake.jobs == {}
    assert client.post(f"/api/made/{made}/prints", json={"setup": setup, "even_so": True}).status_code == 201


def test_a_printer_out_of_reach(client: Any, fake: Fake, setup: int, made: int) -> None:
    fake.before[Operation.GET_PRINTER_ATTRIBUTES] = gone
    for answer in (
        client.get(f"/api/setups/{setup}/printer"),
        client.get(f"/api/made/{made}/printing", params={"setup": setup}),
        client.post(f"/api/made/{made}/prints", json={"setup": setup}),
    ):
        assert (answer.status_code, answer.json()["error"]["kind"]) == (503, "unreachable")


def test_a_printer_that_leads_elsewhere_is_not_followed(client: Any, fake: Fake, setup: int) -> None:
    fake.http = (307, {"Location": f"http://localhost:{fake.port}/else"})
    answer = client.get(f"/api/setups/{setup}/printer")
    assert answer.status_code == 503
    assert "where we do not go" in answer.json()["error"]["message"]
    assert len(fake.heard) == 1


@pytest.mark.parametrize(
    "address", ["/etc", "file:///etc/passwd", "http://localhost:631/", "ipp://a:b@localhost/", "ipp://", "x" * 601]
)
def test_what_is_no_address_is_not_kept(client: Any, fake: Fake, setup: int, address: str) -> None:
    """No folder of the machine that serves can be named from a browser."""
    answer = client.put(f"/api/setups/{setup}/printer", json={"address": address})
    assert answer.status_code == 422
    assert client.get("/api/printers").json()["setups"][0]["address"] == fake.address
    assert fake.heard == []


def test_what_is_not_there(client: Any, setup: int, made: int) -> None:
    for answer in (
        client.get("/api/setups/99/printer"),
        client.put("/api/setups/99/printer", json={"address": ""}),
        client.get("/api/made/99/prints"),
        client.get("/api/made/99/printing", params={"setup": setup}),
        client.get(f"/api/made/{made}/printing", params={"setup": 99}),
        client.get("/api/prints/99"),
        client.post("/api/prints/99/stop"),
    ):
        assert (answer.status_code, answer.json()["error"]["kind"]) == (404, "missing")
    for wrong in ({"setup": setup, "copies": 0}, {"setup": setup, "copies": 1000}, {"setup": 0}, {}):
        assert client.post(f"/api/made/{made}/prints", json=wrong).status_code == 422
