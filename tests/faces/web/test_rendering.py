"""What every page shows."""

from __future__ import annotations

import pytest

from wrapwright.faces.web.rendering import bare, length, steps


def test_the_steps_stand_in_the_order_of_the_work() -> None:
    found = steps("sheet", 7)
    assert [one.name for one in found] == ["Shelf", "Measure", "Compose", "Sheet", "Tray", "Press", "History"]
    assert [one.href for one in found][2:4] == ["/designs/7", "/designs/7/sheet"]
    assert [one.href for one in found][4:] == ["/tray", "/press", "/history"]
    assert [one.name for one in found if one.current] == ["Sheet"]


def test_without_a_design_two_steps_say_why_not() -> None:
    closed = [one for one in steps("shelf", 0) if not one.href]
    assert [one.name for one in closed] == ["Compose", "Sheet"]
    assert all(one.why for one in closed)


@pytest.mark.parametrize(
    ("mm", "unit", "shown"),
    [
        (234.95, "in", "9.250\u00a0in"),
        (235, "mm", "235.0\u00a0mm"),
        (0.04, "mm", "0.0\u00a0mm"),
        (25.4, "in", "1.000\u00a0in"),
    ],
)
def test_a_length_with_its_unit(mm: float, unit: str, shown: str) -> None:
    assert length(mm, unit).endswith(f">{shown}</span>")
    assert f'data-mm="{mm:g}"' in length(mm, unit)


@pytest.mark.parametrize(
    ("mm", "unit", "shown"),
    [(235, "mm", "235"), (0.12, "mm", "0.12"), (100, "mm", "100"), (234.95, "in", "9.25"), (0, "mm", "0")],
)
def test_a_length_for_a_field(mm: float, unit: str, shown: str) -> None:
    assert bare(mm, unit) == shown
