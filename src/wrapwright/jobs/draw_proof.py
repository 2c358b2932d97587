"""Draw the proof of a job: the finished piece from four sides beside its flat wrap."""

from __future__ import annotations

from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.requests import Proofed, ProofRequest

ENDINGS = (".pdf", ".png")


def draw_proof(request: ProofRequest, bench: Bench, watch: Watch) -> Proofed:
    """Return the proof that was written; the checks' findings stand on it and stop nothing.

    Raises:
        WrapwrightError: usage for another ending; refused when the file stands and force was not given; the job
            cannot be read or composed.
    """
    from wrapwright.jobs.kept.shelf import shelf_of
    from wrapwright.jobs.work.composing import compose
    from wrapwright.jobs.work.judging import judged
    from wrapwright.jobs.work.opening import opened
    from wrapwright.jobs.work.papers import proof_data, seen_of
    from wrapwright.jobs.work.sheets import arranged
    from wrapwright.outside.documents.proof import proof_pdf, proof_png
    from wrapwright.outside.system.files import write_aside

    _may_write(request.file, force=request.force)
    watch.step("reading the job", 0.0)
    job = opened(request.job, request.text, bench.folders.fonts, shelf_of(bench))
    composed = compose(job, bench, watch)
    sheets = arranged(composed, bench)
    findings, facts = judged(composed, watch, raised=sheets.findings)
    watch.step("drawing the proof", 0.6)
    draw = proof_png if request.file.suffix.casefold() == ".png" else proof_pdf
    data = draw(proof_data(composed, seen_of(composed), findings, facts, sheets.panels), cache=bench.folders.cache)
    watch.step("handing over", 0.98)
    write_aside(request.file, data)
    return Proofed(request.file, findings)


def _may_write(file: Path, *, force: bool) -> None:
    if file.suffix.casefold() not in ENDINGS:
        message = f'a proof is written as PDF or PNG, and "{file.name}" ends in neither.'
        raise WrapwrightError(Kind.USAGE, message, remedy="Name the file with .pdf or .png.", where="-o")
    if file.exists() and not force:
        message = "This file stands already; nothing was changed."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name, or add --force.", where=str(file))
