"""The rows of recipes and their versions."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, exists, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.naming import folded
from wrapwright.outside.store.rows.press.values import RecipeRow, Table
from wrapwright.outside.store.schema import HEATS, RECIPE_VERSIONS, RECIPES, TRIALS

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row, Select


def recipe_rows(connection: Connection, *, retired: bool = False) -> tuple[RecipeRow, ...]:
    """Return the newest version of every recipe, by name; those retired only when they are asked for."""
    asked = _versions().where(RECIPE_VERSIONS.c.version == RECIPES.c.newest).order_by(RECIPES.c.folded)
    asked = asked if retired else asked.where(RECIPES.c.retired == 0)
    return tuple(_recipe(row) for row in connection.execute(asked))


def recipe_versions(connection: Connection, id: int) -> tuple[RecipeRow, ...]:  # noqa: A002
    """Return every version of a recipe, the newest first."""
    asked = _versions().where(RECIPES.c.id == id).order_by(RECIPE_VERSIONS.c.version.desc())
    return tuple(_recipe(row) for row in connection.execute(asked))


def found_recipe(connection: Connection, *, id: int = 0, name: str = "", version: int = 0) -> RecipeRow | None:  # noqa: A002
    """Return one version (0 = the newest) of a recipe by number or, when that is 0, by name; None when not there."""
    same = RECIPES.c.id == id if id else RECIPES.c.folded == folded(name)
    wanted = RECIPE_VERSIONS.c.version == (version or RECIPES.c.newest)
    row = connection.execute(_versions().where(same, wanted)).first()
    return None if row is None else _recipe(row)


def recipe_kept(connection: Connection, *, id: int = 0, name: str = "", version: int = 0) -> RecipeRow:  # noqa: A002
    """Return one version (0 = the newest) of a recipe by number or, when that is 0, by name.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    found = found_recipe(connection, id=id, name=name, version=version)
    if found is None:
        called = f"with the number {id}" if id else f'called "{name}"'
        what = f"version {version} of a recipe {called}" if version else f"recipe {called}"
        message = f"The workshop keeps no {what}."
        raise WrapwrightError(Kind.MISSING, message, remedy="List the recipes to see what there is.")
    return found


def put_recipe_row(connection: Connection, name: str, content: Table, now: datetime, *, own: int = 0) -> int:
    """Write down a recipe, a new one or a change of the one with the number `own`; return its number.

    A version that something was heated with stays as it is: the change becomes the next version.

    Raises:
        WrapwrightError: refused, when another recipe has the name.
    """
    _free(connection, name, own)
    values: dict[str, Any] = {"name": name, "folded": folded(name)}
    if not own:
        first = {**values, "newest": 1, "retired": 0}
        made = connection.execute(insert(RECIPES).values(**first)).inserted_primary_key
        recipe = int(made[0]) if made else 0
        _add_version(connection, recipe, 1, content, now)
        return recipe
    before = recipe_kept(connection, id=own)
    version = before.newest
    if dict(before.content) != dict(content):
        if before.used:
            version += 1
            _add_version(connection, own, version, content, now)
        else:
            same = (RECIPE_VERSIONS.c.recipe == own) & (RECIPE_VERSIONS.c.version == version)
            connection.execute(update(RECIPE_VERSIONS).where(same).values(content=dict(content), added=now))
    connection.execute(update(RECIPES).where(RECIPES.c.id == own).values(**values, newest=version))
    return own


def use_recipe_row(connection: Connection, id: int, version: int) -> None:  # noqa: A002
    """Mark a version as used: it never changes again. A recipe with the number 0 is a file's and needs no mark."""
    same = (RECIPE_VERSIONS.c.recipe == id) & (RECIPE_VERSIONS.c.version == version)
    connection.execute(update(RECIPE_VERSIONS).where(same).values(used=1))


def retire_recipe_row(connection: Connection, id: int) -> bool:  # noqa: A002
    """Take a recipe out of what is offered; return True when it was removed whole, since nothing ever used it."""
    used = select(RECIPE_VERSIONS.c.recipe).where(RECIPE_VERSIONS.c.recipe == id, RECIPE_VERSIONS.c.used == 1)
    heated = select(HEATS.c.id).where(HEATS.c.recipe == id)
    tried = select(TRIALS.c.id).where(TRIALS.c.recipe == id)
    if any(connection.execute(select(exists(one))).scalar() for one in (used, heated, tried)):
        connection.execute(update(RECIPES).where(RECIPES.c.id == id).values(retired=1))
        return False
    connection.execute(delete(RECIPES).where(RECIPES.c.id == id))
    return True


def restore_recipe_row(connection: Connection, id: int) -> None:  # noqa: A002
    """Offer a retired recipe again."""
    connection.execute(update(RECIPES).where(RECIPES.c.id == id).values(retired=0))


def _add_version(connection: Connection, recipe: int, version: int, content: Table, now: datetime) -> None:
    values = {"recipe": recipe, "version": version, "content": dict(content), "used": 0, "added": now}
    connection.execute(insert(RECIPE_VERSIONS).values(**values))


def _free(connection: Connection, name: str, own: int) -> None:
    taken = select(RECIPES.c.name, RECIPES.c.retired).where(RECIPES.c.folded == folded(name), RECIPES.c.id != own)
    other = connection.execute(taken).first()
    if other is not None:
        state = "a retired recipe" if other.retired else "a recipe"
        remedy = "Restore that one, or choose another name." if other.retired else "Choose another name."
        message = f'There is {state} called "{other.name}" already; nothing was changed.'
        raise WrapwrightError(Kind.REFUSED, message, remedy=remedy, where="name")


def _versions() -> Select[Any]:
    return select(RECIPES, RECIPE_VERSIONS).join(RECIPE_VERSIONS, RECIPE_VERSIONS.c.recipe == RECIPES.c.id)


def _recipe(row: Row[Any]) -> RecipeRow:
    return RecipeRow(
        row.id, row.name, row.version, row.newest, row.content, bool(row.used), bool(row.retired), row.added
    )
