"""`press log`, `press readings`, `press known` and `press map` as they are typed."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from wrapwright.core.press.fit.curves import approach, wall_in_approach

OVEN = ("heater", "add", "Left", "--kind", "oven", "--power", "1500 W")
READ = ("readings", "--heater", "left", "--at", "200 C", "--step", "5 C")


@pytest.fixture
def log(tmp_path: Path) -> str:
    times = np.arange(0.0, 800.0)
    air = approach(times, 206.0, 25.0, 100.0)
    wall = wall_in_approach(times, (206.0, 25.0, 100.0), 25.0, 80.0)
    lines = [f"{t:.0f},{a * 1.8 + 32:.1f},{w * 1.8 + 32:.1f}" for t, a, w in zip(times, air, wall, strict=True)]
    (tmp_path / "log.csv").write_text("\n".join(["t,T1 °F,T2 °F", *lines]), encoding="utf-8")
    return "log.csv"


def test_a_log_is_fitted_kept_and_drawn(say: Any, document: Any, log: str, tmp_path: Path) -> None:
    say(*OVEN)
    code, _, err = say("log", log)
    assert (code, "--air, --wall: Nothing in the log says which" in err) == (3, True)
    named = (
        "log",
        log,
        "--air",
        "2",
        "--wall",
        "T2 °F",
        "--at",
        "392 F",
        "--material",
        "steel",
        "--thickness",
        "0.5 mm",
    )
    told = document(*named, "--heater", "left", "--plot", "fit.svg", "--note", "new logger")["evidence"]
    estimates = {one["name"]: one["value"] for one in told["estimates"]}
    assert estimates["wall-time-constant"] == pytest.approx(80.0, rel=1e-3)
    assert estimates["film"] == pytest.approx(25.0, rel=1e-3)
    assert estimates["offset"] == pytest.approx(6.0, abs=0.05)
    assert told["figures"]["offset_half_k"] == pytest.approx(2.5, abs=0.01)
    assert (tmp_path / "fit.svg").read_text(encoding="utf-8").startswith("<svg")
    assert say(*named, "--plot", "fit.svg")[0] == 7
    known = document("known", "--heater", "left")
    assert (known["calibrated"], known["evidence"][0]["note"]) == (True, "new logger")
    code, out, err = say(*named, "--heater", "left", "--reference", "100 C=99 C", "--dry-run")
    assert (code, "+7 °C (+12.6 °F)" in out, "Kept" in err) == (0, True, False)


def test_readings_a_recipe_and_a_map(say: Any, document: Any) -> None:
    say(*OVEN)
    code, out, err = say(*READ, "--reading", "190 C", "--reading", "374 F", "--reading", "190 C")
    assert (code, "offset -10 °C (-18 °F)" in out, "Kept as number 1 of Left." in err) == (0, True, True)
    good = document("known", "--heater", "left", "--recipe", "steel-oven", "--wall", "0.5 mm", "--dwell", "6 min")
    assert good["evidence"]["offset_low_k"] < good["evidence"]["offset_high_k"]
    points = ("--point", "200 C; top; 208 C", "--point", "200 C; bottom; 196 C")
    assert "top is 12 °C (21.6 °F) warmer than bottom" in say("map", "--heater", "left", *points, "--half", "4 C")[1]
    read = document("map", "--heater", "left", "--at", "230 C", "--place", "top")["offset"]
    assert (read["offset_k"], read["half_k"], read["how"]) == (8.0, 15.0, "beyond")
    assert [one["place"] for one in document("map", "--heater", "left")["points"]] == ["top", "bottom"]
    listed = say("known", "--heater", "left")[1]
    assert "3  " in listed
    assert "map" in listed
    assert say("known", "--heater", "left", "--remove", "9")[0] == 8
    left = json.loads(say("known", "--heater", "left", "--remove", "3", "--json")[1])
    assert left["figures"]["offset_k"] == pytest.approx(-10.0, abs=0.05)


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        ((*READ, "--reading", "190"), 3, "--reading: 190 does not say C or F"),
        ((*READ, "--reading", "190 C"), 3, "--reading: 1 reading cannot say"),
        (("readings", "--at", "383 C", "--step", "5 C", "--reading", "190 C"), 3, "Is 383 °F"),
        (("log", "none.csv"), 8, "cannot be opened"),
        (("log", "none.csv", "--unit", "R"), 2, '--unit "R" is not one of'),
        (("log", "none.csv", "--reference", "100 C"), 2, "two temperatures with ="),
        (("known", "--heater", "left", "--recipe", "x", "--remove", "1"), 2, "do not go together"),
        (("known", "--heater", "left", "--wall", "1 mm"), 2, "there is no --recipe"),
        (("known", "--heater", "right"), 8, "no heater"),
        (("map", "--heater", "left", "--point", "200 C, top, 208 C"), 2, "with ; between them"),
        (("map", "--heater", "left"), 8, "no map of Left"),
        (
            ("readings", "--heater", "left", *READ[3:], "--reading", "190 C", "--date", "May"),
            2,
            '--date "May" is no day',
        ),
    ],
)
def test_what_cannot_be_meant(say: Any, words: tuple[str, ...], code: int, said: str) -> None:
    say(*OVEN)
    found = say(*words)
    assert (found[0], said in found[2]) == (code, True), found
