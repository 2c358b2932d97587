"""`fit` on the command line: readings in, words or one document out."""

from __future__ import annotations

import json
import math
import re
import shlex
import tomllib
from pathlib import Path
from typing import Any

import pytest

from wrapwright.core.base.units import length_mm
from wrapwright.core.blank.measuring.budget import LEAST_OVERLAP_MM
from wrapwright.core.blank.measuring.plausible import GIRTH
from wrapwright.core.blank.remarks import STEEPEST_DEG
from wrapwright.core.blank.wrapped import TOLERANCE_MM
from wrapwright.faces.cli.entry import run
from wrapwright.faces.cli.fit import EXAMPLE


def document(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    assert run(["fit", *words, "--json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def refused(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    code = run(["fit", *words])
    told = capsys.readouterr()
    assert told.out == ""
    return code, told.err


def test_a_published_net_as_a_document(capsys: pytest.CaptureFixture[str]) -> None:
    # ceemrr.com/Geometry2/DrawingsNets/DrawingsNets6.html, all digits by the closed form.
    found = document(
        capsys, "--diameter-top", "8 in", "--diameter-bottom", "5 in", "--height", "4 in", "--overlap", "0",
        "--paper-thickness", "0",
    )  # fmt: skip
    sector = found["wrap"]["sector"]
    assert sector["angle_deg"] == pytest.approx(126.40444, abs=5e-6)
    assert sector["inner_radius_mm"] == pytest.approx(7.120003 * 25.4, abs=2e-5)
    assert sector["outer_radius_mm"] == pytest.approx(11.392005 * 25.4, abs=2e-5)
    assert found["wrap"]["height_mm"] == pytest.approx(4.272002 * 25.4, abs=2e-5)
    assert found["wrap"]["width_mm"] == round(math.pi * 8 * 25.4, 6)
    assert found["wrap"]["overlap_mm"] == 0.0
    assert found["wrap"]["misfit_mm"] == 0.0
    assert list(found)[:5] == ["format", "wrap", "bounding_box_mm", "outer_chord_mm", "outer_sagitta_mm"]


def test_a_net_past_half_a_circle(capsys: pytest.CaptureFixture[str]) -> None:
    # mathcentral.uregina.ca/QQ/database/QQ.09.11/h/fleur1.html: sector 218.1756 deg, outer radius 33.00095 cm.
    found = document(capsys, "--diameter-top", "40 cm", "--diameter-bottom", "8 cm", "--height", "21 cm")
    radius, half = 330.0095, math.radians(218.1756 / 2)
    assert found["wrap"]["sector"]["angle_deg"] == pytest.approx(218.1756, abs=5e-5)
    assert found["bounding_box_mm"] == pytest.approx([2 * radius, radius * (1 - math.cos(half))], abs=1e-3)


def test_a_tapered_blank_in_full(capsys: pytest.CaptureFixture[str]) -> None:
    # Closed form: diameters 72 and 90, upright height 160.
    found = document(capsys, "--diameter-top", "90", "--diameter-bottom", "72 mm", "--height", "160")
    assert found["bounding_box_mm"] == pytest.approx([281.2787, 170.2043], abs=1e-3)
    assert found["outer_chord_mm"] == pytest.approx(281.2787, abs=1e-3)
    assert found["outer_sagitta_mm"] == pytest.approx(12.4392, abs=1e-3)


def test_a_straight_blank_with_paper_and_overlap(capsys: pytest.CaptureFixture[str]) -> None:
    found = document(
        capsys, "--girth", "9 1/4 in", "--wall", "6 1/2 in", "--overlap", "6 mm", "--paper-thickness", "0.12 mm"
    )
    assert found["wrap"]["width_mm"] == round(234.95 + math.pi * 0.12 + 6, 6)
    assert found["wrap"]["height_mm"] == 165.1
    assert found["wrap"]["sector"] is None
    assert found["outer_sagitta_mm"] == 0.0
    assert found["bounding_box_mm"] == [found["wrap"]["width_mm"], 165.1]


def test_an_overlap_worked_out(capsys: pytest.CaptureFixture[str]) -> None:
    found = document(capsys, "--diameter", "75", "--height", "160", "--overlap", "AUTO")
    budget = found["wrap"]["overlap_budget"]
    doubt = min(
        3.09 * math.sqrt(sum(term["standard_mm"] ** 2 for term in budget)),
        sum(term["half_width_mm"] for term in budget),
    )
    wanted = 2 + 0.7 + doubt
    assert found["wrap"]["overlap_mm"] == math.ceil(wanted * 2) / 2


def test_a_profile(capsys: pytest.CaptureFixture[str]) -> None:
    found = document(capsys, "--reading", "0=226", "--reading", "40 mm=231 mm", "--reading", "90=229")
    # By hand: half of how far the middle reading passes the chord of its neighbours.
    assert found["wrap"]["misfit_mm"] == pytest.approx((231 - 226 - 3 * 40 / 90) / 2, abs=1e-6)
    assert [check["rule"] for check in found["checks"]] == ["profile-misfit"]


def test_the_answer_in_words(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["fit", "--girth-top", "11 1/16 in", "--girth-bottom", "8 7/8 in", "--wall", "6 1/4 in"]) == 0
    told = capsys.readouterr()
    assert told.out.startswith("A sector of a ring; its longer arc goes to the top of the band.\n")
    assert "280.99 mm (11 1/16 in)" in told.out
    assert "20.054 deg" in told.out
    assert "too-few-readings" in told.err
    assert run(["fit", "--girth", "235", "--wall", "160", "-q"]) == 0
    told = capsys.readouterr()
    assert told.out.startswith("A rectangle.\n")
    assert "235 mm (9 1/4 in)" in told.out
    assert told.err == ""


def test_the_same_words_give_the_same_bytes(capsys: pytest.CaptureFixture[str]) -> None:
    words = ["fit", "--girth-top", "280", "--girth-bottom", "226", "--wall", "160", "--overlap", "auto", "--json"]
    told = []
    for _ in range(2):
        assert run(words) == 0
        told.append(capsys.readouterr().out)
    assert told[0] == told[1]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "No readings were given."),
        (["--girth", "235"], "The height is missing."),
        (["--girth", "235", "--wall", "160", "--height", "160"], "--wall and --height both say"),
        (["--girth", "235", "--diameter", "75", "--wall", "160"], "--girth and --diameter say the same twice."),
        (["--girth", "235", "--girth-top", "240", "--wall", "160"], "--girth and --girth-top do not go together."),
        (["--girth-top", "235", "--wall", "160"], "Add --girth-bottom or --diameter-bottom."),
        (["--diameter-bottom", "75", "--wall", "160"], "Add --girth-top or --diameter-top."),
        (["--reading", "0=226", "--girth", "235"], "--reading and --girth do not go together."),
        (["--reading", "0=226", "--height", "90"], "--reading and --height do not go together."),
        (["--reading", "226"], 'has no "="'),
    ],
)
def test_wrong_use_is_told_in_a_sentence(capsys: pytest.CaptureFixture[str], words: list[str], sentence: str) -> None:
    code, told = refused(capsys, *words)
    assert code == 2
    assert sentence in told


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--girth", "9.25", "--wall", "160"], "--girth: the girth reads 9.25 mm, less than the 30 mm"),
        (["--girth", "235", "--wall", "6.5"], "--wall: the wall reads 6.5 mm"),
        (["--diameter", "75", "--height", "-4"], "--height: the height reads -4 mm; it must be more than 0 mm."),
        (["--girth-top", "500", "--girth-bottom", "100", "--wall", "63"], "--girth-top: the girths 100 mm and 500 mm"),
        (["--girth-top", "500", "--girth-bottom", "0", "--wall", "163"], "--girth-bottom: the girth reads 0 mm"),
        (["--girth", "9 1/4", "--wall", "160"], '--girth: "9 1/4" is a fraction without a unit. Write 9 1/4 in.'),
        (["--girth", "1,234", "--wall", "160"], '--girth: "1,234" is ambiguous'),
        (["--girth", "235", "--wall", "160", "--overlap", "-1"], "--overlap: the overlap reads -1 mm"),
        (["--girth", "235", "--wall", "160", "--paper-thickness", "2"], "--paper-thickness: the paper's thickness"),
        (
            ["--reading", "0=226", "--reading", "90=231", "--reading", "40=229"],
            "--reading 40=229: the reading at 40 mm",
        ),
    ],
)
def test_readings_that_cannot_be_end_with_3(
    capsys: pytest.CaptureFixture[str], words: list[str], sentence: str
) -> None:
    code, told = refused(capsys, *words)
    assert code == 3
    assert sentence in told
    assert "Traceback" not in told


