"""Settings: the later source wins, each value knows where it came from, and unknown keys are refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.opening import open_settings
from wrapwright.outside.system.folders import config_file
from wrapwright.settings import Setting, read_settings

DEFAULTS: dict[str, Path | int] = {"cache": Path("c"), "data": Path("d"), "fonts": Path("f"), "threads": 2}


def written(tmp_path: Path, text: str) -> Path:
    file = tmp_path / "settings.toml"
    file.write_text(text, encoding="utf-8")
    return file


def test_each_source_overrides_the_one_before(tmp_path: Path) -> None:
    file = written(tmp_path, 'format = 1\ncache = "here"\ndata = "there"\nthreads = 3\n')
    variables = {"WRAPWRIGHT_DATA": str(tmp_path / "mine"), "WRAPWRIGHT_THREADS": "4", "HOME": "x"}
    found = read_settings(DEFAULTS, file, variables, {"threads": 5})
    assert found.cache == Setting(tmp_path / "here", str(file))
    assert found.data == Setting(tmp_path / "mine", "WRAPWRIGHT_DATA")
    assert found.fonts == Setting(Path("f"), "default")
    assert found.threads == Setting(5, "--threads")
    assert read_settings(DEFAULTS, file, variables).threads == Setting(4, "WRAPWRIGHT_THREADS")


def test_how_the_bench_is_served(tmp_path: Path) -> None:
    found = read_settings(DEFAULTS, None, {})
    assert (found.port, found.login) == (Setting(8782, "default"), Setting("away", "default"))
    file = written(tmp_path, 'port = 0\nlogin = "always"\n')
    found = read_settings(DEFAULTS, file, {"WRAPWRIGHT_PORT": "9000"})
    assert (found.port, found.login) == (Setting(9000, "WRAPWRIGHT_PORT"), Setting("always", str(file)))


def test_a_missing_file_and_an_empty_variable_say_nothing(tmp_path: Path) -> None:
    found = read_settings(DEFAULTS, tmp_path / "none.toml", {"WRAPWRIGHT_CACHE": ""})
    assert found == read_settings(DEFAULTS, None, {})


@pytest.mark.parametrize(
    ("text", "variables", "message"),
    [
        ('cashe = "x"', {}, "'cashe'; the nearest is 'cache'"),
        ("", {"WRAPWRIGHT_THREAD": "2"}, "'WRAPWRIGHT_THREAD'; the nearest is 'WRAPWRIGHT_THREADS'"),
        ("threads = 0", {}, "from 1 to 256; it is 0"),
        ("threads = true", {}, "it is True"),
        ("", {"WRAPWRIGHT_THREADS": "two"}, "it is 'two'"),
        ("port = 65536", {}, "port must be a whole number from 0 to 65535; it is 65536"),
        ("", {"WRAPWRIGHT_LOGIN": "never"}, "login must be away or always; it is 'never'"),
        ("data = 3", {}, "data must be a folder's path; it is 3"),
        ("format = 2", {}, "format 2; this version reads 1"),
        ("data =", {}, "cannot be read"),
    ],
)
def test_what_cannot_be_meant_is_refused(tmp_path: Path, text: str, variables: dict[str, str], message: str) -> None:
    with pytest.raises(WrapwrightError, match=message) as caught:
        read_settings(DEFAULTS, written(tmp_path, text), variables)
    assert caught.value.kind is Kind.UNUSABLE
    assert caught.value.where


def test_this_machine_has_folders_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("CACHE", "DATA", "FONTS"):
        monkeypatch.delenv(f"WRAPWRIGHT_{name}")
    found = open_settings()
    places = {found.cache.value, found.data.value, found.fonts.value}
    assert len(places) == 3
    assert all(place.is_absolute() and "wrapwright" in place.parts for place in places)
    assert config_file().name == "settings.toml"
    assert found.threads.value >= 1
