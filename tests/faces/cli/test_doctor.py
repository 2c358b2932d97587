"""doctor names what is installed, and what is missing ends in 5."""

from __future__ import annotations

import json
import re
import shutil
from collections import namedtuple
from importlib import metadata
from pathlib import Path

import pytest

from wrapwright.faces.cli.entry import run


@pytest.fixture(autouse=True)
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("WRAPWRIGHT_CACHE", str(tmp_path / "cache"))
    monkeypatch.setenv("WRAPWRIGHT_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("WRAPWRIGHT_FONTS", str(tmp_path / "fonts"))


def facts(capsys: pytest.CaptureFixture[str]) -> dict[str, dict[str, str]]:
    return {one["name"]: one for one in json.loads(capsys.readouterr().out)["facts"]}


def test_it_lists_what_is_loaded(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "cache").mkdir()
    (tmp_path / "cache" / "a").write_bytes(bytes(3_000_000))
    (tmp_path / "fonts").mkdir()
    (tmp_path / "fonts" / "a.ttf").write_bytes(b"")
    assert run(["doctor", "--json"]) == 0
    found = facts(capsys)
    assert {one["state"] for one in found.values()} <= {"good", "note"}
    assert found["libvips"]["value"].endswith("from pyvips-binary " + metadata.version("pyvips-binary"))
    assert metadata.version("uharfbuzz") in found["HarfBuzz"]["value"]
    assert found["cache folder"]["value"] == f"{tmp_path / 'cache'}, 3 MB"
    assert found["own fonts"]["value"].startswith("1 in ")
    assert found["profiles"]["value"].startswith("0 in ")


def test_it_tells_where_settings_are_read_from_and_how_many_threads_work(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "settings.toml"
    for module in ("wrapwright.faces.opening", "wrapwright.outside.system.folders"):
        monkeypatch.setattr(f"{module}.config_file", lambda: file)
    assert run(["doctor", "--json"]) == 0
    assert facts(capsys)["settings file"]["value"] == f"{file}, not there: defaults hold"
    file.write_text("format = 1\nthreads = 3\n", encoding="utf-8")
    assert run(["doctor"]) == 0
    shown = dict(re.split(r" {2,}", line, maxsplit=1) for line in capsys.readouterr().out.splitlines())
    assert (shown["settings file"], shown["threads"]) == (str(file), "3")
    assert re.fullmatch(r"\d+\.\d GB", shown["free space"])


def test_what_is_missing_is_said_and_ends_in_five(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    usage = namedtuple("usage", "total used free")
    monkeypatch.setattr(shutil, "disk_usage", lambda _path: usage(2_000_000_000, 1_900_000_000, 100_000_000))
    real = metadata.version

    def version(name: str) -> str:
        if name == "fontpkg-open-sans":
            raise metadata.PackageNotFoundError(name)
        return real(name)

    monkeypatch.setattr(metadata, "version", version)
    assert run(["doctor"]) == 5
    out, err = capsys.readouterr()
    assert "0.1 GB, 1 GB is needed  (missing)" in out
    assert "font Open Sans: not installed." in err
    assert run(["doctor", "--json"]) == 5
    document = json.loads(capsys.readouterr().out)
    assert {one["where"] for one in document["problems"]} == {"font Open Sans", "free space"}


def test_the_store_is_counted_and_a_damaged_one_is_missing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["doctor", "--json"]) == 0
    assert facts(capsys)["store"]["value"].startswith("none yet")
    assert not (tmp_path / "data").exists()
    assert run(["blank", "add", "Mug", "--girth", "255", "--wall", "95"]) == 0
    capsys.readouterr()
    assert run(["doctor", "--json"]) == 0
    assert facts(capsys)["store"]["value"].endswith(": blanks 1, designs 0, pictures 0, set-ups 0")
    (tmp_path / "data" / "store.sqlite3").write_text("no store", encoding="utf-8")
    assert run(["doctor", "--json"]) == 5
    document = json.loads(capsys.readouterr().out)
    assert (document["error"]["where"], document["error"]["remedy"]) == (
        "store",
        "Put the last back-up in its place.",
    )


def test_tables_are_made_for_the_profiles_that_are_kept(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    profiles = tmp_path / "data" / "profiles"
    profiles.mkdir(parents=True)
    (profiles / "broken.icc").write_bytes(b"not a profile")
    assert run(["doctor", "--tables", "--json"]) == 0
    found = facts(capsys)
    assert found["profiles"]["value"].endswith(": broken.icc")
    assert found["table broken.icc"]["state"] == "note"
