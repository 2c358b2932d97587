"""The report of a list's making: what went in, how the rows ended, how the sheets are laid."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.findings import Finding
from wrapwright.core.blank.statement import blank_statement, wrap_statement
from wrapwright.core.checks.facts import Facts
from wrapwright.core.sheet.cut.values import CutList
from wrapwright.core.sheet.cut.words import ranges
from wrapwright.jobs.names.making.papers import alike_words, pieces_words
from wrapwright.jobs.names.making.parts import Counts, Files
from wrapwright.jobs.names.making.planning import Planned
from wrapwright.jobs.names.opening import NamesList
from wrapwright.jobs.work.reporting import inputs_of, ppi_of, raster_copies
from wrapwright.outside.system.files import file_sha256
from wrapwright.outside.system.installed import version

if TYPE_CHECKING:
    from wrapwright.outside.jobfile.listed.report import NamesReport


_TOLD = 20  # refused rows that the report lists


@dataclass(frozen=True, eq=False)
class Told:
    """What the report tells of: list, plan, cuts, what the checks say, how the rows ended, and who signed the list.

    `rows` are those that were asked for, None for all.
    """

    names: NamesList
    planned: Planned
    cuts: CutList
    findings: Sequence[Finding]
    facts: Facts
    counts: Counts
    files: Files
    signed: tuple[str, ...] = ()
    rows: Collection[int] | None = None


def names_report(told: Told, made: Sequence[Path]) -> NamesReport:
    """Return the report; `made` are the files, all but the report."""
    from wrapwright.outside.jobfile.listed.report import NamesReport
    from wrapwright.outside.jobfile.report import check_rows, element_rows

    composed = told.planned.composed
    opened, wrapped = composed.opened, composed.wrapped
    job = opened.job
    return NamesReport.model_validate(
        {
            "wrapwright": version(),
            "title": job.title,
            "working_space": composed.colouring.working.name,
            "scale": [job.sheet.scale_across, job.sheet.scale_along],
            "inputs": inputs_of(composed),
            "names": _names(told),
            "lay": _lay(told),
            "blank": blank_statement(wrapped),
            "wrap": wrap_statement(wrapped),
            "elements": element_rows(
                job.elements, composed.draw_list, ppi_of(composed, told.facts), raster_copies(composed)
            ),
            "checks": check_rows(told.findings),
            "notes": list(
                dict.fromkeys((*told.signed, *composed.remarks, *told.planned.layout.notes, *told.cuts.notes))
            ),
            "files": [{"path": one.name, "sha256": file_sha256(one), "bytes": one.stat().st_size} for one in made],
        }
    )


def _names(told: Told) -> dict[str, Any]:
    counts, taken, run = told.counts, told.names.table.taken, told.planned.run
    return {
        "table": {
            "path": told.names.asked.file,
            "sha256": taken.sha256,
            "kind": taken.kind,
            "encoding": taken.encoding,
            "separator": taken.separator,
            "sheet": taken.sheet,
        },
        "list_sha256": told.names.sha256,
        "mark": run.mark,
        "asked_rows": None if told.rows is None else ranges(told.rows).replace("–", "-"),
        "rows": counts.made + counts.skipped + counts.refused,
        "made": counts.made,
        "skipped": counts.skipped,
        "refused": counts.refused,
        "refused_rows": [{"row": row, "reason": why} for row, why in islice(counts.reasons.items(), _TOLD)],
        "pieces": counts.pieces,
        "of": run.total,
        "typical_row": run.typical.number,
    }


def _lay(told: Told) -> dict[str, Any]:
    places, files = told.planned.run.places, told.files
    firsts = range(1, files.sheets + 1, files.a_file)
    return {
        "order": places.order,
        "a_sheet": places.a_sheet,
        "sheets": places.sheets,
        "stack": places.stack,
        "alike": list(alike_words(places)),
        "words": _laid_words(told.planned),
        "strokes": len(told.cuts.strokes),
        "settings": told.cuts.settings,
        "files": [
            {"file": name, "first_sheet": first, "pages": min(files.a_file, files.sheets + 1 - first)}
            for name, first in zip(files.names, firsts, strict=True)
        ],
    }


def _laid_words(planned: Planned) -> str:
    """Return how the pieces are laid; what the layout says of its own few sheets is left out."""
    _, _, how = planned.layout.words.partition(". ")
    return f"{pieces_words(planned.run.places)}. {how}".rstrip()
