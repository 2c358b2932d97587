"""Heaters with their doubt, and circuits with their load."""

from __future__ import annotations

from typing import Any

from wrapwright.faces.web.pages.pressing.heaters import circuit_shown, heater_shown
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.kept.circuits import KeepCircuit, circuit_named, keep_circuit
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater, put_found

QUIET = Watch()


def test_an_empty_workshop_is_told_what_to_enter(client: Any) -> None:
    text = client.get("/press/heaters").text
    assert "No oven or press is entered yet" in text
    assert 'id="heater-form"' in text
    assert "never used for food again" in text
    assert 'id="circuit-form"' in client.get("/press/heaters?wire=1").text


def test_a_heaters_doubt_on_its_ruler(client: Any, bench: Bench) -> None:
    kept = keep_heater(KeepHeater("Left <oven>", "oven", 1500.0, 4), bench, QUIET)
    new = heater_shown(kept)
    assert (new.at, new.low, new.width) == (50, 25, 50)  # 15 K either way on a ruler of 30
    assert new.offset == "as it is set, ± 15 °C (27 °F)"
    found = heater_shown(put_found(kept.id, {"offset_k": -9.0, "offset_half_k": 3.0}, bench))
    assert (found.at, found.low, found.width) == (35, 30, 10)
    assert found.offset == "9 °C (16.2 °F) cooler than set, ± 3 °C (5.4 °F)"
    text = client.get("/press/heaters").text
    assert "Left &lt;oven&gt;" in text
    assert "On no circuit, so not counted" not in text
    assert client.get(f"/press/heaters?change={kept.id}").status_code == 200
    assert client.get("/press/heaters?change=99").status_code == 404


def test_a_circuits_load_heater_by_heater(client: Any, bench: Bench) -> None:
    circuit = keep_circuit(KeepCircuit("Bench", 120, 15), bench, QUIET)
    on_it = [
        keep_heater(KeepHeater(name, "oven", power, 1, circuit.id), bench, QUIET)
        for name, power in (("Left", 1500.0), ("Right", 900.0))
    ]
    keep_heater(KeepHeater("Third", "mug-press", 400.0), bench, QUIET)
    shown = circuit_shown(circuit_named("Bench", bench, QUIET), on_it)
    assert shown.limit == 75  # 1800 of 2400 W
    assert shown.parts == (("Left", 1500, 0, 62.5, False), ("Right", 900, 62.5, 37.5, False))
    text = client.get("/press/heaters").text
    assert "600 W above what Bench carries (1800 W)" in text
    assert "On no circuit, so not counted: Third." in text
