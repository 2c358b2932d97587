"""`press dwell`: figures, words and plots; what is asked about and never taken."""

from __future__ import annotations

import pytest

STEEL = ("dwell", "--recipe", "steel-oven", "--wall", "0.5 mm", "--capacity", "2")


def test_in_words(say) -> None:
    code, out, err = say(*STEEL, "--pieces", "2", "--at", "392 F")
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[0] == "2 pieces, wall 0.5 mm steel, at 200 °C (392 °F), in: small-oven"
    assert lines[1] == "Recipe steel-oven: 190–205 °C (374–401 °F), 4–7 min (common practice, no source)."
    assert [one for one in lines if one.startswith("2 pieces: about 5")]
    assert "is not known yet here" in out
    assert "An estimate, a band and not a number" in out
    assert "pieces  about" in out
    for change in ("5 °C (9 °F) hotter", "1 piece more", "1 min longer", "door left open for 20 s"):
        assert change in out


def test_what_stops_it_stands_before_what_it_would_want(say) -> None:
    code, out, _ = say(*STEEL, "--double", "--at", "406 F")
    assert code == 0
    assert out.index("Errors (1)") < out.index("the limit of vacuum ware") < out.index("1 piece: about")


def test_as_a_document_with_a_plot(document, say, tmp_path) -> None:
    told = document(*STEEL, "--plot", "a.svg", "--double", "--girth", "235 mm", "--height", "165 mm")["press"]
    assert [row["pieces"] for row in told["rows"]] == [1, 2]
    assert told["wall"] == {"material": "steel", "thickness_mm": 0.5, "double": True, "from": "given"}
    assert told["aim"]["blurs_from"] is None
    assert (tmp_path / "a.svg").read_text(encoding="utf-8").startswith("<svg")
    assert say(*STEEL, "--plot", "a.svg")[0] == 7
    assert say(*STEEL, "--plot", "a.txt")[0] == 2


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (
            ("--recipe", "steel-oven"),
            3,
            "--wall: the wall's thickness is missing, and without it nothing is estimated.",
        ),
        ((*STEEL[1:], "--at", "383"), 3, "--at: 383 does not say C or F: 383 °C (721 °F), or 383 °F (195 °C)?"),
        ((*STEEL[1:], "--at", "383 C"), 3, "Is 383 °F (195 °C) meant?"),
        ((*STEEL[1:], "--dwell", "0 min"), 3, "--dwell: a dwell of 0 s is not within 10 s to 1 h."),
        ((*STEEL[1:], "--dwell", "10 h"), 3, "--dwell: a dwell of 10 h is not within 10 s to 1 h."),
        ((*STEEL[1:], "--pieces", "5"), 3, "--pieces: 5 pieces are more than the heater holds (2 pieces)."),
        ((*STEEL[1:], "--power", "much"), 3, '--power: "much" is not a power.'),
        ((*STEEL[1:], "--girth", "235 mm"), 2, "--girth needs the other beside it."),
        ((*STEEL[1:], "--heater", "Nobody's"), 8, 'There is no heater called "Nobody\'s"'),
        (("--wall", "1 mm", "--recipe", "microwave"), 8, '--recipe: there is no recipe "microwave"'),
    ],
)
def test_what_cannot_be(say, words, code, said) -> None:
    found, out, err = say("dwell", *words)
    assert (found, out) == (code, "")
    assert said in err
    assert "Traceback" not in err
