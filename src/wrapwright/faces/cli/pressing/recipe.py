"""`press recipe`: temperatures and times with their limits and sources."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, Any

import typer

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.faces.cli.kept.telling import group, show_columns
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.readings import length_option
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.jobs.press.kept.recipes import RecipeKept

Name = Annotated[str, typer.Argument(metavar="NAME", help="The recipe's name.")]
Words = str | None


def _told(words: str, metavar: str = "WORDS") -> Any:
    return typer.Option(metavar=metavar, help=words)


Title = Annotated[Words, _told("What people read.")]
Ware = Annotated[Words, _told("steel, double-walled, aluminium, ceramic, glass or unknown.", "WARE")]
HeaterWord = Annotated[Words, typer.Option("--heater", metavar="KIND", help="oven, mug-press or flat-press.")]
Heat = Annotated[Words, _told('What it is set to: "190-205 C" or "374-401 F".', "RANGE")]
Dwell = Annotated[Words, _told('From the door closing: "4-7 min".', "RANGE")]
Source = Annotated[Words, _told("Where the figures come from: maker's sheet, own trials, common practice.")]
Wall = Annotated[Words, length_option("Thickness of the wall, of a double one the outer shell.")]
Material = Annotated[Words, _told("What the wall is made of.")]
Double = Annotated[bool | None, typer.Option("--double/--single", help="Vacuum ware or not.")]
Coating = Annotated[Words, _told("The coating, in words.")]
InkPaper = Annotated[Words, _told("Ink and paper, in words.")]
Pressure = Annotated[Words, _told("The pressure, in words.")]
Preheat = Annotated[bool | None, typer.Option("--preheat/--cold", help="Whether the heater is hot first.")]
Holds = Annotated[Words, _told("sleeve, tape, clamp or none.", "HOLD")]
Turns = Annotated[Words, _told("When it is turned, as shares of the dwell: 0.5 or 0.33,0.67.", "SHARES")]
Cool = Annotated[Words, _told("How it is cooled, in words.")]
CoolFor = Annotated[Words, _told("How long before it is unwrapped.", "TIME")]
Lidded = Annotated[bool | None, typer.Option("--lidded/--no-lid", help="Ware with a lid or not.")]
CoatingLimit = Annotated[Words, _told("What the coating stands.", "TEMPERATURE")]
SleeveLimit = Annotated[Words, _told("What the sleeve stands.", "TEMPERATURE")]
MakerLimit = Annotated[Words, _told("The maker's own limit.", "TEMPERATURE")]
OverBake = Annotated[Words, _told("The longest dwell before it blurs or yellows.", "TIME")]
LimitSource = Annotated[Words, _told("Where the limits given here come from.")]
Like = Annotated[Words, _told("Start from the figures of this recipe.", "NAME")]


def every(
    *,
    retired: Annotated[bool, typer.Option("--retired", help="Those too that are no longer offered.")] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """List the recipes: the workshop's own, those of its folder, and those to start from."""
    from wrapwright.core.base.heat_words import celsius_range_words, seconds_range_words
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.recipes import ListRecipes, list_recipes

    del quiet, verbose
    found = list_recipes(ListRecipes(retired), bench_of(open_settings()), Watch())
    if json:
        show_document({"format": FORMAT, "recipes": [recipe_document(one) for one in found]})
        return
    columns = []
    for one in found:
        recipe = one.recipe
        heat = f"{celsius_range_words(recipe.celsius)}, {seconds_range_words(recipe.seconds)}"
        columns.append((recipe.name, recipe.title, heat, _place(one)))
    show_columns(columns)


