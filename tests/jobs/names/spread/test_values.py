"""Where the files that a job names stand on a worker."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.names.spread.values import DEEP, inside, job_folder


@pytest.mark.parametrize("written", ["cat.png", "pets/cat.png", "../cat.png", "../../a/b.png", "a/../../b.png"])
def test_a_name_leads_from_the_worker_s_job_to_the_same_file(written: str, tmp_path: Path) -> None:
    """As the job reads it: from its own folder, up and down."""
    file = tmp_path / inside(written)
    file.parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / job_folder() / "pets").mkdir(parents=True, exist_ok=True)
    (tmp_path / job_folder() / "a").mkdir(parents=True, exist_ok=True)
    file.write_bytes(b"here")
    assert (tmp_path / job_folder() / written).read_bytes() == b"here"


def test_as_many_folders_up_as_there_are() -> None:
    assert inside("../" * DEEP + "x.png") == Path("x.png")
    assert len(job_folder().parts) == DEEP


@pytest.mark.parametrize("written", ["/pictures/cat.png", "../" * (DEEP + 1) + "x.png"])
def test_what_no_other_machine_has_is_refused(written: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        inside(written)
    assert caught.value.kind is Kind.UNUSABLE
    assert "is not found from other machines" in caught.value.message
    assert caught.value.remedy
