"""`press sleeve`: which does, why the others do not, how long it is cut."""

from __future__ import annotations

import pytest

TUMBLER = ("sleeve", "--girth", "242 mm", "--smallest", "194 mm", "--band", "102 mm")


def test_in_words_and_as_a_document(say, document) -> None:
    own = ("--sleeve", "120 mm", "--sleeve", "wide=5 in", "--at", "392 F")
    code, out, err = say(*TUMBLER, *own)
    assert (code, err) == (0, "")
    assert out.startswith('Take the sleeve "wide" (127 mm flat): it passes with 12 mm to spare')
    assert "it is 240 mm round and must be 250 mm to pass over 242 mm" in out
    assert out.rstrip().endswith("common practice, no source: what the sleeve's maker states comes first.")
    told = document(*TUMBLER, *own)["sleeve"]
    assert [one["name"] for one in told["sleeves"]] == ["wide", ""]
    assert told["sleeves"][0]["cut_mm"] == 146.666667


def test_every_rule_is_a_setting(document) -> None:
    more = (
        "--ease",
        "20 mm",
        "--grip",
        "60 %",
        "--fold",
        "0",
        "--lengthwise",
        "0",
        "--shrink",
        "30",
        "--limit",
        "180 C",
    )
    told = document(*TUMBLER, "--sleeve", "127 mm", "--at", "200 C", *more)["sleeve"]
    (row,) = told["sleeves"]
    assert (row["passes"], row["grips"], row["bears"], row["cut_mm"]) == (False, False, False, 102.0)
    assert (told["rules"]["ease_mm"], told["rules"]["grip"]) == (20.0, 0.6)


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("--sleeve", "much"), 3, "--sleeve"),
        (("--shrink", "half"), 2, '--shrink "half" is not a share.'),
        (("--shrink", "100"), 3, "shrinks by 100 % radially is not within 0 to 95 %"),
        (("--limit", "410"), 3, "--limit: 410 does not say C or F"),
    ],
)
def test_what_cannot_be(say, words, code, said) -> None:
    found, out, err = say(*TUMBLER, "--sleeve", "127 mm", *words)
    assert (found, out) == (code, "")
    assert said in err
