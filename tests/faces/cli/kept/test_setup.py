"""`setup`: a printer's figures, given or taken from a job file."""

from __future__ import annotations

import shlex
import tomllib
from pathlib import Path

import pytest
from tests.outside.icc.press import rgb_printer


def test_a_set_up_and_its_figures(say, document) -> None:
    options = ("--paper", "A4", "--margins", "5 mm", "--ppi", "360", "--paper-thickness", "0.11 mm", "--grain", "long")
    assert say("setup", "add", "Desk", *options, "--scale", "1.0012, 0.9987") == (0, "Desk\n", "")
    code, out, _ = say("setup", "show", "DESK")
    assert (code, tomllib.loads(out)) == (
        0,
        {
            "sheet": {
                "paper": "A4", "margins": "5 mm", "ppi": 360, "thickness": "0.11 mm", "grain": "long",
                "scale": [1.0012, 0.9987],
            },
            "colour": {"route": "driver"},
        },
    )  # fmt: skip
    assert say("setup", "list")[1] == "Desk  A4  the printer's software converts\n"
    assert document("setup", "remove", "desk")["removed"] == "Desk"
    assert document("setup", "list")["setups"] == []


def test_a_profile_is_kept_with_it(say, document, tmp_path: Path, own_data: Path) -> None:
    (tmp_path / "press.icc").write_bytes(rgb_printer())
    found = document("setup", "add", "Press", "--profile", "press.icc", "--intent", "relative")["setup"]
    assert found["colour"] == {"route": "convert", "intent": "relative", "profile": "press.icc"}
    kept = own_data / "pictures" / found["profile_sha256"][:2] / found["profile_sha256"]
    assert kept.read_bytes() == rgb_printer()
    assert "converts with press.icc" in say("setup", "list")[1]
    assert say("setup", "remove", "Press")[0] == 0
    assert not kept.exists()


def test_a_job_files_figures(document, tmp_path: Path) -> None:
    text = 'format = 1\n[blank]\nkind = "straight"\ngirth = 240\nwall = 100\n[sheet]\npaper = "A3"\n'
    (tmp_path / "bottle.toml").write_text(text, encoding="utf-8")
    found = document("setup", "add", "Desk", "--from", "bottle.toml")["setup"]
    assert (found["sheet"], found["colour"]) == ({"paper": "A3"}, {})


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (["--paper", "A9"], 3, "--paper: the paper 'A9' is not known"),
        (["--ppi", "20"], 3, "--ppi: 20 is less than the limit of 100"),
        (["--paper-thickness", "2 mm"], 3, "--paper-thickness: "),
        (["--scale", "1.5,1"], 3, "--scale: "),
        (["--scale", "1.001"], 2, "two figures with a comma"),
        (["--profile", "none.icc"], 3, "cannot be opened"),
        (["--intent", "vivid"], 3, "--intent: "),
        (["--from", "none.toml"], 8, "There is no such job file."),
        (["--from", "none.toml", "--paper", "A4"], 2, "do not go together"),
    ],
)
def test_what_cannot_be_kept(say, document, options: list[str], code: int, said: str) -> None:
    found = say("setup", "add", "Desk", *options)
    assert found[0] == code
    assert said in found[2]
    assert document("setup", "list")["setups"] == []


def test_names_that_are_not_there_and_one_that_is(say) -> None:
    for words in (("show", "Desk"), ("remove", "Desk")):
        assert say("setup", *words)[0] == 8
    assert say("setup", "add", "Desk")[0] == 0
    code, _, err = say("setup", "add", " desk ")
    assert code == 7
    assert 'a set-up called "Desk" already' in err


def test_every_help_ends_in_an_example_that_can_be_run(say) -> None:
    for verb in ("add", "list", "show", "remove"):
        code, out, _ = say("setup", verb, "--help")
        assert code == 0
        words = shlex.split(out.strip().splitlines()[-1])
        assert words[:3] == ["wrapwright", "setup", verb]
        assert say(*words[1:])[0] == 0
