"""Make a stored design: the same work as for a job file, from the document and its job folder."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.requests import Made, MakeRequest, Output


@dataclass(frozen=True)
class MakeKept:
    """Make one revision of a design.

    Attributes:
        design, revision: what to make; revision 0 is the newest.
        output: kind of the sheets' file.
        accept: rules whose errors are accepted.
        folder: where the files go; made when it is missing, refused when it holds an earlier making.
    """

    design: int
    revision: int
    output: Output
    accept: tuple[str, ...]
    folder: Path


def make_kept(request: MakeKept, bench: Bench, watch: Watch) -> Made:
    """Return the report of what was left in the folder: byte for byte what the exported job file gives.

    Raises:
        ChecksSayNoError: kind checks, with all findings, when an error is not accepted; nothing is made.
        WrapwrightError: missing for no such design; the document cannot be read or composed; the folder must not be
            written.
    """
    from wrapwright.core.checks.names import folded
    from wrapwright.jobs.kept.designs import ShowDesign, folder_of, show_design
    from wrapwright.jobs.kept.shelf import shelf_of
    from wrapwright.jobs.make_sheets import make_opened
    from wrapwright.jobs.work.opening import opened_document

    watch.step("reading the design", 0.0)
    kept = show_design(ShowDesign(request.design, request.revision), bench, watch)
    folder = folder_of(kept.id, bench)
    job = opened_document(kept.document, folder, bench.folders.fonts, shelf_of(bench))
    wanted = MakeRequest(None, None, request.folder, request.output, accept=folded(request.accept))
    return make_opened(job, wanted, bench, watch)
