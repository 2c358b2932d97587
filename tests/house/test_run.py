"""The run script: what it installs and how, without installing."""

from __future__ import annotations

import importlib.util
import os
import subprocess
import sys
import time
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import ModuleType

import pytest
from packaging.requirements import Requirement
from tests.house.tree import ROOT


@pytest.fixture
def script(monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """Load the script as a module, with no byte code left beside it."""
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    loader = SourceFileLoader("run_script", str(ROOT / "run"))
    spec = importlib.util.spec_from_loader("run_script", loader)
    assert spec is not None
    module = importlib.util.module_from_spec(spec)
    loader.exec_module(module)
    return module


@pytest.fixture
def away(script: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """Let the script work on an empty folder and keep the programs it would call."""
    called: list[list[str]] = []

    def call(*words: str | Path, env: dict[str, str] | None = None) -> int:
        called.append([*(f"{key}={value}" for key, value in (env or {}).items()), *map(str, words)])
        return 0

    (tmp_path / "python").write_bytes(b"")
    monkeypatch.setattr(script, "VENV", tmp_path)
    monkeypatch.setattr(script, "PYTHON", tmp_path / "python")
    monkeypatch.setattr(script, "make_venv", lambda: None)
    monkeypatch.setattr(script, "call", call)
    return called


def test_it_starts_with_python3_and_ci_calls_only_it() -> None:
    for name, first in (("run", b"#!/usr/bin/env python3\n"), (".ci/run", b"#!/usr/bin/env bash\n")):
        assert (ROOT / name).read_bytes().startswith(first)
        assert os.name == "nt" or os.access(ROOT / name, os.X_OK)
    lines = (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()
    assert [line for line in lines[1:] if line.strip()] == [
        "set -euo pipefail",
        'cd "$(dirname "${BASH_SOURCE[0]}")/.."',
        "exec python3 run test",
    ]


@pytest.mark.parametrize("kind", ["run", "test"])
def test_installing_asks_for_hashes_and_leaves_a_stamp(
    kind: str, script: ModuleType, away: list[list[str]], tmp_path: Path
) -> None:
    script.install(kind)
    fetching = [words for words in away if "pip" in words and "-r" in words]
    assert len(fetching) == 2
    assert all(
        {"--require-hashes", "--no-deps", "--no-build-isolation", "--only-binary"} <= set(one) for one in fetching
    )
    assert fetching[1][-1] == str(script.LOCKS[kind])
    assert fetching[1][0].startswith("PKG_CONFIG=")
    (own,) = [words for words in away if "-e" in words]
    assert {"--no-index", "--no-deps", "--no-build-isolation"} <= set(own)
    assert script.stamped(kind)
    away.clear()
    script.install(kind)
    script.install("run")
    assert away == []
    (tmp_path / f"stamp-{kind}").write_text("of other files", encoding="utf-8")
    script.install(kind)
    assert away


def test_a_failing_installation_leaves_no_stamp(
    script: ModuleType, away: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(script, "call", lambda *_words, **_options: 1)
    with pytest.raises(script.HaltError, match="installation failed"):
        script.install("run")
    assert away == []
    assert not script.stamped("run")


def test_what_builds_is_pinned_with_its_hashes(script: ModuleType) -> None:
    part = script.section(script.LOCKS["run"], script.TOOLS)
    entries = [entry for entry in part.split("\n") if entry and not entry.startswith(" ")]
    assert sorted(Requirement(entry.rstrip(" \\")).name for entry in entries) == sorted(script.TOOLS)
    assert part.count("--hash=sha256:") >= len(script.TOOLS)


def test_the_loaded_libvips_is_the_pinned_one(script: ModuleType) -> None:
    done = subprocess.run([sys.executable, "-c", script.VIPS_CHECK], capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (0, b"")


def test_without_ensurepip_it_names_the_command(
    script: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[list[str]] = []
    monkeypatch.setattr(script, "PYTHON", tmp_path / "none")
    monkeypatch.setattr(script.importlib.util, "find_spec", lambda _name: None)
    monkeypatch.setattr(script, "apt_install", lambda packages: bool(asked.append(packages)))
    with pytest.raises(script.HaltError, match="sudo apt-get install python3-venv"):
        script.make_venv()
    assert asked[0] == ["python3-venv"]


def test_missing_witnesses_are_installed_or_named(
    script: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(script.shutil, "which", lambda program: None if program == "qpdf" else f"/x/{program}")
    monkeypatch.setattr(script, "WITNESS_FILES", {})
    asked: list[list[str]] = []
    monkeypatch.setattr(script, "apt_install", lambda packages: not asked.append(packages))
    script.witnesses()
    assert asked == [["qpdf"]]
    assert capsys.readouterr().err == ""
    monkeypatch.setattr(script, "apt_install", lambda _packages: False)
    script.witnesses()
    assert "sudo apt-get install qpdf" in capsys.readouterr().err


def test_a_failed_lint_step_fails_the_run_but_pytest_comes_last(
    script: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    called: list[list[str]] = []
    codes = {"mypy": 1}

    def call(*words: str | Path, env: dict[str, str] | None = None) -> int:
        called.append([str(word) for word in words])
        return codes.get(called[-1][2] if len(words) > 2 else "", 0)

    monkeypatch.setattr(script, "call", call)
    monkeypatch.setattr(script, "install", lambda _kind: None)
    monkeypatch.setattr(script, "witnesses", lambda: None)
    assert script.main(["test", "--fast", "-k", "foo"]) == 1
    assert called[-1][1:] == ["-m", "pytest", "-n", "2", "--dist", "worksteal", "-m", "not slow", "-k", "foo"]
    codes.clear()
    assert script.main(["test"]) == 0
    codes["pytest"] = 5
    assert script.main(["test"]) == 5


def test_benchmarks_are_found_by_name(
    script: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "benchmarks").mkdir()
    for name in ("page", "load", "_shared"):
        line = f"def main(quick, words=()):\n    print({name!r}, quick, *words, flush=True)\n"
        (tmp_path / "benchmarks" / f"{name}.py").write_text(line, encoding="utf-8")
    monkeypatch.setattr(script, "ROOT", tmp_path)
    monkeypatch.setattr(script, "PYTHON", sys.executable)
    monkeypatch.setattr(script, "install", lambda _kind: None)
    monkeypatch.setattr(script, "witnesses", lambda: None)
    with pytest.raises(script.HaltError, match="there are: load, page"):
        script.main(["bench", "pages"])
    assert script.main(["bench", "--list"]) == 0
    assert capsys.readouterr().out == "load\npage\n"
    said: list[str] = []

    def call(*words: str | Path, env: dict[str, str] | None = None) -> int:
        done = subprocess.run([*map(str, words)], cwd=tmp_path, capture_output=True, text=True, check=False)
        said.append(done.stdout.strip() + done.stderr)
        return done.returncode

    monkeypatch.setattr(script, "call", call)
    assert script.main(["bench", "page", "--quick"]) == 0
    assert script.main(["bench"]) == 0
    assert said == ["page True", "load False", "page False"]
    said.clear()
    assert script.main(["bench", "load", "--data", "some where", "--seconds", "2", "--quick"]) == 0
    assert said == ["load True --data some where --seconds 2"]
    with pytest.raises(script.HaltError, match="name one"):
        script.main(["bench", "--seconds=2"])
    with pytest.raises(SystemExit):
        script.main(["demo", "--seconds", "2"])


def test_help_starts_quickly() -> None:
    begun = time.perf_counter()
    done = subprocess.run([sys.executable, str(ROOT / "run"), "--help"], capture_output=True, check=True)
    assert b"demo" in done.stdout
    assert time.perf_counter() - begun < 2
