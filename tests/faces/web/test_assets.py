"""The browser's files: their addresses, tags, packing and what is not to be had."""

from __future__ import annotations

import gzip
from pathlib import Path
from typing import Any

import pytest
from tests.faces.asked import app_at, asking

from wrapwright.faces.web.assets import Assets


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    place = tmp_path / "static"
    (place / "mod").mkdir(parents=True)
    (place / "look.css").write_bytes(b"a { color: red }\n" * 100)
    (place / "mod" / "one.js").write_bytes(b"export const one = 1;\n")
    (place / "notes.txt").write_bytes(b"not for the browser")
    (tmp_path / "secret.js").write_bytes(b"no")
    return place


def test_only_what_is_ours_is_found(folder: Path) -> None:
    assets = Assets(folder)
    for name in ("", "../secret.js", "mod/../look.css", "mod", "/look.css", "notes.txt", "mod\\one.js", "c:look.css",
                 "mod//one.js", "mod/./one.js", "./look.css", "LOOK.CSS"):  # fmt: skip
        assert assets.find(name) is None
    assert assets.find("mod/../../secret.js") is None
    found = assets.find("mod/one.js")
    assert found is not None
    assert found.kind == "text/javascript; charset=utf-8"
    assert found.packed == b""


def test_a_large_file_is_packed_once(folder: Path) -> None:
    found = Assets(folder).find("look.css")
    assert found is not None
    assert gzip.decompress(found.packed) == found.content
    assert len(found.packed) < len(found.content) / 5


def test_the_version_follows_the_content(folder: Path) -> None:
    before = Assets(folder).version
    assert before == Assets(folder).version
    (folder / "mod" / "one.js").write_bytes(b"export const one = 2;\n")
    after = Assets(folder).version
    (folder / "mod" / "one.js").rename(folder / "mod" / "two.js")
    assert len({before, after, Assets(folder).version}) == 3


def test_as_the_browser_gets_it(tmp_path: Path) -> None:
    app: Any = app_at(tmp_path)
    url = f"/s/{app.state.assets.version}/app.css"
    with asking(app) as client:
        answer = client.get(url, headers={"Accept-Encoding": "gzip"})
        assert answer.headers["cache-control"] == "public, max-age=31536000, immutable"
        assert client.get("/s/another/app.css").headers["cache-control"] == "no-cache"
        assert answer.headers["content-encoding"] == "gzip"
        assert answer.headers["content-type"] == "text/css; charset=utf-8"
        plain = client.get(url, headers={"Accept-Encoding": "identity"})
        assert "content-encoding" not in plain.headers
        assert plain.content == answer.content
        assert client.head(url).status_code == 200
        same = client.get(url, headers={"If-None-Match": answer.headers["etag"]})
        assert (same.status_code, same.content) == (304, b"")
        assert client.get(f"/s/{app.state.assets.version}/nothing.css").status_code == 404
        assert client.get(f"/s/{app.state.assets.version}/%2e%2e/app.py").status_code == 404
