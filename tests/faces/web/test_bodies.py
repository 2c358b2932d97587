"""Bodies beyond their limit: refused by what they say and by what comes."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.faces.asked import app_at, asking

from wrapwright.faces.web import bodies


@pytest.mark.parametrize("said", [True, False])
def test_a_written_body_is_held_to_its_limit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, said: bool) -> None:
    monkeypatch.setattr(bodies, "WRITTEN", 10_000)

    def pieces(count: int) -> Iterator[bytes]:
        yield b'{"blank": {"note": "'
        for _ in range(count):
            yield b"x" * 1000
        yield b'"}}'

    with asking(app_at(tmp_path)) as client:
        for count, status in ((5, 200), (20, 413)):
            content = b"".join(pieces(count)) if said else pieces(count)
            answer = client.post("/api/measure", content=content, headers={"Content-Type": "application/json"})
            assert answer.status_code == status, answer.text
        assert answer.json()["error"]["message"] == "The request is larger than 0.01 MB."
        assert answer.headers["connection"] == "close"
