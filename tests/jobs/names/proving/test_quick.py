"""What is set letter by letter is what a single piece has, also where a name goes over the seam or is lapped over."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.jobs.names.proving.conftest import JOB, written

from wrapwright.core.names.matching import difference
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.opening import open_list
from wrapwright.jobs.names.proving.anew import anew_of, typical_of
from wrapwright.jobs.names.proving.quick import Quick


@pytest.mark.parametrize(
    ("name", "at", "copies"), [("Ada", "front", 1), ("Wilhelmina Constance " * 4, "front", 3), ("I", "279 deg", 2)]
)
def test_letters_are_those_of_a_single_piece(tmp_path: Path, bench: Bench, name: str, at: str, copies: int) -> None:
    sized = JOB.replace('width = "22 mm"\nheight = "8 mm"', f'size = "3 mm"\nlay = "level"\nat = "{at}"')
    names = open_list(written(tmp_path, sized, ["name,pieces", "Ada,1"]), None, bench)
    row, composed = typical_of(names, None, bench)
    quick = Quick(anew_of(names, composed, row, bench))
    row = replace(row, fields={"name": name})
    found, alone = quick.piece(row), quick.alone(row)
    assert len(found.paths) == len(alone.paths) == copies
    for one, other in zip(found.paths, alone.paths, strict=True):
        assert difference(one.outline, other.outline) is None
