"""What was made of designs: asked for, taken up by a worker, told of while it runs, and kept with its report."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, get_args

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.requests import Output
from wrapwright.outside.store.place import MADE
from wrapwright.outside.store.records import FileMade, MadeKept, State, Table

REPORT = "report.json"
ENDED: tuple[State, ...] = ("done", "failed", "stopped")


@dataclass(frozen=True)
class AskMaking:
    """Make a revision (0 is the newest) of a design; `accept` names rules whose errors are accepted."""

    design: int
    revision: int = 0
    output: str = "pdf"
    accept: tuple[str, ...] = ()


@dataclass(frozen=True)
class ListMade:
    """Makings of one design or (0) of all, in these states or (none) any, numbers below `before`, at most `most`.

    0 for `before` and `most` is no limit. Each brings its whole report along.
    """

    design: int = 0
    states: tuple[State, ...] = ()
    before: int = 0
    most: int = 0


@dataclass(frozen=True)
class ShowMade:
    """One making."""

    id: int


@dataclass(frozen=True)
class BeginMaking:
    """A worker takes a making up."""

    id: int


@dataclass(frozen=True)
class TellProgress:
    """How far a making is: in words, and as a share 0..1."""

    id: int
    words: str
    share: float


@dataclass(frozen=True)
class FinishMaking:
    """A making has ended: done (its folder is read), failed (`error` is the failure's document) or stopped."""

    id: int
    state: State
    error: Table = field(default_factory=dict)


@dataclass(frozen=True)
class RemoveMade:
    """Remove a making with its files."""

    id: int


def ask_making(request: AskMaking, bench: Bench, watch: Watch) -> MadeKept:
    """Return the making asked for, waiting.

    Raises:
        WrapwrightError: missing for no such design or revision; usage for another output, or a rule that there is not
            or that can never be accepted.
    """
    del watch
    from wrapwright.outside.store.rows.designs import design_kept
    from wrapwright.outside.store.rows.made import add_made_row

    accept = accepted_rules(request.accept)
    if request.output not in get_args(Output):
        message = f'sheets are made as {", ".join(get_args(Output))}, not as "{request.output}".'
        raise WrapwrightError(Kind.USAGE, message, where="output")
    with bench.kept().writing() as connection:
        design = design_kept(connection, request.design, request.revision)
        return add_made_row(connection, design, request.output, accept, bench.clock())


def list_made(request: ListMade, bench: Bench, watch: Watch) -> tuple[MadeKept, ...]:
    """Return the makings that are asked for, the newest first."""
    del watch
    from wrapwright.outside.store.rows.made import made_rows

    with bench.kept().reading() as connection:
        return made_rows(connection, request.design, states=request.states, before=request.before, most=request.most)


def show_made(request: ShowMade, bench: Bench, watch: Watch) -> MadeKept:
    """Return one making.

    Raises:
        WrapwrightError: missing, when there is none of that number.
    """
    del watch
    from wrapwright.outside.store.rows.made import made_kept

    with bench.kept().reading() as connection:
        return made_kept(connection, request.id)


def begin_making(request: BeginMaking, bench: Bench, watch: Watch) -> MadeKept:
    """Return the making, which this worker alone has now.

    Raises:
        WrapwrightError: refused unless it was waiting; missing when there is none.
    """
    del watch
    from wrapwright.outside.store.rows.made import made_kept, tell_row

    with bench.kept().writing() as connection:
        made = made_kept(connection, request.id)
        if made.state != "waiting":
            message = f"Making {made.id} is not waiting any more; it is {made.state}."
            raise WrapwrightError(Kind.REFUSED, message)
        tell_row(connection, made.id, "making", "beginning", 0.0)
        return made_kept(connection, made.id)


def tell_progress(request: TellProgress, bench: Bench, watch: Watch) -> MadeKept:
    """Return the making as it stands now; one that has been ended meanwhile is left as it is."""
    del watch
    from wrapwright.outside.store.rows.made import made_kept, tell_row

    with bench.kept().writing() as connection:
        made = made_kept(connection, request.id)
        if made.state != "making":
            return made
        tell_row(connection, made.id, "making", request.words, min(1.0, max(0.0, request.share)))
        return made_kept(connection, made.id)


def finish_making(request: FinishMaking, bench: Bench, watch: Watch) -> MadeKept:
    """Return the making ended; the first ending stands.

    Raises:
        WrapwrightError: usage for a state that is no ending; missing when there is none; fault when it is said to be
            done and its folder holds no report.
    """
    del watch
    from wrapwright.outside.store.rows.made import RUNNING, end_row, made_kept

    if request.state not in ENDED:
        raise WrapwrightError(Kind.USAGE, f"a making ends as {', '.join(ENDED)}, not as {request.state}.")
    report, files = _left(folder_made(request.id, bench)) if request.state == "done" else ({}, ())
    with bench.kept().writing() as connection:
        made = made_kept(connection, request.id)
        if made.state in RUNNING:
            end_row(connection, made.id, request.state, bench.clock(), report=report, error=request.error, files=files)
        return made_kept(connection, made.id)


def remove_made(request: RemoveMade, bench: Bench, watch: Watch) -> None:
    """Remove a making and its folder.

    Raises:
        WrapwrightError: missing when there is none; refused while it runs.
    """
    del watch
    from wrapwright.outside.store.contents import remove_folder
    from wrapwright.outside.store.rows.made import RUNNING, made_kept, remove_made_row

    with bench.kept().writing() as connection:
        made = made_kept(connection, request.id)
        if made.state in RUNNING:
            message = f"Making {made.id} runs just now; nothing was changed."
            raise WrapwrightError(Kind.REFUSED, message, remedy="Wait for it or stop it.")
        remove_made_row(connection, made.id)
    remove_folder(folder_made(request.id, bench))
    bench.kept().shorten()


def folder_made(made: int, bench: Bench) -> Path:
    """Return the folder of what was made; it is there once the making is done."""
    return bench.kept().folder / MADE / str(made)


def _left(folder: Path) -> tuple[Any, tuple[FileMade, ...]]:
    """Return the report in a folder and its files, the report last, once all of it is safely on the disk."""
    from wrapwright.outside.store.contents import sync_files

    try:
        sync_files(folder)
        text = (folder / REPORT).read_bytes()
        report = json.loads(text)
        files = [FileMade(one["path"], one["bytes"], one["sha256"]) for one in report["files"]]
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise WrapwrightError(Kind.FAULT, f"What was made left no report that can be read: {error}.") from error
    return report, (*files, FileMade(REPORT, len(text), hashlib.sha256(text).hexdigest()))


def accepted_rules(accept: tuple[str, ...]) -> list[str]:
    """Return the rules in small letters, in order.

    Raises:
        WrapwrightError: usage, for each word that is no rule or a rule that can never be accepted.
    """
    from wrapwright.core.base.errors import raise_all
    from wrapwright.core.base.findings import NEVER_ACCEPTED
    from wrapwright.core.checks.names import folded, unknown_rules

    problems = [
        WrapwrightError(Kind.USAGE, one.message, remedy=one.remedy, where="accept")
        for one in unknown_rules(accept, where="accept")
    ]
    rules = sorted(folded(accept))
    problems += [
        WrapwrightError(Kind.USAGE, f"{rule} can never be accepted.", remedy="Mend the design.", where="accept")
        for rule in rules
        if rule in NEVER_ACCEPTED
    ]
    raise_all(problems)
    return rules
