"""`press start`, `press event`, `press look`, `press heats`."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from tests.faces.cli.kept.conftest import Said

from wrapwright.core.press.run.faults.values import FAULTS
from wrapwright.core.press.run.values import EVENT_KINDS
from wrapwright.faces.cli.pressing.look import KINDS

Say = Callable[..., Said]


@pytest.fixture
def oven(say: Say) -> str:
    code, _, _ = say("heater", "add", "Oven", "--kind", "oven", "--power", "1500 W", "--capacity", "4")
    assert code == 0
    return "Oven"


def test_a_heat_told_by_hand(say: Say, document: Callable[..., Any], oven: str) -> None:
    start = ("start", "--heater", oven, "--recipe", "steel-oven", "--piece", "a7-3", "--at", "383 F")
    code, out, err = say(*start)
    assert (code, out) == (3, "")
    assert "open, empty and dry" in err
    told = document(*start, "--tick", "open-empty-dry", "--dwell", "5 min")["heat"]
    assert (told["set_c"], told["dwell_s"], told["phase"]) == (195.0, 300.0, "loading")
    again = say(*start, "--tick", "open-empty-dry")
    assert again[0] == 7
    code, out, err = say("event", "1", "loaded")
    assert code == 0
    assert "Warming the wall." in out
    assert "Next, once they are out: wrapwright press event 1 taken-out" in err
    assert "Caution: Hot surfaces" in err
    assert document("event", "1", "longer", "--for", "40 s")["heat"]["dwell_s"] == 340.0
    assert document("event", "1", "measured", "--reads", "370 F")["heat"]["events"][-1]["words"].startswith(
        "Measured 187.8 °C"
    )
    assert say("event", "1", "taken out")[0] == 0
    code, out, _ = say("look", "1", "1", "faded", "--note", "pale")
    assert code == 0
    assert "Too little heat in the coating" in out
    assert "Change one thing alone" in out
    assert "Leave the next one in until its time is up" in out
    (row,) = document("heats", "list", "--piece", "A7-3")["heats"]
    assert (row["phase"], row["pieces"][0]["note"]) == ("ended", "pale")
    assert "faded" in say("heats", "show", "1")[1]


@pytest.mark.usefixtures("oven")
@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (("heats", "show", "9"), 8, "There is no heat 9."),
        (("event", "1", "exploded"), 2, '"exploded" is no event of a heat.'),
        (("event", "1", "measured", "--reads", "188"), 3, "does not say C or F"),
        (("event", "1", "longer", "--for", "40"), 3, "does not say minutes or seconds"),
        (("look", "1", "1", "pretty"), 3, '"pretty" is no result of a piece.'),
        (
            ("start", "--heater", "Oven", "--recipe", "steel-oven", "--dwell", "10 h", "--tick", "open-empty-dry"),
            3,
            "--dwell: A dwell of 10 h is longer",
        ),
        (("start", "--heater", "Oven", "--recipe", "steel-oven"), 3, "then add --tick open-empty-dry."),
        (("start", "--heater", "Kiln", "--recipe", "steel-oven"), 8, 'There is no heater called "Kiln".'),
    ],
)
def test_what_is_refused(say: Say, words: tuple[str, ...], code: int, told: str) -> None:
    ended, _, err = say(*words)
    assert (ended, told in err) == (code, True)


def test_help_names_every_event_and_fault(say: Say) -> None:
    assert ", ".join(EVENT_KINDS) == KINDS
    help_text = " ".join(say("look", "--help")[1].split())
    assert all(one in help_text for one in FAULTS)


def test_nothing_yet(say: Say) -> None:
    code, out, err = say("heats", "list")
    assert (code, out) == (0, "")
    assert "There is no such heat." in err