def one(
    name: Name,
    *,
    version: Annotated[int, typer.Option(metavar="NUMBER", min=0, help="Not the newest but this one.")] = 0,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Show a recipe with its limits and where each figure comes from."""
    from wrapwright.core.press.recipe.telling import recipe_words
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.recipes import ShowRecipe, show_recipe

    del quiet, verbose
    kept = show_recipe(ShowRecipe(name=name, version=version), bench_of(open_settings()), Watch())
    if json:
        show_document({"format": FORMAT, "recipe": recipe_document(kept)})
        return
    show(f"{kept.recipe.name}: {kept.recipe.title} ({_place(kept)})")
    show_columns(recipe_words(kept.recipe))


def add(
    name: Name,
    *,
    like: Like = None,
    title: Title = None,
    ware: Ware = None,
    heater: HeaterWord = None,
    temperature: Heat = None,
    dwell: Dwell = None,
    source: Source = None,
    wall: Wall = None,
    material: Material = None,
    double: Double = None,
    coating: Coating = None,
    ink_paper: InkPaper = None,
    pressure: Pressure = None,
    preheat: Preheat = None,
    hold: Holds = None,
    turn_at: Turns = None,
    cool: Cool = None,
    cool_for: CoolFor = None,
    lidded: Lidded = None,
    coating_limit: CoatingLimit = None,
    sleeve_limit: SleeveLimit = None,
    maker_limit: MakerLimit = None,
    over_bake_after: OverBake = None,
    limit_source: LimitSource = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Keep a recipe, a new one, from the figures given here or those of another one."""
    given = _given(locals())
    _put(name, given, like or "", Talk(quiet, verbose, json), new=True)


def change(name: Name, **given: Any) -> None:
    """Change a recipe of the workshop; a version that was used stays, the change is the next one."""
    talk = Talk(given["quiet"], given["verbose"], given["json"])
    _put(name, _given(given), name, talk, new=False)


def _takes(options: Callable[..., None], *, but: str) -> inspect.Signature:
    """Return the signature of a command whose options are those of another, but one."""
    whole = inspect.signature(options, eval_str=True)
    return whole.replace(parameters=[one for key, one in whole.parameters.items() if key != but])


change.__signature__ = _takes(add, but="like")  # type: ignore[attr-defined]


def retire(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Offer a recipe no longer; one that nothing ever used is removed."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.recipes import RetireRecipe, retire_recipe

    bench = bench_of(open_settings())
    gone = retire_recipe(RetireRecipe(_own(name, bench).recipe.id), bench, Watch())
    if json:
        show_document({"format": FORMAT, "retired": gone.name, "removed": gone.removed})
        return
    words = "is removed: nothing ever used it" if gone.removed else "is retired; what was heated with it keeps it"
    Talk(quiet, verbose, json).say(f"{gone.name} {words}.")


def restore(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Offer a retired recipe again."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.recipes import RestoreRecipe, restore_recipe

    bench = bench_of(open_settings())
    kept = restore_recipe(RestoreRecipe(_own(name, bench).recipe.id), bench, Watch())
    if json:
        show_document({"format": FORMAT, "recipe": recipe_document(kept)})
        return
    Talk(quiet, verbose, json).say(f"{kept.recipe.name} is offered again.")


def recipe_document(kept: RecipeKept) -> dict[str, Any]:
    """Return a recipe as a document says it; temperatures in both scales."""
    from wrapwright.core.base.units import stated, to_fahrenheit
    from wrapwright.core.press.recipe.reading import recipe_row

    recipe = kept.recipe
    added = kept.added.isoformat(timespec="seconds") if kept.added else None
    return {
        "id": recipe.id,
        "version": recipe.version,
        "newest": kept.newest,
        "place": kept.place,
        "used": kept.used,
        "retired": kept.retired,
        "added": added,
        **recipe_row(recipe),
        "fahrenheit": [stated(to_fahrenheit(end)) for end in recipe.celsius],
    }


def _own(name: str, bench: Any) -> RecipeKept:
    """Return a recipe of the workshop's own.

    Raises:
        WrapwrightError: missing, when there is none; refused for one of a file.
    """
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.recipes import ShowRecipe, show_recipe

    kept = show_recipe(ShowRecipe(name=name), bench, Watch())
    if kept.place == "workshop":
        return kept
    message = f"{kept.recipe.name} is {_place(kept)}, so it stays as it is."
    remedy = f'Make your own of it: wrapwright press recipe add "My {kept.recipe.name}" --like {kept.recipe.name}'
    raise WrapwrightError(Kind.REFUSED, message, remedy=remedy)


def _put(name: str, given: dict[str, Any], like: str, talk: Talk, *, new: bool) -> None:
    from wrapwright.core.press.recipe.reading import recipe_row
    from wrapwright.faces.cli.pressing.recipe_options import content_of
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.press.kept.recipes import KeepRecipe, ShowRecipe, keep_recipe, show_recipe

    bench = bench_of(open_settings())
    with talk.watching() as watch:
        base: dict[str, Any] = {}
        own = 0 if new else _own(name, bench).recipe.id
        if like:
            base = recipe_row(show_recipe(ShowRecipe(name=like), bench, watch).recipe)
        content = {**content_of(base, given), "name": name}
        try:
            kept = keep_recipe(KeepRecipe(content, own), bench, watch)
        except WrapwrightError as problem:
            raise _as_options(problem) from None
    if talk.json:
        show_document({"format": FORMAT, "recipe": recipe_document(kept)})
    else:
        show(f"{kept.recipe.name}, version {kept.recipe.version}")


def _given(options: dict[str, Any]) -> dict[str, Any]:
    """Return what was given of a recipe."""
    other = ("name", "like", "quiet", "verbose", "json")
    return {key: value for key, value in options.items() if value is not None and key not in other}


def _as_options(problem: WrapwrightError) -> WrapwrightError:
    """Return the problem with the parts of a recipe called by the options' names."""
    from wrapwright.faces.cli.pressing.recipe_options import OPTIONS

    if isinstance(problem, SeveralProblemsError):
        return SeveralProblemsError(tuple(_as_options(each) for each in problem.problems))
    where = OPTIONS.get(problem.where, problem.where)
    return WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where)


def _place(kept: RecipeKept) -> str:
    if kept.place == "workshop":
        return f"version {kept.recipe.version}" + (", retired" if kept.retired else "")
    return "of the workshop's folder" if kept.place == "folder" else "to start from"


app = group(
    "Recipes, each a temperature and a dwell with limits and sources: list, show, add, change, retire, restore.",
    (
        ("list", every, "wrapwright press recipe list"),
        ("show", one, "wrapwright press recipe show steel-oven"),
        (
            "add",
            add,
            'wrapwright press recipe add "20 oz steel" --like steel-oven --dwell "5-6 min" --source "own trials"',
        ),
        ("change", change, 'wrapwright press recipe change "20 oz steel" --temperature "195-200 C"'),
        ("retire", retire, 'wrapwright press recipe retire "20 oz steel"'),
        ("restore", restore, 'wrapwright press recipe restore "20 oz steel"'),
    ),
)
