"""The rule of a figure with its doubt: its figures carry a true minus, and those of differences both scales."""

from __future__ import annotations

import re

from wrapwright.outside.documents.screen.evidence.doubt_rule import doubt_rule


def told(svg: str) -> list[str]:
    return re.findall(r"<text[^>]*>([^<]*)</text>", svg)


def test_a_rule_of_differences_tells_both_scales() -> None:
    svg = doubt_rule((-30.0, 30.0), (-5.0, 0.0, 5.0), sure=True, spoken="Offset", other=1.8)
    # NIST SP 811, appendix B.8: an interval of 1 degree C is one of 1.8 degrees F.
    assert told(svg)[0:4] == ["−30", "−54", "−20", "−36"]
    assert told(svg)[-2:] == ["+30", "+54"]


def test_a_rule_of_one_unit_has_one_row() -> None:
    svg = doubt_rule((0.0, 60.0), (20.0, 30.0, 48.0), sure=False, spoken="Film")
    assert told(svg) == ["0", "10", "20", "30", "40", "50", "60"]
