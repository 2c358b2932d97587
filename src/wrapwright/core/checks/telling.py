"""How rules tell: once an element, of its worst copy, with figures that are seen to differ from their limits."""

from __future__ import annotations

from collections.abc import Callable

from wrapwright.core.checks.facts import CopyFacts, Facts, MeasuredCopy


def apart(figure: float, limit: float, digits: int = 0) -> str:
    """Return a figure with `digits` decimals, or with as many more (up to 4) as keep it from reading as its limit."""
    for more in range(digits, 5):
        text = f"{figure:.{more}f}"
        if float(text) != float(f"{limit:.{more}f}") or figure == limit:
            return text
    return f"{figure:.4f}"


def worst_copies(facts: Facts, figure: Callable[[CopyFacts], float | None]) -> list[tuple[CopyFacts, float]]:
    """Return for each element the copy with the largest figure (the first of equals); None does not count."""
    found: dict[str, tuple[CopyFacts, float]] = {}
    for one in facts.copies:
        value = figure(one)
        if value is not None and (one.element not in found or value > found[one.element][1]):
            found[one.element] = (one, value)
    return list(found.values())


def worst_measured(
    facts: Facts, figure: Callable[[MeasuredCopy], float | None]
) -> list[tuple[MeasuredCopy, str, float]]:
    """Return for each element the measured copy with the largest figure, its label and that figure."""
    found: dict[str, tuple[MeasuredCopy, float]] = {}
    for one in facts.measured.copies:
        value = figure(one)
        if value is not None and (one.element not in found or value > found[one.element][1]):
            found[one.element] = (one, value)
    return [(one, facts.label(one), value) for one, value in found.values()]
