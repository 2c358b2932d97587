"""Heaters and circuits kept: figures that cannot be, what is found by calibrating, and what is on a breaker."""

from __future__ import annotations

from typing import Any

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.kept.circuits import (
    KeepCircuit,
    ListCircuits,
    RemoveCircuit,
    circuit_named,
    keep_circuit,
    list_circuits,
    remove_circuit,
)
from wrapwright.jobs.press.kept.heaters import (
    HeaterKept,
    KeepHeater,
    ListHeaters,
    RestoreHeater,
    RetireHeater,
    ShowHeater,
    heater_named,
    keep_heater,
    list_heaters,
    put_found,
    restore_heater,
    retire_heater,
    show_heater,
)
from wrapwright.outside.store.rows.press.heaters import free_heater_row, take_heater_row

QUIET = Watch()


def keep(bench: Bench, name: str = "Left", **more: Any) -> HeaterKept:
    figures = {"kind": "oven", "power_w": 1500.0, "capacity": 4, **more}
    return keep_heater(KeepHeater(name, **figures), bench, QUIET)


def take(bench: Bench, heater: int, heat: int) -> None:
    with bench.kept().writing() as connection:
        take_heater_row(connection, heater, heat)


def test_without_a_store_there_are_those_to_start_from(bench: Bench) -> None:
    assert list_heaters(ListHeaters(), bench, QUIET) == ()
    assert list_circuits(ListCircuits(), bench, QUIET) == ()
    found = heater_named("Small-Oven", bench)
    assert (found.id, found.heater.kind, found.calibrated) == (0, "oven", False)
    with pytest.raises(WrapwrightError, match="no heater called") as missing:
        heater_named("kiln", bench)
    assert (missing.value.kind, missing.value.remedy) == (
        Kind.MISSING,
        "There are small-oven, mug-press, flat-press.",
    )
    assert not bench.kept().exists()


def test_a_heater_kept_and_what_is_found_of_it(bench: Bench) -> None:
    kept = keep(bench)
    assert (kept.name, kept.rated_w, kept.heater.capacity, kept.calibrated) == ("Left", 1500, 4, False)
    assert kept.heater.offset_half_k == 15
    found = put_found(kept.id, {"offset_k": -9.0, "offset_half_k": 2.0, "map": {"top": 4.0}}, bench)
    assert (found.heater.offset_k, found.heater.offset_half_k, found.calibrated) == (-9, 2, True)
    assert found.found["map"] == {"top": 4.0}
    assert heater_named("left", bench) == show_heater(ShowHeater(kept.id), bench, QUIET) == found
    changed = keep(bench, "Left oven", power_w=1600.0, id=kept.id)
    assert (changed.name, changed.rated_w, changed.heater.offset_k) == ("Left oven", 1600, -9)
    other = keep(bench, "Left oven", kind="mug-press", power_w=400.0, id=kept.id)
    assert (other.calibrated, other.heater.offset_k) == (False, 0)
    assert not put_found(kept.id, {}, bench).calibrated


def test_figures_that_cannot_be_leave_nothing(bench: Bench) -> None:
    for change in ({"power_w": 0.0}, {"power_w": -5.0}, {"capacity": 0}, {"kind": "kiln"}, {"more": {"mass": 1}}):
        with pytest.raises(WrapwrightError) as found:
            keep(bench, **change)
        assert found.value.kind is Kind.UNUSABLE
    with pytest.raises(WrapwrightError, match="no circuit with the number 7"):
        keep(bench, circuit=7)
    assert list_heaters(ListHeaters(), bench, QUIET) == ()


def test_while_it_heats_it_stays_as_it_is(bench: Bench) -> None:
    kept = keep(bench)
    take(bench, kept.id, 12)
    assert show_heater(ShowHeater(kept.id), bench, QUIET).busy == 12
    for change in (
        lambda: take(bench, kept.id, 13),
        lambda: keep(bench, power_w=1600.0, id=kept.id),
        lambda: retire_heater(RetireHeater(kept.id), bench, QUIET),
    ):
        with pytest.raises(WrapwrightError, match=r"Left is heating \(heat 12\)") as found:
            change()
        assert found.value.kind is Kind.REFUSED
    put_found(kept.id, {"offset_k": -3.0}, bench)  # what a log tells meanwhile is kept
    with bench.kept().writing() as connection:
        free_heater_row(connection, kept.id, 13)  # another's end does not free it
    assert show_heater(ShowHeater(kept.id), bench, QUIET).busy == 12
    with bench.kept().writing() as connection:
        free_heater_row(connection, kept.id, 12)
    take(bench, kept.id, 14)


