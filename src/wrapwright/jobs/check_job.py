"""Check a job: everything that would go wrong, before ink and a blank are spent."""

from __future__ import annotations

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.requests import Checked, CheckRequest


def check_job(request: CheckRequest, bench: Bench, watch: Watch) -> Checked:
    """Return the findings of a job that may be made, and the notes its proof and ticket will carry.

    Raises:
        ChecksSayNoError: kind checks, with all findings, when an error is not accepted.
        WrapwrightError: the job cannot be read or composed.
    """
    from wrapwright.jobs.kept.shelf import shelf_of
    from wrapwright.jobs.verdict import stand_or_stop
    from wrapwright.jobs.work.composing import compose
    from wrapwright.jobs.work.judging import judged
    from wrapwright.jobs.work.opening import opened
    from wrapwright.jobs.work.sheets import arranged

    watch.step("reading the job", 0.0)
    job = opened(request.job, request.text, bench.folders.fonts, shelf_of(bench))
    composed = compose(job, bench, watch)
    sheets = arranged(composed, bench)
    findings, _facts = judged(composed, watch, raised=sheets.findings, accepted=request.accept)
    return Checked(stand_or_stop(findings), (*composed.remarks, *sheets.notes))
