"""The same job, the same bytes: in processes that have nothing else in common, whatever the caches hold."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from tests.whole.in_colour.colouring import chart, coloured, convert, patches, printer
from tests.whole.product import Workshop, job_text, svg

from wrapwright.outside.icc.conversion import conversion
from wrapwright.outside.icc.profiles import parse, srgb_profile
from wrapwright.outside.icc.tables import build, table_name

NAMES = ("sheets.pdf", "proof.pdf", "ticket.pdf", "report.json")
JOB = (
    job_text(
        'kind = "tapered"\ngirth_top = 236\ngirth_bottom = 214\nwall = 60',
        'kind = "picture"\nname = "chart"\nfile = "chart.png"\nwidth = "wrap"\nheight = 70\nfit = "cover"',
        'kind = "tile"\nfile = "leaf.svg"\nwidth = 14\nshift = 0.5',
        'kind = "text"\ntext = "{name}"\nat = ["front", "back"]\nwidth = 60\nheight = 14\ncolour = "#7a2e1d"',
        'kind = "code"\ntext = "same"\nat = "right"\nwidth = 22',
        wrap="overlap = 5",
        sheet='paper = "A4"\nppi = 100',
        colour=convert("relative"),
        quantity="2",
    )
    + '[fields]\nname = "Zoë"\n'
)
LEAF = svg(10, 10, '<path fill="#2f5a3c" d="M5 0 C9 3 9 7 5 10 C1 7 1 3 5 0 Z"/>')


def run(folder: Path, job: str, out: str, cache: Path, **environment: str) -> dict[str, str]:
    env = {**os.environ, "WRAPWRIGHT_CACHE": str(cache), **environment}
    command = [sys.executable, "-m", "wrapwright", "make", job, "-o", out, "--accept", "all"]
    done = subprocess.run(command, cwd=folder, env=env, capture_output=True, text=True, encoding="utf-8")
    assert done.returncode == 0, done.stderr
    return {name: hashlib.sha256((folder / out / name).read_bytes()).hexdigest() for name in NAMES}


def files() -> dict[str, bytes | str]:
    return {"chart.png": chart(), "leaf.svg": LEAF, "printer.icc": printer("rgb")}


@pytest.fixture(scope="module")
def place(workshop):
    return workshop.folder(JOB, files())


def test_seed_zone_language_folder_threads_and_caches_do_not_matter(workshop, place, tmp_path):
    one = {"PYTHONHASHSEED": "1", "TZ": "Pacific/Auckland", "LANG": "C", "LC_ALL": "C", "WRAPWRIGHT_THREADS": "1"}
    other = {
        "PYTHONHASHSEED": "77",
        "TZ": "America/Bogota",
        "LANG": "de_DE.UTF-8",
        "LC_ALL": "C.UTF-8",
        "WRAPWRIGHT_THREADS": "2",
    }
    first = run(place, "job.toml", "one", tmp_path / "cold", **one)
    elsewhere = tmp_path / "moved" / "house"
    shutil.copytree(place, elsewhere, ignore=shutil.ignore_patterns("one", "out"))
    assert run(elsewhere.parent, str(Path("house") / "job.toml"), "two", tmp_path / "other cold", **other) == first
    assert run(elsewhere, str(elsewhere / "job.toml"), "three", tmp_path / "cold", **other) == first  # warm
    # Another job gives other bytes, else all this would say nothing.
    changed = workshop.make(JOB.replace('"Zoë"', '"Zoe"'), files(), accept=frozenset({"all"})).folder
    assert all(hashlib.sha256((changed / name).read_bytes()).hexdigest() != first[name] for name in NAMES)


def test_the_table_of_exact_colours_changes_no_byte(tmp_path):
    workshop = Workshop(tmp_path, tmp_path / "cache")
    made = conversion(srgb_profile(), parse(printer("rgb"), named="printer.icc"), "absolute", black_point=False)
    tables = workshop.bench.folders.cache / "tables"
    assert not (tables / f"{table_name(made)}.table").exists()
    without = coloured(workshop, convert("absolute", black_point=False), art=patches)
    table = build(tables, made, lambda _share: None)
    assert table is not None
    table.close()
    with_table = coloured(workshop, convert("absolute", black_point=False), art=patches)
    assert (tables / f"{table_name(made)}.table").exists()
    for name in NAMES:
        assert (without.folder / name).read_bytes() == (with_table.folder / name).read_bytes(), name
    codes = np.frombuffer((tables / f"{table_name(made)}.table").read_bytes(), "<u4")
    assert len(codes) == 2**24
