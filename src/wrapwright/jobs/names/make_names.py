"""Make a list of names: sheets, manifest, cut list, proof, ticket and the rest of its papers; all or none."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.base.findings import Finding
from wrapwright.core.names.making.places import Order
from wrapwright.jobs.bench import Bench, HeldPool, Watch

if TYPE_CHECKING:
    from wrapwright.core.checks.facts import Facts
    from wrapwright.core.sheet.cut.values import CutList
    from wrapwright.jobs.names.making.parts import Counts, Files
    from wrapwright.jobs.names.making.planning import Planned, Wanted
    from wrapwright.jobs.names.making.values import ShardMade
    from wrapwright.jobs.names.opening import NamesList
    from wrapwright.jobs.names.values import NamesChecked

SHEETS_A_FILE = 500
_FEW = 100  # so many names are made here in less time than workers take to begin; pictures of rows take longer
_LONG_BYTES = 20_000  # a table of more has rows enough for workers, who measure its texts too


@dataclass(frozen=True)
class MakeNames:
    """Make the pieces of a job's list.

    Attributes:
        job: path of the job file.
        folder: where the files go.
        force: replace files of an earlier run.
        order: "rows": piece after piece on a sheet; "piles": piece after piece down through a stack of sheets, so that
            the cut piles are in the list's order.
        rows: numbers of the rows that are made, with the numbers and codes they have in the whole list; None: all.
        sheets_a_file: more sheets than these make several files.
        accept: rules whose errors about the typical piece are accepted, or "all".
        seconds: longest search for a fuller sheet.
        cluster: address of the scheduler whose workers make it; "" = here.
        place: address of what this machine and those workers reach; with a cluster only.
    """

    job: Path
    folder: Path
    force: bool = False
    order: Order = "rows"
    rows: tuple[int, ...] | None = None
    sheets_a_file: int = SHEETS_A_FILE
    accept: frozenset[str] = frozenset()
    seconds: float = 2.0
    cluster: str = ""
    place: str = ""


@dataclass(frozen=True)
class NamesMade:
    """What was left: the report as it stands in report.json, what the checks found, and who signed the list off."""

    report: Mapping[str, Any]
    findings: tuple[Finding, ...] = field(default=())
    signed: tuple[str, ...] = ()


def make_names(request: MakeNames, bench: Bench, watch: Watch) -> NamesMade:
    """Return the report of what was left in the folder.

    What is made of the sheets stands in the cache until it is handed over: started again after it was stopped, however
    that came about, it makes nothing twice, and leaves the same files.

    Raises:
        NamesWaitError: kind checks, when rows wait for a decision; nothing is made.
        ChecksSayNoError: kind checks, when an error about the typical piece is not accepted; nothing is made.
        WrapwrightError: the job or its list cannot be read, the rows asked for are not there, or the folder must not
            be written.
    """
    from wrapwright.jobs.names.checking import ready_list
    from wrapwright.jobs.names.making.shard import ready
    from wrapwright.jobs.names.opening import open_list
    from wrapwright.jobs.names.spread.spreading import Spread, check_spread
    from wrapwright.outside.system.delivery import delivery
    from wrapwright.outside.system.pool import HerePool

    if request.sheets_a_file < 1:
        raise WrapwrightError(Kind.USAGE, "A file holds at least 1 sheet.", where="sheets a file")
    check_spread(Spread(request.cluster, request.place))
    with delivery(request.folder, force=request.force) as folder, bench.pool.held(ready) as pool:
        names = open_list(request.job, None, bench)
        long = names.table.file.stat().st_size > _LONG_BYTES
        if long:
            pool.beside(_ready_to_arrange)
        checked = ready_list(names, bench, _within(watch, 0.0, 0.15), pool if long else None)
        wanted = _wanted(names, checked, request)
        few = wanted.pieces <= _FEW and not names.asked.pictures
        making = _Making(names, wanted, request, folder, bench, HerePool() if few else pool)
        made = _made(making, watch, checked)
        return replace(made, signed=checked.signed)


def _ready_to_arrange() -> None:
    """Import what arranging needs, while workers measure the rows."""
    import scipy.optimize  # noqa: F401

    import wrapwright.core.sheet.stock.search  # noqa: F401

    with suppress(ImportError):  # not to be had on every machine
        import numba  # noqa: F401


@dataclass(frozen=True, eq=False)
class _Making:
    """What one making works with."""

    names: NamesList
    wanted: Wanted
    request: MakeNames
    folder: Path
    bench: Bench
    pool: HeldPool


def _made(one: _Making, watch: Watch, checked: NamesChecked) -> NamesMade:
    from wrapwright.jobs.names.making.parts import MANIFEST, Files, write_manifest
    from wrapwright.jobs.names.making.planning import plan
    from wrapwright.jobs.names.making.reporting import Told, names_report
    from wrapwright.jobs.names.making.running import make_room_for_runs
    from wrapwright.jobs.verdict import stand_or_stop
    from wrapwright.jobs.work.judging import judged
    from wrapwright.outside.jobfile.report import report_text

    names, folder = one.names, one.folder
    planned = plan(names, one.wanted, one.bench, watch)
    run = planned.run
    findings, facts = judged(planned.composed, Watch(cancelled=watch.cancelled), accepted=one.request.accept)
    stand_or_stop(findings)
    make_room_for_runs(run.folder.parent, [run.folder])
    papers = one.pool.beside(partial(_papers, planned, findings, facts, one.bench))
    files = Files(run.places.sheets, one.request.sheets_a_file)
    shards = _shards(one, planned, files, watch)
    counts = write_manifest(run, shards, files, folder / MANIFEST)
    _some_made(counts.pieces, counts.reasons)
    watch.step("writing the papers", 0.9)
    cuts, written = papers()
    for name, data in written:
        (folder / name).write_bytes(data)
    _lists(one, planned, counts, watch)
    told = Told(names, planned, cuts, findings, facts, counts, files, checked.signed, one.wanted.rows)
    report = report_text(names_report(told, sorted(folder.iterdir())))
    (folder / "report.json").write_text(report, encoding="utf-8", newline="\n")
    watch.step("handing over", 0.99)
    return NamesMade(json.loads(report), findings)


def _shards(one: _Making, planned: Planned, files: Files, watch: Watch) -> tuple[ShardMade, ...]:
    """Return the shards, made here or on a cluster, their sheets joined into files as they come."""
    from wrapwright.jobs.names.making.parts import Joining
    from wrapwright.jobs.names.making.planning import put_rows
    from wrapwright.jobs.names.making.running import made_shards
    from wrapwright.jobs.names.making.shard import make_shard
    from wrapwright.jobs.names.spread.spreading import Spread, spread_over

    joining = Joining(planned, files, one.folder)
    with spread_over(Spread(one.request.cluster, one.request.place), one.names, planned, one.bench) as over:
        coming = put_rows(one.names, planned, one.wanted.rows, watch)
        return made_shards(planned, coming, over or partial(one.pool.map, make_shard), watch, joining.take)


def _papers(
    planned: Planned, findings: Sequence[Finding], facts: Facts, bench: Bench
) -> tuple[CutList, list[tuple[str, bytes]]]:
    """Return the papers that do not hang on what becomes of single rows."""
    from wrapwright.jobs.names.making.papers import cuts_of, papers_of

    cuts = cuts_of(planned)
    return cuts, list(papers_of(planned, cuts, findings, facts, bench))


def _lists(one: _Making, planned: Planned, counts: Counts, watch: Watch) -> None:
    """Write the contact sheet and, meanwhile where there are workers, the handling list."""
    from wrapwright.jobs.names.contact.contact import contact_pdf
    from wrapwright.jobs.names.contact.handling import handling_pdf

    asked: dict[str, Any] = {"rows": one.wanted.rows, "refused": counts.reasons}
    watch.step("drawing the contact sheet", 0.93)
    quiet = Watch(cancelled=watch.cancelled)
    contact = one.pool.beside(
        partial(contact_pdf, one.names, planned, one.folder / "contact.pdf", one.bench, quiet, **asked)
    )
    handling = one.folder / "handling.pdf"
    handling_pdf(one.names, planned, handling, replace(one.bench, pool=one.pool), _within(watch, 0.93, 0.99), **asked)
    contact()


def _wanted(names: NamesList, checked: NamesChecked, request: MakeNames) -> Wanted:
    """Return what is to be made; all rows that are named must be there."""
    from wrapwright.jobs.names.making.planning import Wanted

    if request.rows is None:
        return Wanted(checked.pieces, checked.pieces, request.order, request.seconds)
    rows = frozenset(request.rows)
    found, pieces = set[int](), 0
    for one in names.rows():
        if one.row.number in rows:
            found.add(one.row.number)
            pieces += 0 if one.skipped else one.row.quantity
    missing = sorted(rows - found)
    if missing:
        listed = ", ".join(map(str, missing[:5])) + (f" and {len(missing) - 5} more" if len(missing) > 5 else "")
        raise WrapwrightError(
            Kind.MISSING,
            f"the list has no row {listed}, or nothing stands in it.",
            remedy=f"Rows are counted as in the table: the first one is {names.table.header_row + 1}.",
            where=names.asked.file,
        )
    return Wanted(pieces, checked.pieces, request.order, request.seconds, rows)


def _some_made(pieces: int, reasons: Mapping[int, str]) -> None:
    if pieces == 0:
        row, why = next(iter(reasons.items()))
        raise unusable(f"no row of the list can be made; row {row}: {why}", where="names")


def _within(watch: Watch, first: float, last: float) -> Watch:
    """Return a watch whose whole is a part of another's."""
    return Watch(lambda words, share: watch.progress(words, first + (last - first) * share), watch.cancelled)
