"""What belongs to the project: its committed files, or all but the ignored ones where there is no repository."""

from __future__ import annotations

import ast
import shutil
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "wrapwright"
_NOT_OURS = {".git", ".venv", "build", "dist", "__pycache__", "wrapwright-demo"}


def committed() -> list[Path]:
    """Return the project's files, sorted."""
    git = shutil.which("git")
    if git and (ROOT / ".git").exists():
        words = [git, "-C", str(ROOT), "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
        done = subprocess.run(words, capture_output=True, check=False)
        if done.returncode == 0:
            files = (ROOT / name for name in done.stdout.decode("utf-8").split("\0") if name)
            return sorted(file for file in files if file.is_file())
    return sorted(
        file
        for file in ROOT.rglob("*")
        if file.is_file() and not {part for part in file.relative_to(ROOT).parts if part in _NOT_OURS or part[0] == "."}
    )


def python_files() -> list[Path]:
    """Return the project's Python files, the run script among them."""
    return [file for file in committed() if file.suffix == ".py" or file == ROOT / "run"]


def named(file: Path) -> str:
    """Return a file's path from the project's root."""
    return file.relative_to(ROOT).as_posix()


@cache
def definitions(file: Path) -> tuple[ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef, ...]:
    """Return every function and class of a file, inner ones too."""
    kinds = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef
    tree = ast.parse(file.read_text(encoding="utf-8"))
    return tuple(one for one in statements(tree) if isinstance(one, kinds))


def statements(node: ast.AST) -> Iterator[ast.AST]:
    """Yield all that stands below a node as a statement; expressions define nothing."""
    for part in ("body", "handlers", "orelse", "finalbody", "cases"):
        below = getattr(node, part, ())
        for one in below if isinstance(below, list) else ():
            yield one
            yield from statements(one)


def functions(file: Path) -> Iterator[tuple[str, int]]:
    """Yield the name and the lines of every function, decorators left out."""
    for node in definitions(file):
        if not isinstance(node, ast.ClassDef):
            yield node.name, (node.end_lineno or node.lineno) - node.lineno + 1
