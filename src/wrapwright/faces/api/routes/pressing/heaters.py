"""Heaters and the circuits they are on."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Annotated, Any

from fastapi import APIRouter
from pydantic import BaseModel, Field

from wrapwright.core.press.recipe.telling import heater_words
from wrapwright.faces.api.asking import LARGEST, QUIET, BenchAsked, Body, Id, Table, Title
from wrapwright.jobs.press.kept.circuits import (
    CircuitKept,
    KeepCircuit,
    ListCircuits,
    RemoveCircuit,
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
    keep_heater,
    list_heaters,
    restore_heater,
    retire_heater,
    show_heater,
)

router = APIRouter(tags=["heaters"])

Figure = Annotated[float, Field(allow_inf_nan=False, ge=-(10**9), le=10**9)]
Number = Annotated[int, Field(ge=0, le=LARGEST)]


class HeaterTold(BaseModel):
    """A heater: its figures, where they come from, its circuit, and what runs in it."""

    id: int
    name: str
    kind: str
    capacity: int
    rated_w: float
    circuit: int
    circuit_name: str
    busy: int
    retired: bool
    calibrated: bool
    offset_k: float
    offset_half_k: float
    given: Mapping[str, Any]
    words: list[tuple[str, str]]
    changed: datetime | None


class HeaterBody(Body):
    """A heater: rated power in W, pieces that it holds, its circuit (0: none), and further figures that are known."""

    name: Title
    kind: Annotated[str, Field(max_length=40)]
    power_w: Figure
    capacity: Annotated[int, Field(ge=-(10**6), le=10**6)] = 1
    circuit: Number = 0
    more: Table = Field(default_factory=dict)


class CircuitBody(Body):
    """A circuit: its voltage, and what its breaker carries in amperes."""

    name: Title
    volts: Figure
    amps: Figure


class Gone(BaseModel):
    """What became of a heater that is no longer offered."""

    name: str
    removed: bool


@router.get("/press/heaters")
def heaters(bench: BenchAsked, *, retired: bool = False) -> list[HeaterTold]:
    """Return the heaters, by name; with `retired` those too that are no longer offered."""
    return [told_heater(one) for one in list_heaters(ListHeaters(retired), bench, QUIET)]


@router.post("/press/heaters", status_code=201)
def new_heater(body: HeaterBody, bench: BenchAsked) -> HeaterTold:
    """Return the heater kept; what is not given is an estimate until it is calibrated."""
    return told_heater(keep_heater(_asked(body), bench, QUIET))


@router.get("/press/heaters/{number}")
def heater(number: Id, bench: BenchAsked) -> HeaterTold:
    """Return one heater."""
    return told_heater(show_heater(ShowHeater(number), bench, QUIET))


@router.put("/press/heaters/{number}")
def other_heater(number: Id, body: HeaterBody, bench: BenchAsked) -> HeaterTold:
    """Return the heater as changed; 409 while it is heating."""
    return told_heater(keep_heater(_asked(body, number), bench, QUIET))


@router.post("/press/heaters/{number}/retire")
def no_heater(number: Id, bench: BenchAsked) -> Gone:
    """Offer a heater no longer; one that nothing was ever heated in is removed."""
    name, removed = retire_heater(RetireHeater(number), bench, QUIET)
    return Gone(name=name, removed=removed)


@router.post("/press/heaters/{number}/restore")
def restored_heater(number: Id, bench: BenchAsked) -> HeaterTold:
    """Return the heater, which is offered again."""
    return told_heater(restore_heater(RestoreHeater(number), bench, QUIET))


@router.get("/press/circuits")
def circuits(bench: BenchAsked) -> tuple[CircuitKept, ...]:
    """Return the circuits with their load, by name."""
    return list_circuits(ListCircuits(), bench, QUIET)


@router.post("/press/circuits", status_code=201)
def new_circuit(body: CircuitBody, bench: BenchAsked) -> CircuitKept:
    """Return the circuit kept."""
    return keep_circuit(KeepCircuit(body.name, body.volts, body.amps), bench, QUIET)


@router.put("/press/circuits/{number}")
def other_circuit(number: Id, body: CircuitBody, bench: BenchAsked) -> CircuitKept:
    """Return the circuit as changed."""
    return keep_circuit(KeepCircuit(body.name, body.volts, body.amps, number), bench, QUIET)


@router.delete("/press/circuits/{number}", status_code=204)
def no_circuit(number: Id, bench: BenchAsked) -> None:
    """Remove a circuit; 409 while a heater is on it."""
    remove_circuit(RemoveCircuit(number), bench, QUIET)


def told_heater(kept: HeaterKept) -> HeaterTold:
    """Return a heater as the browser is told it."""
    return HeaterTold(
        id=kept.id,
        name=kept.name,
        kind=kept.heater.kind,
        capacity=kept.heater.capacity,
        rated_w=kept.rated_w,
        circuit=kept.circuit,
        circuit_name=kept.circuit_name,
        busy=kept.busy,
        retired=kept.retired,
        calibrated=kept.calibrated,
        offset_k=kept.heater.offset_k,
        offset_half_k=kept.heater.offset_half_k,
        given=kept.given,
        words=list(heater_words(kept.heater)),
        changed=kept.changed,
    )


def _asked(body: HeaterBody, own: int = 0) -> KeepHeater:
    return KeepHeater(body.name, body.kind, body.power_w, body.capacity, body.circuit, body.more, own)
