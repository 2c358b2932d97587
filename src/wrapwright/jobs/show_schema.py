"""The published JSON Schemas of what is read and written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Literal

Document = Literal["job", "report", "sheets", "sheets-report", "names-report"]


def show_schema(document: Document) -> Mapping[str, Any]:
    """Return the JSON Schema of the job file, of the sheets file, or of a report.json: of either, or of a list."""
    from wrapwright.outside.jobfile.listed.report import names_schema
    from wrapwright.outside.jobfile.model import job_schema
    from wrapwright.outside.jobfile.report import report_schema
    from wrapwright.outside.jobfile.together.report import together_schema
    from wrapwright.outside.jobfile.together.tables import sheets_schema

    makers: dict[Document, Callable[[], Mapping[str, Any]]] = {
        "job": job_schema,
        "report": report_schema,
        "sheets": sheets_schema,
        "sheets-report": together_schema,
        "names-report": names_schema,
    }
    return makers[document]()
