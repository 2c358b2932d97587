"""Lengths as the screen says them; the inch is 25.4 mm exactly (16 CFR 500.19)."""

from __future__ import annotations

from wrapwright.outside.documents.screen.lengths import both, said


def test_millimetres_and_inches() -> None:
    assert said(235.0, "mm") == "235 mm"
    assert said(233.3625, "in") == "9.188 in"  # 9 3/16 in
    assert said(234.95, "in") == "9.25 in"
    assert said(0.12, "mm", digits=2) == "0.12 mm"
    assert said(-0.001, "in") == "0 in"
    assert both(88.9, "in") == "3.5 in (88.9 mm)"
    assert both(88.9, "mm") == "88.9 mm (3.5 in)"
