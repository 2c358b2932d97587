"""Whatever the wrap, the paper and the printer: what arrange promises, on cases nobody chose."""

from __future__ import annotations

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from tests.sheet_on_paper.lettering import set_label

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.sheet.arrange import arrange
from wrapwright.core.sheet.papers import PAPERS
from wrapwright.core.sheet.placed import Slip
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.room import distance, overlap, sampled

GIRTHS = some.floats(120.0, 330.0)
WRAPS = some.builds(
    lambda lower, taper, height, overlap, gap: FlatWrap(
        lower, max(60.0, lower + taper), height, 0.0 if gap else overlap, gap
    ),
    GIRTHS,
    some.sampled_from([0.0, 0.0, 12.0, 60.0, 110.0, -40.0]),
    some.floats(40.0, 230.0),
    some.floats(0.0, 8.0),
    some.sampled_from([0.0, 0.0, 25.0]),
)
SHEETS = some.builds(
    lambda name, margins, across, along, roll: SheetRequest(
        paper=name,
        width_mm=610.0 if roll else PAPERS[name][0],
        height_mm=None if roll else PAPERS[name][1],
        margins_mm=tuple(margins),
        scale_across=across,
        scale_along=along,
    ),
    some.sampled_from(sorted(PAPERS)),
    some.lists(some.floats(0.0, 16.0), min_size=4, max_size=4),
    some.floats(0.985, 1.015),
    some.floats(0.985, 1.015),
    some.sampled_from([False, False, False, True]),
)


@settings(derandomize=True, max_examples=14, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(wrap=WRAPS, sheet=SHEETS, bleed=some.sampled_from([0.0, 2.0, 5.0]))
def test_a_page_keeps_its_promises_or_says_why_there_is_none(wrap, sheet, bleed):
    result = arrange(wrap, bleed_mm=bleed, sheet=sheet, slips=[Slip("Any", 1, 2, "Ada")], set_label=set_label)
    if not result.pages:
        assert [one.rule for one in result.findings] == ["does-not-fit"]
        assert result.findings[0].figure > result.findings[0].limit
        return
    page = result.pages[0]
    lying = sheet.height_mm is not None and page.width_mm != sheet.width_mm
    scale = (sheet.scale_along, sheet.scale_across) if lying else (sheet.scale_across, sheet.scale_along)
    # Nothing is scaled but by the printer's own measure, and all is mirrored once.
    move = page.to_page[:2, :2] * np.array(scale)[:, None]
    assert np.allclose(move @ move.T, np.eye(2), atol=1e-12)
    assert np.linalg.det(move) < 0
    top, right, bottom, left = sheet.margins_mm
    if lying:
        left, right, bottom, top = max(top, bottom), max(top, bottom), max(left, right), max(left, right)
    points = np.concatenate(sampled(page.inked_marks()) + sampled(page.bleed))
    assert (points >= np.array([left, bottom]) - 1e-6).all()
    assert (points <= np.array([page.width_mm - right, page.height_mm - top]) + 1e-6).all()
    chains = sampled(page.trim)
    for shape in (page.lines, *(label.path for label in page.labels)):
        for one in sampled(shape):
            assert distance(one[::3], chains) >= 3.0 / 1.015 - 0.06
    boxes = [label.path.box() for label in page.labels if label.turn_deg in (0.0, 90.0)]
    assert not any(overlap(a, b, 0.5) for i, a in enumerate(boxes) for b in boxes[:i])
    everything = {"check bars 100 mm", "corner marks", "label", "lay first", "lay on top"}
    assert bool(result.notes) == (not everything <= set(page.marks) or page.bleed_mm < bleed)
