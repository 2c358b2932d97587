"""The gate: foreign hosts and origins, strangers, websockets, bodies, and the headers of every answer."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.faces.asked import HERE, app_at, asking

from wrapwright.faces.web.admission import LOOPBACK, Admission
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.kept.people import AddAccount, RemoveAccount, add_account, remove_account

AWAY = ("192.0.2.7", 40000)  # RFC 5737: an address for documents
NAME = "http://bench.example:8782"
PASSWORD = "four plain words here"


@pytest.fixture
def open_bench(tmp_path: Path) -> Iterator[Any]:
    """Give a client of a bench for this machine alone."""
    with asking(app_at(tmp_path)) as client:
        yield client


@pytest.fixture
def lan(tmp_path: Path) -> Any:
    """Give an application for the network, with one account."""
    app = app_at(tmp_path, Admission(LOOPBACK | {"bench.example"}, accounts=True))
    add_account(AddAccount("Ada", PASSWORD), app.state.bench, Watch())
    return app


def test_a_foreign_host_is_refused(open_bench: Any) -> None:
    """A name that a stranger points at this machine (DNS rebinding) is none of ours: 421, RFC 9110 15.5.20."""
    for host in ("evil.example", "127.0.0.1.evil.example:8782", "", "localhost.evil.example"):
        answer = open_bench.get("/api/blanks", headers={"Host": host})
        assert answer.status_code == 421
        assert answer.json()["error"]["kind"] == "refused"
    for host in ("127.0.0.1:9", "LOCALHOST:8782", "[::1]:8782", "localhost."):
        assert open_bench.get("/api/blanks", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 201),
        ({"Origin": HERE}, 201),
        ({"Origin": HERE, "Sec-Fetch-Site": "same-origin"}, 201),
        ({"Sec-Fetch-Site": "none"}, 201),
        ({"Origin": "http://evil.example"}, 403),
        ({"Origin": "http://127.0.0.1:8080"}, 403),  # another port is another origin, RFC 6454 section 4
        ({"Origin": "null"}, 403),
        ({"Origin": ""}, 403),
        ({"Sec-Fetch-Site": "cross-site"}, 403),
        ({"Sec-Fetch-Site": "same-site", "Origin": HERE}, 403),
    ],
)
def test_changes_come_from_our_own_pages(open_bench: Any, headers: dict[str, str], status: int) -> None:
    blank = {"name": "Cup", "table": {"kind": "straight", "girth": "230 mm", "wall": "90 mm"}}
    assert open_bench.post("/api/blanks", json=blank, headers=headers).status_code == status
    assert len(open_bench.get("/api/blanks").json()) == (1 if status == 201 else 0)


def test_reading_is_not_a_change(open_bench: Any) -> None:
    answer = open_bench.get("/api/blanks", headers={"Sec-Fetch-Site": "cross-site", "Origin": "http://evil.example"})
    assert answer.status_code == 200
    assert answer.headers["cross-origin-resource-policy"] == "same-origin"
    assert "access-control-allow-origin" not in answer.headers


def test_this_machine_needs_no_account(lan: Any) -> None:
    with asking(lan) as client:
        assert client.get("/api/blanks").status_code == 200
        # Not so through a program that passes others' requests on, nor under a name that others use.
        assert client.get("/api/blanks", headers={"X-Forwarded-For": "192.0.2.9"}).status_code == 401
        assert client.get("/api/blanks", headers={"Host": "bench.example:8782"}).status_code == 401


def test_everyone_else_does(lan: Any) -> None:
    with asking(lan, base=NAME, client=AWAY) as client:
        page = client.get("/history?unit=in")
        assert page.status_code == 303
        assert page.headers["location"] == "/login?next=/history%3Funit%3Din"
        refused = client.get("/api/blanks")
        assert refused.status_code == 401
        assert refused.json()["error"]["message"] == "Nobody is signed in."
        assert client.get("/login").status_code == 200
        assert client.get(f"/s/{lan.state.assets.version}/tokens.css").status_code == 200


def test_signing_in_and_out(lan: Any) -> None:
    with asking(lan, base=NAME, client=AWAY) as client:
        for name, password in (("ada", "not that one"), ("bob", PASSWORD), ("", "")):
            wrong = client.post("/api/session", json={"name": name, "password": password})
            assert wrong.status_code == 401
            assert "set-cookie" not in wrong.headers
        right = client.post("/api/session", json={"name": "ada", "password": PASSWORD})
        assert right.json() == {"name": "Ada"}
        assert right.status_code == 200
        cookie = right.headers["set-cookie"]
        assert re.fullmatch(
            r"sid=[\w-]{43}; HttpOnly; Max-Age=43200; Path=/; SameSite=strict", cookie, re.IGNORECASE
        ), cookie
        assert client.get("/api/session").json() == {"name": "Ada"}
        assert client.get("/api/blanks").status_code == 200
        token = client.cookies["sid"]
        assert client.delete("/api/session").status_code == 204
        client.cookies.set("sid", token)
        assert client.get("/api/blanks").status_code == 401


def test_an_account_that_is_removed_is_signed_out(lan: Any) -> None:
    with asking(lan, base=NAME, client=AWAY) as client:
        client.post("/api/session", json={"name": "Ada", "password": PASSWORD})
        assert client.get("/api/blanks").status_code == 200
        remove_account(RemoveAccount("ADA"), lan.state.bench, Watch())
        assert client.get("/api/blanks").status_code == 401


def test_over_https_the_cookie_stays_there(lan: Any) -> None:
    with asking(lan, base="https://bench.example", client=AWAY) as client:
        answer = client.post("/api/session", json={"name": "Ada", "password": PASSWORD})
        assert "; Secure" in answer.headers["set-cookie"]
        assert answer.headers["cross-origin-opener-policy"] == "same-origin"


def test_five_wrong_tries_lock_an_address_out(lan: Any) -> None:
    wrong = {"name": "Ada", "password": "guess"}
    with asking(lan, base=NAME, client=AWAY) as client:
        assert [client.post("/api/session", json=wrong).status_code for _ in range(6)] == [401] * 5 + [429]
        locked = client.post("/api/session", json={"name": "Ada", "password": PASSWORD})
        assert locked.status_code == 429
        assert 0 < int(locked.headers["retry-after"]) <= 300
        assert "5 minutes" in locked.json()["error"]["message"]
    with asking(lan, base=NAME, client=("192.0.2.8", 1)) as other:
        assert other.post("/api/session", json={"name": "Ada", "password": PASSWORD}).status_code == 200


@pytest.mark.parametrize(
    "headers", [{}, {"Origin": "http://evil.example"}, {"Cookie": "sid=x"}, {"Host": "evil.example"}]
)
def test_no_websocket_is_let_in(open_bench: Any, headers: dict[str, str]) -> None:
    from starlette.websockets import WebSocketDisconnect

    with pytest.raises(WebSocketDisconnect) as closed, open_bench.websocket_connect("/", headers=headers):
        pass
    assert closed.value.code == 1008


def test_every_answer_has_its_headers(open_bench: Any) -> None:
    nonces = set()
    for path in ("/", "/api/blanks", "/nowhere", "/api/nowhere", f"/s/{open_bench.app.state.assets.version}/mark.svg"):
        answer = open_bench.get(path)
        policy = answer.headers["content-security-policy"]
        nonce = re.search(r"script-src 'self' 'nonce-([\w-]{22})';", policy)
        assert nonce is not None
        nonces.add(nonce[1])
        assert re.sub(r" 'nonce-[\w-]+'", "", policy) == (
            "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; "
            "connect-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'self'"
        )
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["referrer-policy"] == "same-origin"
        assert answer.headers["cross-origin-opener-policy"] == "same-origin"
        assert "server" not in answer.headers
    assert len(nonces) == 5
    page = open_bench.get("/")
    assert f'nonce="{re.search("nonce-([^ ;]+)", page.headers["content-security-policy"])[1][:-1]}"' in page.text  # type: ignore[index]


@pytest.mark.parametrize("name", ["app.css", "mod/app/api.js"])
def test_a_part_of_a_page_may_do_nothing_alone(open_bench: Any, name: str) -> None:
    answer = open_bench.get(f"/s/{open_bench.app.state.assets.version}/{name}")
    assert answer.status_code == 200
    assert answer.headers["content-security-policy"] == "default-src 'none'"
    assert answer.headers["x-content-type-options"] == "nosniff"


def test_on_a_plain_network_there_is_no_header_that_browsers_complain_of(lan: Any) -> None:
    with asking(lan, base=NAME, client=AWAY) as client:
        assert "cross-origin-opener-policy" not in client.get("/login").headers
