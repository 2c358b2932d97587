"""`account`: made, listed, removed; the password asked for twice or read from standard input."""

from __future__ import annotations

import io
import json
import sys
from typing import Any

import pytest

from wrapwright.faces.cli.entry import run
from wrapwright.faces.opening import bench_of, open_settings
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.kept.people import SignIn, sign_in

PASSWORD = "four plain words here"


@pytest.fixture(autouse=True)
def own_store(tmp_path: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("WRAPWRIGHT_DATA", str(tmp_path))


def known(name: str, password: str) -> bool:
    bench = bench_of(open_settings())
    try:
        return bool(sign_in(SignIn(name, password), bench, Watch()))
    finally:
        bench.kept().close()


def piped(monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO(text))


def test_from_standard_input(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    piped(monkeypatch, f"{PASSWORD}\nsecond line\n")
    assert run(["account", "add", "Ada", "--stdin"]) == 0
    assert known("ada", PASSWORD)
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == "Ada may sign in now.\n"
    assert run(["account", "list", "--json"]) == 0
    assert [one["name"] for one in json.loads(capsys.readouterr().out)["accounts"]] == ["Ada"]
    assert run(["account", "list"]) == 0
    assert capsys.readouterr().out.startswith("Ada  since 20")
    assert run(["account", "remove", "ADA", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["removed"] == "ADA"
    assert not known("ada", PASSWORD)
    assert run(["account", "remove", "ada"]) == 8


def test_asked_for_twice(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    typed: list[str] = []
    terminal = io.StringIO()
    terminal.isatty = lambda: True  # type: ignore[method-assign]
    monkeypatch.setattr(sys, "stdin", terminal)
    monkeypatch.setattr("getpass.getpass", lambda _words: typed.pop(0))
    typed[:] = [PASSWORD, PASSWORD + "!"]
    assert run(["account", "add", "Ada"]) == 2
    assert "The two passwords differ; nothing was changed." in capsys.readouterr().err
    assert run(["account", "list", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["accounts"] == []
    typed[:] = [PASSWORD, PASSWORD]
    assert run(["account", "add", "Ada", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["account"] == {"name": "Ada"}
    assert known("Ada", PASSWORD)


@pytest.mark.parametrize(
    ("words", "text", "code", "told"),
    [
        (["account", "add", "Ada"], PASSWORD, 2, "there is no terminal. Add --stdin"),
        (["account", "add", "Ada", "--stdin"], "short\n", 3, "has 5 characters; it must have at least 10"),
        (["account", "add", "Ada", "--stdin"], "x" * 1001, 2, "longer than 1000 characters"),
        (["account", "add", "", "--stdin"], PASSWORD, 3, "name"),
    ],
)
def test_what_is_refused(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    words: list[str],
    text: str,
    code: int,
    told: str,
) -> None:
    piped(monkeypatch, text)
    assert run(words) == code
    assert told in capsys.readouterr().err
