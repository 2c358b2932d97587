"""`press`: recipes, heaters, circuits, and all that is done with heat."""

from __future__ import annotations

import typer

app = typer.Typer(
    no_args_is_help=True,
    help="Heat: recipes, ovens and presses, the right dwell, what is heated and what became of it.",
)
