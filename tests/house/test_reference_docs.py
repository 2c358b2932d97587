"""The reference pages are those the models make; WRAPWRIGHT_WRITE_DOCS=1 writes them anew."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from wrapwright.core.checks.names import RULE_NAMES
from wrapwright.outside.jobfile.element_tables import KINDS
from wrapwright.outside.jobfile.model import JobFile
from wrapwright.outside.jobfile.problems import inner_tables, keys_of
from wrapwright.outside.jobfile.reference import pages, write_pages

DOCS = Path(__file__).parents[2] / "docs"


@pytest.fixture(scope="module")
def made() -> dict[str, str]:
    if os.environ.get("WRAPWRIGHT_WRITE_DOCS") == "1":
        write_pages(DOCS)
    return pages()


PAGES = ["job-file.md", "report.md", "checks.md", "job-file.schema.json", "report.schema.json"]
PAGES += ["sheets-file.md", "sheets-report.md", "sheets-file.schema.json", "sheets-report.schema.json"]
PAGES += ["names-report.md", "names-report.schema.json"]


@pytest.mark.parametrize("name", PAGES)
def test_the_page_in_docs_is_the_one_the_models_make(made: dict[str, str], name: str) -> None:
    assert (DOCS / name).read_text(encoding="utf-8") == made[name], "run this test with WRAPWRIGHT_WRITE_DOCS=1"


def test_every_key_of_the_job_file_has_a_meaning(made: dict[str, str]) -> None:
    page = made["job-file.md"]
    tables = [JobFile, *KINDS.values()]
    tables += [inner for table in tables for key in keys_of(table) for inner in inner_tables(table, key)]
    for table in tables:
        for key in keys_of(table):
            rows = [line for line in page.splitlines() if line.startswith(f"| `{key}` |")]
            assert rows, f"{table.__name__}.{key}"
            assert all(row.rsplit("|", 2)[1].strip() for row in rows), f"{table.__name__}.{key} has no meaning"


def test_every_rule_has_a_line(made: dict[str, str]) -> None:
    for rule in RULE_NAMES:
        assert f"| `{rule}` | " in made["checks.md"]
