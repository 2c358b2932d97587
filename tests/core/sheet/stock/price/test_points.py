"""Positions of cuts."""

from __future__ import annotations

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.sheet.stock.price.points import listed, loosened, normal, reachable, thinned

lengths_of = st.lists(
    st.tuples(st.integers(3, 40), st.integers(1, 4)), min_size=1, max_size=4, unique_by=lambda p: p[0]
)


@given(lengths_of)
def test_reachable_sums_are_all_sums_of_what_is_ordered(lengths: list[tuple[int, int]]) -> None:
    sums = {
        sum(n * length for n, (length, _) in zip(times, lengths, strict=True))
        for times in product(*(range(copies + 1) for _, copies in lengths))
    }
    assert listed(reachable(lengths, 90)) == sorted(value for value in sums if value <= 90)


def test_points_of_a_worked_example() -> None:
    # 3 and 5 on a side of 11: sums 3 5 6 8 9 10 11. Beside 9 and 10 nothing can stand, so both are widened to 11.
    assert normal([(3, 9), (5, 9)], 11) == [0, 3, 5, 6, 8, 11]
    # 40 and 41 on a side of 100: beside either stands one of 41, so 40 is widened to 41 and only 0, 41, 82 are left.
    assert normal([(40, 9), (41, 9)], 100) == [0, 41, 82]


@given(lengths_of, st.integers(40, 200))
def test_points_hold_the_longest_row(lengths: list[tuple[int, int]], side: int) -> None:
    points = normal(lengths, side)
    assert points[0] == 0
    assert points == sorted(set(points))
    longest = max(listed(reachable(lengths, side)))
    assert longest <= points[-1] <= side


@settings(max_examples=60)
@given(lengths_of, st.integers(40, 120), st.integers(20, 60))
def test_whatever_fits_still_fits_in_coarse_steps(lengths: list[tuple[int, int]], side: int, limit: int) -> None:
    only = [length for length, _ in lengths if length <= side]
    if not only:
        return
    units, steps = loosened(only, side, limit)
    assert min(units) >= 1
    for times in product(*(range(side // length + 1) for length in only)):
        if sum(n * length for n, length in zip(times, only, strict=True)) <= side:
            assert sum(n * unit for n, unit in zip(times, units, strict=True)) <= steps


def test_thinned_points_are_true_points_about_as_many_as_asked() -> None:
    lengths = [(2510, 60), (3370, 60), (4019, 60), (9030, 60), (10110, 60)]
    full = normal(lengths, 41500)
    few = thinned(full, lengths, 41500, 40)
    assert len(full) > 100
    assert set(few) <= set(full)
    assert 20 < len(few) <= 41
    assert {0, full[-1]} <= set(few)
