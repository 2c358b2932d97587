"""Files of sheets: each is written as soon as its own shards stand, in whatever order they come."""

from __future__ import annotations

from pathlib import Path

import pikepdf
from tests.jobs.names.making.conftest import TEXT, Written
from tests.jobs.names.making.test_pieces import planned_of

from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.making.parts import Files, Joining
from wrapwright.jobs.names.making.shard import make_shard


def test_a_file_waits_for_its_own_shards_alone(written: Written, bench: Bench, tmp_path: Path) -> None:
    planned = planned_of(written(TEXT, "name\n" + "".join(f"{letter}da\n" for letter in "ABCDEFGHIJKL" * 4)), bench)
    sheets = planned.run.places.sheets
    files = Files(sheets, sheets // 2 + 1)
    assert len(files.names) == 2
    joining, seen = Joining(planned, files, tmp_path), []
    for shard in reversed(planned.shards):
        joining.take(make_shard(shard))
        seen.append((shard.first, sorted(file.name for file in tmp_path.glob("*.pdf"))))
    second = [first for first, names in seen if names == ["sheets-002.pdf"]]
    wanted = max(shard.first for shard in planned.shards if shard.first <= files.a_file)
    assert max(second) == wanted > 0, seen  # as soon as the shard of its first sheet was there
    assert seen[-1] == (0, ["sheets-001.pdf", "sheets-002.pdf"])
    pages = []
    for name in files.names:
        with pikepdf.open(tmp_path / name) as pdf:
            pages.append(len(pdf.pages))
    assert pages == [files.a_file, sheets - files.a_file]
