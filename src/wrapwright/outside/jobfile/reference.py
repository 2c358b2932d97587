"""The reference pages and schemas, made from the models so that they cannot drift from them.

`python -m wrapwright.outside.jobfile.reference DOCS` writes them into the folder DOCS.
"""

from __future__ import annotations

import inspect
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from wrapwright.core.checks.run import RULES_WITH_PIXELS, RULES_WITHOUT_PIXELS
from wrapwright.outside.jobfile.element_tables import KINDS
from wrapwright.outside.jobfile.listed.report import NamesReport, names_schema
from wrapwright.outside.jobfile.model import JobFile, job_schema
from wrapwright.outside.jobfile.problems import inner_tables, keys_of
from wrapwright.outside.jobfile.report import Report, report_schema
from wrapwright.outside.jobfile.together.report import TogetherReport, together_schema
from wrapwright.outside.jobfile.together.tables import SheetsFile, sheets_schema

MADE = "<!-- Made from the models by wrapwright.outside.jobfile.reference; change the models, not this page. -->"

JOB_HEAD = """# The job file

A job is a TOML file, format 1. Numbers are millimetres; strings carry their unit: `"9 1/4 in"`, `"23.5 cm"`, `"235"`.
One comma is a decimal comma unless exactly three digits follow it; that, and a bare fraction, is refused as ambiguous.
Angles go round the blank: front 0, right 90, back 180, left 270 degrees, growing to the right of someone who faces
the front. Words may be written in capitals or not. Paths start at the job file's folder. An unknown key is refused
with the nearest known one, and all problems are listed at once. The same model as a JSON Schema:
[job-file.schema.json](job-file.schema.json).

A picture is changed in this order: EXIF orientation, crop, adjust, mask, flip, fit, turn, lay. An element across the
seam is cut there and goes on at the other end.

Of the readings a blank needs exactly one set: `girth`, `diameter` or `flat` with `wall` when straight; both ends of
one of them with `wall` or `height` when tapered; `readings` when it is a measured profile. A text needs `size` or a
box (`width`, `height` or both), a fill `colour` or `gradient`, a picture `width`, `height` or both.
"""

REPORT_HEAD = """# The report

`report.json` is written beside the sheets. UTF-8, line feeds, keys in this order; lengths in millimetres and angles in
degrees, rounded to 6 decimals. No absolute path, host, user, clock time or random id stands in it. Later versions may
add keys and rename none. The same model as a JSON Schema: [report.schema.json](report.schema.json).
"""

SHEETS_HEAD = """# The sheets file

A sheets file is a TOML file, format 1; lengths and words are written as in [a job file](job-file.md). How it is used:
[several jobs on the fewest sheets](sheets.md). The same model as a JSON Schema:
[sheets-file.schema.json](sheets-file.schema.json).
"""

SHEETS_REPORT_HEAD = """# The report of sheets

`report.json` is written beside the sheets of several jobs, by the rules of [a job's report](report.md). Places are the
file's millimetres after scale correction. The same model as a JSON Schema:
[sheets-report.schema.json](sheets-report.schema.json).
"""

NAMES_REPORT_HEAD = """# The report of a list of names

`report.json` is written beside the sheets of [a list of names](names.md), by the rules of [a job's report](report.md);
it is small however long the list is, for every row stands in `manifest.csv`. The same model as a JSON Schema:
[names-report.schema.json](names-report.schema.json).
"""

CHECKS_HEAD = """# The checks

Before ink and a blank are spent, every rule looks at the figures of the job. An **error** stops the making (exit 4)
unless it is accepted by name, `accept = ["picture-ppi"]` in the job file or `--accept picture-ppi` on the command
line; `all` accepts every one. `does-not-fit` cannot be accepted. An accepted error stays in the report and stands in
the ticket's first line. Warnings and notes stop nothing. Limits are common practice without a published source,
unless a rule says otherwise: contrast is the WCAG 2 formula, a code's reach round the blank follows the GS1 General
Specifications (from memory). Each finding says the figure, the limit and what to do.
"""

TABLE_HEAD = ["| key | takes | when left out | meaning |", "| --- | --- | --- | --- |"]
ROW_HEAD = ["| key | holds | meaning |", "| --- | --- | --- |"]


def job_page() -> str:
    """Return the page on the job file."""
    schema = job_schema()
    lines = [JOB_HEAD.rstrip(), "", "## The file", "", *_table(JobFile, schema, with_default=True)]
    for key, table in _tables(JobFile):
        if key != "element":
            lines += ["", f"## `[{key}]`", "", _doc(table), "", *_table(table, schema, with_default=True)]
    for kind, table in KINDS.items():
        lines += ["", f'## `[[element]]`, kind = "{kind}"', "", _doc(table), ""]
        lines += _table(table, schema, with_default=True)
        for key, inner in _tables(table):
            lines += ["", f"### `{key}` of a {kind}", "", _doc(inner), ""]
            lines += _table(inner, schema, with_default=True)
    return "\n".join([MADE, "", *lines]) + "\n"


def report_page() -> str:
    """Return the page on the report."""
    return _report_page(REPORT_HEAD, Report, report_schema())


def sheets_page() -> str:
    """Return the page on the sheets file."""
    schema = sheets_schema()
    lines = [SHEETS_HEAD.rstrip(), "", "## The file", "", *_table(SheetsFile, schema, with_default=True)]
    for key, table in _tables(SheetsFile):
        heading = f"## `[[{key}]]`" if key == "piece" else f"## `[{key}]`"
        lines += ["", heading, "", _doc(table), "", *_table(table, schema, with_default=True)]
    return "\n".join([MADE, "", *lines]) + "\n"


