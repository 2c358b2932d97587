"""An order cut from a roll: pages of one width and a few lengths, the fewest length in all."""

from __future__ import annotations

from collections.abc import Sequence

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.pack.values import Item
from wrapwright.core.sheet.stock.cutting import cut_stock
from wrapwright.core.sheet.stock.values import Bin, StockAnswer, fits


def page_lengths(items: Sequence[Item], width: int, longest: int, most: int = 5) -> tuple[int, ...]:
    """Return up to `most` lengths of pages worth looking at, the longest useful one first, spread evenly."""
    from wrapwright.core.sheet.stock.price.points import listed, reachable

    sides = [(height, copies) for _, height, copies, _ in items]
    sides += [(across, copies) for across, _, copies, turn in items if turn]
    points = [point for point in listed(reachable(sides, longest)) if point > 0]
    taken = [item for item in items if item[2] > 0]
    whole = [point for point in points if all(fits(item, (width, point)) for item in taken)]
    if not whole:
        raise WrapwrightError(
            Kind.UNUSABLE,
            f"No page of a roll {width} wide and up to {longest} long holds every item.",
            remedy="Take a wider roll or allow longer pages.",
        )
    aims = [whole[-1] - k * (whole[-1] - whole[0]) // max(1, most - 1) for k in range(most)]
    near = sorted({max(point for point in whole if point <= aim) for aim in aims}, reverse=True)
    return tuple(near)


def cut_roll(items: Sequence[Item], width: int, lengths: Sequence[int], *, seed: int = 1) -> StockAnswer:
    """Return how to cut the items from pages of the given lengths; the cost is the length of roll used.

    The bound holds for pages of these lengths, not for every length there could be.
    """
    if len(set(lengths)) != len(lengths) or any(one <= 0 for one in lengths):
        raise WrapwrightError(
            Kind.UNUSABLE,
            f"Lengths of pages {', '.join(map(str, lengths))} must be above 0, each once.",
            remedy="Correct them.",
        )
    bins: list[Bin] = [(width, length, length, None) for length in lengths]
    return cut_stock(items, bins, seed=seed)
