"""Whatever the moment: what was acknowledged is there, nothing is half, and two stations never both win."""

from __future__ import annotations

import json
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from wrapwright.outside.store.contents import content_file
from wrapwright.outside.store.place import Store
from wrapwright.outside.store.rows.designs import (
    add_design_row,
    design_files,
    design_kept,
    design_rows,
    save_revision,
)

NOW = datetime(2026, 5, 2, tzinfo=UTC)
FIRST = {"format": 1, "title": "0", "element": []}

# Saves without end and says each revision once it stands; now and then a new file as well.
SAVING = """
import json, sys
from datetime import UTC, datetime
from pathlib import Path
from wrapwright.outside.store.contents import settle, staged
from wrapwright.outside.store.jobfolders import fill
from wrapwright.outside.store.place import Store
from wrapwright.outside.store.rows.designs import design_kept, name_file, save_revision
from wrapwright.outside.store.rows.files import Looked, add_picture_row

store, design = Store(Path(sys.argv[1])), int(sys.argv[2])
filling = "x" * 20_000
while True:
    with store.reading() as connection:
        base = design_kept(connection, design).revision
    picture = store.folder / f"picture-{base}"
    picture.write_bytes(f"picture {base} {filling}".encode())
    now = datetime.now(UTC)
    with staged(store, picture, move=True) as come, store.writing() as connection:
        settle(store, connection, come, now)
        add_picture_row(connection, come.sha256, "p.png", Looked("png", 1, 1), now)
        name = name_file(connection, design, come.sha256, "p.png")
        fill(store, design, [(name, come.sha256)], anew=True)
        document = {"format": 1, "title": str(base), "file": name, "element": [filling]}
        save_revision(connection, design, document, base, now)
    print(json.dumps([base + 1, name, come.sha256]), flush=True)
"""
# Waits for the word, then saves once on the base it was given and says how that ended.
STATION = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.store.place import Store
from wrapwright.outside.store.rows.designs import design_kept, save_revision

store, design, who = Store(Path(sys.argv[1])), int(sys.argv[2]), sys.argv[3]
with store.reading() as connection:
    design_kept(connection, design)
print("ready", flush=True)
for line in sys.stdin:
    base = int(line)
    try:
        with store.writing() as connection:
            save_revision(connection, design, {"format": 1, "title": f"{who} on {base}"}, base, datetime.now(UTC))
        print("saved", flush=True)
    except WrapwrightError as error:
        print(error.kind, flush=True)
"""


def started(code: str, *words: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-W", "error", "-c", code, *words],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8",
    )  # fmt: skip


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store(tmp_path / "data")


def test_a_station_killed_while_it_saves_loses_nothing_it_was_told_is_saved(store: Store) -> None:
    """Popen.kill is SIGKILL, on Windows TerminateProcess: no code of ours runs after it."""
    with store.writing() as connection:
        design = add_design_row(connection, FIRST, (0, 0), NOW)
    told: list[tuple[int, str, str]] = [(1, "", "")]
    for saves in (1, 4, 9):
        saver = started(SAVING, str(store.folder), str(design))
        assert saver.stdout is not None
        told += [tuple(json.loads(saver.stdout.readline())) for _ in range(saves)]
        saver.kill()
        told += [tuple(json.loads(line)) for line in saver.stdout.read().splitlines() if line.endswith("]")]
        saver.communicate()
        store.close()
        with store.reading() as connection:
            assert connection.exec_driver_sql("PRAGMA integrity_check").scalar() == "ok"
            assert connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall() == []
            newest = design_kept(connection, design).newest
            files = dict(design_files(connection, design))
            for number, name, sha256 in told[1:]:
                assert design_kept(connection, design, number).document["file"] == name
                assert files[name] == sha256
                assert (store.folder / "designs" / str(design) / name).stat().st_size > 20_000
            for sha256 in files.values():
                assert content_file(store, sha256).stat().st_size > 20_000
        # What was saved last may not have been told; more than that one cannot have been.
        assert told[-1][0] <= newest <= told[-1][0] + 1
        if newest > told[-1][0]:
            with store.reading() as connection:
                name = design_kept(connection, design, newest).document["file"]
            told.append((newest, name, files[name]))


def test_a_log_cut_at_any_byte_leaves_whole_revisions(store: Store, tmp_path: Path) -> None:
    """What a disk has of SQLite's log after a loss of power is some beginning of it."""
    with store.writing() as connection:
        design = add_design_row(connection, FIRST, (0, 0), NOW)
    store.shorten()  # from here on all is in the log
    for base in range(1, 9):
        with store.writing() as connection:
            save_revision(connection, design, {**FIRST, "title": str(base), "element": ["y" * 3000]}, base, NOW)
    log = store.file.with_name(f"{store.file.name}-wal").read_bytes()
    found = []
    for cut in (*range(0, len(log), len(log) // 40), len(log)):
        copy = Store(tmp_path / f"cut-{cut}")
        copy.folder.mkdir()
        copy.file.write_bytes(store.file.read_bytes())
        copy.file.with_name(f"{copy.file.name}-wal").write_bytes(log[:cut])
        with copy.reading() as connection:
            assert connection.exec_driver_sql("PRAGMA integrity_check").scalar() == "ok"
            newest = design_kept(connection, design).newest
            titles = [design_kept(connection, design, number).title for number in range(1, newest + 1)]
        assert titles == ["0", *(str(number) for number in range(1, newest))]
        found.append(newest)
        copy.close()
    assert found == sorted(found)
    assert (found[0], found[-1], len(set(found)) > 4) == (1, 9, True)


def test_of_two_stations_one_wins_and_the_other_is_told(store: Store) -> None:
    with store.writing() as connection:
        design = add_design_row(connection, FIRST, (0, 0), NOW)
    stations = {who: started(STATION, str(store.folder), str(design), who) for who in ("ada", "ben")}
    for station in stations.values():
        assert station.stdout is not None
        assert station.stdout.readline() == "ready\n"
    for base in range(1, 13):
        for station in stations.values():
            assert station.stdin is not None
            station.stdin.write(f"{base}\n")
            station.stdin.flush()
        said = {who: station.stdout.readline().strip() for who, station in stations.items() if station.stdout}
        assert sorted(said.values()) == ["refused", "saved"]
        winner = next(who for who, words in said.items() if words == "saved")
        with store.reading() as connection:
            kept = design_kept(connection, design)
        assert (kept.revision, kept.title) == (base + 1, f"{winner} on {base}")
    for station in stations.values():
        station.communicate()
        assert station.returncode == 0
    with store.reading() as connection:
        assert [row.revision for row in design_rows(connection)] == [13]