def sheets_report_page() -> str:
    """Return the page on the report of sheets."""
    return _report_page(SHEETS_REPORT_HEAD, TogetherReport, together_schema())


def names_report_page() -> str:
    """Return the page on the report of a list of names."""
    return _report_page(NAMES_REPORT_HEAD, NamesReport, names_schema())


def _report_page(head: str, report: type[BaseModel], schema: dict[str, Any]) -> str:
    lines = [head.rstrip(), "", "## The document", "", *_table(report, schema, with_default=False)]
    for key, table in _tables(report):
        lines += ["", f"## `{key}`", "", _doc(table), "", *_table(table, schema, with_default=False)]
    return "\n".join([MADE, "", *lines]) + "\n"


def checks_page() -> str:
    """Return the page on the checks, one line a rule from the rule's own words."""
    lines = [CHECKS_HEAD.rstrip()]
    for title, rules in (("From the figures", RULES_WITHOUT_PIXELS), ("From the print", RULES_WITH_PIXELS)):
        lines += ["", f"## {title}", "", "| rule | what it says |", "| --- | --- |"]
        lines += [f"| `{name}` | {_words(rule.__doc__ or '')} |" for name, rule in rules]
    return "\n".join([MADE, "", *lines]) + "\n"


def _words(docstring: str) -> str:
    """Return a rule's first line without its verb, and what follows it."""
    first, *rest = docstring.strip().removeprefix("Return ").split("\n\n")
    return " ".join(" ".join([first[:1].upper() + first[1:], *rest]).split())


def _doc(table: type[BaseModel]) -> str:
    """Return what a table says of itself, its lines unindented."""
    return inspect.cleandoc(table.__doc__ or "")


def _tables(model: type[BaseModel], before: str = "") -> Iterator[tuple[str, type[BaseModel]]]:
    """Yield the tables inside a model with their keys, outer ones first; elements are listed by kind instead."""
    for key in keys_of(model):
        inner = inner_tables(model, key)
        if len(inner) == 1:
            yield before + key, inner[0]
            yield from _tables(inner[0], f"{before}{key}.")


def _table(model: type[BaseModel], schema: dict[str, Any], *, with_default: bool) -> list[str]:
    name = model.__name__
    part = schema["$defs"].get(name, schema)
    needed = part.get("required", [])
    rows = []
    for key in keys_of(model):
        field = part["properties"][key]
        cells = [f"`{key}`", _takes(field, schema)]
        if with_default:
            cells.append("**needed**" if key in needed else _default(field))
        rows.append("| " + " | ".join([*cells, _meaning(field, schema)]) + " |")
    return [*(TABLE_HEAD if with_default else ROW_HEAD), *rows]


def _meaning(field: dict[str, Any], schema: dict[str, Any]) -> str:
    """Return a key's description; one equal to its table's own stands in the schema only there."""
    if "description" in field or "$ref" not in field:
        return str(field.get("description", ""))
    return str(schema["$defs"][field["$ref"].rsplit("/", 1)[1]].get("description", ""))


def _takes(field: dict[str, Any], schema: dict[str, Any]) -> str:
    if "enum" in field:
        return ", ".join(f"`{word}`" for word in field["enum"])
    if "const" in field:
        return f"`{field['const']}`"
    if "format" in field:
        return str(field["format"])
    if "anyOf" in field:
        return " or ".join(dict.fromkeys(_takes(one, schema) for one in field["anyOf"]))
    if "$ref" in field or "oneOf" in field:
        return "a table"
    return _plain_takes(field, schema)


def _plain_takes(field: dict[str, Any], schema: dict[str, Any]) -> str:
    kind = field.get("type")
    if kind == "array":
        items = field.get("items", {})
        return f"a list of {'tables' if '$ref' in items or 'oneOf' in items else _takes(items, schema)}"
    words = {"string": "text", "boolean": "true or false", "integer": "whole number", "number": "number"}
    words |= {"object": "a table", "null": "null"}
    low = field.get("minimum", field.get("exclusiveMinimum"))
    high = field.get("maximum")
    bounds = f", {low:g} to {high:g}" if low is not None and high is not None else ""
    bounds = bounds or (f", from {low:g}" if low is not None else f", up to {high:g}" if high is not None else "")
    return f"{words.get(str(kind), str(kind))}{bounds}"


def _default(field: dict[str, Any]) -> str:
    default = field.get("default")
    if default is None or default in ([], {}, ""):
        return "-"
    if isinstance(default, dict):
        return "its own"
    return f"`{json.dumps(default)}`"


def pages() -> dict[str, str]:
    """Return every page and schema by file name."""
    return {
        "job-file.md": job_page(),
        "report.md": report_page(),
        "checks.md": checks_page(),
        "sheets-file.md": sheets_page(),
        "sheets-report.md": sheets_report_page(),
        "names-report.md": names_report_page(),
        "job-file.schema.json": json.dumps(job_schema(), indent=2, ensure_ascii=False) + "\n",
        "report.schema.json": json.dumps(report_schema(), indent=2, ensure_ascii=False) + "\n",
        "sheets-file.schema.json": json.dumps(sheets_schema(), indent=2, ensure_ascii=False) + "\n",
        "sheets-report.schema.json": json.dumps(together_schema(), indent=2, ensure_ascii=False) + "\n",
        "names-report.schema.json": json.dumps(names_schema(), indent=2, ensure_ascii=False) + "\n",
    }


def write_pages(folder: Path) -> list[str]:
    """Return the names of the files written into the folder."""
    made = pages()
    for name, text in made.items():
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    return list(made)


if __name__ == "__main__":
    write_pages(Path(sys.argv[1]))
