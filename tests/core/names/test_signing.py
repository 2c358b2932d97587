"""What was signed is what was printed: a row says another thing, is new or is gone, and nothing else counts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.names.signing import (
    SignedRow,
    SignOff,
    head_line,
    head_of,
    row_digest,
    row_line,
    row_of_line,
    since_signed,
)
from wrapwright.core.names.values import Row

SIGNED = SignOff("M. Weir", "2026-05-02", "a" * 64, "b" * 64, 3)
ADA = Row(2, 2, {"name": "Ada"}, digest="as read")


def rows(*pairs: tuple[int, str]) -> list[SignedRow]:
    return [SignedRow(*pair) for pair in pairs]


def test_only_what_is_printed_counts() -> None:
    same = row_digest(ADA, skipped=False)
    assert row_digest(replace(ADA, digest="a column that nothing uses", line=9), skipped=False) == same
    others = [
        row_digest(replace(ADA, fields={"name": "Ada "}), skipped=False),
        row_digest(replace(ADA, quantity=2), skipped=False),
        row_digest(replace(ADA, pictures={"crest": "a.png"}), skipped=False),
        row_digest(replace(ADA, colours={"name": "#000000"}), skipped=False),
        row_digest(replace(ADA, hidden=frozenset({"crest"})), skipped=False),
        row_digest(ADA, skipped=True),
    ]
    assert len({same, *others}) == 7


def test_rows_that_changed_were_added_or_are_gone_are_named() -> None:
    then, now = rows((2, "a"), (3, "b"), (5, "c"), (9, "e")), rows((2, "a"), (3, "B"), (4, "x"), (9, "e"), (10, "y"))
    found = since_signed(SIGNED, then, now, design_sha256="b" * 64)
    assert (found.changed, found.added, found.gone) == ((3,), (4, 10), (5,))
    assert found.counts == (1, 2, 1)
    assert found.rows == {3, 4, 10}
    assert not found.holds
    assert since_signed(SIGNED, then, then, design_sha256="b" * 64).holds


def test_another_design_is_told_and_many_rows_are_counted() -> None:
    many = [SignedRow(number, "a") for number in range(2, 5000)]
    others = [SignedRow(number, "b") for number in range(2, 5000)]
    found = since_signed(SIGNED, many, others, design_sha256="c" * 64, most=10)
    assert found.design
    assert found.counts == (4998, 0, 0)
    assert found.changed == tuple(range(2, 12))


def test_a_sign_off_is_read_as_it_was_written() -> None:
    assert head_of(head_line(SIGNED)) == SIGNED
    assert row_of_line(row_line(SignedRow(7, "abc"))) == SignedRow(7, "abc")


@pytest.mark.parametrize("line", ["", "[]", "{}", '{"format": 2}', '{"format": 1, "by": 3}', "no"])
def test_another_file_is_refused(line: str) -> None:
    with pytest.raises(WrapwrightError, match="sign-off"):
        head_of(line)
    with pytest.raises(WrapwrightError, match="no row"):
        row_of_line(line)
