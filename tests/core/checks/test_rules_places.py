"""The rules about places on a flat blank: worked out on its outline, by hand, on draw lists that were laid out."""

from __future__ import annotations

from typing import Any

import pytest

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.blank.plated import flat_of
from wrapwright.core.blank.readings import Blank, Keepout, PlateReadings, WrapRequest
from wrapwright.core.checks.gather import Asked, facts_of
from wrapwright.core.checks.run import RULES_WITHOUT_PIXELS, run_rules
from wrapwright.core.design.elements import Code, Element, Fill, Picture, Text
from wrapwright.core.design.layout import lay_out
from wrapwright.core.design.path import rectangle
from wrapwright.core.design.supplies import Art, CodeModules, SetText

E, W, N = Severity.ERROR, Severity.WARNING, Severity.NOTE
SQUARE = PlateReadings(100.0, 60.0)
DISC = PlateReadings(circle_mm=100.0)
PHOTO = Art("x", "pixels", 4000.0, 3000.0)


def words(width: float, height: float) -> SetText:
    ink = rectangle(-width / 2, -height / 2, width / 2, height / 2)
    return SetText(ink, width, height, cap_height_mm=height, stem_mm=1.0)


def found(element: Element, supply: Any, plate: PlateReadings, **blank: Any) -> dict[str, tuple[Severity, Finding]]:
    request = WrapRequest(bleed_mm=2.0, safe_mm=4.0)
    own = Blank("flat", (), plate=plate, **blank)
    wrap = flat_of(own, request)
    draw = lay_out([element], wrap=wrap, bleed_mm=2.0, supplies={0: supply}).draw_list  # type: ignore[list-item]
    facts = facts_of(draw, Asked(own, request, [element], {0: supply}, calibrated=True))  # type: ignore[list-item]
    return {one.rule: (one.severity, one) for one in run_rules(facts, RULES_WITHOUT_PIXELS)}


def text(**more: Any) -> Text:
    return Text(name="it", text="a", size_mm=5.0, **more)


@pytest.mark.parametrize(
    ("plate", "size", "across", "up", "rule", "severity", "figure"),
    [
        # 20 wide at 35 right of the middle of 100: 5 mm are left to the edge, at 37 it is 3, at 42 it is 2 over.
        (SQUARE, (20.0, 10.0), 35.0, 30.0, None, None, None),
        (SQUARE, (20.0, 10.0), 37.0, 30.0, "outside-safe", W, 3.0),
        (SQUARE, (20.0, 10.0), 42.0, 30.0, "off-wrap", E, 2.0),
        (SQUARE, (20.0, 10.0), -42.0, 30.0, "off-wrap", E, 2.0),
        (SQUARE, (20.0, 10.0), 0.0, 3.0, "off-wrap", E, 2.0),
        # A box 60 by 60 in the middle of a disc of 100 has its corners 30 sqrt 2 = 42.43 from the middle.
        (DISC, (60.0, 60.0), 0.0, 50.0, None, None, None),
        (DISC, (66.0, 66.0), 0.0, 50.0, "outside-safe", W, 50.0 - 33.0 * 2**0.5),
        (DISC, (80.0, 80.0), 0.0, 50.0, "off-wrap", E, 40.0 * 2**0.5 - 50.0),
        # Wholly beside it.
        (SQUARE, (20.0, 10.0), 90.0, 30.0, "off-wrap", E, 50.0),
    ],
)
def test_text_keeps_off_the_outline(
    plate: PlateReadings,
    size: tuple[float, float],
    across: float,
    up: float,
    rule: str | None,
    severity: Severity | None,
    figure: float | None,
) -> None:
    seen = found(text(across_mm=across, up_mm=up), words(*size), plate)
    # A third of the girth, the seam and the handle mean nothing here, however wide the text is.
    assert set(seen) == ({rule} if rule else set())
    if rule and figure is not None:
        assert (seen[rule][0], seen[rule][1].figure) == (severity, pytest.approx(figure, abs=1e-6))
        assert "trim" in seen[rule][1].message
        assert not any(word in seen[rule][1].message for word in ("rim's", "base", "band", "seam"))


def picture(**more: Any) -> Picture:
    return Picture(name="it", file="x.png", fit="cover", **more)


@pytest.mark.parametrize(
    ("size", "plate", "rule", "severity", "figure"),
    [
        ((104.0, 64.0), SQUARE, None, None, None),  # trim and bleed all round
        ((102.0, 64.0), SQUARE, "art-short", W, 1.0),  # 1 mm of bleed left and right
        ((104.0, 60.0), SQUARE, "art-short", W, 0.0),  # none above and below
        ((110.0, 40.0), SQUARE, None, None, None),  # a stripe from edge to edge, bare above and below
        ((50.0, 40.0), SQUARE, None, None, None),  # a picture in the middle
        ((100.0, 100.0), DISC, "art-short", W, 0.0),
        ((104.0, 104.0), DISC, None, None, None),
    ],
)
def test_a_picture_that_reaches_the_edge_covers_its_bleed(
    size: tuple[float, float], plate: PlateReadings, rule: str | None, severity: Severity | None, figure: float | None
) -> None:
    seen = found(picture(width_mm=size[0], height_mm=size[1]), PHOTO, plate)
    assert set(seen) - {"picture-profile"} == ({rule} if rule else set())
    if rule:
        assert (seen[rule][0], seen[rule][1].figure) == (severity, pytest.approx(figure, abs=1e-6))


def test_a_picture_hung_over_one_edge_is_off_it() -> None:
    seen = found(picture(width_mm=40.0, height_mm=30.0, across_mm=35.0), PHOTO, SQUARE)
    assert (seen["off-wrap"][0], seen["off-wrap"][1].figure) == (E, pytest.approx(5.0))


def test_width_wrap_covers_width_and_bleed() -> None:
    assert "art-short" not in found(picture(wrap_width=True, height_mm=64.0), PHOTO, SQUARE)
    short = found(picture(wrap_width=True, height_mm=56.0), PHOTO, SQUARE)["art-short"]
    assert (short[0], short[1].figure) == (E, pytest.approx(2.0))


def test_keepouts_and_bare_parts_are_where_they_were_measured() -> None:
    keepout = Keepout(0.0, 45.0, 10.0, 10.0, "the hole", across_mm=-20.0)
    hit = found(text(across_mm=-20.0, up_mm=45.0), words(20.0, 8.0), SQUARE, keepouts=(keepout,))
    assert hit["over-keepout"][1].figure == pytest.approx(80.0, rel=0.05)
    assert "band" not in hit["over-keepout"][1].message
    assert found(text(across_mm=20.0, up_mm=45.0), words(20.0, 8.0), SQUARE, keepouts=(keepout,)) == {}
    bare = found(text(up_mm=12.0), words(20.0, 8.0), SQUARE, coated=(10.0, 60.0))
    assert bare["uncoated"][1].figure == pytest.approx(2.0)
    assert "wall" not in bare["uncoated"][1].message


def test_a_wide_code_and_a_fill_are_nothing_to_remark_on() -> None:
    import numpy as np

    dark = np.eye(21, dtype=bool)
    code = Code(name="it", text="a", width_mm=50.0)
    assert found(code, CodeModules(dark), SQUARE) == {}
    assert found(Fill(name="it", colour="#123456"), None, DISC) == {}
