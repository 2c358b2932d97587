"""Rows that say the same, held against counting them one by one."""

from __future__ import annotations

from collections import defaultdict

from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.names.rules.repeats import Seen, repeat
from wrapwright.core.names.values import Row


def seen(rows: list[Row]) -> Seen:
    found = Seen("name")
    for row in rows:
        found.add(row)
    return found


@settings(derandomize=True, max_examples=150, deadline=None)
@given(
    st.lists(st.tuples(st.sampled_from(["Ada", "ADA", " ada ", "Eve", "", "Zoë"]), st.sampled_from("ab")), max_size=12)
)
def test_groups_are_those_that_counting_finds(pairs: list[tuple[str, str]]) -> None:
    rows = [Row(at, at, {"name": name, "team": team}) for at, (name, team) in enumerate(pairs, start=2)]
    by_name: dict[str, list[Row]] = defaultdict(list)
    for row in rows:
        if row.fields["name"].strip():
            by_name[row.fields["name"].strip().casefold()].append(row)
    expected = [
        (tuple(one.number for one in group), all(one.fields == group[0].fields for one in group))
        for group in by_name.values()
        if len(group) > 1
    ]
    assert list(seen(rows).groups()) == expected


def test_a_question_names_its_rows_once() -> None:
    same = repeat((2, 5), "Ada", "name", same=True)
    assert (same.rule, same.row, same.rows) == ("row-twice", 2, (2, 5))
    assert same.problem == 'the rows 2, 5 are the same: "Ada".'
    many = repeat(range(2, 22), "Ada", "name", same=False)
    assert many.rule == "same-name"
    assert "2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13 and 8 more" in many.problem


def test_what_prints_is_compared_and_not_how_often() -> None:
    base = Row(2, 2, {"name": "Ada"}, 1, {"crest": "a.png"}, {"name": "#000000"}, frozenset({"leaf"}))
    again = Row(3, 3, {"name": "Ada"}, 9, {"crest": "a.png"}, {"name": "#000000"}, frozenset({"leaf"}))
    other = Row(4, 4, {"name": "Ada"}, 1, {"crest": "b.png"}, {"name": "#000000"}, frozenset({"leaf"}))
    assert list(seen([base, again]).groups()) == [((2, 3), True)]
    assert list(seen([base, other]).groups()) == [((2, 4), False)]


def test_sixteen_bytes_and_a_number_a_row() -> None:
    found = seen([Row(at, at, {"name": str(at)}) for at in range(1000)])
    assert sum(one.itemsize * len(one) for one in (found.numbers, found.names, found.wholes)) == 24_000
