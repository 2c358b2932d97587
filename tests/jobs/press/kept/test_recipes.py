"""Recipes kept: where they are found, versions that never change once used, what becomes of one that goes."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.recipe.reading import recipe_row
from wrapwright.data.recipes import recipes
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.kept.recipes import (
    KeepRecipe,
    ListRecipes,
    RecipeKept,
    RestoreRecipe,
    RetireRecipe,
    ShowRecipe,
    keep_recipe,
    list_recipes,
    recipe_named,
    recipe_versions,
    restore_recipe,
    retire_recipe,
    show_recipe,
)
from wrapwright.outside.store.rows.press.recipes import use_recipe_row

QUIET = Watch()
STEEL = recipe_row(recipes()[0])


def keep(bench: Bench, own: int = 0, **change: Any) -> RecipeKept:
    return keep_recipe(KeepRecipe({**STEEL, "name": "20 oz", **change}, own), bench, QUIET)


def use(bench: Bench, kept: RecipeKept) -> None:
    with bench.kept().writing() as connection:
        use_recipe_row(connection, kept.recipe.id, kept.recipe.version)


def names(bench: Bench, *, retired: bool = False) -> list[str]:
    return [one.recipe.name for one in list_recipes(ListRecipes(retired), bench, QUIET)]


def test_without_a_store_there_are_the_shipped_ones_and_none_is_made(bench: Bench) -> None:
    assert names(bench) == [one.name for one in recipes()]
    assert recipe_named("Steel-Oven ", bench) == recipes()[0]
    assert recipe_named(None, bench) is None
    assert not bench.kept().exists()
    assert recipe_named("steel-oven", replace(bench, store=None)) == recipes()[0]


ROW = 'schema = 1\n[[recipe]]\nname = "{}"\ntitle = "From a file"\nware = "steel"\nheater = "oven"\n'
FIGURES = 'celsius = ["374 F", "392 F"]\nseconds = "5-6 min"\nsource = "maker\'s sheet"\n'


def write(bench: Bench, name: str) -> None:
    folder = bench.folders.data / "press"
    folder.mkdir(parents=True, exist_ok=True)
    (folder / f"{name}.toml").write_text(ROW.format(name) + FIGURES, encoding="utf-8", newline="\n")


def test_the_workshops_own_goes_before_a_files_and_that_before_a_shipped_one(bench: Bench) -> None:
    write(bench, "steel-oven")
    found = recipe_named("steel-oven", bench)
    assert found is not None
    assert (found.title, found.celsius, found.seconds) == ("From a file", pytest.approx((190, 200)), (300, 360))
    write(bench, "20 oz")
    kept = keep(bench, name="20 OZ", title="Our own")
    assert recipe_named("20 oz", bench) == kept.recipe
    rows = list_recipes(ListRecipes(), bench, QUIET)
    assert [one.place for one in rows] == ["workshop", "folder", *["shipped"] * (len(recipes()) - 1)]


def test_one_to_start_from_gives_its_name_to_no_other(bench: Bench) -> None:
    with pytest.raises(WrapwrightError, match="would be taken for each other") as found:
        keep(bench, name=" Steel-Oven")
    assert (found.value.kind, found.value.where) == (Kind.REFUSED, "name")


def test_while_the_store_is_out_of_reach_those_to_start_from_are_found(bench: Bench) -> None:
    keep(bench)
    bench.kept().close()
    bench.kept().file.write_bytes(b"no store")
    for leftover in ("-wal", "-shm"):
        bench.kept().file.with_name(f"{bench.kept().file.name}{leftover}").unlink(missing_ok=True)
    assert recipe_named("steel-oven", bench) == recipes()[0]
    with pytest.raises(WrapwrightError) as found:
        recipe_named("20 oz", bench)
    assert found.value.kind is Kind.UNREACHABLE


def test_a_name_that_is_not_there_is_told_with_those_that_are(bench: Bench) -> None:
    keep(bench)
    with pytest.raises(WrapwrightError) as found:
        recipe_named("copper-oven", bench)
    assert (found.value.kind, found.value.where) == (Kind.UNUSABLE, "press: recipe")
    assert "there are 20 oz, steel-oven, double-walled-oven" in found.value.message


def test_a_version_changes_until_it_is_used_and_never_after(bench: Bench) -> None:
    first = keep(bench)
    changed = keep(bench, first.recipe.id, seconds=[300, 360])
    assert (changed.recipe.version, changed.recipe.seconds) == (1, (300, 360))
    use(bench, changed)
    second = keep(bench, first.recipe.id, seconds=[330, 360])
    assert (second.recipe.version, second.newest, second.used) == (2, 2, False)
    old, new = reversed(recipe_versions(ShowRecipe(first.recipe.id), bench, QUIET))
    assert (old.recipe, old.used) == (changed.recipe, True)
    assert new.recipe == second.recipe
    assert show_recipe(ShowRecipe(name="20 OZ", version=1), bench, QUIET).recipe == changed.recipe
    assert recipe_named("20 oz", bench) == second.recipe


def test_a_change_of_nothing_is_no_version(bench: Bench) -> None:
    first = keep(bench)
    use(bench, first)
    again = keep(bench, first.recipe.id)
    assert (again.recipe.version, again.newest, again.added) == (1, 1, first.added)


def test_of_two_who_change_the_same_version_the_second_is_told(bench: Bench) -> None:
    first = keep(bench)
    assert first.added is not None
    seen = (1, first.added)
    content = {**STEEL, "name": "20 oz"}
    keep_recipe(KeepRecipe({**content, "seconds": [300, 360]}, first.recipe.id, seen), bench, QUIET)
    with pytest.raises(WrapwrightError, match="changed elsewhere") as found:
        keep_recipe(KeepRecipe({**content, "seconds": [310, 360]}, first.recipe.id, seen), bench, QUIET)
    assert found.value.kind is Kind.REFUSED
    kept = recipe_named("20 oz", bench)
    assert kept is not None
    assert kept.seconds == (300, 360)


def test_one_that_nothing_used_is_removed_and_one_that_was_used_is_retired(bench: Bench) -> None:
    unused, used = keep(bench, name="unused"), keep(bench, name="used")
    use(bench, used)
    gone = retire_recipe(RetireRecipe(unused.recipe.id), bench, QUIET)
    assert (gone.name, gone.removed) == ("unused", True)
    assert not retire_recipe(RetireRecipe(used.recipe.id), bench, QUIET).removed
    assert "used" not in names(bench)
    assert names(bench, retired=True)[0] == "used"
    found = recipe_named("used", bench)  # a job that names it still finds it
    assert found == used.recipe
    with pytest.raises(WrapwrightError, match="a retired recipe called"):
        keep(bench, name="USED")
    assert not restore_recipe(RestoreRecipe(used.recipe.id), bench, QUIET).retired
    assert "used" in names(bench)


def test_a_retired_one_still_hides_a_files_of_its_name(bench: Bench) -> None:
    own = keep(bench)
    use(bench, own)
    retire_recipe(RetireRecipe(own.recipe.id), bench, QUIET)
    write(bench, "20 oz")
    assert "20 oz" not in names(bench)
    assert recipe_named("20 oz", bench) == own.recipe


@pytest.mark.parametrize("ask", [show_recipe, recipe_versions])
def test_what_is_not_there(bench: Bench, ask: Any) -> None:
    for request in (ShowRecipe(7), ShowRecipe(name="none"), ShowRecipe(name="steel-oven", version=3)):
        with pytest.raises(WrapwrightError) as found:
            ask(request, bench, QUIET)
        assert found.value.kind is Kind.MISSING
    for verb, gone in ((retire_recipe, RetireRecipe(7)), (restore_recipe, RestoreRecipe(7))):
        with pytest.raises(WrapwrightError, match="keeps no recipe"):
            verb(gone, bench, QUIET)  # type: ignore[operator]


def test_what_cannot_be_kept_leaves_nothing(bench: Bench) -> None:
    with pytest.raises(WrapwrightError, match="383 °C"):
        keep(bench, celsius="383 C")
    with pytest.raises(WrapwrightError, match="name"):
        keep(bench, name="\u200b")
    assert names(bench) == [one.name for one in recipes()]


def test_a_file_of_no_use_is_named(bench: Bench, tmp_path: Path) -> None:
    folder = bench.folders.data / "press"
    folder.mkdir(parents=True)
    for text, said in (
        ("recipe = 5", "schema None"),
        ("schema = 1\nrecipe = 5", "recipes are written as"),
        ("schema = ", "not TOML"),
        ('schema = 1\n[[recipe]]\nname = "hot"\ncelsius = 383', "mine.toml: hot: celsius"),
    ):
        (folder / "mine.toml").write_text(text, encoding="utf-8")
        with pytest.raises(WrapwrightError) as found:
            recipe_named("steel-oven", bench)
        assert said in str(found.value)
        assert str(tmp_path) not in str(found.value)
