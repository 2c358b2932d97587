"""Cutting stock: published instances and two hundred workshop jobs, with bound, sheets and whether it is proven."""

from __future__ import annotations

import json
import math
import random
import statistics
import sys
import time
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wrapwright.core.sheet.pack.values import Cut
    from wrapwright.core.sheet.stock.values import Bin, StockAnswer

DATA = Path(__file__).resolve().parents[1].parent / "shared" / "data" / "packing"
ONE_SIZE, SEVERAL = "csp_cintra_gcutd.json", "csp_cintra_gcutd_variable_sheets.json"
JOBS, QUICK_JOBS = 200, 30
LIMIT_S, JOB_LIMIT_S = 10.0, 2.0  # CPU seconds
SHARE = 0.9  # of the workshop jobs proven

# Workshop jobs, in hundredths of a millimetre.
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


def rows(quick: bool) -> list[str]:  # noqa: FBT001 (the form in which all parts of the bench are asked)
    """Return the lines of the report; every answer was replayed cut by cut."""
    _cut([(5, 5, 3, True)], [(11, 11, 1, None)])  # compiled before anything is timed
    found = [*_published(quick=quick), *_prices(quick=quick)] if DATA.is_dir() else []
    if not found:
        found = [f"cutting stock: the published instances are not there ({ONE_SIZE} beside the project)"]
    return [*found, *_workshop(QUICK_JOBS if quick else JOBS)]


def _published(*, quick: bool) -> list[str]:
    lines = ["cutting stock, one sheet size    ways  pieces  bound  sheets  published  patterns  CPU s"]
    met: Counter[bool] = Counter()
    worst = 0.0
    for one in _read(ONE_SIZE)[: 3 if quick else None]:
        for turn in (True, False):
            items = [(width, height, copies, turn) for width, height, copies in one["items"]]
            answer, seconds = _cut(items, [(*one["bin"], 1, None)])
            best = "-" if turn else one["best"]["CSP|O|G 3-staged exact"]
            pieces = sum(item[2] for item in items)
            lines.append(
                f"  {one['name']:<30} {'turned' if turn else 'as is':<7} {pieces:>4} {answer.bound:>6} "
                f"{answer.sheets:>7} {best:>10} {len(answer.patterns):>9} {seconds:>6.2f}"
            )
            met[turn] += answer.proven
            worst = max(worst, seconds)
    lines.append(
        f"  sheets = bound: turned {met[True]}, as is {met[False]} (wanted 6 of 8 each); slowest {worst:.1f} CPU s "
        f"(limit {LIMIT_S:.0f})"
    )
    return lines


def _prices(*, quick: bool) -> list[str]:
    lines = ["cutting stock, three sheet sizes, least area    ways  over bound  against published (2 stages)  CPU s"]
    for one in _read(SEVERAL)[: 2 if quick else None]:
        for turn in (True, False):
            items = [(width, height, copies, turn) for width, height, copies in one["items"]]
            answer, seconds = _cut(items, [(*bin_, None) for bin_ in one["bins"]])
            best = one["best"][f"VSBPP|{'R' if turn else 'O'}|2-staged total area"]["best"]
            over, against = answer.cost / answer.bound - 1, answer.cost / best - 1
            lines.append(
                f"  {one['name']:<45} {'turned' if turn else 'as is':<7} {over:>8.4%} {against:>+22.3%} "
                f"{seconds:>12.2f}"
            )
    return lines


def _workshop(count: int) -> list[str]:
    jobs = workshop_jobs(count)
    answers = [(job, *_cut(job.items, [(*job.room, 1, None)])) for job in jobs]
    proven = sum(answer.proven for _, answer, _ in answers)
    times = [seconds for _, _, seconds in answers]
    sheets, bounds = sum(answer.sheets for _, answer, _ in answers), sum(answer.bound for _, answer, _ in answers)
    return [
        f"workshop jobs: {count}, {sum(job.copies for job in jobs)} pieces, {sheets} sheets, bounds {bounds:.0f}; "
        f"proven fewest {proven} ({proven / count:.1%}, wanted {SHARE:.0%}); CPU s median "
        f"{statistics.median(times):.2f}, longest {max(times):.2f} (limit {JOB_LIMIT_S:.0f})",
        *[_open(job, answer) for job, answer, _ in answers if not answer.proven],
    ]


def _open(job: WorkshopJob, answer: StockAnswer) -> str:
    return (
        f"  not proven: job {job.number}, {job.paper}, {len(job.items)} types, {job.copies} pieces: "
        f"{answer.sheets} sheets, bound {answer.bound}"
    )


def _cut(items: Sequence[tuple[int, int, int, bool]], bins: Sequence[Bin]) -> tuple[StockAnswer, float]:
    """Return the answer, replayed, and the CPU seconds of this process that it took."""
    from wrapwright.core.sheet.stock.cutting import cut_stock

    start = time.process_time()
    answer = cut_stock(items, bins)
    seconds = time.process_time() - start
    got: Counter[int] = Counter()
    for kind, cut, times in answer.patterns:
        if (cut.x, cut.y, cut.width, cut.height) != (0, 0, *bins[kind][:2]):
            raise SystemExit("a sheet's cuts do not begin with the whole sheet")
        for item, copies in _replayed(cut, items).items():
            got[item] += copies * times
    if any(got[index] < item[2] for index, item in enumerate(items)):
        raise SystemExit("the cuts do not yield the order")
    return answer, seconds


def _replayed(cut: Cut, items: Sequence[tuple[int, int, int, bool]]) -> Counter[int]:
    """Return what comes off a sheet; stop the bench when the cuts are not edge to edge."""
    if not cut.children:
        if cut.item < 0:
            return Counter()
        width, height, _, turn = items[cut.item]
        if (cut.width, cut.height) != ((height, width) if cut.turned and turn else (width, height)):
            raise SystemExit(f"item {cut.item} is cut to {cut.width} x {cut.height}")
        return Counter([cut.item])
    at, got = (cut.x, cut.y), Counter[int]()
    for child in cut.children:
        across = (child.height, cut.height) if cut.along == "x" else (child.width, cut.width)
        if (child.x, child.y) != at or across[0] != across[1]:
            raise SystemExit("a cut does not go from edge to edge")
        at = (at[0] + child.width, at[1]) if cut.along == "x" else (at[0], at[1] + child.height)
        got += _replayed(child, items)
    if at != ((cut.x + cut.width, cut.y) if cut.along == "x" else (cut.x, cut.y + cut.height)):
        raise SystemExit("pieces do not fill what they are cut from")
    return got


def _read(name: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads((DATA / name).read_text(encoding="utf-8"))["instances"]
    return found


if __name__ == "__main__":
    print("\n".join(rows("--quick" in sys.argv)))
