"""Reading the drawing that a flat blank's outline is given by."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.blank.readings import Blank
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.work.opening import Opened

WHERE = "blank: outline"


def with_outline(job: Opened, bench: Bench) -> Opened | None:
    """Return the job with the outline of its flat blank read, any other as it is; None when the drawing is absent.

    Raises:
        WrapwrightError: unusable, when the drawing cannot be read or holds no single filled shape.
    """
    plate = job.job.blank.plate
    if plate is None or not plate.file or plate.ring:
        return job
    if plate.file in job.absent:
        return None
    return replace(
        job, job=replace(job.job, blank=outlined(job.job.blank, job.path_of(plate.file), bench.folders.cache))
    )


def outlined(blank: Blank, file: Path, cache: Path) -> Blank:
    """Return a flat blank with the outline that a drawing holds: its one filled shape, holes counted."""
    from wrapwright.core.blank.plated import with_ring
    from wrapwright.core.design.plates import outer_ring
    from wrapwright.outside.images.reading import read_art

    try:
        art = read_art(file, cache=cache)
    except WrapwrightError as problem:
        raise WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=WHERE) from problem
    if art.kind != "outlines":
        raise unusable(
            f"the outline {file.name} holds no plain filled shape.",
            remedy="Draw it as an SVG with one shape filled with one solid colour, without gradients or filters.",
            where=WHERE,
        )
    ring, holes = outer_ring(art, where=WHERE)
    return with_ring(blank, ring, holes=holes)


def outline_input(job: Opened) -> dict[str, str]:
    """Return (path as the job writes it, SHA-256) of the outline's drawing, when there is one."""
    from wrapwright.jobs.work.supplying import as_written
    from wrapwright.outside.system.files import file_sha256

    plate = job.job.blank.plate
    if plate is None or not plate.file or plate.file in job.absent:
        return {}
    return {as_written(plate.file): file_sha256(job.path_of(plate.file))}
