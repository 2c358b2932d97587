"""The shipped example in the store: a design, and an oven that says itself that it is nobody's."""

from __future__ import annotations

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.example import OVEN, KeepExample, keep_example
from wrapwright.jobs.press.kept.heaters import (
    KeepHeater,
    ListHeaters,
    RetireHeater,
    keep_heater,
    list_heaters,
    retire_heater,
)


def heaters(bench: Bench) -> list[str]:
    return [one.name for one in list_heaters(ListHeaters(), bench, Watch())]


def test_it_comes_once_with_an_oven_that_is_called_an_example(bench: Bench) -> None:
    design = keep_example(KeepExample(), bench, Watch())
    assert heaters(bench) == [OVEN]
    assert "example" in OVEN
    (oven,) = list_heaters(ListHeaters(), bench, Watch())
    retire_heater(RetireHeater(oven.id), bench, Watch())
    assert keep_example(KeepExample(), bench, Watch()) == design
    assert heaters(bench) == []  # who took it away does not get it again


def test_a_workshop_with_a_heater_of_its_own_is_given_none(bench: Bench) -> None:
    keep_heater(KeepHeater("Left oven", "oven", 1500.0), bench, Watch())
    keep_example(KeepExample(), bench, Watch())
    assert heaters(bench) == ["Left oven"]