def test_one_that_nothing_was_heated_in_is_removed_and_any_other_retired(bench: Bench) -> None:
    from sqlalchemy import insert

    from wrapwright.outside.store.schema import EVIDENCE

    unused, known = keep(bench, "Unused"), keep(bench, "Known")
    with bench.kept().writing() as connection:
        values = {"heater": known.id, "kind": "log", "day": "2026-05-02", "given": {}, "found": {}, "note": ""}
        connection.execute(insert(EVIDENCE).values(**values, added=bench.clock()))
    assert retire_heater(RetireHeater(unused.id), bench, QUIET) == ("Unused", True)
    assert retire_heater(RetireHeater(known.id), bench, QUIET) == ("Known", False)
    assert list_heaters(ListHeaters(), bench, QUIET) == ()
    assert [one.name for one in list_heaters(ListHeaters(retired=True), bench, QUIET)] == ["Known"]
    with pytest.raises(WrapwrightError, match="Known is retired"):
        take(bench, known.id, 1)
    with pytest.raises(WrapwrightError, match="a retired heater called"):
        keep(bench, "known")
    assert not restore_heater(RestoreHeater(known.id), bench, QUIET).retired
    for verb, gone in ((retire_heater, RetireHeater(unused.id)), (restore_heater, RestoreHeater(unused.id))):
        with pytest.raises(WrapwrightError, match="no heater with the number"):
            verb(gone, bench, QUIET)  # type: ignore[operator]


def test_a_circuit_and_what_is_on_it(bench: Bench) -> None:
    circuit = keep_circuit(KeepCircuit("Bench", 120, 15), bench, QUIET)
    assert (circuit.limit_w, circuit.rated_w, circuit.words) == (1800, 0, "")
    oven = keep(bench, "Oven", circuit=circuit.id)
    assert oven.circuit_name == "Bench"
    keep(bench, "Press", kind="mug-press", power_w=400.0, capacity=1, circuit=circuit.id)
    take(bench, oven.id, 1)
    found = circuit_named("bench", bench, QUIET)
    assert (found.heaters, found.rated_w, found.load_w) == (("Oven", "Press"), 1900, 1500)
    assert "100 W above what Bench carries" in found.words
    with pytest.raises(WrapwrightError, match="Oven, Press are on the circuit Bench"):
        remove_circuit(RemoveCircuit(circuit.id), bench, QUIET)
    wider = keep_circuit(KeepCircuit("Bench", 120, 20, circuit.id), bench, QUIET)
    assert (wider.limit_w, wider.words) == (2400, "")


def test_circuits_that_cannot_be(bench: Bench) -> None:
    for volts, amps, where in ((0, 15, "volts"), (120, 0, "amps"), (-120, 15, "volts"), (float("nan"), 15, "volts")):
        with pytest.raises(WrapwrightError) as found:
            keep_circuit(KeepCircuit("Bench", volts, amps), bench, QUIET)
        assert (found.value.kind, found.value.where) == (Kind.UNUSABLE, where)
    keep_circuit(KeepCircuit("Bench", 120, 15), bench, QUIET)
    with pytest.raises(WrapwrightError, match='called "Bench" already'):
        keep_circuit(KeepCircuit("bench", 120, 15), bench, QUIET)
    assert remove_circuit(RemoveCircuit(name="BENCH"), bench, QUIET) == "Bench"
    for ask in (lambda: circuit_named("Bench", bench, QUIET), lambda: remove_circuit(RemoveCircuit(3), bench, QUIET)):
        with pytest.raises(WrapwrightError) as missing:
            ask()
        assert missing.value.kind is Kind.MISSING
