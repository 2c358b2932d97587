"""`blank`: on the shelf, shown as a job file writes it, used by a job, and off again."""

from __future__ import annotations

import shlex
import tomllib
from pathlib import Path

import pytest
from typer.main import get_command

from wrapwright.faces.cli.kept.blank import app


def test_a_blank_from_the_shelf_to_a_job_and_back(say, document, tmp_path: Path) -> None:
    add = ("blank", "add", "Big tumbler", "--girth", "9 1/4 in", "--wall", "6 1/2 in", "--coating", "#f0f0f0")
    assert say(*add) == (0, "Big tumbler\n", "")
    code, out, err = say("blank", "show", "big TUMBLER")
    assert tomllib.loads(out) == {
        "blank": {"kind": "straight", "girth": "9 1/4 in", "wall": "6 1/2 in", "coating": "#f0f0f0"}
    }
    assert (code, err.split(",")[:2]) == (0, ["Big tumbler", " version 1 of 1"])
    (tmp_path / "use.toml").write_text('format = 1\nblank = { use = "big tumbler" }\n', encoding="utf-8")
    assert say("check", "use.toml")[0] == 0
    assert [one["name"] for one in document("blank", "list", "BIG")["blanks"]] == ["Big tumbler"]
    assert document("blank", "list", "small")["blanks"] == []
    assert document("blank", "remove", "big tumbler")["removed"] == "Big tumbler"
    code, _, err = say("check", "use.toml")
    assert code == 3
    assert "Nothing is on the shelf yet" in err


@pytest.mark.parametrize(
    ("options", "table"),
    [
        (["--diameter", "75", "--wall", "10 cm"], {"kind": "straight", "diameter": "75", "wall": "10 cm"}),
        (
            ["--girth-top", "281", "--girth-bottom", "225", "--height", "150"],
            {"kind": "tapered", "girth_top": "281", "girth_bottom": "225", "height": "150"},
        ),
        (
            ["--reading", "0 mm = 230 mm", "--reading", "6 cm=234", "--reading", "120=9 1/8 in"],
            {"kind": "profile", "readings": [["0 mm", "230 mm"], ["6 cm", "234"], ["120", "9 1/8 in"]]},
        ),
        (
            ["--girth", "255", "--wall", "95", "--handle-gap", "24 mm"],
            {"kind": "straight", "girth": "255", "wall": "95", "handle": {"gap": "24 mm"}},
        ),
    ],
)
def test_readings_are_kept_in_the_words_they_were_given(document, options: list[str], table: dict) -> None:
    found = document("blank", "add", "Mug", *options)["blank"]
    assert (found["table"], found["version"], found["wrap"]) == (table, 1, {})


def test_a_job_files_readings(document, tmp_path: Path) -> None:
    text = 'format = 1\n[blank]\nkind = "straight"\ngirth = 240\nwall = 100\n[wrap]\nbleed = 1\n'
    (tmp_path / "bottle.toml").write_text(text, encoding="utf-8")
    found = document("blank", "add", "Bottle", "--from", "bottle.toml")["blank"]
    assert (found["table"], found["wrap"]) == ({"kind": "straight", "girth": 240, "wall": 100}, {"bleed": 1})


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (["--girth", "9", "--wall", "100"], 3, "--girth: the girth reads 9 mm"),
        (["--girth", "x", "--wall", "100"], 3, "--girth: "),
        (["--girth", "255", "--wall", "95", "--handle-gap", "300"], 3, "--handle-gap: the handle's gap reads 300 mm"),
        (["--girth", "255", "--wall", "95", "--coating", "blue"], 3, "--coating: "),
        (["--girth", "255"], 2, "The height is missing."),
        (["--girth", "255", "--diameter", "80", "--wall", "95"], 2, "say the same twice"),
        (["--reading", "0=230", "--reading", "9=231", "--wall", "95"], 2, "--reading and --wall do not go together"),
        (["--from", "none.toml"], 8, "There is no such job file."),
        (["--from", "none.toml", "--girth", "255"], 2, "--from and --girth do not go together"),
        (["--from", "none.toml", "--reading", "0=2"], 2, "--from and --reading do not go together"),
    ],
)
def test_what_cannot_be_put_on_the_shelf(say, document, options: list[str], code: int, said: str) -> None:
    found = say("blank", "add", "Mug", *options)
    assert found[0] == code
    assert said in found[2]
    assert document("blank", "add", "Mug", *options)["error"]["exit"] == code
    assert document("blank", "list")["blanks"] == []


def test_names_that_are_not_there_and_one_that_is(say) -> None:
    for words in (("show", "Mug"), ("remove", "Mug")):
        code, out, err = say("blank", *words)
        assert (code, out) == (8, "")
        assert 'no blank called "Mug"' in err
    assert say("blank", "add", "Mug", "--girth", "255", "--wall", "95")[0] == 0
    assert say("blank", "show", "Mug", "--version", "2")[0] == 8
    code, _, err = say("blank", "add", "MUG", "--girth", "255", "--wall", "95")
    assert code == 7
    assert 'has a blank called "Mug" already' in err


def test_an_empty_shelf_says_how_to_fill_it(say) -> None:
    assert say("blank", "list") == (
        0, "", "No such blank is on the shelf. Add one: wrapwright blank add NAME --girth ...\n",
    )  # fmt: skip
    assert say("blank", "list", "-q") == (0, "", "")


def test_every_help_ends_in_an_example_that_can_be_run(say) -> None:
    """The examples of the group, in an order in which they can follow each other."""
    verbs = get_command(app).commands  # type: ignore[attr-defined]
    assert list(verbs) == ["list", "show", "add", "remove"]
    for verb in ("add", "list", "show", "remove"):
        code, out, _ = say("blank", verb, "--help")
        assert code == 0
        words = shlex.split(out.strip().splitlines()[-1])
        assert words[:3] == ["wrapwright", "blank", verb]
        assert say(*words[1:])[0] == 0
