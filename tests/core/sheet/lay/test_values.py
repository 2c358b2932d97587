"""The values of a laying are plain: frozen, comparable, picklable."""

from __future__ import annotations

import dataclasses
import pickle

import pytest

from wrapwright.core.sheet.lay.values import Cell, Laid, LaidSheet, Layout, LayRequest, Part, Shape, Stock


def test_a_layout_can_be_sent_to_another_process_and_not_changed():
    part = Part(Shape("rectangle", 95.0, 40.0), copies=3)
    request = LayRequest((part,), (Stock("A4", 210.0, 297.0),), gutter_mm=3.0)
    cell = Cell(
        0.0, 0.0, 210.0, 297.0, "x", (Cell(0.0, 0.0, 95.0, 297.0, part=0, copy=0), Cell(95.0, 0.0, 115.0, 297.0))
    )
    layout = Layout(request, (LaidSheet(0, 210.0, 297.0, (Laid(0, 0, 0.0, 0.0, 0),), cell),), bound=1, proven=True)
    assert pickle.loads(pickle.dumps(layout)) == layout
    with pytest.raises(dataclasses.FrozenInstanceError):
        layout.bound = 2  # type: ignore[misc]
