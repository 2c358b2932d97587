"""A day of many pieces as it is played: nothing is lost, plain arithmetic agrees, and the page tells no other."""

from __future__ import annotations

from dataclasses import fields, replace

import pytest
from benchmarks.names_parts._day import AHEAD, SHARDS_AT_ONCE, STARTING, Costs, Day, Played, Trouble
from benchmarks.names_parts.scale import cost_rows, day_rows, rounded
from tests.house.tree import ROOT

COSTS = Costs(
    piece_s=0.1,
    shard_s=0.5,
    start_s=2.0,
    piece_bytes=1e4,
    shard_bytes=1e6,
    row_bytes=100.0,
    row_pictures=0,
    inputs_bytes=1e6,
    task_s=0.01,
    request_s=0.03,
    bandwidth=1e8,
    check_piece_s=1e-3,
    put_piece_s=5e-5,
    take_piece_s=5e-5,
    join_piece_s=1e-4,
    papers_piece_s=2e-4,
)
NOTHING = dict.fromkeys(("start_s", "task_s", "request_s", "put_piece_s", "take_piece_s", "join_piece_s"), 0.0)
FREE = replace(COSTS, bandwidth=1e18, **NOTHING)
TROUBLE = Trouble(
    failure_s=600.0,
    silent=0.5,
    noticed_s=100.0,
    back_s=50.0,
    straggling=0.1,
    slower=5.0,
    outage_at_s=200.0,
    outage_s=60.0,
)


def day(costs: Costs, trouble: Trouble, *, a_shard: int = 50, workers: int = 5, seed: int = 1) -> Played:
    return Day(costs, trouble, 20_000, a_shard, workers, seed).play()


@pytest.mark.parametrize("seed", range(8))
def test_whatever_goes_wrong_each_shard_stands_once_and_few_are_under_way(seed: int) -> None:
    played = day(COSTS, TROUBLE, seed=seed)
    assert played.made == 400
    assert played.again > 0
    assert played.most_under_way <= AHEAD * 5 + SHARDS_AT_ONCE
    assert played.made_s > day(COSTS, Trouble()).made_s


def test_the_same_seed_plays_the_same_day() -> None:
    assert day(COSTS, TROUBLE, seed=3) == day(COSTS, TROUBLE, seed=3)
    assert day(COSTS, TROUBLE, seed=3) != day(COSTS, TROUBLE, seed=4)


def test_where_all_but_the_work_is_free_the_day_is_the_work_shared_out() -> None:
    played = day(FREE, Trouble())
    assert played.begun_s == pytest.approx(20_000 * 1e-3)
    assert played.made_s == pytest.approx(played.begun_s + 400 / 5 * (0.5 + 50 * 0.1))
    assert played.worked_s == pytest.approx(400 * 5.5)
    assert played.done_s == pytest.approx(played.made_s + 20_000 * 2e-4)
    shared = Day(FREE, Trouble(), 20_000, 50, 5, 1, 4).play()
    assert shared.begun_s == pytest.approx(played.begun_s / 4)
    assert shared.done_s - shared.made_s == pytest.approx(20_000 * 2e-4 / 4)


def test_stragglers_cost_what_they_take_longer() -> None:
    """Within the spread of 400 draws at one in ten: 3 standard deviations of the binomial."""
    extra = day(FREE, Trouble(straggling=0.1, slower=5.0)).worked_s / 5.5 - 400
    assert abs(extra / 4 - 40) < 3 * (400 * 0.1 * 0.9) ** 0.5


def test_the_store_sees_each_byte_twice_and_each_worker_s_inputs_once() -> None:
    played = day(COSTS, Trouble())
    files = 20_000 * 1e4 + 400 * 1e6
    assert played.stored == pytest.approx(2 * files + 2 * 20_000 * 100 + 5 * 1e6)
    assert played.requests == 400 * (1 + 2 + 3 + 2) + 5 * STARTING
    assert played.tasks == 400


def test_a_store_too_slow_sets_the_pace() -> None:
    costs = replace(COSTS, bandwidth=1e6)
    played = day(costs, Trouble())
    assert played.made_s >= played.stored / 1e6
    assert played.busy["store"] > 0.95


def test_what_the_client_waits_for_is_waited_for_several_at_a_time() -> None:
    """Workers that need no time: the client's threads alone set the pace, 3 requests of 0.5 s a shard, 8 at once."""
    costs = replace(FREE, piece_s=0.0, shard_s=0.0, request_s=0.5, check_piece_s=0.0)
    played = day(costs, Trouble(), workers=40)
    least = 400 * 3 * 0.5 / SHARDS_AT_ONCE
    assert least <= played.made_s <= 1.1 * least
    assert played.busy["threads"] > 0.9


def test_sheets_are_joined_while_others_are_made() -> None:
    """The client's processor joins for 2 s in all; at the end only the last shards are left to it."""
    played = day(COSTS, Trouble())
    assert played.made_s < played.done_s < played.made_s + 20_000 * 2e-4 + 0.2 * 20_000 * 1e-4
    slow = day(replace(COSTS, join_piece_s=0.1), Trouble())
    assert slow.busy["client"] > 0.95
    assert slow.done_s >= 20_000 * 0.1


def test_larger_shards_ask_scheduler_and_store_less_often() -> None:
    small, large = day(COSTS, Trouble(), a_shard=50), day(COSTS, Trouble(), a_shard=500)
    assert large.tasks * 10 == small.tasks
    assert large.requests < small.requests / 8
    assert large.stored < small.stored


def tables() -> tuple[list[str], list[str]]:
    """Return the lines of the page's two tables."""
    lines = (ROOT / "docs" / "scale.md").read_text(encoding="utf-8").splitlines()
    found = [[line for line in lines if line.startswith("|") and line.count("|") == bars] for bars in (4, 14)]
    return found[0], found[1]


def test_the_days_on_the_page_follow_from_the_costs_on_it() -> None:
    costs, days = tables()
    cells = [[cell.strip() for cell in line.strip("|").split("|")] for line in costs[2:]]
    kinds = {one.name: int if one.name == "row_pictures" else float for one in fields(Costs)}
    assert [row[0] for row in cells] == list(kinds)
    named, pictured = (Costs(**{row[0]: kinds[row[0]](row[at]) for row in cells}) for at in (1, 2))
    assert rounded(named) == named
    assert list(cost_rows(named, pictured)) == costs
    assert list(day_rows(named, pictured)) == days
