"""`press trial`: planned, printed, scored, fitted, gone on with, accepted."""

from __future__ import annotations

from pathlib import Path

import pytest

PLAN = ("trial", "plan", "Steel", "--recipe", "steel-oven", "--at", "195 C")
TIMES = ("--for", "2 min", "--for", "180 s", "--for", "4:30", "--for", "7 min 30 s", "--for", "15 min")


def test_from_plan_to_window(say, document, tmp_path: Path) -> None:
    told = document(*PLAN, *TIMES)["trial"]
    assert [one["seconds"] for one in told["coupons"]] == [120.0, 180.0, 270.0, 450.0, 900.0]
    assert told["coupons"][0]["fahrenheit"] == 383.0
    assert (told["window"]["low"], told["next"]) == (None, None)
    code, out, err = say("trial", "print", "steel", "--paper", "Letter", "-o", "coupons.pdf")
    assert (code, out.strip()) == (0, "coupons.pdf")
    assert "Wear gloves" in err
    assert (tmp_path / "coupons.pdf").read_bytes().startswith(b"%PDF")
    assert say("trial", "print", "steel", "--paper", "Letter", "-o", "coupons.pdf")[0] == 7
    code, out, _ = say("trial", "score", "Steel", "1=1,5,5", "2=3,5,5", "3=5,5,5", "4=5,4,5", "5=5,2,3")
    assert code == 0
    assert "nine chances in ten" in out
    assert "195 °C (383 °F)" in out
    ahead = document("trial", "next", "Steel", "--add")["next"]
    assert ahead["added"] == 6
    assert ahead["words"][0].startswith("Heat one at 195 °C (383 °F) for ")
    assert document("trial", "show", "Steel")["trial"]["coupons"][5]["seconds"] == ahead["seconds"]
    assert "Planning goes by it since" in say("trial", "accept", "Steel")[1]
    assert document("trial", "list")["trials"][0]["accepted"] is True
    assert document("trial", "accept", "Steel", "--no-longer")["trial"]["accepted"] is None
    assert say("trial", "remove", "Steel")[0] == 0
    assert document("trial", "list")["trials"] == []


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        ((*PLAN[:-1], "383"), 3, "--at: 383 does not say C or F"),
        ((*PLAN[:-1], "383 C"), 3, "Is 383 °F (195 °C) meant?"),
        ((*PLAN, "--for", "0 s"), 3, "--for: a dwell of 0 s cannot be tried"),
        ((*PLAN, "--for", "10 h"), 3, "--for: a dwell of 10 h cannot be tried"),
        ((*PLAN, "-n", "0"), 3, "--pieces: a trial without coupons tells nothing"),
        ((*PLAN, "--kind", "cake"), 2, '--kind "cake" is none of coupons, strip, positions'),
        ((*PLAN, "--wall", "40 mm"), 3, "--wall: "),
        (("trial", "plan", "Steel", "--recipe", "nope"), 3, '--recipe: there is no recipe "nope"'),
        (("trial", "score", "none", "1=1,1,1"), 8, 'There is no trial called "none"'),
        (("trial", "score", "none", "1:5"), 2, '"1:5" does not score a coupon'),
        (("trial", "print", "none", "-o", "x.pdf"), 2, "coupons need their paper"),
        (("trial", "print", "none", "--paper", "Letter", "--size", "40", "-o", "x.pdf"), 2, "is not two lengths"),
    ],
)
def test_bad_input_is_one_sentence(say, words: tuple[str, ...], code: int, said: str) -> None:
    found = say(*words)
    assert found[0] == code
    assert said in found[2]
    assert len(found[2].strip().splitlines()) == 1


def test_scores_out_of_range_and_unknown_coupons(say) -> None:
    say(*PLAN, *TIMES, "-q")
    code, _, err = say("trial", "score", "Steel", "1=6,5,5")
    assert code == 3
    assert "a score of 6 for density cannot be: scores are 1 (worst) to 5 (best)" in err
    assert "this trial has no coupon 9; its numbers are 1 to 5" in say("trial", "score", "Steel", "9=5,5,5")[2]
    assert "-  -" not in say("trial", "score", "Steel", "1=2,-,-", "--heated", "1=2 min 20 s")[2]
    assert say("trial", "next", "Steel", "--json")[0] == 0
