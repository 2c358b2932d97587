"""The shipped example, end to end: its sheets, and its job and art beside them to be changed and made again."""

from __future__ import annotations

from importlib.resources import as_file, files
from pathlib import Path

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.requests import Made, MakeRequest

JOB = "job.toml"


def show_demo(folder: Path, bench: Bench, watch: Watch, *, force: bool = False) -> Made:
    """Return what was made of the example in `folder`; what it was made from goes to `folder`/job.

    Raises:
        WrapwrightError: refused, when the folder holds an earlier one and force was not given.
    """
    from wrapwright.jobs.make_sheets import make_sheets
    from wrapwright.outside.system.delivery import delivery

    with as_file(files("wrapwright.data").joinpath("demo")) as source:
        made = make_sheets(MakeRequest(source / JOB, None, folder, force=force), bench, watch)
        with delivery(folder / "job", force=True) as work:
            for file in sorted(one for one in source.iterdir() if one.is_file()):
                (work / file.name).write_bytes(file.read_bytes())
    return made
