"""The shipped example, end to end: its sheets, and its job and art beside them to be changed and made again."""

from __future__ import annotations

from importlib.resources import as_file, files

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.requests import DemoRequest, Made, MakeRequest

JOB = "job.toml"
FOLDER = "job"  # below the sheets: what they were made from


def show_demo(request: DemoRequest, bench: Bench, watch: Watch) -> Made:
    """Return what was made of the example in the request's folder; what it was made from goes to `job` in it.

    Raises:
        WrapwrightError: refused, when the folder holds an earlier one, or files of the same names, and force was not
            given.
    """
    from wrapwright.jobs.make_sheets import make_sheets
    from wrapwright.outside.system.delivery import delivery, standing_in

    place = request.folder / FOLDER
    with as_file(files("wrapwright.data").joinpath("demo")) as source:
        parts = sorted(one for one in source.iterdir() if one.is_file())
        standing_in(place, [one.name for one in parts], force=request.force)
        with delivery(place, force=request.force) as work:
            for file in parts:
                (work / file.name).write_bytes(file.read_bytes())
            return make_sheets(MakeRequest(source / JOB, None, request.folder, force=request.force), bench, watch)
