"""Every command, option, setting, rule, recipe and caution has its line in the docs, with the figures of the code."""

from __future__ import annotations

import json
import re

import pytest
from tests.house.docs.markdown import pages, rows
from tests.house.tree import ROOT
from typer.main import get_command

from wrapwright.core.checks.names import RULE_NAMES
from wrapwright.data.press import cautions, recipes
from wrapwright.faces.cli.entry import app, run
from wrapwright.settings import NAMES, PREFIX

PAGE = pages()["docs/command-line.md"]
GROUP = get_command(app)


def every_command(group: object = GROUP, before: str = "") -> dict[str, object]:
    """Return every command by its name, those of groups by all their words."""
    found: dict[str, object] = {}
    for name, command in group.commands.items():  # type: ignore[attr-defined]
        words = f"{before}{name}"
        found |= every_command(command, f"{words} ") if hasattr(command, "commands") else {words: command}
    return found


def test_commands() -> None:
    """The table has a row for each, in the order of the help, and its row begins with its name."""
    shown = [row[0].strip("`").removeprefix("wrapwright ") for row in rows(PAGE, "command")]
    assert len(shown) == len(every_command())
    for words, name in zip(shown, every_command(), strict=True):
        assert f"{words} ".startswith(f"{name} "), name


def options_of(command: object) -> set[str]:
    """Return the names of a command's options, short ones too, without those for help."""
    found = [parameter for parameter in command.params if parameter.param_type_name == "option"]  # type: ignore[attr-defined]
    return {name for one in found for name in [*one.opts, *one.secondary_opts]} - {"--help", "-h"}


def test_options() -> None:
    """The table names every option once, and with the commands that have it."""
    told: dict[str, set[str]] = {name: set() for name in every_command()}
    listed: list[str] = []
    for options, commands, _ in rows(PAGE, "option"):
        names = re.findall(r"`(-[^`]+)`", options)
        listed += names
        if commands not in {"all", "`wrapwright`"}:
            for command in told if commands == "all commands" else commands.split(", "):
                told[command] |= set(names)
    assert told == {name: options_of(command) for name, command in every_command().items()}
    assert sorted(listed) == sorted([*{*listed}, "--version"])  # which means two things, and so has two rows
    assert {"--help", "-h", "--version"} <= set(listed)
    assert options_of(GROUP) == {"--version"}


def test_settings() -> None:
    told = [(row[0], row[1]) for row in rows(PAGE, "setting")]
    assert told == [(f"`{one}`", f"`{PREFIX}{one.upper()}`") for one in NAMES]


def test_rules() -> None:
    told = re.findall(r"^\| `([\w-]+)` \|", pages()["docs/checks.md"], re.MULTILINE)
    assert sorted(told) == sorted(RULE_NAMES)
    # Rules named on other pages are rules that there are.
    for page in ("docs/accept.md", "docs/does-not-fit.md", "docs/colour.md", "docs/measure.md", "docs/text.md"):
        for words in re.findall(r"`([a-z]+-[a-z-]+)`", pages()[page]):
            assert words in RULE_NAMES, f"{page}: {words}"


def test_the_shown_failure_is_what_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    shown = re.search(r"```json\n(.*?)```", pages()["docs/errors.md"], re.DOTALL)
    assert shown is not None
    assert run(["check", "bottel.toml", "--json"]) == 8
    assert json.loads(capsys.readouterr().out) == json.loads(shown[1])


@pytest.mark.parametrize("page", ["README.md", "docs/ticket.md"])
def test_every_caution_is_told_word_for_word(page: str) -> None:
    words = " ".join(pages()[page].replace("*", "").split())
    assert len(cautions()) > 15
    assert [one.name for one in cautions() if one.text not in words] == []


def test_recipes() -> None:
    def span(low: float, high: float, unit: str) -> str:
        return f"{low:g}-{high:g} {unit}"

    assert rows(pages()["docs/ticket.md"], "recipe") == [
        [
            f"`{one.name}`",
            one.title,
            span(*one.celsius, "°C"),
            span(one.seconds[0] / 60, one.seconds[1] / 60, "min"),
        ]
        for one in recipes()
    ]


def test_the_changelog_knows_this_version() -> None:
    version = re.search(r'^version = "(.+)"', (ROOT / "pyproject.toml").read_text(encoding="utf-8"), re.MULTILINE)
    assert version is not None
    heads = re.findall(r"^## (\S+?),? ", pages()["CHANGELOG.md"], re.MULTILINE)
    assert heads[0] == version[1]
    kinds = re.findall(r"^### (.+)$", pages()["CHANGELOG.md"], re.MULTILINE)
    assert set(kinds) <= {"Added", "Changed", "Fixed"}
