"""The report: what went in, what came out, and every figure between."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.findings import Finding
from wrapwright.core.blank.statement import blank_statement, wrap_statement
from wrapwright.core.checks.facts import Facts
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.sheets import SheetFile
from wrapwright.outside.system.installed import version

if TYPE_CHECKING:
    from wrapwright.outside.jobfile.report import Report


def report_of(
    composed: Composition, facts: Facts, findings: Sequence[Finding], sheets: Sequence[SheetFile],
    files: Sequence[tuple[str, bytes]], *, notes: Sequence[str],
) -> Report:  # fmt: skip
    """Return the report of a made job.

    Args:
        composed: the composition.
        facts: the figures of its checks.
        findings: what the checks found.
        sheets: the sheets' files.
        files: every other file made, name and bytes.
        notes: what reading, laying out and arranging changed, in sentences.
    """
    from wrapwright.jobs.press.plan.on_ticket import heat_part
    from wrapwright.outside.jobfile.report import Report, check_rows, element_rows

    job, wrapped = composed.opened.job, composed.wrapped
    made = [*((one.name, one.data) for one in sheets), *files]
    return Report.model_validate(
        {
            "wrapwright": version(),
            "title": job.title,
            "quantity": job.quantity,
            "working_space": composed.colouring.working.name,
            "scale": [job.sheet.scale_across, job.sheet.scale_along],
            "scale_date": job.sheet.scale_day.isoformat() if job.sheet.scale_day else None,
            "setup": job.sheet.setup or None,
            "inputs": inputs_of(composed),
            "blank": blank_statement(wrapped),
            "wrap": wrap_statement(wrapped),
            "elements": element_rows(
                job.elements, composed.draw_list, ppi_of(composed, facts), raster_copies(composed)
            ),
            "press": heat_part(composed.heat, composed.heated),
            "sheets": [row for one in sheets for row in _sheet_rows(one)],
            "checks": check_rows(findings),
            "notes": list(notes),
            "files": [
                {"path": name, "sha256": hashlib.sha256(data).hexdigest(), "bytes": len(data)} for name, data in made
            ],
        }
    )


def raster_copies(composed: Composition) -> frozenset[tuple[int, int]]:
    """Return (element, copy) of all that is drawn into the sheets' raster part."""
    raster, _ = composed.parts
    items = [composed.draw_list.items[index] for index in raster]
    return frozenset((item.element, item.copy) for item in items)


def ppi_of(composed: Composition, facts: Facts) -> list[float | None]:
    """Return the effective ppi of each copy, None when it prints as outlines.

    Pixels have their own; art that is drawn into the raster part has the sheet's.
    """
    raster, sheet = raster_copies(composed), float(composed.opened.job.sheet.ppi)
    keys = [(extent.element, extent.copy) for extent in composed.draw_list.extents]
    own = [copy.ppi for copy in facts.copies]
    return [(sheet if ppi is None else ppi) if key in raster else None for key, ppi in zip(keys, own, strict=True)]


def inputs_of(composed: Composition) -> list[dict[str, str]]:
    """Return the rows of everything that went in."""
    opened = composed.opened
    rows = {opened.name: opened.sha256, **composed.supplied.inputs}
    return [{"path": path, "sha256": digest} for path, digest in rows.items()]


def _sheet_rows(file: SheetFile) -> list[dict[str, Any]]:
    return [
        {
            "file": file.name,
            "page": number,
            "width_mm": page.width_mm,
            "height_mm": page.height_mm,
            "pixels_sha256": digest,
            "pieces": [page.report_row()],
        }
        for number, (page, digest) in enumerate(file.pages, start=1)
    ]
