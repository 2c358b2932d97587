"""The house's limits on size: files, functions, folders, classes; tests too."""

from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path

from tests.house.tree import ROOT, SOURCE, committed, definitions, functions, named, python_files

FILE_LINES = 400
WRITTEN = {".css", ".html", ".js", ".typ"}  # beside Python
FUNCTION_LINES = 60
FOLDER_MODULES = 12
PUBLIC_METHODS = 12
VAGUE = {"utils", "util", "helpers", "helper", "manager", "misc", "common"}


def test_there_is_something_to_look_at() -> None:
    names = {named(file) for file in python_files()}
    assert {"run", "src/wrapwright/faces/outcomes.py", "tests/house/test_limits.py"} <= names


def test_files_are_short() -> None:
    files = [*python_files(), *(file for file in committed() if file.suffix in WRITTEN)]
    assert len(files) > len(python_files())
    lengths = {named(file): len(file.read_text(encoding="utf-8").splitlines()) for file in files}
    assert {name: lines for name, lines in lengths.items() if lines > FILE_LINES} == {}


def test_functions_are_short() -> None:
    found = [(named(file), name, lines) for file in python_files() for name, lines in functions(file)]
    assert [one for one in found if one[2] > FUNCTION_LINES] == []


def test_folders_are_small() -> None:
    modules = Counter(named(file.parent) for file in python_files() if file.name != "__init__.py")
    assert {folder: count for folder, count in modules.items() if count > FOLDER_MODULES} == {}


def is_verb(node: ast.stmt) -> bool:
    """Return whether a class's entry is a public method (a property is no verb)."""
    return (
        isinstance(node, ast.FunctionDef)
        and not node.name.startswith("_")
        and not any(isinstance(one, ast.Name) and one.id == "property" for one in node.decorator_list)
    )


def test_classes_have_few_public_methods() -> None:
    many = {}
    for file in python_files():
        for node in definitions(file):
            if isinstance(node, ast.ClassDef):
                public = [one for one in node.body if is_verb(one)]
                if len(public) > PUBLIC_METHODS:
                    many[f"{named(file)}:{node.name}"] = len(public)
    assert many == {}


def test_names_say_what_they_are() -> None:
    parts = {(named(file), part) for file in python_files() for part in Path(named(file)).with_suffix("").parts}
    assert [name for name, part in parts if part in VAGUE] == []


def test_packages_open_empty() -> None:
    """An inner `__init__.py` holds a docstring at most, so that importing a module loads nothing beside it."""
    full = []
    for file in SOURCE.rglob("__init__.py"):
        body = ast.parse(file.read_text(encoding="utf-8")).body
        if file.parent != SOURCE and not all(isinstance(one, ast.Expr) for one in body):
            full.append(named(file))
    assert full == []
    assert not list((ROOT / "tests").rglob("__init__.py"))
