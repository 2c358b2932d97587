"""Bringing a store up to date: the migrations make what the tables say, once, whoever comes first."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store import opening
from wrapwright.outside.store.place import Store
from wrapwright.outside.store.schema import FORMS, METADATA

pytestmark = pytest.mark.usefixtures("stores_from_nothing")

OPEN = "import sys; from pathlib import Path; from wrapwright.outside.store.place import Store\n"
OPEN += "with Store(Path(sys.argv[1])).reading() as c: print(c.exec_driver_sql('SELECT count(*) FROM blanks').scalar())"


def test_the_migrations_make_the_tables_that_are_used(tmp_path: Path) -> None:
    with Store(tmp_path).reading() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": False})
        assert compare_metadata(context, METADATA) == []
        held = connection.exec_driver_sql("SELECT name FROM sqlite_master WHERE type = 'table'").scalars()
        assert set(METADATA.tables) <= set(held)


def test_the_forms_are_those_of_the_migrations_in_their_order() -> None:
    config = Config()
    config.set_main_option("script_location", str(opening.MIGRATIONS))
    steps = [one.revision for one in ScriptDirectory.from_config(config).walk_revisions()]
    assert tuple(reversed(steps)) == FORMS


def test_processes_that_come_at_once_find_one_store(tmp_path: Path) -> None:
    words = [sys.executable, "-W", "error", "-c", OPEN, str(tmp_path)]
    running = [subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) for _ in range(3)]
    said = [one.communicate(timeout=60) for one in running]
    assert [(out.strip(), err) for out, err in said] == [("0", "")] * 3


def test_a_store_half_made_is_made_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A migration that is cut short leaves an empty store, which the next opening fills."""
    from alembic import command

    upgrade = command.upgrade

    def cut_short(config: Config, target: str) -> None:
        upgrade(config, target)
        raise KeyboardInterrupt

    monkeypatch.setattr(command, "upgrade", cut_short)
    with pytest.raises(KeyboardInterrupt), Store(tmp_path).reading():
        pass
    monkeypatch.undo()
    with Store(tmp_path).reading() as connection:
        assert connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar() == FORMS[-1]


def test_too_old_a_database_library_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opening.sqlite3, "sqlite_version_info", (3, 31, 1))
    with pytest.raises(WrapwrightError, match=r"needs SQLite 3\.37") as caught, Store(tmp_path).reading():
        pass
    assert caught.value.kind is Kind.SETUP
