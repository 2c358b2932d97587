"""Job files as the store takes them in: whole, or a table or two of them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import raise_all
from wrapwright.jobs.bench import Bench

if TYPE_CHECKING:
    from wrapwright.jobs.work.opening import Opened


def whole_document(file: Path, bench: Bench) -> dict[str, Any]:
    """Return the document of a job file in which nothing is wrong; a blank of the shelf is written out in it.

    Raises:
        WrapwrightError: missing for no such file; unusable, with all that is wrong, files that are not there too.
    """
    job, document = document_of(file, bench)
    raise_all(list(job.absent.values()))
    return {"format": document.pop("format"), "title": job.job.title, **document}


def document_of(file: Path, bench: Bench) -> tuple[Opened, dict[str, Any]]:
    """Return the job in a file and its document, a blank of the shelf written out in it; files may be absent.

    Raises:
        WrapwrightError: missing for no such file; unusable, with all that is wrong in it.
    """
    import tomllib

    from wrapwright.jobs.kept.shelf import shelf_of
    from wrapwright.jobs.work.opening import opened
    from wrapwright.outside.jobfile.named import with_blank
    from wrapwright.outside.jobfile.reading import job_text
    from wrapwright.outside.jobfile.writing import plain_document

    job = opened(file, None, bench.folders.fonts, shelf_of(bench))
    raw = tomllib.loads(job_text(file.read_bytes(), where=str(file)).removeprefix("\ufeff"))
    return job, plain_document(with_blank(raw, shelf_of(bench))[0])
