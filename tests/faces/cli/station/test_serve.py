"""`serve`: one line with the address, once it answers; the example; its end."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from wrapwright.faces.cli.entry import run

PATIENCE_S = 60


@contextmanager
def serving(data: Path, *words: str) -> Iterator[subprocess.Popen[str]]:
    """Give a bench served by a process of its own; it is killed at the end, when it has not ended by then."""
    code = "import sys; from wrapwright.faces.cli.entry import main; main()"
    process = subprocess.Popen(
        [sys.executable, "-c", code, "serve", "--port", "0", *words],
        env={**os.environ, "WRAPWRIGHT_DATA": str(data), "WRAPWRIGHT_CACHE": str(data / "cache")},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    try:
        yield process
    finally:
        process.kill()
        process.communicate()


def line(process: subprocess.Popen[str]) -> str:
    assert process.stdout is not None
    return process.stdout.readline().strip()


@pytest.mark.skipif(sys.platform == "win32", reason="a program there cannot be sent Ctrl-C by another")
def test_the_example_is_served_until_ctrl_c(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    with serving(tmp_path, "--demo") as process:
        address = line(process)
        assert address.endswith("/designs/1")
        with urllib.request.urlopen(address, timeout=PATIENCE_S) as answer:
            assert answer.status == 200
            assert b"Kiln Lane coffee cart" in answer.read()
        monkeypatch.setenv("WRAPWRIGHT_DATA", str(tmp_path))
        assert run(["serve", "--port", "0"]) == 7
        here = address.removesuffix("designs/1")
        assert f"already served from this data folder at {here}." in capsys.readouterr().err
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=PATIENCE_S)
        assert (process.returncode, out) == (0, "")
        assert err.splitlines() == ["Ctrl-C ends it."]
        assert (tmp_path / "store.sqlite3").is_file()
        assert not (tmp_path / "store.sqlite3-wal").exists()  # closed: all of it is in the one file
    with serving(tmp_path, "--demo", "--json") as process:
        document = "".join(line(process) for _ in range(5))
        assert json.loads(document)["address"].endswith("/designs/1")  # once, not again


@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (["--lan"], 5, "there is no account yet. Make one first: wrapwright account add NAME"),
        (["--host", "192.0.2.1"], 2, "Add --lan if that is what you want."),
        (["--host", "0.0.0.0"], 2, "can be reached by others"),
        (["--port", "65536"], 2, "less than or equal to 65535"),
        (["--port", "1"], 7, "--port 0 for a free one"),
    ],
)
def test_what_is_refused(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    words: list[str],
    code: int,
    told: str,
) -> None:
    monkeypatch.setenv("WRAPWRIGHT_DATA", str(tmp_path))
    if words == ["--port", "1"]:
        monkeypatch.setattr("socket.socket.bind", refusing)
    assert run(["serve", *words]) == code
    assert told in capsys.readouterr().err


def refusing(*_words: object) -> None:
    """Stand in for a port that another program has."""
    raise PermissionError(13, "Permission denied")
