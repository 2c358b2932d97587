"""What is loaded when only help is asked for, and that the import contracts leave nothing out."""

from __future__ import annotations

import os
import subprocess
import sys
import time
import tomllib

import pytest
from tests.house.tree import ROOT, SOURCE

HEAVY = {
    "PIL", "alembic", "cv2", "fastapi", "fontTools", "isal", "jinja2", "numpy", "openpyxl", "pi_heif", "pikepdf",
    "pydantic", "pypdfium2", "pyvips", "rich", "scipy", "sqlalchemy", "tomli_w", "typst", "uharfbuzz", "uvicorn",
    "zxingcpp",
}  # fmt: skip
LISTING = (
    "import sys\nfrom wrapwright.faces.cli.entry import run\ncode = run({words})\nprint(code, *sorted(sys.modules))"
)
CORE_NEVER = {
    "os", "pathlib", "time", "random", "secrets", "uuid", "PIL", "cv2", "pyvips", "pikepdf", "sqlalchemy", "fastapi",
    "typer",
}  # fmt: skip


def loaded(words: list[str]) -> set[str]:
    code = LISTING.format(words=words)
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    exit_code, *modules = done.stdout.splitlines()[-1].split()
    assert exit_code == "0"
    return {module.split(".")[0] for module in modules}


@pytest.mark.parametrize("words", [["--help"], ["make", "--help"], ["fit", "--help"], ["--version"]])
def test_help_loads_nothing_heavy(words: list[str]) -> None:
    modules = loaded(words)
    assert "typer" in modules
    assert modules & HEAVY == set()


def test_help_is_quick() -> None:
    """0.3 s warm is the aim on a quiet machine; best of five here, twice as much allowed.

    Where the system tells it, the child's own processor time is taken: what else runs beside it does not count then.
    """
    times = []
    for _ in range(5):
        before, begun = os.times(), time.perf_counter()
        subprocess.run([sys.executable, "-m", "wrapwright", "--help"], capture_output=True, check=True)
        after = os.times()
        used = after.children_user + after.children_system - before.children_user - before.children_system
        times.append(used or time.perf_counter() - begun)
    assert min(times) < 0.6


def contracts() -> list[dict[str, object]]:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    found: list[dict[str, object]] = settings["tool"]["importlinter"]["contracts"]
    return found


def test_contracts_leave_no_module_out() -> None:
    layered = [one for one in contracts() if one["type"] == "layers"]
    containers = {container for one in layered for container in one["containers"]}  # type: ignore[attr-defined]
    assert containers == {"wrapwright", "wrapwright.core", "wrapwright.outside", "wrapwright.faces"}
    assert all(one["exhaustive"] for one in layered)


def test_core_may_not_touch_the_world() -> None:
    (core,) = [one for one in contracts() if one.get("source_modules") == ["wrapwright.core"]]
    assert set(core["forbidden_modules"]) == CORE_NEVER  # type: ignore[call-overload]


def test_the_command_line_imports_heavy_libraries_late() -> None:
    """Importing every module of the command line loads no heavy library."""
    files = [file for file in sorted((SOURCE / "faces").glob("cli/*.py")) if file.name != "__init__.py"]
    modules = [".".join(file.relative_to(SOURCE.parent).with_suffix("").parts) for file in files]
    assert len(modules) > 8
    code = "import sys\n" + "".join(f"import {module}\n" for module in modules) + "print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert {module.split(".")[0] for module in done.stdout.split()} & HEAVY == set()
