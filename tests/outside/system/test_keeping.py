"""Caches keep within their size, oldest out first."""

from __future__ import annotations

import os
import time

from wrapwright.outside.system.keeping import make_room, sweep, used


def _files(folder, ages_s, size=100):
    now = time.time()
    found = []
    for number, age in enumerate(ages_s):
        file = folder / f"{number}.art"
        file.write_bytes(bytes(size))
        os.utime(file, (now - age, now - age))
        found.append(file)
    return found


def test_what_was_used_longest_ago_goes_first(tmp_path):
    files = _files(tmp_path, [50, 4000, 300, 9000])
    make_room(files, limit_bytes=200)
    assert [file.exists() for file in files] == [True, False, True, False]


def test_a_use_makes_it_the_youngest(tmp_path):
    files = _files(tmp_path, [50, 4000, 300])
    used(files[1])
    make_room(files, limit_bytes=200)
    assert [file.exists() for file in files] == [True, True, False]


def test_nothing_goes_while_all_fits_or_is_in_use(tmp_path):
    files = _files(tmp_path, [50, 40])
    make_room(files, limit_bytes=200)
    make_room(files, limit_bytes=0, spared_s=3600)
    assert all(file.exists() for file in files)


def test_a_file_that_is_gone_already_is_no_problem(tmp_path):
    files = _files(tmp_path, [50, 40])
    files[0].unlink()
    make_room(files, limit_bytes=0)
    assert not files[1].exists()


def test_only_old_working_folders_are_swept(tmp_path):
    old, new, other = (tmp_path / name for name in ("child-a", "child-b", "kept"))
    for folder in (old, new, other):
        folder.mkdir()
        (folder / "samples").write_bytes(b"x")
    past = time.time() - 3 * 86_400
    for folder in (old, other):
        os.utime(folder, (past, past))
    sweep(tmp_path, "child-*")
    assert [folder.exists() for folder in (old, new, other)] == [False, True, True]
