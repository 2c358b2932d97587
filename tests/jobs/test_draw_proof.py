"""A proof is a PDF or a PNG, and replaces nothing unasked; both are judged before the job is read."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.draw_proof import draw_proof
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.requests import ProofRequest


def outcome(file: Path, *, force: bool = False) -> Kind:
    """Return how drawing the proof of an empty job ends."""
    place = file.parent
    bench = open_bench(cache=place / "cache", data=place, fonts=place, threads=1)
    with pytest.raises(WrapwrightError) as caught:
        draw_proof(ProofRequest(None, "", file, force=force), bench, Watch())
    return caught.value.kind


def test_the_ending_says_which_kind(tmp_path: Path) -> None:
    assert outcome(tmp_path / "proof.gif") is Kind.USAGE
    assert outcome(tmp_path / "proof") is Kind.USAGE
    assert outcome(tmp_path / "proof.PDF") is Kind.UNUSABLE  # the job's own fault: it is empty


def test_a_file_that_stands_is_kept_without_force(tmp_path: Path) -> None:
    place = tmp_path / "p.PNG"
    place.write_bytes(b"mine")
    assert outcome(place) is Kind.REFUSED
    assert outcome(place, force=True) is Kind.UNUSABLE
    assert place.read_bytes() == b"mine"
