"""How failures are answered: the status of the one table, the command line's document, nothing of this machine."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.faces.asked import app_at, asking

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.core.base.findings import Finding, Severity
from wrapwright.faces.api.failing import answer, failure, status_of
from wrapwright.faces.outcomes import OUTCOMES, document
from wrapwright.jobs.verdict import ChecksSayNoError


@pytest.fixture
def raising(tmp_path: Path) -> Iterator[Any]:
    """Give a client, and a list whose one entry the route /api/raise raises."""
    app = app_at(tmp_path)
    problems: list[Exception] = []

    def route() -> None:
        raise problems[0]

    app.add_api_route("/api/raise", route)
    app.add_api_route("/raise", route)
    with asking(app) as client:
        yield client, problems


def test_every_kind_has_its_status_and_document(raising: Any) -> None:
    client, problems = raising
    for kind, outcome in OUTCOMES.items():
        problem = WrapwrightError(kind, "It went wrong.", remedy="Mend it.", where="crest")
        problems[:] = [problem]
        told = client.get("/api/raise")
        assert told.status_code == (outcome.http or 503)
        assert told.json() == document(problem)
        page = client.get("/raise")
        assert page.status_code == told.status_code
        assert page.headers["content-type"].startswith("text/html")
        assert "It went wrong." in page.text


def test_several_problems_are_all_told(raising: Any) -> None:
    client, problems = raising
    both = (WrapwrightError(Kind.UNUSABLE, "One."), WrapwrightError(Kind.SETUP, "Two."))
    problems[:] = [SeveralProblemsError(both)]
    told = client.get("/api/raise").json()
    assert [one["message"] for one in told["problems"]] == ["One.", "Two."]


def test_what_the_checks_found_goes_with_their_no() -> None:
    found = Finding("picture-ppi", Severity.ERROR, "80 ppi, at least 100.", "crest", 80.0, 100.0, "ppi")
    told = failure(ChecksSayNoError((found,)))
    assert told.status_code == 409
    assert json.loads(bytes(told.body))["checks"][0]["rule"] == "picture-ppi"


def test_what_is_our_own_fault_tells_nothing_of_this_machine(raising: Any, capsys: pytest.CaptureFixture[str]) -> None:
    client, problems = raising
    folder = str(client.app.state.bench.folders.data)
    problems[:] = [RuntimeError(f"secret words in {folder}")]
    told = client.get("/api/raise")
    assert told.status_code == 500
    assert told.json()["error"]["kind"] == "fault"
    assert "RuntimeError" in told.json()["error"]["message"]
    assert "secret" not in told.text + client.get("/raise").text
    problems[:] = [WrapwrightError(Kind.UNREACHABLE, f"{folder}/store.sqlite3 is locked.", where=f"{folder}/made/3")]
    told = client.get("/api/raise").json()["error"]
    assert (told["message"], told["where"]) == ("store.sqlite3 is locked.", "made/3")
    capsys.readouterr()


def test_answers_of_their_own() -> None:
    problem = answer(409, Kind.REFUSED, "Another was quicker.", current=7, headers={"Retry-After": "3"})
    assert status_of(problem) == 409
    told = failure(problem)
    assert json.loads(bytes(told.body))["current"] == 7
    assert told.headers["retry-after"] == "3"
    odd = failure(WrapwrightError(Kind.UNUSABLE, "half a character: \ud800"))
    assert json.loads(bytes(odd.body))["error"]["message"] == "half a character: \\ud800"


def test_addresses_that_there_are_not(raising: Any) -> None:
    client, _ = raising
    assert client.get("/api/nothing").json()["error"]["kind"] == "missing"
    wrong = client.patch("/api/blanks")
    assert (wrong.status_code, wrong.json()["error"]["kind"]) == (405, "usage")
    assert client.get("/docs").status_code == 404
    assert client.get("/redoc").status_code == 404


def test_the_description_is_whole(raising: Any) -> None:
    client, _ = raising
    told = client.get("/api/openapi.json").json()
    assert told["openapi"].startswith("3.1")
    assert "HTTPValidationError" not in told["components"]["schemas"]
    for path, routes in told["paths"].items():
        if path.endswith("/raise"):
            continue
        for method, route in routes.items():
            assert route["responses"].keys() >= {"4XX", "5XX"}, f"{method} {path}"
            assert route["description"], f"{method} {path}"
