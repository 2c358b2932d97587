"""What of a job is sent to the workers: its files, the fonts it may choose among, the blank it names."""

from __future__ import annotations

import pickle
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import fontpkg
import pytest
from tests.jobs.names.spread.conftest import Kept, write_job

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.names.making.planning import Wanted, plan, put_rows
from wrapwright.jobs.names.opening import open_list
from wrapwright.jobs.names.spread import worker
from wrapwright.jobs.names.spread.inputs import Rows, put_inputs
from wrapwright.jobs.names.spread.values import Inputs
from wrapwright.jobs.names.spread.worker import made_in
from wrapwright.outside.places.opening import open_place
from wrapwright.outside.places.place import part_name

pytest.importorskip("fsspec")


def test_fonts_and_a_kept_blank_go_along(tmp_path: Path, kept: Kept) -> None:
    from wrapwright.jobs.kept.blanks import AddBlank, add_blank

    bench = kept("inputs")
    bench.folders.fonts.mkdir(parents=True, exist_ok=True)
    first = next(iter(fontpkg.families()["open-sans"].files))
    (bench.folders.fonts / "Mine.ttf").write_bytes(Path(str(first.path)).read_bytes())
    job = write_job(tmp_path)
    text = job.read_text(encoding="utf-8")
    text = text.replace('kind = "straight"\ngirth = 100\nwall = 60\n', 'use = "small can"\n')
    job.write_text(text.replace('height = "10 mm"', 'height = "10 mm"\nfont = "Mine.ttf"'), encoding="utf-8")
    readings = {"kind": "straight", "girth": 100, "wall": 60}
    add_blank(AddBlank("Small can", readings), bench, Watch())
    names = open_list(job, None, bench)
    planned = plan(names, Wanted(40, 40, seconds=0.0), bench, Watch())
    list(put_rows(names, planned, None, Watch()))
    place = open_place(str(tmp_path / "place"))
    digest = put_inputs(planned.run, names.opened, names.asked.file, bench, place)
    inputs = pickle.loads(place.bytes_of(part_name(digest)) or b"")
    assert isinstance(inputs, Inputs)
    assert [(one.beside, one.name) for one in inputs.parts] == [
        ("job", "regatta.toml"),
        ("job", "../pets/none.png"),
        ("fonts", "Mine.ttf"),
    ]
    assert list(inputs.run.shelf or ()) == ["Small can"]
    with ThreadPoolExecutor(1) as threads:
        asked = Rows(names.opened, place, digest, threads).put(planned.shards[-1])
    made = made_in(tmp_path / "worker", asked)
    worker._run.cache_clear()
    assert made.refused == 0
    assert made.pieces > 0
