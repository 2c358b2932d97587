"""What a screen draws, against places worked out by hand."""

from __future__ import annotations

import math
import os
import re
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live import composed
from wrapwright.jobs.live.drawing import DrawDesign, draw_design
from wrapwright.jobs.live.values import CopyView, Drawn

Design = Callable[..., dict[str, Any]]

PAPER_MM = 0.12  # the sheet's default
TURN_MM = 240.0 + math.pi * PAPER_MM  # one whole turn of a girth of 240 mm, in the paper's middle layer
TAPERED = {"kind": "tapered", "girth_bottom": "200 mm", "girth_top": "260 mm", "wall": "110 mm"}
BAND = {"band": {"from": "10 mm", "height": "90 mm"}, "overlap": "8 mm"}
PHOTO = {"kind": "picture", "file": "photo.png", "width": "40 mm", "lay": "true"}


def drawn(document: dict[str, Any], folder: Path, bench: Bench, frame: str = "flat") -> Drawn:
    return draw_design(DrawDesign(document, folder, "straight" if frame == "straight" else "flat"), bench, Watch())


def corners(copy: CopyView) -> list[tuple[float, float]]:
    """Return the corners of a copy's border on the canvas: its path through its matrix, as SVG has it."""
    pen = RecordingPen()
    parse_path(copy.border, pen)
    a, b, c, d, e, f = copy.matrix
    return [(a * x + c * y + e, b * x + d * y + f) for _, some in pen.value for x, y in some[-1:]]


def box(copy: CopyView) -> tuple[float, float, float, float]:
    x, y = zip(*corners(copy), strict=True)
    return min(x), max(x), min(y), max(y)


