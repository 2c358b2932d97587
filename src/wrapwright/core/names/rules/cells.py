"""Rules about cells and fields of a row: formulas, errors, empty fields, pictures."""

from __future__ import annotations

from collections.abc import Iterator

from wrapwright.core.base.findings import Severity
from wrapwright.core.names.mapping import Bound
from wrapwright.core.names.rules.doubts import shown
from wrapwright.core.names.values import Cells, Decision, Problem, Row

_PASTE = "In the spreadsheet copy the column, paste it as values, and save again; or mend the cell."


def told_cells(cells: Cells, mapping: Bound) -> Iterator[Problem]:
    """Yield an error for each cell that is used and holds a formula or an error, a warning for one shown otherwise.

    Formulas are never worked out: the cell's text is taken as it stands.
    """
    for at, kind in sorted(cells.kinds.items()):
        if at not in mapping.used or at >= len(cells.cells):
            continue
        column, text = mapping.header[at], cells.cells[at]
        if kind == "formula":
            said = f"{shown(text)} begins like a formula; it is taken as it stands and not worked out."
            yield Problem(cells.number, column, said, "", _PASTE, Severity.ERROR, "formula")
        elif kind == "error":
            said = f"the spreadsheet shows the error {shown(text)} here."
            yield Problem(cells.number, column, said, text[:20], _PASTE, Severity.ERROR, "cell-error")
        else:
            said = f"the spreadsheet shows this number or date in its own way; here it reads {shown(text)}."
            remedy = "Accept it, or make the column text in the spreadsheet."
            yield Problem(cells.number, column, said, "", remedy, Severity.WARNING, "cell-form")


def empty_fields(row: Row) -> Iterator[Problem]:
    """Yield a warning for each field without a value; a text that is then empty has a rule of its own."""
    for name, value in row.fields.items():
        if not value.strip():
            remedy = "Fill the cell, or give the field a stand-in: otherwise = in [names.fields]."
            yield Problem(row.number, name, f"{{{name}}} is empty.", "", remedy, Severity.WARNING, "empty-field")


def decided_before(row: int, lost: Decision) -> Problem:
    """Return the warning of a row that held something else when it was skipped or changed."""
    columns = ", ".join(f"{column} was changed to {shown(text)}" for column, text in sorted(lost.cells.items()))
    what = "it was skipped" if lost.choice == "skip" else columns
    said = f"the row held something else when {what}; that does not count for what stands here now."
    remedy = "Look where that row is now and decide about it there; accept this one as it stands, or skip it."
    return Problem(row, "", said, "", remedy, Severity.WARNING, "decided-before")


def text_empty(row: int, element: str) -> Problem:
    """Return the error of a text of which nothing would print."""
    said = f"nothing of the text {element} would print."
    remedy = "Fill the cell, leave the element out for this row (shown), or skip the row."
    return Problem(row, element, said, "", remedy, Severity.ERROR, "text-empty", acceptable=False)


def picture_outside(row: int, element: str, written: str) -> Problem:
    """Return the error of a picture that lies outside the job's folder."""
    said = f"the picture {shown(written)} lies outside the job's folder."
    remedy = "Put it into the folder and write its name only."
    return Problem(row, element, said, "", remedy, Severity.ERROR, "picture-outside", acceptable=False)


def picture_missing(row: int, element: str, written: str, why: str) -> Problem:
    """Return the error of a picture that is not there or is none; `why` ends the sentence."""
    said = f"the picture {shown(written)} {why}."
    remedy = "Put it into the job's folder under this name, or mend the cell."
    return Problem(row, element, said, "", remedy, Severity.ERROR, "picture-missing", acceptable=False)
