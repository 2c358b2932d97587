"""Rules about cells: told only where the cell is used."""

from __future__ import annotations

from wrapwright.core.names.mapping import bound
from wrapwright.core.names.rules.cells import empty_fields, told_cells
from wrapwright.core.names.values import Cells, NamesRequest, Row

MAPPING = bound(NamesRequest("crew.csv", quantity="Pieces"), ("name", "note", "Pieces", "born"), ["name", "born"])


def test_formulas_errors_and_forms_of_used_cells() -> None:
    cells = Cells(4, 4, ("=A1", "=B1", "#N/A", "2026-05-02"), {0: "formula", 1: "formula", 2: "error", 3: "unshown"})
    found = list(told_cells(cells, MAPPING))
    assert [(one.rule, one.field, one.severity.value, one.row) for one in found] == [
        ("formula", "name", "error", 4),
        ("cell-error", "Pieces", "error", 4),
        ("cell-form", "born", "warning", 4),
    ]
    assert '"=A1" begins like a formula' in found[0].problem


def test_empty_fields() -> None:
    assert [one.field for one in empty_fields(Row(2, 2, {"name": " ", "born": "x"}))] == ["name"]
