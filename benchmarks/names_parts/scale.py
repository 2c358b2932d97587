"""A million pieces in a day: what a piece costs here, and the days that follow from it, with failures and stragglers.

The store's latency and bandwidth are taken as given, for there is none on this machine; so is the trouble. All the rest
is measured in processor time. `docs/scale.md` tells what the figures mean.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, fields
from pathlib import Path

from benchmarks.names_parts._day import Costs, Day, Played, Trouble

SEED = 20260502
HERE = 4  # processors of the machine that asks: its own workers look the rows through and write the papers
PIECES = 1_000_000
TROUBLE = Trouble(
    failure_s=6 * 3600.0,
    silent=0.3,
    noticed_s=300.0,
    back_s=120.0,
    straggling=0.02,
    slower=5.0,
    outage_at_s=1800.0,
    outage_s=600.0,
)


@dataclass(frozen=True)
class Plan:
    """One day: which list, how many pieces a shard holds, how many workers."""

    pictures: bool
    a_shard: int
    workers: int


LISTS = ((200, False), (2000, False), (20_000, False), (2000, True))  # rows, and whether a store lies between
PLANS = (
    Plan(pictures=False, a_shard=150, workers=1),
    Plan(pictures=False, a_shard=150, workers=4),
    Plan(pictures=False, a_shard=150, workers=8),
    Plan(pictures=False, a_shard=1500, workers=4),
    Plan(pictures=True, a_shard=150, workers=2),
    Plan(pictures=True, a_shard=150, workers=4),
    Plan(pictures=True, a_shard=150, workers=16),
    Plan(pictures=True, a_shard=1500, workers=16),
)


def played(costs: Costs, plan: Plan, trouble: Trouble = TROUBLE) -> Played:
    """Return what comes of a day of a million pieces."""
    return Day(costs, trouble, PIECES, plan.a_shard, plan.workers, SEED, HERE).play()


def least_s(costs: Costs, plan: Plan) -> float:
    """Return how long the workers have to work at least, evenly shared and with no trouble at all."""
    shards = -(-PIECES // plan.a_shard)
    return (PIECES * costs.piece_s + shards * costs.shard_s) / plan.workers


def rows(quick: bool) -> list[str]:  # noqa: FBT001 (as the bench calls it)
    """Return the costs measured here, and the days."""
    from benchmarks.names_parts._costs import costs_of

    named = rounded(costs_of(300 if quick else 2000, pictures=False))
    pictured = rounded(costs_of(60 if quick else 400, pictures=True))
    return [*cost_rows(named, pictured), "", *memory_rows(quick=quick), "", *day_rows(named, pictured)]


def memory_rows(*, quick: bool) -> Iterator[str]:
    """Yield the table of what each process of a cluster on this machine spends on lists of several lengths."""
    from benchmarks.names_parts._cluster import made_by_cluster

    yield "| rows | place | client s | client MB | scheduler s | scheduler MB | a worker s | a worker MB |"
    yield "|---|---|---|---|---|---|---|---|"
    for rows, store in LISTS[:1] if quick else LISTS:
        with tempfile.TemporaryDirectory() as name:
            made = made_by_cluster(Path(name), rows, store=store)
        if made.rows != rows:
            raise SystemExit(f"{made.rows} of {rows} rows were made")
        cells = [f"{rows}", "store" if store else "folder"]
        for one in (made.spent[name] for name in ("client", "scheduler", "worker")):
            cells += [f"{sum(each.seconds for each in one) / len(one):.1f}", f"{max(each.peak_mb for each in one):.0f}"]
        yield f"| {' | '.join(cells)} |"


def rounded(costs: Costs) -> Costs:
    """Return costs as they are shown, so that the days follow from the figures on the page."""
    values = {one.name: getattr(costs, one.name) for one in fields(Costs)}
    return Costs(
        **{name: float(f"{value:.3g}") if isinstance(value, float) else value for name, value in values.items()}
    )


def cost_rows(named: Costs, pictured: Costs) -> Iterator[str]:
    """Yield the table of the costs."""
    yield "| cost | names | names and a picture each |"
    yield "|---|---|---|"
    for one in fields(Costs):
        yield f"| {one.name} | {getattr(named, one.name):g} | {getattr(pictured, one.name):g} |"


def day_rows(named: Costs, pictured: Costs) -> Iterator[str]:
    """Yield the table of the days."""
    yield (
        "| list | pieces a shard | workers | least h | begun h | made h | done h | begun again | scheduler tasks | "
        "store requests a second | store GB | most under way | busy: scheduler, store, client, its threads |"
    )
    yield "|---|---|---|---|---|---|---|---|---|---|---|---|---|"
    for plan in PLANS:
        costs = pictured if plan.pictures else named
        yield day_row(plan, played(costs, plan), least_s(costs, plan))


def day_row(plan: Plan, day: Played, least: float) -> str:
    """Return the row of one day."""
    busy = ", ".join(f"{day.busy[name]:.1%}" for name in ("scheduler", "store", "client", "threads"))
    return (
        f"| {'pictures' if plan.pictures else 'names'} | {plan.a_shard} | {plan.workers} | {least / 3600:.2f} | "
        f"{day.begun_s / 3600:.2f} | {day.made_s / 3600:.2f} | {day.done_s / 3600:.2f} | {day.again} | {day.tasks} | "
        f"{day.requests / (day.made_s - day.begun_s):.1f} | {day.stored / 1e9:.1f} | {day.most_under_way} | {busy} |"
    )


if __name__ == "__main__":
    print("\n".join(rows(quick=False)))
