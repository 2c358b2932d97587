"""Every command, outcome and setting has its line in the docs, with the figures of the code."""

from __future__ import annotations

import json
import re

import pytest
from tests.house.tree import ROOT

from wrapwright.faces.cli.entry import app, run
from wrapwright.faces.outcomes import DONE, OUTCOMES
from wrapwright.settings import NAMES, PREFIX

PAGE = (ROOT / "docs" / "command-line.md").read_text(encoding="utf-8")


def cells(first: str) -> list[list[str]]:
    """Return the rows of the table whose heading begins with a word."""
    table = re.search(rf"^\| {first} \|.*\n\|[-|]+\|\n((?:\|.*\n)+)", PAGE, re.MULTILINE)
    assert table is not None
    return [[cell.strip() for cell in row.strip("|").split("|")] for row in table[1].strip().splitlines()]


def test_commands() -> None:
    named = [re.match(r"`wrapwright (\w+)", row[0]) for row in cells("command")]
    names = [command.callback.__name__ for command in app.registered_commands if command.callback]
    assert [one[1] for one in named if one] == names


def test_outcomes() -> None:
    rows = {row[1]: (row[0], row[2]) for row in cells("exit")}
    assert rows.pop("") == (str(DONE.exit), str(DONE.http))
    assert rows == {kind.value: (str(one.exit), str(one.http or "")) for kind, one in OUTCOMES.items()}


def test_settings() -> None:
    assert [(row[0], row[1]) for row in cells("setting")] == [(f"`{one}`", f"`{PREFIX}{one.upper()}`") for one in NAMES]


def test_the_shown_failure_is_what_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    shown = re.search(r"```json\n(.*?)```", PAGE, re.DOTALL)
    assert shown is not None
    assert run(["check", "bottel.toml", "--json"]) == 8
    assert json.loads(capsys.readouterr().out) == json.loads(shown[1])
