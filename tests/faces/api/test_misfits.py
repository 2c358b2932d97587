"""What does not fit in a request is said in our own sentences."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from tests.faces.asked import app_at, asking

JSON = {"content-type": "application/json"}
CASES: tuple[tuple[str, str, Any, str, str], ...] = (
    ("POST", "/designs", {"title": ""}, "title", "The title is empty."),
    ("POST", "/designs", {"title": "x" * 201}, "title", "The title has 201 characters; the most is 200."),
    ("POST", "/designs", {"title": 5}, "title", "The title is not text: 5."),
    ("POST", "/designs", {}, "title", "The title is missing."),
    ("POST", "/designs", {"title": "x", "blank_id": "y"}, "blank_id", 'The blank id is not a whole number: "y".'),
    ("POST", "/designs", {"title": "x", "blank_id": -1}, "blank_id", "The blank id is -1; the least is 0."),
    ("POST", "/designs", {"title": "x", "document": []}, "document", "The document is not a table: a list."),
    ("POST", "/designs", {"title": "x", "more": 1}, "more", 'There is no "more" here.'),
    ("POST", "/designs", b"{no", "body", "The request is not JSON: Expecting property name enclosed in double quotes"),
    ("POST", "/designs", b"", "body", "The request is missing."),
    ("POST", "/designs", b"[" * 100_000, "", "The request cannot be read: it is not JSON, or nested too deeply."),
    ("POST", "/designs", "title=x", "body", "The request is not a table: it is not sent as JSON."),
    ("POST", "/designs", b"7", "body", "The request is not a table: 7."),
    ("POST", "/made", {"design": 1, "output": "exe"}, "output", "The output is not 'pdf', 'png' or 'tiff': \"exe\"."),
    ("POST", "/made", {"design": 1, "accept": ["x"] * 65}, "accept", "The accept has 65 entries; the most is 64."),
    ("POST", "/setups", {"name": "x", "profile_sha256": "zz"}, "profile_sha256", "The profile sha256 is not written"),
    ("GET", "/designs/abc", None, "number", 'The number is not a whole number: "abc".'),
    ("GET", f"/designs/{2**60}", None, "number", f'The number is "{2**60}"; the most is {2**53 - 1}.'),
    ("POST", "/measure", {"blank": {}, "blank_px": 5}, "blank_px", "The blank px is 5; the least is 100."),
)


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    with asking(app_at(tmp_path_factory.mktemp("bench"))) as found:
        yield found


@pytest.mark.parametrize(("method", "path", "body", "where", "message"), CASES)
def test_sentences(client: Any, method: str, path: str, body: Any, where: str, message: str) -> None:
    sent: dict[str, Any] = {"json": body}
    if isinstance(body, bytes | str):
        sent = {"content": body, "headers": JSON if isinstance(body, bytes) else {}}
    told = client.request(method, f"/api{path}", **(sent if body is not None else {}))
    assert told.status_code in {400, 422}
    error = told.json()["error"]
    assert (error["kind"], error["where"]) == ("usage", where)
    assert error["message"].startswith(message)
    assert error["message"].endswith(".")
    assert "nput should" not in told.text
