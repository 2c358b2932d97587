"""Recipes: the workshop's own, those of its folder, and the shipped ones."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING, Any, Literal

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.data.recipes import Recipe, recipe_of, recipes
from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wrapwright.outside.store.rows.press.values import RecipeRow

Place = Literal["workshop", "folder", "shipped"]


@dataclass(frozen=True)
class ListRecipes:
    """All recipes; `retired`: those too that are no longer offered."""

    retired: bool = False


@dataclass(frozen=True)
class ShowRecipe:
    """One recipe, by its number or (number 0) its name; version 0 is the newest."""

    id: int = 0
    name: str = ""
    version: int = 0


@dataclass(frozen=True)
class KeepRecipe:
    """A recipe of the workshop, a new one or a change.

    Attributes:
        content: the recipe as a table; see `core.press.recipe.reading`.
        id: of the recipe that is changed, 0 for a new one.
        seen: the version that the change was made from, as (version, when it was added); None: whichever stands.
    """

    content: Mapping[str, Any]
    id: int = 0
    seen: tuple[int, datetime] | None = None


@dataclass(frozen=True)
class RetireRecipe:
    """Take a recipe of the workshop out of what is offered."""

    id: int


@dataclass(frozen=True)
class RestoreRecipe:
    """Offer a retired recipe again."""

    id: int


@dataclass(frozen=True)
class RecipeKept:
    """A recipe and how it stands.

    Attributes:
        recipe: one version of it.
        place: where it is kept: the workshop's store, a file of its folder, or shipped with the program.
        newest: the highest version there is.
        used: something was heated with this version; it never changes again.
        retired: no longer offered.
        added: when this version was; None for one of a file.
    """

    recipe: Recipe
    place: Place
    newest: int = 1
    used: bool = False
    retired: bool = False
    added: datetime | None = None


@dataclass(frozen=True)
class Retired:
    """What became of a thing that is no longer offered; `removed`: nothing had used it, so it is gone."""

    name: str
    removed: bool


def recipe_named(name: str | None, bench: Bench) -> Recipe | None:
    """Return the newest version of the recipe of that name, None for no name.

    The workshop's own go first, retired ones included, then those of its folder, then the shipped ones, which are found
    even while the store is out of reach.

    Raises:
        WrapwrightError: unusable, with the names there are.
    """
    if name is None:
        return None
    found = _found(name, bench)
    if found is not None:
        return found.recipe
    listed = ", ".join(one.recipe.name for one in list_recipes(ListRecipes(), bench, Watch()))
    raise unusable(f'there is no recipe "{name}"; there are {listed}.', where="press: recipe")


def list_recipes(request: ListRecipes, bench: Bench, watch: Watch) -> tuple[RecipeKept, ...]:
    """Return the recipes, the workshop's own first; one name stands once, a later place is hidden by an earlier one."""
    del watch
    own = _own(bench, retired=request.retired)
    rest = _of_files(bench)
    hidden = {_folded(one.recipe.name) for one in (own if request.retired else _own(bench, retired=True))}
    found = list(own)
    for one in rest:
        if _folded(one.recipe.name) not in hidden:
            hidden.add(_folded(one.recipe.name))
            found.append(one)
    return tuple(found)


def show_recipe(request: ShowRecipe, bench: Bench, watch: Watch) -> RecipeKept:
    """Return one version of a recipe.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    del watch
    if not request.id:
        found = _found(request.name, bench, request.version)
        if found is not None:
            return found
    from wrapwright.outside.store.rows.press.recipes import recipe_kept

    with bench.kept().reading() as connection:
        return _kept(recipe_kept(connection, id=request.id, name=request.name, version=request.version))


def recipe_versions(request: ShowRecipe, bench: Bench, watch: Watch) -> tuple[RecipeKept, ...]:
    """Return every version of a recipe of the workshop, the newest first; of a file's recipe the one there is.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    shown = show_recipe(request, bench, watch)
    if shown.place != "workshop":
        return (shown,)
    from wrapwright.outside.store.rows.press.recipes import recipe_versions as versions

    with bench.kept().reading() as connection:
        return tuple(_kept(row) for row in versions(connection, shown.recipe.id))


