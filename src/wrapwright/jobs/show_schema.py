"""The published JSON Schemas of what is read and written."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

Document = Literal["job", "report"]


def show_schema(document: Document) -> Mapping[str, Any]:
    """Return the JSON Schema of the job file or of report.json."""
    if document == "job":
        from wrapwright.outside.jobfile.model import job_schema

        return job_schema()
    from wrapwright.outside.jobfile.report import report_schema

    schema: Mapping[str, Any] = report_schema()
    return schema
