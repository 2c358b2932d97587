"""The window of a recipe's doses that planning goes by: the one of the trial that was accepted last."""

from __future__ import annotations

from wrapwright.core.press.values import Window
from wrapwright.data.recipes import Recipe
from wrapwright.jobs.bench import Bench


def window_for(recipe: Recipe | str, bench: Bench) -> Window:
    """Return the bounds that accepted trials give a recipe; a window without bounds while there is none.

    Of several accepted trials the one accepted last counts. Trials of a recipe are found by its number in the store
    or, for one of a file, by its name.
    """
    from wrapwright.core.press.trial.fit import NOT_YET
    from wrapwright.jobs.press.trial.plain import accepted_from
    from wrapwright.outside.store.naming import folded
    from wrapwright.outside.store.rows.press.trials import trial_rows

    if bench.store is None or not bench.store.exists():
        return Window(source=NOT_YET)
    name = recipe if isinstance(recipe, str) else recipe.name
    number = 0 if isinstance(recipe, str) else recipe.id
    with bench.store.reading() as connection:
        rows = trial_rows(connection)
    found = [
        accepted
        for row in rows
        if (row.recipe == number if number else folded(str(row.plan["recipe"])) == folded(name))
        and (accepted := accepted_from(row.found)) is not None
    ]
    return max(found, key=lambda one: one.at).window if found else Window(source=NOT_YET)
