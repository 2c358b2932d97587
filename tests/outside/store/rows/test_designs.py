"""Revisions: a tree whose undo and redo are those of a plain list, and the files of a design."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.place import Store
from wrapwright.outside.store.rows.designs import (
    add_design_row,
    design_files,
    design_kept,
    design_rows,
    free_name,
    name_file,
    remove_design_row,
    save_revision,
    step,
)
from wrapwright.outside.store.schema import FILES
from wrapwright.outside.system.files import NAME_BYTES, clean_name

NOW = datetime(2026, 5, 2, tzinfo=UTC)
FIRST = {"format": 1, "title": "First", "blank": {"kind": "straight"}, "element": []}
STEPS = st.lists(st.sampled_from(["undo", "redo", "save", "save", "again", "stale"]), max_size=25)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    store = Store(tmp_path)
    yield store
    store.close()


def titled(number: int) -> dict:
    return {**FIRST, "title": f"T{number}"}


class Listed:
    """The model: the documents in a list, and which of them is shown; saving cuts off what could be redone."""

    def __init__(self) -> None:
        self.documents, self.at = [FIRST], 0

    def save(self, document: dict) -> None:
        self.documents = [*self.documents[: self.at + 1], document]
        self.at += 1

    def go(self, by: int) -> None:
        self.at = min(len(self.documents) - 1, max(0, self.at + by))

    @property
    def shown(self) -> tuple[dict, bool, bool]:
        return self.documents[self.at], self.at > 0, self.at < len(self.documents) - 1


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(STEPS)
def test_undo_and_redo_are_those_of_a_plain_list(store: Store, ways: list[str]) -> None:
    listed = Listed()
    with store.writing() as connection:
        design = add_design_row(connection, FIRST, (0, 0), NOW)
        seen = {1: FIRST}
        for number, way in enumerate(ways):
            base = design_kept(connection, design).revision
            if way == "save":
                listed.save(titled(number))
                save_revision(connection, design, titled(number), base, NOW)
            elif way == "again":  # what stands already makes no step
                save_revision(connection, design, listed.shown[0], base, NOW)
            elif way == "stale":
                with pytest.raises(WrapwrightError) as caught:
                    save_revision(connection, design, titled(1000 + number), base + 1, NOW)
                assert caught.value.kind is Kind.REFUSED
            else:
                listed.go(-1 if way == "undo" else 1)
                step(connection, design, base, "before" if way == "undo" else "after")
            kept = design_kept(connection, design)
            assert (kept.document, kept.can_undo, kept.can_redo) == listed.shown
            assert kept.revision == kept.newest
            assert seen.setdefault(kept.revision, dict(kept.document)) == kept.document
        assert {number: design_kept(connection, design, number).document for number in seen} == seen


def test_numbers_are_never_given_twice(store: Store) -> None:
    with store.writing() as connection:
        design = add_design_row(connection, FIRST, (0, 0), NOW)
        save_revision(connection, design, titled(2), 1, NOW)
        step(connection, design, 2, "before")
        save_revision(connection, design, titled(3), 1, NOW)
        assert design_kept(connection, design).revision == 3
        assert design_kept(connection, design, 2).document == titled(2)
        remove_design_row(connection, design)
        assert add_design_row(connection, FIRST, (0, 0), NOW) > design
        assert connection.exec_driver_sql("SELECT count(*) FROM revisions").scalar() == 1


def test_the_newest_is_named_to_whoever_comes_late(store: Store) -> None:
    with store.writing() as connection:
        design = add_design_row(connection, FIRST, (0, 0), NOW)
        save_revision(connection, design, titled(2), 1, NOW)
        for late in (
            lambda: save_revision(connection, design, titled(3), 1, NOW),
            lambda: step(connection, design, 1, "before"),
        ):
            with pytest.raises(WrapwrightError, match="stands at revision 2 by now") as caught:
                late()
            assert caught.value.kind is Kind.REFUSED
        assert design_kept(connection, design).document == titled(2)


def test_a_save_sent_twice_is_one_revision(store: Store) -> None:
    """Its answer was lost on the way, and it comes once more with the base it had."""
    with store.writing() as connection:
        design = add_design_row(connection, FIRST, (0, 0), NOW)
        for _ in range(2):
            save_revision(connection, design, titled(2), 1, NOW)
        assert design_kept(connection, design).revision == 2


def test_what_is_not_there(store: Store) -> None:
    with store.writing() as connection:
        design = add_design_row(connection, FIRST, (0, 0), NOW)
        for wrong in (lambda: design_kept(connection, design + 1), lambda: design_kept(connection, design, 2)):
            with pytest.raises(WrapwrightError) as caught:
                wrong()
            assert caught.value.kind is Kind.MISSING


def test_the_list_has_the_last_saved_first(store: Store) -> None:
    with store.writing() as connection:
        one = add_design_row(connection, FIRST, (0, 0), datetime(2026, 5, 1, tzinfo=UTC))
        other = add_design_row(connection, {"format": 1}, (0, 0), datetime(2026, 5, 2, tzinfo=UTC))
        assert [(row.id, row.title) for row in design_rows(connection)] == [(other, "job"), (one, "First")]
        save_revision(connection, one, titled(9), 1, datetime(2026, 5, 3, tzinfo=UTC))
        first = design_rows(connection)[0]
        assert (first.id, first.title, first.revision) == (one, "T9", 2)


def test_a_file_keeps_its_name_and_a_name_its_file(store: Store) -> None:
    with store.writing() as connection:
        design = add_design_row(connection, FIRST, (0, 0), NOW)
        for sha in ("a", "b", "c"):
            connection.execute(FILES.insert().values(sha256=sha, bytes=1, added=NOW))
        assert name_file(connection, design, "a", "Crest.png") == "Crest.png"
        assert name_file(connection, design, "b", "crest.PNG") == "crest-2.PNG"
        assert name_file(connection, design, "c", "crest.png") == "crest-3.png"
        assert name_file(connection, design, "b", "other.png") == "crest-2.PNG"
        assert design_files(connection, design) == (("crest-2.PNG", "b"), ("crest-3.png", "c"), ("Crest.png", "a"))


@pytest.mark.parametrize(
    ("wanted", "taken", "given_name"),
    [
        ("a.png", [], "a.png"),
        ("a.png", ["A.PNG", "a-2.png"], "a-3.png"),
        ("plain", ["plain"], "plain-2"),
        (".hidden", [".hidden"], ".hidden-2"),
        ("JOB.toml", [], "JOB-2.toml"),
    ],
)
def test_names_that_are_free(wanted: str, taken: list[str], given_name: str) -> None:
    assert free_name(wanted, taken) == given_name


def test_long_names_stay_within_their_length_and_keep_their_ending(store: Store) -> None:
    wanted = clean_name("né" * 100 + ".Png")
    assert (len(wanted.encode()) <= NAME_BYTES, wanted[-4:]) == (True, ".Png")
    free = free_name(wanted, {wanted})
    assert (len(free.encode()) <= NAME_BYTES, free[-6:]) == (True, "-2.Png")
    assert clean_name(free) == free
    assert free_name(".png", {".png"}) == ".png-2"
    assert free_name("leaf", {"leaf", "leaf-2"}) == "leaf-3"


def test_a_blank_that_is_not_on_the_shelf_is_called_as_the_document_says(store: Store) -> None:
    with store.writing() as connection:
        for blank in ({"name": "Tall cup", "kind": "straight"}, {"kind": "straight"}, {"name": 7}, "none"):
            add_design_row(connection, {**FIRST, "blank": blank}, (0, 0), NOW)
        rows = sorted(design_rows(connection), key=lambda one: one.id)
    assert [one.blank for one in rows] == ["Tall cup", "", "", ""]
