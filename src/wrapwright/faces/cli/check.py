"""`check`: what would go wrong, before ink and a blank are spent."""

from __future__ import annotations

from wrapwright.faces.cli.options import Accept, Job, Json, Quiet, Verbose, job_named, rules_of
from wrapwright.faces.cli.talk import Talk, lines, rows, show, show_document
from wrapwright.faces.outcomes import FORMAT

EXAMPLE = "wrapwright check bottle.toml"


def check(
    job: Job,
    *,
    accept: Accept = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Check a job without making anything.

    Ends with 0 when there are only warnings and notes, with 4 when an error stands that is not accepted.
    """
    path, text = job_named(job)
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.check_job import check_job
    from wrapwright.jobs.requests import CheckRequest

    talk = Talk(quiet, verbose, json)
    with talk.watching() as watch:
        checked = check_job(CheckRequest(path, text, rules_of(accept)), bench_of(open_settings()), watch)
    if json:
        show_document({"format": FORMAT, "checks": rows(checked.findings), "notes": list(checked.notes)})
        return
    remarks = [f"Remarks ({len(checked.notes)})", *(f"  {note}" for note in checked.notes)] if checked.notes else []
    for line in [*lines(checked.findings), *remarks] or ["Nothing to remark."]:
        show(line)
