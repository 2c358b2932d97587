"""`gauge`: a strip drawn, and its reading taken."""

from __future__ import annotations

import tomllib

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.faces.cli.calibrate.gauge import read_of


@pytest.fixture(autouse=True)
def desk(say) -> None:
    assert say("setup", "add", "Desk", "--paper", "Letter", "--scale", "1.002,0.998")[0] == 0


def test_a_strip_is_drawn(say, document, tmp_path) -> None:
    code, out, err = say("gauge", "--setup", "desk", "--girth", "9 1/4 in", "-o", "gauge.pdf")
    assert (code, out) == (0, "gauge.pdf\n")
    assert "lie along" in err
    assert (tmp_path / "gauge.pdf").read_bytes().startswith(b"%PDF-1.6")
    ends = ("--girth-top", "230", "--girth-bottom", "200", "--wall", "120", "--at", "60")
    told = document("gauge", "--paper", "A4", *ends, "-o", "gauge.pdf", "--force")["gauge"]
    assert [(one["at_mm"], one["pieces"]) for one in told["strips"]] == [(60.0, 1)]
    assert (told["setup"], told["paper"], told["scale"]) == ("", "A4", None)


def test_a_reading_is_a_jobs_blank(say, document) -> None:
    code, out, _ = say("gauge", "--setup", "desk", "--read", "235+7", "--wall", "165")
    table = tomllib.loads(out)["blank"]
    assert code == 0
    assert (table["flat"], table["wall"], table["tape"]["setup"], table["tape"]["scale"]) == (
        "235.7 mm",
        "165 mm",
        "Desk",
        0.998,
    )
    arcs = ("--read", "10=199.5+0", "--read", "110 mm=230+5")
    assert say("gauge", *arcs, "--wall", "120")[0] == 3
    read = document("gauge", "--read", "10=200+2.5", "--read", "110 mm=230+5", "--wall", "120")["reading"]
    assert read["flats_mm"] == pytest.approx([200.25 - 3.025, 230.5 + 3.025])


def test_a_reading_goes_onto_the_shelf(say, document) -> None:
    assert say("blank", "add", "Bottle", "--girth", "9 1/4 in", "--wall", "6 1/2 in")[0] == 0
    kept = document("gauge", "--setup", "desk", "--read", "235+7", "--blank", "bottle")["kept"]
    assert (kept["version"], kept["table"]["flat"], kept["table"]["wall"]) == (2, "235.7 mm", "6 1/2 in")
    assert "girth" not in kept["table"]


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        ((), 2, "-o or --read is missing"),
        (("--girth", "235"), 2, "-o or --read is missing"),
        (("-o", "g.pdf"), 2, "No readings were given"),
        (("-o", "g.pdf", "--girth", "235", "--read", "235+7"), 2, "one after the other"),
        (("-o", "g.pdf", "--girth", "235", "--lies", "up"), 2, "across or along"),
        (("-o", "g.pdf", "--girth-top", "235", "--wall", "90"), 2, "needs its other end"),
        (("-o", "g.pdf", "--girth", "9.25"), 3, "Was it 9.25 in"),
        (("-o", "g.pdf", "--girth", "800", "--paper", "Letter"), 3, "needs more than 2 pieces"),
        (("-o", "g.pdf", "--girth", "235", "--setup", "studio"), 8, "no set-up"),
        (("--read", "235+12"), 3, "lines are 0 to 10"),
        (("--read", "2x+1"), 2, "235+7"),
        (("--read", "235+7", "--blank", "Mug"), 8, "Mug"),
    ],
)
def test_what_is_refused(say, tmp_path, words: tuple[str, ...], code: int, said: str) -> None:
    ended, out, err = say("gauge", *words)
    assert (ended, out) == (code, "")
    assert said in err
    assert not (tmp_path / "g.pdf").exists()


def test_readings_as_they_are_written() -> None:
    assert read_of("235+7") == (None, 235.7)
    assert read_of("10 mm = 228 + 4.5") == (10.0, 228.45)
    assert read_of("235.7") == (None, 235.7)
    with pytest.raises(WrapwrightError, match="head's mark"):
        read_of("235.5+7")
