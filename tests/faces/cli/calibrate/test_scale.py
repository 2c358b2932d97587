"""`scale`: the target, what was measured on it, and what was measured before."""

from __future__ import annotations

import tomllib

import pytest


@pytest.fixture(autouse=True)
def desk(say) -> None:
    assert say("setup", "add", "Desk", "--paper", "Letter")[0] == 0


def test_a_target_is_drawn(say, document, tmp_path) -> None:
    code, out, err = say("scale", "--paper", "A4", "--margins", "5 mm", "-o", "target.pdf")
    assert (code, out) == (0, "target.pdf\n")
    assert "199 mm across and 286 mm along" in err
    assert (tmp_path / "target.pdf").read_bytes().startswith(b"%PDF-1.6")
    assert say("scale", "--setup", "desk", "-o", "target.pdf")[0] == 7
    told = document("scale", "--setup", "desk", "-o", "target.pdf", "--force")["target"]
    assert told == {"file": "target.pdf", "paper": "Letter", "asked_mm": [207.0, 271.0]}


def test_lengths_become_the_scale(say, document) -> None:
    words = ("--across", "206.586 mm", "--along", '10.68"', "--date", "2026-05-02", "--note", "new ink")
    kept = document("scale", "--setup", "DESK", *words)
    (row,) = kept["measurements"]
    assert (row["date"], row["paper"], row["note"], row["scale"]) == (
        "2026-05-02",
        "Letter",
        "new ink",
        [0.998, 1.001004],
    )
    assert row["scale_error"] == [0.002415, 0.001845]
    sheet = tomllib.loads(say("setup", "show", "desk")[1])["sheet"]
    assert (sheet["scale"], sheet["scale_date"]) == ([0.998, 1.001004], "2026-05-02")
    code, out, _ = say("scale", "--setup", "desk")
    assert code == 0
    assert out.startswith("1  2026-05-02  Letter  across 0.9980 ± 0.0024  along 1.0010 ± 0.0018  new ink\n")
    words = ("--asked", "200 x 250 mm", "--across", "200", "--along", "250", "--division", "0.2 mm")
    finer = document("scale", "--setup", "desk", *words)
    assert finer["measurements"][0]["scale_error"] == [0.001, 0.0008]
    left = document("scale", "--setup", "desk", "--remove", "2")
    assert [one["id"] for one in left["measurements"]] == [1]


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("--setup", "desk", "--across", "200", "--along", "271"), 3, "--across: 200 mm measured across"),
        (("--setup", "desk", "--across", "8.15", "--along", "10.67"), 3, "10.67 in (271.02 mm)"),
        (("--setup", "desk", "--across", "207"), 2, "--along is missing"),
        (("--setup", "desk", "--across", "207", "--along", "271", "--date", "May"), 2, "2026-05-02"),
        (("--setup", "desk", "--across", "207", "--along", "271", "--asked", "207"), 2, "with an x between"),
        (("--setup", "desk", "--remove", "9"), 8, "no measurement with the number 9"),
        (("--setup", "studio"), 8, 'no set-up called "studio"'),
        ((), 2, "-o or --setup is missing"),
        (("-o", "t.pdf"), 2, "needs its paper"),
        (("-o", "t.png", "--paper", "A4"), 2, ".pdf"),
        (("-o", "t.pdf", "--paper", "A4", "--across", "2"), 2, "one after the other"),
        (("-o", "nowhere/t.pdf", "--paper", "A4"), 3, "cannot be written"),
        (("-o", "t.pdf", "--paper", "60x60 mm", "--margins", "12 mm"), 3, "36 mm can be printed across"),
        (("--setup", "desk", "--paper", "A4"), 2, "there is no -o"),
    ],
)
def test_what_is_refused(say, document, tmp_path, words: tuple[str, ...], code: int, said: str) -> None:
    ended, out, err = say("scale", *words)
    assert (ended, out) == (code, "")
    assert said in err
    assert not list(tmp_path.glob("*.p??"))
    assert document("scale", "--setup", "desk")["measurements"] == []