def keep_recipe(request: KeepRecipe, bench: Bench, watch: Watch) -> RecipeKept:
    """Return the recipe as it is kept; a version that was used stays, and the change is the next version.

    Raises:
        WrapwrightError: unusable, with all that is wrong with it; refused when the name is taken or it was changed
            elsewhere in between; missing when there is none of that number.
    """
    del watch
    from wrapwright.core.press.recipe.reading import read_recipe, recipe_row
    from wrapwright.outside.store.naming import named
    from wrapwright.outside.store.rows.press.recipes import put_recipe_row, recipe_kept

    recipe = read_recipe(request.content)
    recipe = replace(recipe, name=named(recipe.name, what="recipe"))
    if _folded(recipe.name) in {_folded(one.name) for one in recipes()}:
        message = f'"{recipe.name}" is a recipe to start from; two of one name would be taken for each other.'
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name.", where="name")
    with bench.kept().writing() as connection:
        if request.id:
            _unchanged(recipe_kept(connection, id=request.id), request)
        made = put_recipe_row(connection, recipe.name, recipe_row(recipe), bench.clock(), own=request.id)
        return _kept(recipe_kept(connection, id=made))


def retire_recipe(request: RetireRecipe, bench: Bench, watch: Watch) -> Retired:
    """Return what became of it: removed when nothing ever used it, else kept for what did and no longer offered.

    Raises:
        WrapwrightError: missing, when there is none of that number.
    """
    del watch
    from wrapwright.outside.store.rows.press.recipes import recipe_kept, retire_recipe_row

    with bench.kept().writing() as connection:
        kept = recipe_kept(connection, id=request.id or -1)
        return Retired(kept.name, retire_recipe_row(connection, kept.id))


def restore_recipe(request: RestoreRecipe, bench: Bench, watch: Watch) -> RecipeKept:
    """Return the recipe, which is offered again.

    Raises:
        WrapwrightError: missing, when there is none of that number.
    """
    del watch
    from wrapwright.outside.store.rows.press.recipes import recipe_kept, restore_recipe_row

    with bench.kept().writing() as connection:
        restore_recipe_row(connection, recipe_kept(connection, id=request.id or -1).id)
        return _kept(recipe_kept(connection, id=request.id))


def _unchanged(stands: RecipeRow, request: KeepRecipe) -> None:
    if request.seen is not None and request.seen != (stands.version, stands.added):
        message = f"{stands.name} was changed elsewhere in the meantime; nothing was changed here."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Look at it again, then repeat the change.")


def _found(name: str, bench: Bench, version: int = 0) -> RecipeKept | None:
    rest = (one for one in _of_files(bench) if _folded(one.recipe.name) == _folded(name))
    try:
        row = _row(name, version, bench)
    except WrapwrightError as problem:
        shipped = next(rest, None) if problem.kind is Kind.UNREACHABLE else None
        if shipped is None:
            raise
        return shipped
    if row is not None:
        return _kept(row)
    return next(rest, None) if version in (0, 1) else None


def _row(name: str, version: int, bench: Bench) -> RecipeRow | None:
    """Return the workshop's own recipe of that name, None when there is none; a store that is not there is not made."""
    if bench.store is None or not bench.store.exists():
        return None
    from wrapwright.outside.store.rows.press.recipes import found_recipe

    with bench.store.reading() as connection:
        return found_recipe(connection, name=name, version=version)


def _own(bench: Bench, *, retired: bool) -> tuple[RecipeKept, ...]:
    """Return the workshop's own recipes; a store that is not there is not made."""
    if bench.store is None or not bench.store.exists():
        return ()
    from wrapwright.outside.store.rows.press.recipes import recipe_rows

    with bench.store.reading() as connection:
        return tuple(_kept(row) for row in recipe_rows(connection, retired=retired))


def _of_files(bench: Bench) -> tuple[RecipeKept, ...]:
    from wrapwright.jobs.press.kept.folder import folder_recipes

    folder = (RecipeKept(one, "folder") for one in folder_recipes(bench.folders.data))
    return (*folder, *(RecipeKept(one, "shipped") for one in recipes()))


def _kept(row: RecipeRow) -> RecipeKept:
    recipe = replace(recipe_of({**row.content, "name": row.name}), version=row.version, id=row.id)
    return RecipeKept(recipe, "workshop", row.newest, row.used, row.retired, row.added)


def _folded(name: str) -> str:
    from wrapwright.outside.store.naming import folded

    return folded(name)
