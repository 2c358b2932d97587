"""`names`: a list of names looked at, checked, and decided about row by row, before anything is made."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Annotated

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.cli.kept.telling import group
from wrapwright.faces.cli.names.making import make
from wrapwright.faces.cli.names.proving import contact, sign, verify
from wrapwright.faces.cli.names.rows import JobFile, rows_named
from wrapwright.faces.cli.names.telling import checked_lines, checked_row, counted, shown_lines, shown_row
from wrapwright.faces.cli.options import Job, Json, Quiet, Verbose, job_named
from wrapwright.faces.cli.readings import misuse
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

_EDIT = re.compile(r"(\d{1,9}):([^=]+)=(.*)", re.DOTALL)

_DONE = {"accept": "accepted", "skip": "skipped", "edit": "changed", "forget": "forgotten"}
_NOTHING = {
    "accept": "Nothing that could be accepted waits there; nothing was changed.",
    "skip": "Nothing waits there; nothing was changed.",
    "edit": "Nothing was changed.",
    "forget": "Nothing was decided there; nothing was changed.",
}

Rows = Annotated[str | None, typer.Option(metavar="ROWS", help="Rows: 5, 5-9, 5,7 or all.")]


def check(
    job: Job,
    *,
    whole: Annotated[bool, typer.Option("--all", help="List what is settled and the notes too.")] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Check all rows of a job's list of names.

    Ends with 0 when nothing waits for a decision, with 4 when something does.
    """
    path, text = job_named(job)
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.names.checking import check_names
    from wrapwright.jobs.names.values import CheckNames, NamesWaitError

    talk = Talk(quiet, verbose, json)
    with talk.watching() as watch:
        checked = check_names(CheckNames(path, text), bench_of(open_settings()), watch)
    if not json:
        for line in checked_lines(checked, whole=whole):
            show(line)
    if checked.waiting:
        stop = NamesWaitError(checked)
        stop.told = {"names": checked_row(checked)}
        raise stop
    if json:
        show_document({"format": FORMAT, "names": checked_row(checked)})


def one(
    job: Job,
    *,
    row: Annotated[int | None, typer.Option(metavar="ROW", min=1, help="This row instead of the first ones.")] = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Show how a job's list of names was understood, with its first rows or one."""
    path, text = job_named(job)
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.names.showing import show_names
    from wrapwright.jobs.names.values import ShowNames

    with Talk(quiet, verbose, json).watching() as watch:
        shown = show_names(ShowNames(path, text, row), bench_of(open_settings()), watch)
    if json:
        show_document({"format": FORMAT, "names": shown_row(shown)})
        return
    for line in shown_lines(shown):
        show(line)


def decide(
    job: JobFile,
    *,
    accept: Rows = None,
    skip: Rows = None,
    forget: Rows = None,
    edit: Annotated[
        list[str] | None, typer.Option(metavar="ROW:COLUMN=TEXT", help="Write a cell anew; may be repeated.")
    ] = None,
    rule: Annotated[str | None, typer.Option(metavar="RULE", help="Only for problems of this rule.")] = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Decide about rows: accept their problems, skip them, change cells, or forget what was decided.

    What is decided is kept beside the job file; the table stays as it is. A row that is another one by then, or has
    another problem, is asked about anew.
    """
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.names.deciding import decide_names
    from wrapwright.jobs.names.values import DecideNames

    asked = [("accept", accept), ("skip", skip), ("forget", forget), ("edit", edit)]
    given = [(verb, words) for verb, words in asked if words]
    if len(given) != 1:
        raise misuse("one of --accept, --skip, --forget and --edit is needed, and only one.", "Do one after the other.")
    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    ((verb, words),) = given
    if verb == "edit":
        request = DecideNames(job, "edit", None, edits=_edits(edit or ()))
    else:
        request = DecideNames(job, verb, rows_named(str(words), verb), rule)  # type: ignore[arg-type]
    with talk.watching() as watch:
        done = decide_names(request, bench, watch)
    if json:
        show_document({"format": FORMAT, "decided": {"rows": done.rows, "file": done.file.as_posix()}})
    elif done.rows:
        show(f"{counted(done.rows, 'row')} {_DONE[verb]}; kept in {done.file}")
    else:
        show(_NOTHING[verb])


def _edits(words: Sequence[str]) -> dict[int, dict[str, str]]:
    """Return the cells by row and column, in the order given."""
    found: dict[int, dict[str, str]] = {}
    for one in words:
        match = _EDIT.fullmatch(one)
        if match is None or int(match[1]) < 1:
            message = f'--edit "{one[:60]}" is not ROW:COLUMN=TEXT.'
            raise WrapwrightError(Kind.USAGE, message, remedy='Write it as --edit "5:name=Ada".')
        found.setdefault(int(match[1]), {})[match[2].strip()] = match[3]
    return found


app = group(
    "Lists of names: one design, a table of names, one piece a row.",
    [
        ("check", check, "wrapwright names check regatta.toml"),
        ("show", one, "wrapwright names show regatta.toml --row 5"),
        ("decide", decide, 'wrapwright names decide regatta.toml --edit "5:name=Ada"'),
        ("contact", contact, "wrapwright names contact regatta.toml -o contact.pdf"),
        ("sign", sign, 'wrapwright names sign regatta.toml --by "M. Weir" --date 2026-05-02'),
        ("make", make, "wrapwright names make regatta.toml -o regatta-sheets --order piles"),
        ("verify", verify, "wrapwright names verify regatta-sheets"),
    ],
)