def test_on_a_straight_wall_a_typed_place_is_where_the_box_lies(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    # Right is 180 degrees from the seam at the left: in the middle. 112 degrees lies 22 further round.
    document = design({**PHOTO, "at": ["right", "112 deg"], "up": "33.33 mm"}, wrap=BAND)
    for frame in ("flat", "straight"):
        first, second = drawn(document, job_folder, live_bench, frame).copies
        assert box(first) == pytest.approx((-20.0, 20.0, -33.33 - 15.0, -33.33 + 15.0), abs=0.01)
        middle = 22.0 / 360.0 * TURN_MM
        assert box(second)[:2] == pytest.approx((middle - 20.0, middle + 20.0), abs=0.01)
        assert first.rigid
        assert first.border == second.border
        assert first.spoken == "Picture 1, right, 33 millimetres up"


def test_on_a_taper_a_typed_place_is_where_the_developed_cone_has_it(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    """Development of a cone frustum (any handbook): the sector's radius at a height is the turn there over theta."""
    slope = 60.0 / 110.0
    lower = 200.0 + 10.0 * slope + math.pi * PAPER_MM
    apex = lower / slope
    document = design({**PHOTO, "at": "45 deg", "up": "30 mm"}, blank=TAPERED, wrap=BAND)
    (flat,) = drawn(document, job_folder, live_bench).copies
    phi = slope * ((45.0 + 90.0) / 360.0 - 0.5)
    radius = apex + 30.0
    middle = (radius * math.sin(phi), -(radius * math.cos(phi) - apex))
    assert flat.rigid
    assert flat.matrix[4:] == pytest.approx(middle, abs=0.01)
    # Its upright points away from the apex.
    assert math.atan2(-flat.matrix[2], flat.matrix[3]) == pytest.approx(phi, abs=1e-6)
    (straight,) = drawn(document, job_folder, live_bench, "straight").copies
    assert not straight.rigid
    girth = lower + 45.0 * slope
    left, right, top, bottom = box(straight)
    assert (left + right) / 2.0 == pytest.approx(girth * (135.0 / 360.0 - 0.5), abs=0.1)
    # Half the picture's width lies on the upright through its foot: there its edge is an arc of atan(20 / r) wide.
    foot = radius - 15.0
    reach = girth / slope / (2.0 * math.pi) * slope * 2.0 * math.pi * math.atan2(20.0, foot) / slope
    assert right - left == pytest.approx(2.0 * reach, abs=0.05)
    # Its lower corners lie as high on the wall as they are far from the apex; the middle of its foot lies lowest.
    assert bottom == pytest.approx(-(math.hypot(20.0, foot) - apex), abs=0.01)
    assert top == pytest.approx(-(math.hypot(20.0, radius + 15.0) - apex), abs=0.01)


def test_a_level_copy_is_bent_on_the_flat_and_rigid_when_straightened(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    document = design({**PHOTO, "lay": "level", "at": "45 deg", "up": "20 mm"}, blank=TAPERED, wrap=BAND)
    (flat,) = drawn(document, job_folder, live_bench).copies
    (straight,) = drawn(document, job_folder, live_bench, "straight").copies
    assert (flat.rigid, straight.rigid) == (False, True)
    left, right, top, bottom = box(straight)
    slope = 60.0 / 110.0
    lower = 200.0 + 10.0 * slope + math.pi * PAPER_MM
    wide = 40.0 * (lower + 45.0 * slope) / (lower + 20.0 * slope)
    assert right - left == pytest.approx(wide, abs=0.01)
    assert (top, bottom) == pytest.approx((-35.0, -5.0), abs=0.01)


@pytest.mark.parametrize(
    ("at", "laps"), [("right", [0]), ("275 deg", [0, 1]), ("262 deg", [-1, 0]), ("305 deg", [0, 1]), ("315 deg", [0])]
)
def test_a_copy_across_an_end_shows_a_whole_turn_on(
    at: str, laps: list[int], live_bench: Bench, job_folder: Path, design: Design
) -> None:
    # The seam stands at 270; a picture 40 mm wide reaches 30 degrees to each side, the overlap goes on for 12.
    document = design({**PHOTO, "at": at}, wrap=BAND)
    (copy,) = drawn(document, job_folder, live_bench).copies
    assert sorted(copy.laps) == laps


def test_what_is_drawn_round_a_text_counts_for_where_it_shows(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    text = {"kind": "text", "text": "Ada", "size": "9 mm", "at": "268 deg"}
    (plain,) = drawn(design({**text, "at": "right"}), job_folder, live_bench).copies
    half_mm = plain.width_mm / 2.0
    # Its right side stops 2 mm before the seam's angle at the right end; a line 8 mm wide reaches 4 mm further.
    text["at"] = f"{270.0 - (half_mm + 2.0) / TURN_MM * 360.0:.4f} deg"
    (plain,) = drawn(design(text), job_folder, live_bench).copies
    (lined,) = drawn(design({**text, "outline": {"width": "8 mm", "colour": "#fff"}}), job_folder, live_bench).copies
    assert plain.laps == (0,)
    assert sorted(lined.laps) == [-1, 0]


def test_a_shapes_fill_rule_is_carried(live_bench: Bench, job_folder: Path, design: Design) -> None:
    ring = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10">'
        '<path fill-rule="evenodd" d="M0 0H10V10H0ZM3 3H7V7H3Z" fill="#00f"/><path d="M4 4H6V6H4Z" fill="#f00"/></svg>'
    )
    (job_folder / "ring.svg").write_text(ring, encoding="utf-8")
    (copy,) = drawn(design({"kind": "picture", "file": "ring.svg", "width": "30 mm"}), job_folder, live_bench).copies
    assert {shape.fill: shape.even_odd for shape in copy.shapes}["#0000ff"]


def test_what_has_not_changed_is_not_worked_out_again(live_bench: Bench, job_folder: Path, design: Design) -> None:
    text = {"kind": "text", "text": "Ada", "size": "9 mm", "at": "back"}
    first = drawn(design(PHOTO, text, wrap=BAND), job_folder, live_bench)
    second = drawn(design({**PHOTO, "up": "60 mm"}, text, wrap=BAND), job_folder, live_bench)
    assert second.copies[1] is first.copies[1]
    assert second.copies[0].matrix != first.copies[0].matrix
    assert second.copies[0].sprite == first.copies[0].sprite
    cropped = drawn(design({**PHOTO, "crop": [0, 0, 1, 0.9]}, text, wrap=BAND), job_folder, live_bench)
    assert cropped.copies[0].sprite is not None
    assert first.copies[0].sprite is not None
    assert cropped.copies[0].sprite.url != first.copies[0].sprite.url


def test_an_element_that_moves_in_the_list_keeps_its_looks_and_gets_its_number(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    named = {**PHOTO, "name": "photo"}
    text = {"kind": "text", "text": "Ada", "size": "9 mm", "name": "ada"}
    first = drawn(design(named, text), job_folder, live_bench)
    second = drawn(design(text, named), job_folder, live_bench)
    assert [(copy.key, copy.name) for copy in first.copies] == [("0.0", "photo"), ("1.0", "ada")]
    assert [(copy.key, copy.element, copy.name) for copy in second.copies] == [("0.0", 0, "ada"), ("1.0", 1, "photo")]
    assert second.copies[0].shapes == first.copies[1].shapes


def test_text_goes_as_outlines_and_a_code_of_many_modules_as_pixels(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    line = {"width": "0.6 mm", "colour": "#0e3a5a"}
    document = design(
        {"kind": "text", "text": "Ada", "size": "9 mm", "colour": "#ffffff", "outline": line},
        {"kind": "text", "text": "Ada", "size": "9 mm", "colour": "#000000", "opacity": 0.5},
        {"kind": "code", "text": "x" * 900, "width": "60 mm", "level": "L"},
        {"kind": "fill", "colour": "#0e3a5a"},
    )
    text, clear, code, fill = drawn(document, job_folder, live_bench).copies
    assert [(one.fill, one.stroke, one.stroke_mm) for one in text.shapes] == [("", "#0e3a5a", 0.6), ("#ffffff", "", 0)]
    assert text.sprite is None
    (half,) = clear.shapes
    # Half of black in linear light over white is code 188 (IEC 61966-2-1): black of 67/255 over white on a screen.
    assert (half.fill, half.opacity) == ("#000000", pytest.approx(67 / 255, abs=1e-3))
    assert code.sprite is not None
    assert code.shapes == ()
    assert fill.fixed
    assert fill.shapes[0].fill == "#0e3a5a"


def test_a_broken_element_leaves_the_others_to_be_seen(live_bench: Bench, job_folder: Path, design: Design) -> None:
    document = design(PHOTO, {**PHOTO, "file": "gone.png"}, {"kind": "text", "text": "", "size": "9 mm"})
    found = drawn(document, job_folder, live_bench)
    assert [copy.key for copy in found.copies] == ["0.0"]
    assert {problem.element for problem in found.problems} == {1, 2}
    assert all(problem.message[0] == problem.message[0].upper() for problem in found.problems)
    assert found.frame is not None


def test_without_a_blank_only_the_problems_are_told(live_bench: Bench, job_folder: Path, design: Design) -> None:
    found = drawn(design(PHOTO, blank={"kind": "straight", "girth": "240 mm"}), job_folder, live_bench)
    assert (found.frame, found.solid, found.proof, found.copies, found.lines) == (None, None, None, (), ())
    assert found.problems


def test_the_proofs_address_and_box(live_bench: Bench, job_folder: Path, design: Design) -> None:
    request = DrawDesign(design(PHOTO, wrap=BAND), job_folder, "straight", 7, 12)
    found = draw_design(request, live_bench, Watch())
    assert found.proof is not None
    assert found.frame is not None
    address, _, state = found.proof.url.partition("&state=")
    assert address == "/api/designs/7/revisions/12/proof.jpg?width=1024&frame=straight"
    assert re.fullmatch("[0-9a-f]{16}", state)
    assert found.proof.width_px == 1024
    pitch = found.proof.box[2] / 1024
    assert pitch == pytest.approx(found.proof.box[3] / found.proof.height_px)
    assert found.proof.box[:2] == pytest.approx(found.frame.box[:2])


def test_several_threads_draw_at_once(live_bench: Bench, job_folder: Path, design: Design) -> None:
    text = {"kind": "text", "text": "Ada", "size": "9 mm"}
    documents = [design({**PHOTO, "at": f"{at} deg"}, text, blank=TAPERED) for at in (0, 40, 80, 120)] * 3
    frames = ["flat", "straight"] * 6

    def ask(asked: tuple[dict[str, Any], str]) -> Drawn:
        return drawn(*asked[:1], job_folder, live_bench, asked[1])

    with ThreadPoolExecutor(6) as pool:
        found = list(pool.map(ask, zip(documents, frames, strict=True)))
    again = [ask(asked) for asked in zip(documents, frames, strict=True)]
    assert found == again
    assert [one.copies[0].at_deg for one in found] == [0.0, 40.0, 80.0, 120.0] * 3


def test_the_proofs_address_changes_with_what_it_shows(
    live_bench: Bench, job_folder: Path, design: Design, monkeypatch: pytest.MonkeyPatch
) -> None:
    def url(document: Mapping[str, Any]) -> str:
        proof = drawn(document, job_folder, live_bench).proof
        assert proof is not None
        return proof.url

    asked = design(PHOTO, wrap=BAND)
    one = url(asked)
    assert url(design(PHOTO, wrap=BAND)) == one
    others = {one, url(design({**PHOTO, "turn": 5}, wrap=BAND))}
    photo = job_folder / PHOTO["file"]
    os.utime(photo, ns=(1, photo.stat().st_mtime_ns + 1))  # another file of that name
    others.add(url(asked))
    monkeypatch.setattr(composed, "version", lambda: "another")  # it may draw otherwise
    assert len(others | {url(asked)}) == 4


TAG = {"kind": "flat", "outline": [[0, 0], [40, 0], [40, 60], [10, 60], [0, 40]], "height": "60 mm"}


def test_a_flat_blank_has_a_middle_instead_of_sides(live_bench: Bench, job_folder: Path, design: Design) -> None:
    photo = {"kind": "picture", "file": "photo.png", "width": "16 mm", "across": "-7 mm", "up": "20 mm"}
    document = design({"kind": "fill", "colour": "#0e3a5a"}, photo, blank=TAG, wrap={"bleed": "3 mm"})
    found = drawn(document, job_folder, live_bench)
    assert found.problems == ()
    assert found.frame is not None
    assert (found.frame.plate, found.frame.lower_mm, found.frame.height_mm) == ("outline", 40.0, 60.0)
    assert found.frame.box == pytest.approx((-23.0, -63.0, 46.0, 66.0), abs=0.01)
    assert [one.kind for one in found.lines] == ["bleed", "trim", "safe", "middle", "side"]
    assert [one.name for one in found.lines if one.kind == "side"] == ["Middle"]
    fill, copy = found.copies
    assert (fill.fixed, fill.spoken) == (True, "Fill 1, all over")
    assert box(copy) == pytest.approx((-7 - 8, -7 + 8, -20 - 6, -20 + 6), abs=0.01)
    # Screens count a place as a share of the width, too: 7 mm of 40 to the left is 63 degrees of 360.
    assert (copy.across_mm, copy.at_deg, copy.laps) == (-7.0, pytest.approx(297.0), (0,))
    assert copy.spoken == "Picture 1, 7 millimetres left of the middle, 20 millimetres up"


def test_what_reaches_over_a_flat_blanks_edge_does_not_come_back_at_the_other(
    live_bench: Bench, job_folder: Path, design: Design
) -> None:
    photo = {"kind": "picture", "file": "photo.png", "width": "16 mm", "across": "19 mm"}
    (copy,) = drawn(design(photo, blank=TAG), job_folder, live_bench).copies
    assert (copy.laps, box(copy)[:2]) == ((0,), pytest.approx((11.0, 27.0), abs=0.01))
    (gone,) = drawn(design({**photo, "across": "60 mm"}, blank=TAG), job_folder, live_bench).copies
    assert gone.laps == ()


def test_an_outline_that_is_not_there_or_of_no_use_is_told(live_bench: Bench, job_folder: Path, design: Design) -> None:
    for file, said in (("lost.svg", '"lost.svg" is not there'), ("photo.png", "holds no plain filled shape")):
        found = drawn(design(blank={"kind": "flat", "outline": file, "width": "40 mm"}), job_folder, live_bench)
        assert found.frame is None
        (problem,) = found.problems
        assert said in problem.message
        assert problem.where == "Blank, outline"
    seen = drawn(design(blank={"kind": "flat", "outline": "star.svg", "width": "40 mm"}), job_folder, live_bench)
    assert seen.frame is not None
    assert seen.frame.height_mm == pytest.approx(40.0 * 65.0 / 80.0, abs=0.01)