def test_every_problem_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    code, told = refused(capsys, "--girth", "wide", "--wall", "high", "--overlap", "some")
    assert code == 3
    assert [line.split(":")[0] for line in told.splitlines()] == ["--girth", "--wall", "--overlap"]


def test_a_failure_as_a_document(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["fit", "--girth", "9.25", "--wall", "160", "--json"]) == 3
    error = json.loads(capsys.readouterr().out)["error"]
    assert (error["kind"], error["exit"], error["where"]) == ("unusable", 3, "--girth")
    assert "Was it 9.25 in (234.95 mm)" in error["remedy"]


def test_the_examples_of_the_page_on_measuring_work(capsys: pytest.CaptureFixture[str]) -> None:
    page = (Path(__file__).parents[3] / "docs" / "measure.md").read_text(encoding="utf-8")
    examples = [shlex.split(line)[1:] for line in page.splitlines() if line.startswith("wrapwright ")]
    assert len(examples) >= 4
    for words in (*examples, shlex.split(EXAMPLE)[1:]):
        assert run(words) == 0, words
    capsys.readouterr()
    for word in ("less than the 30 mm", "never under 3 mm", "Over 1.5 mm of girth", "30 degrees"):
        assert word in page
    assert (GIRTH.least_mm, LEAST_OVERLAP_MM, TOLERANCE_MM, STEEPEST_DEG) == (30.0, 3.0, 1.5, 30.0)


