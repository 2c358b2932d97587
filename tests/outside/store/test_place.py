"""The store as a place: made when first written to, safe settings, one transaction a change, sentences for failures."""

from __future__ import annotations

import shutil
import sqlite3
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime
from pathlib import Path
from threading import Barrier

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store import opening
from wrapwright.outside.store.place import Store
from wrapwright.outside.store.rows.blanks import add_blank_row, newest_blanks
from wrapwright.outside.store.schema import FORMS, METADATA

pytestmark = pytest.mark.usefixtures("stores_from_nothing")

NOW = datetime(2026, 5, 2, tzinfo=UTC)


def add(store: Store, name: str) -> None:
    with store.writing() as connection:
        add_blank_row(connection, name, {"kind": "straight"}, {}, NOW)


def names(store: Store) -> list[str]:
    with store.reading() as connection:
        return [one.name for one in newest_blanks(connection)]


def test_nothing_is_made_before_it_is_used(tmp_path: Path) -> None:
    store = Store(tmp_path / "data")
    assert not store.exists()
    assert list(tmp_path.iterdir()) == []
    assert names(store) == []
    assert store.exists()


def test_it_is_set_to_lose_nothing(tmp_path: Path) -> None:
    """SQLite's own documentation: FULL syncs at each commit, also in WAL mode; 2 is its number."""
    store = Store(tmp_path)
    asked = ("journal_mode", "synchronous", "foreign_keys", "busy_timeout", "secure_delete")
    with store.reading() as connection:
        found = {name: connection.exec_driver_sql(f"PRAGMA {name}").scalar() for name in asked}
        strict = connection.exec_driver_sql(
            "SELECT name, strict FROM pragma_table_list WHERE type = 'table'"
        ).fetchall()
    assert found == {
        "journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "busy_timeout": opening.BUSY_MS, "secure_delete": 1,
    }  # fmt: skip
    loose = {name for name, is_strict in strict if not is_strict}
    assert loose <= {"alembic_version", "sqlite_schema", "sqlite_sequence", "sqlite_temp_schema"}
    assert {name for name, is_strict in strict if is_strict} == set(METADATA.tables)


def test_a_change_that_fails_leaves_nothing_of_itself(tmp_path: Path) -> None:
    store = Store(tmp_path)
    add(store, "Mug")

    def cut_short() -> None:
        with store.writing() as connection:
            add_blank_row(connection, "Cup", {"kind": "straight"}, {}, NOW)
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        cut_short()
    assert names(store) == ["Mug"]


def test_a_closed_store_opens_again(tmp_path: Path) -> None:
    store = Store(tmp_path)
    add(store, "Mug")
    store.close()
    assert names(store) == ["Mug"]
    assert names(Store(tmp_path)) == ["Mug"]


def test_a_newer_store_is_left_alone(tmp_path: Path) -> None:
    store = Store(tmp_path)
    add(store, "Mug")
    store.close()
    with sqlite3.connect(store.file) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.close()
    before = store.file.read_bytes()
    with pytest.raises(WrapwrightError) as caught:
        names(store)
    assert caught.value.kind is Kind.SETUP
    assert "form 9999" in caught.value.message
    assert FORMS[-1] in caught.value.message
    assert store.file.read_bytes() == before


@pytest.mark.parametrize(
    ("content", "said"),
    [(b"this is a letter to my aunt, and not a store at all" * 40, "damaged or not a store"), (None, "damaged")],
)
def test_a_damaged_store_is_said_to_be_so(tmp_path: Path, content: bytes | None, said: str) -> None:
    store = Store(tmp_path)
    add(store, "Mug")
    store.close()
    if content is None:  # a page of the tables overwritten
        content = bytearray(store.file.read_bytes())
        content[4096:] = b"\xa5" * (len(content) - 4096)
    store.file.write_bytes(bytes(content))
    with pytest.raises(WrapwrightError) as caught:
        names(store)
    assert caught.value.kind is Kind.UNREACHABLE
    assert said in caught.value.message


def test_a_folder_that_cannot_be_made(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(WrapwrightError) as caught:
        names(Store(tmp_path / "file" / "data"))
    assert caught.value.kind is Kind.UNREACHABLE
    assert "cannot be made" in caught.value.message


def test_a_folder_in_the_place_of_the_file(tmp_path: Path) -> None:
    (tmp_path / "store.sqlite3").mkdir()
    with pytest.raises(WrapwrightError) as caught:
        names(Store(tmp_path))
    assert caught.value.kind is Kind.UNREACHABLE
    assert "cannot be opened" in caught.value.message


def test_a_store_held_by_another_is_waited_for_and_then_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opening, "BUSY_MS", 50)
    store = Store(tmp_path)
    add(store, "Mug")
    holder = sqlite3.connect(store.file, isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    with pytest.raises(WrapwrightError) as caught:
        add(store, "Cup")
    assert caught.value.kind is Kind.UNREACHABLE
    assert names(store) == ["Mug"]  # whoever only reads is not held up
    holder.execute("ROLLBACK")
    holder.close()
    add(store, "Cup")
    assert names(store) == ["Cup", "Mug"]


def test_as_many_may_read_at_once_as_there_are_threads(tmp_path: Path) -> None:
    store, together = Store(tmp_path), Barrier(24, timeout=20)
    add(store, "Mug")

    def look(_number: int) -> list[str]:
        with store.reading() as connection:
            together.wait()
            return [one.name for one in newest_blanks(connection)]

    with ThreadPoolExecutor(24) as pool:
        assert list(pool.map(look, range(24))) == [["Mug"]] * 24


def test_what_was_removed_cannot_be_read_in_the_files(tmp_path: Path) -> None:
    store = Store(tmp_path)
    add(store, "Persephone Featherstonehaugh")
    add(store, "Mug")
    with store.writing() as connection:
        connection.exec_driver_sql("DELETE FROM blanks WHERE name LIKE 'Perse%'")
    store.shorten()
    files = [one.read_bytes() for one in tmp_path.iterdir()]
    assert any(b"Mug" in data for data in files)
    assert not any(b"Persephone" in data or b"persephone" in data for data in files)


def test_a_copy_of_the_folder_is_a_store(tmp_path: Path) -> None:
    store = Store(tmp_path / "one")
    add(store, "Mug")
    store.close()
    shutil.copytree(tmp_path / "one", tmp_path / "two")
    assert names(Store(tmp_path / "two")) == ["Mug"]
