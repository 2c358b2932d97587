"""Plans, loads and heaters as tables, through JSON and back."""

from __future__ import annotations

import json
from dataclasses import replace

from tests.core.press.run.heats_told import load, oven, plan

from wrapwright.core.press.heat.known import cover_named
from wrapwright.core.press.run.plain import heater_of, heater_table, load_of, load_table, plan_of, plan_table
from wrapwright.core.press.values import Dose, Opening


def test_they_come_back_as_they_were() -> None:
    full = plan(turn_at_s=(100.0, 200.0), warm_s=150.0, dose=Dose(1.0, 2.0, 3.0), target=2.5, preheat=True)
    assert plan_of(json.loads(json.dumps(plan_table(full)))) == full
    assert plan_of(json.loads(json.dumps(plan_table(plan())))) == plan()
    heater = replace(oven(), offset_k=-4.0, capacity=3)
    assert heater_of(json.loads(json.dumps(heater_table(heater)))) == heater
    covered = replace(load(3), covers=(cover_named("sleeve"), cover_named("paper")))
    assert load_of(json.loads(json.dumps(load_table(covered)))) == covered


def test_openings_are_events_and_stay_out() -> None:
    assert load_of(load_table(replace(load(), openings=(Opening(1.0, 2.0),)))) == load()


def test_what_a_later_version_adds_is_left_out() -> None:
    assert plan_of({**plan_table(plan()), "colour": "red"}) == plan()
    assert heater_of({**heater_table(oven()), "wheels": 4}) == oven()
