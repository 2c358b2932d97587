"""Recipes in TOML files of the user's own data folder, read after the shipped ones."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.data.recipes import SCHEMA, Recipe

FOLDER = "press"  # of the data folder
_MOST_BYTES = 1_000_000


def folder_recipes(data: Path) -> tuple[Recipe, ...]:
    """Return the recipes of press/*.toml in a data folder, files by name; of two of one name the later stands.

    A file holds `schema = 1` and [[recipe]] tables, as the shipped one does.

    Raises:
        WrapwrightError: unusable, with the file, the recipe and all that is wrong in it.
    """
    folder = data / FOLDER
    if not folder.is_dir():
        return ()
    from wrapwright.outside.store.naming import folded

    found: dict[str, Recipe] = {}
    for file in sorted(folder.glob("*.toml"), key=lambda one: one.name):
        for recipe in _read(file):
            found[folded(recipe.name)] = recipe
    return tuple(found.values())


def _read(file: Path) -> list[Recipe]:
    from wrapwright.core.press.recipe.reading import read_recipe

    table = _table(file)
    if table.get("schema") != SCHEMA:
        message = f"the schema {table.get('schema')} is not the one this version reads ({SCHEMA})."
        raise unusable(message, remedy=f"Write schema = {SCHEMA} in its first line.", where=file.name)
    rows = table.get("recipe", [])
    if not isinstance(rows, list) or not all(isinstance(one, dict) for one in rows):
        raise unusable("recipes are written as [[recipe]] tables.", where=file.name)
    recipes = []
    for row in rows:
        try:
            recipes.append(read_recipe(row))
        except WrapwrightError as problem:
            raise _in_file(problem, file, str(row.get("name", ""))[:80]) from None
    return recipes


def _table(file: Path) -> dict[str, Any]:
    import tomllib

    try:
        if file.stat().st_size > _MOST_BYTES:
            raise unusable(f"the file is longer than {_MOST_BYTES // 1_000_000} MB.", where=file.name)
        return tomllib.loads(file.read_text(encoding="utf-8-sig"))
    except OSError as error:
        message = f"the file cannot be read ({error.strerror or type(error).__name__})."
        raise unusable(message, remedy="Look at its rights.", where=file.name) from error
    except (UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise unusable(f"the file is not TOML in UTF-8: {error}.", remedy="Mend it.", where=file.name) from error


def _in_file(problem: WrapwrightError, file: Path, name: str) -> WrapwrightError:
    from wrapwright.core.base.errors import SeveralProblemsError

    if isinstance(problem, SeveralProblemsError):
        return SeveralProblemsError(tuple(_in_file(one, file, name) for one in problem.problems))
    where = f"{file.name}: {name}: {problem.where}" if name else f"{file.name}: {problem.where}"
    return WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where)
