"""Nothing is changed in names but what the mapping asks for; NFC looks the same."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.names.changes import CASES, changed
from wrapwright.core.names.values import Column


@settings(derandomize=True, max_examples=200, deadline=None)
@given(st.text(st.characters(exclude_categories=("Cs",)), max_size=12))
def test_without_a_word_a_cell_is_only_composed(text: str) -> None:
    assert changed(text, Column("name")) == unicodedata.normalize("NFC", text)


@pytest.mark.parametrize(
    ("cell", "column", "value"),
    [
        ("  Ada \t Lovelace ", Column("n", trim=True), "Ada Lovelace"),
        ("  Ada ", Column("n"), "  Ada "),
        ("Zoë Weiß", Column("n", case="capitals"), "ZOË WEISS"),  # Unicode 15, 5.18: ß becomes SS
        ("ADA", Column("n", case="small letters"), "ada"),
        ("ada lovelace-byron", Column("n", case="first capitals"), "Ada Lovelace-Byron"),
        ("fiona McDONALD", Column("n", case="first capitals"), "Fiona McDONALD"),
        ("ǆemal", Column("n", case="first capitals"), "ǅemal"),  # Unicode 15, 5.18: the titlecase letter
        ("“ada” o'brien", Column("n", case="first capitals"), "“ada” O'brien"),
        ("", Column("n", otherwise="Guest"), "Guest"),
        (" ", Column("n", trim=True, otherwise="Guest"), "Guest"),
        ("", Column("n"), ""),
        ("Zoe\u0308", Column("n"), "Zo\u00eb"),
    ],
)
def test_changes(cell: str, column: Column, value: str) -> None:
    assert changed(cell, column) == value


def test_the_changes_are_a_closed_set() -> None:
    assert list(CASES) == ["as typed", "capitals", "small letters", "first capitals"]
