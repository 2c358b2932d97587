"""The wheel holds every file of the package and runs from it, in an empty home."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from tests.house.tree import ROOT, committed

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the wheel from a copy of the committed files: nothing that lies about here may slip in."""
    place = tmp_path_factory.mktemp("wheel")
    for file in committed():
        copy = place / "source" / file.relative_to(ROOT)
        copy.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(file, copy)
    words = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "-o", str(place), str(place / "source")]
    subprocess.run(words, check=True, capture_output=True)
    (made,) = place.glob("*.whl")
    return made


def test_the_wheel_is_whole(wheel: Path) -> None:
    assert wheel.name.endswith("-py3-none-any.whl")
    with zipfile.ZipFile(wheel) as archive:
        packed = {name for name in archive.namelist() if name.startswith("wrapwright/")}
    built_from = wheel.parent / "source" / "src"
    source = {file.relative_to(built_from).as_posix() for file in (built_from / "wrapwright").rglob("*.*")}
    assert packed == source


def test_the_wheel_runs_in_an_empty_home(wheel: Path, tmp_path: Path) -> None:
    place = tmp_path / "installed"
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(place)
    home = tmp_path / "home"
    home.mkdir()
    kept = {name: os.environ[name] for name in ("PATH", "SYSTEMROOT") if name in os.environ}
    environment = {**kept, "HOME": str(home), "USERPROFILE": str(home), "PYTHONPATH": str(place)}
    code = "import wrapwright, sys; print(wrapwright.__file__); from wrapwright.faces.cli.entry import run; "
    code += "sys.exit(run(['schema', 'job']))"
    words = [sys.executable, "-c", code]
    done = subprocess.run(words, capture_output=True, text=True, check=True, env=environment, cwd=tmp_path)
    assert Path(done.stdout.splitlines()[0]).is_relative_to(place)
    assert '"$schema"' in done.stdout
    assert list(home.iterdir()) == []
    # The store is made by the migrations that the wheel carries.
    code = "import sys; from wrapwright.faces.cli.entry import run; "
    code += "sys.exit(run(['blank', 'add', 'Mug', '--girth', '255 mm', '--wall', '95 mm']) or run(['blank', 'list']))"
    words = [sys.executable, "-c", code]
    environment["WRAPWRIGHT_DATA"] = str(tmp_path / "data")
    done = subprocess.run(words, capture_output=True, text=True, check=True, env=environment, cwd=tmp_path)
    assert done.stdout.splitlines()[0] == "Mug"
    assert (tmp_path / "data" / "store.sqlite3").is_file()
    assert list(home.iterdir()) == []
