"""A data folder of one's own for each test, and a way to run a command."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from wrapwright.faces.cli.entry import run

Said = tuple[int, str, str]


@pytest.fixture(autouse=True)
def own_data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    data = tmp_path / "data"
    monkeypatch.setenv("WRAPWRIGHT_DATA", str(data))
    monkeypatch.setenv("WRAPWRIGHT_FONTS", str(data / "fonts"))
    monkeypatch.chdir(tmp_path)
    return data


@pytest.fixture
def say(capsys: pytest.CaptureFixture[str]) -> Callable[..., Said]:
    """Run `wrapwright press ...`; give its exit code, standard output and standard error."""

    def saying(*words: str) -> Said:
        code = run(["press", *words])
        out, err = capsys.readouterr()
        return code, out, err

    return saying


@pytest.fixture
def document(say: Callable[..., Said]) -> Callable[..., Any]:
    """Run a command with --json; give the one document it prints."""

    def reading(*words: str) -> Any:
        code, out, _ = say(*words, "--json")
        found = json.loads(out)
        assert found["format"] == 1
        assert (code == 0) == ("error" not in found)
        return found

    return reading