def test_the_lengths_of_the_page_on_measuring_are_read() -> None:
    page = (Path(__file__).parents[3] / "docs" / "measure.md").read_text(encoding="utf-8")
    (written,) = [line for line in page.splitlines() if line.startswith("`235`")]
    texts = [tomllib.loads(f"length = {text}")["length"] for text in re.findall(r"`([^`]+)`", written)]
    assert [length_mm(text) for text in texts] == [235.0, 235.0, 235.0, 234.95, 234.95, 234.95, 1892.3]


def test_a_flat_blank_is_as_large_as_it_is(capsys):
    assert run(["fit", "--width", "6 in", "--height", "4 in", "--corner", "5"]) == 0
    told = capsys.readouterr().out
    assert told.startswith("A rectangle.")
    assert "152.4 mm (6 in)" in told
    assert "radius of the corners" in told
    assert "overlap" not in told
    assert "girth" not in told


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--circle", "95", "--girth", "200"], "--circle and --girth do not go together"),
        (["--width", "95"], "--width needs --height beside it"),
        (["--corner", "5", "--height", "95"], "--corner needs --width beside it"),
        (["--circle", "95", "--width", "95"], "--circle and sides do not go together"),
        (["--width", "95", "--height", "9", "--reading", "1=2"], "--width and --reading do not go together"),
    ],
)
def test_a_flat_blank_has_sides_or_a_circle(capsys, words, said):
    assert run(["fit", *words]) == 2
    assert said in capsys.readouterr().err


def test_a_flat_blank_is_told_by_its_options(capsys):
    assert run(["fit", "--circle", "2"]) == 3
    assert "--circle: the circle reads 2 mm" in capsys.readouterr().err
    assert run(["fit", "--circle", "95", "--overlap", "5"]) == 3
    assert "--overlap: an overlap is given, but a flat blank has no ends that meet" in capsys.readouterr().err
