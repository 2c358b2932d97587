"""`press recipe`: kept from options, asked about where a unit is missing, found by a job."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from wrapwright.faces.cli.entry import run

JOB = 'format = 1\n[blank]\nkind = "straight"\ngirth = 240\nwall = 100\n[press]\nrecipe = "{}"\n'
LIKE = ("--like", "steel-oven")


def test_the_recipes_to_start_from(say, document) -> None:
    code, out, err = say("recipe", "list")
    assert (code, err) == (0, "")
    assert "190–205 °C (374–401 °F), 4–7 min" in out.splitlines()[0]
    told = document("recipe", "show", "double-walled-oven")["recipe"]
    assert (told["place"], told["celsius"], told["fahrenheit"]) == ("shipped", [180, 200], [356, 392])
    assert "205 °C (401 °F) (common practice, no source)" in say("recipe", "show", "double-walled-oven")[1]


def test_one_of_ones_own_and_its_versions(say, document) -> None:
    given = ("--dwell", "5-6 min", "--temperature", "383 F", "--turn-at", "0.33,0.67", "--source", "own trials")
    limits = ("--maker-limit", "400 F", "--limit-source", "maker's sheet")
    assert say("recipe", "add", "20 oz", *LIKE, *given, *limits, "--wall", "0.6 mm") == (0, "20 oz, version 1\n", "")
    told = document("recipe", "show", "20 OZ")["recipe"]
    assert (told["celsius"], told["seconds"], told["turn_at"]) == ([195, 195], [300, 360], [0.33, 0.67])
    assert told["limits"]["maker_c"] == pytest.approx(204.444, abs=1e-3)
    assert (told["wall"], told["limits"]["maker_source"]) == (
        {"material": "steel", "thickness_mm": 0.6, "double": False},
        "maker's sheet",
    )
    assert document("recipe", "change", "20 oz", "--cool-for", "3 min")["recipe"]["cool_s"] == 180
    assert document("recipe", "list")["recipes"][0]["name"] == "20 oz"
    gone = document("recipe", "retire", "20 oz")
    assert (gone["retired"], gone["removed"]) == ("20 oz", True)
    assert say("recipe", "show", "20 oz")[0] == 8


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        ((*LIKE, "--temperature", "195"), 3, '--temperature: 195 does not say C or F'),
        ((*LIKE, "--temperature", "383 C"), 3, 'Is 383 °F (195 °C) meant? Then write "383 F".'),
        ((*LIKE, "--dwell", "7"), 3, '--dwell: 7 does not say minutes or seconds'),
        ((*LIKE, "--dwell", "10 h"), 3, "--dwell: a dwell of 10 h is longer than 1 h."),
        ((*LIKE, "--dwell", "0 s"), 3, "--dwell: a dwell of 0 s is shorter than 10 s."),
        ((*LIKE, "--temperature", "160 C"), 3, "160 °C (320 °F) is below 170 °C (338 °F)"),
        ((*LIKE, "--wall", "-1 mm"), 3, "--wall: a wall of -1 mm"),
        ((*LIKE, "--maker-limit", "200 C"), 3, "--limit-source: this limit has no source."),
        ((*LIKE, "--turn-at", "half"), 2, "is not a share of the dwell"),
        ((*LIKE, "--limit-source", "me"), 2, "no limit is given"),
        (("--like", "copper"), 8, 'no recipe called "copper"'),
        (("--double", *LIKE, "--temperature", "190-206 C"), 3, "205 °C (401 °F)"),
        ((), 3, "--temperature: is missing."),
    ],
)  # fmt: skip
def test_what_cannot_be_kept(say, document, options: tuple[str, ...], code: int, said: str) -> None:
    found = say("recipe", "add", "20 oz", *options)
    assert (found[0], found[1]) == (code, "")
    assert said in found[2]
    assert len(document("recipe", "list")["recipes"]) == 5


def test_one_to_start_from_stays_as_it_is(say) -> None:
    for words in (("change", "steel-oven", "--dwell", "5 min"), ("retire", "steel-oven"), ("restore", "steel-oven")):
        code, _, err = say("recipe", *words)
        assert code == 7
        assert "--like steel-oven" in err


def test_a_job_finds_the_workshops_own(say, capsys, tmp_path: Path) -> None:
    assert say("recipe", "add", "20 oz", *LIKE)[0] == 0
    for name, code in (("20 OZ", 0), ("steel-oven", 0), ("22 oz", 3)):
        (tmp_path / "job.toml").write_text(JOB.format(name), encoding="utf-8", newline="\n")
        assert run(["check", "job.toml"]) == code
    assert 'there is no recipe "22 oz"; there are 20 oz, steel-oven' in capsys.readouterr().err


def test_every_help_ends_in_an_example_that_can_be_run(say) -> None:
    for verb in ("add", "list", "show", "change", "retire", "restore"):
        code, out, _ = say("recipe", verb, "--help")
        assert code == 0
        example = " ".join(line.strip() for line in out.partition("Example:")[2].splitlines())
        words = shlex.split(example)
        assert words[:4] == ["wrapwright", "press", "recipe", verb]
        assert say(*words[2:])[0] == (8 if verb == "restore" else 0)  # what was retired is gone: nothing used it
