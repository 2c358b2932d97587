"""`press heater` and `press circuit`: rated powers against the breaker."""

from __future__ import annotations

import shlex

import pytest

OVEN = ("heater", "add", "Left", "--kind", "oven", "--power", "1.5 kW", "--capacity", "4")


def test_a_heater_and_its_circuit(say, document) -> None:
    assert "Add one: wrapwright press heater add" in say("heater", "list")[2]
    assert say("circuit", "add", "Bench", "--volts", "120", "--amps", "15") == (
        0,
        "Bench  120 V, 15 A  0 of 1800 W\n",
        "",
    )
    assert say(*OVEN, "--circuit", "bench") == (0, "Left\n", "")
    told = document("heater", "show", "left")["heater"]
    assert (told["rated_w"], told["capacity"], told["circuit"], told["calibrated"]) == (1500, 4, "Bench", False)
    code, out, err = say("heater", "add", "Mug", "--kind", "mug-press", "--power", "400", "--circuit", "Bench")
    assert (code, out) == (0, "Mug\n")
    assert "rated 1900 W, 100 W above what Bench carries" in err
    assert document("circuit", "list")["circuits"][0]["rated_w"] == 1900
    assert say("circuit", "remove", "Bench")[0] == 7
    assert document("heater", "change", "Mug", "--circuit", "")["heater"]["circuit"] is None
    assert document("heater", "change", "Mug", "--name", "Mugs", "--power", "450 W")["heater"]["rated_w"] == 450
    assert document("circuit", "change", "Bench", "--amps", "20")["circuit"]["limit_w"] == 2400
    assert "true temperature        as it is set, give or take 15 °C (27 °F)" in say("heater", "show", "Left")[1]


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("add", "A", "--kind", "oven", "--power", "0 W"), 3, "--power: a rated power of 0 W cannot be"),
        (("add", "A", "--kind", "oven", "--power", "-5"), 3, "--power: a rated power of -5 W cannot be"),
        (("add", "A", "--kind", "oven", "--power", "1500 V"), 3, "--power: "),
        (("add", "A", "--kind", "kiln", "--power", "1500 W"), 3, "--kind: "),
        (("add", "A", "--kind", "oven", "--power", "1500 W", "--capacity", "0"), 3, "--capacity: 0 pieces"),
        (("add", "A", "--kind", "oven", "--power", "1500 W", "--circuit", "none"), 8, 'no circuit called "none"'),
        (("add", "A"), 2, "--kind and --power are missing."),
        (("show", "A"), 8, 'no heater called "A"'),
        (("retire", "A"), 8, 'no heater called "A"'),
    ],
)
def test_what_cannot_be_kept(say, document, words: tuple[str, ...], code: int, said: str) -> None:
    found = say("heater", *words)
    assert (found[0], found[1]) == (code, "")
    assert said in found[2]
    assert document("heater", "list")["heaters"] == []


@pytest.mark.parametrize("figures", [("0", "15"), ("120", "-15"), ("nan", "15")])
def test_circuits_that_cannot_be(say, document, figures: tuple[str, str]) -> None:
    assert say("circuit", "add", "Bench", "--volts", figures[0], "--amps", figures[1])[0] == 3
    assert document("circuit", "list")["circuits"] == []


def test_every_help_ends_in_an_example_that_can_be_run(say) -> None:
    verbs = [("circuit", one) for one in ("list", "add", "change", "remove", "add")]
    verbs += [("heater", one) for one in ("list", "add", "show", "change", "retire", "restore")]
    for group, verb in verbs:
        code, out, _ = say(group, verb, "--help")
        assert code == 0
        words = shlex.split(" ".join(line.strip() for line in out.partition("Example:")[2].splitlines()))
        assert words[:4] == ["wrapwright", "press", group, verb]
        assert say(*words[2:])[0] == (8 if verb == "restore" else 0)  # what was retired is gone: nothing used it
