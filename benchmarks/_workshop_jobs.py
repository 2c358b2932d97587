"""Jobs as a small workshop has them, made up from a seed: wraps, coasters and tags in some copies on one paper."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

PAPERS = {"Letter": (21590, 27940), "A4": (21000, 29700), "A3": (29700, 42000), "13x19 in": (33020, 48260)}
MARGIN = 400  # hundredths of a millimetre
GUTTER = 300
MOST_TYPES = 10
MOST_COPIES = 60


@dataclass(frozen=True)
class WorkshopJob:
    """One job: paper, its room (a gutter wider and higher than what can be printed), the items with their gutter."""

    number: int
    paper: str
    room: tuple[int, int]
    items: tuple[tuple[int, int, int, bool], ...]

    @property
    def copies(self) -> int:
        """How many pieces there are."""
        return sum(item[2] for item in self.items)


def workshop_jobs(count: int, seed: int = 20260502) -> list[WorkshopJob]:
    """Return so many jobs; the same seed gives the same ones, and a longer list begins like a shorter one."""
    return [_job(number, random.Random(f"{seed} {number}")) for number in range(count)]


def _job(number: int, luck: random.Random) -> WorkshopJob:
    paper = luck.choice(sorted(PAPERS))
    width, height = PAPERS[paper]
    room = (width - 2 * MARGIN + GUTTER, height - 2 * MARGIN + GUTTER)
    wanted = luck.randint(1, MOST_TYPES)
    items: dict[tuple[int, int], int] = {}
    while len(items) < wanted:
        wide, high = (side + GUTTER for side in _sides(luck))
        low, long = sorted((wide, high))
        if low <= min(room) and long <= max(room):
            # As many jobs of 1 to 4 as of 15 to 60 copies.
            items[wide, high] = round(math.exp(luck.uniform(0, math.log(MOST_COPIES))))
    return WorkshopJob(number, paper, room, tuple((*size, copies, True) for size, copies in items.items()))


def _sides(luck: random.Random) -> tuple[int, int]:
    """Return a part's trim; what is measured on a blank comes to a tenth, what is bought flat to whole millimetres."""
    kind = luck.choice(("tumbler", "mug", "mug", "coaster", "tag", "tag"))
    if kind == "tumbler":
        return 10 * luck.randint(2000, 2450), 10 * luck.randint(1500, 2150)
    if kind == "mug":
        return 10 * luck.randint(1950, 2400), 10 * luck.randint(850, 1100)
    if kind == "coaster":
        side = 100 * luck.randint(90, 105)
        return side, side
    return 100 * luck.randint(25, 60), 100 * luck.randint(40, 90)
