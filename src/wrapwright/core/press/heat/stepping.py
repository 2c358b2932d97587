"""Heater and pieces through time: implicit steps, all cases at once, with every joule accounted for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.heat.films import passing
from wrapwright.core.press.heat.walls import Body, shares

Floats = NDArray[np.float64]
INNER_S = 2.0  # the thermostat and the door are looked at this often
HALVINGS = 8


@dataclass(frozen=True)
class Machine:
    """A heater in k cases; temperatures in kelvin above the room.

    Attributes:
        power_w, loss_w_k, own_j_k, door_w_k, band_k: as of `Heater`.
        goal_k: (k,), the middle of the thermostat's band.
        start_k: (k,), of the heater at the start.
        pieces: (k,), that share it.
        open_times: when the door is open, from and to, in seconds.
        switching: whether the thermostat is all on below its band and all off above, as it is in truth; else it is on
            for a share of every step that falls from all to none across the band: the average over many heats, in
            which it stands anywhere in its cycle when the pieces go in.
    """

    power_w: float
    loss_w_k: float
    own_j_k: float
    door_w_k: float
    band_k: float
    goal_k: Floats
    start_k: Floats
    pieces: Floats
    open_times: tuple[tuple[float, float], ...] = ()
    switching: bool = False


@dataclass(frozen=True)
class Seen:
    """What was seen at m moments, (k, m), in kelvin above the room, and the balance, (k,), in joules."""

    air_k: Floats
    wall_k: Floats
    coating_k: Floats
    heater_j: Floats
    lost_j: Floats
    stored_j: Floats


def stepped(machine: Machine, body: Body, *, step_s: float, inner: int, moments: int) -> Seen:
    """Return what heater and pieces do over `moments` times `inner` steps.

    Each case is a state (air, layers, joules lost) that obeys one set of linear equations during a step. Thermostat
    and radiation are looked at once a step.
    """
    cases, layers = body.stored_j_k.shape
    advance = {is_open: _advance(machine, body, step_s, is_open=is_open) for is_open in (False, True)}
    parts = shares(layers)
    besides = _radiating(machine, body, step_s) if body.face.radiant else None
    state = np.zeros((cases, layers + 2))
    state[:, 0] = machine.start_k
    seen = np.empty((3, moments + 1, cases))
    _look(seen[:, 0], state, parts)
    asks = _switch(machine) if machine.switching else _average(machine, step_s)
    on_steps = np.zeros(cases)
    for number in range(moments * inner):
        on = asks(state[:, 0])
        on_steps += on
        more = None if besides is None else besides(state)
        share = _open_share(machine, number * step_s, step_s)
        if share in (0.0, 1.0):
            state = _on(advance[share > 0], state, on, more)
        else:  # door and wall are slow against a step: so much of it open, so much closed
            state = share * _on(advance[True], state, on, more) + (1.0 - share) * _on(advance[False], state, on, more)
        if (number + 1) % inner == 0:
            _look(seen[:, (number + 1) // inner], state, parts)
    held = machine.own_j_k * (state[:, 0] - machine.start_k)
    held += machine.pieces * np.sum(body.stored_j_k * state[:, 1:-1], axis=1)
    air_k, wall_k, coating_k = (np.ascontiguousarray(one.T) for one in seen)
    return Seen(air_k, wall_k, coating_k, machine.power_w * step_s * on_steps, state[:, -1], held)


def _look(seen: Floats, state: Floats, parts: Floats) -> None:
    seen[0] = state[:, 0]
    seen[1] = state[:, 1:-1] @ parts
    seen[2] = state[:, 1]


def _switch(machine: Machine) -> Callable[[Floats], Floats]:
    """Return what tells of air temperatures whether the heater is on, 1 or 0, and remembers it for the next."""
    low, high = machine.goal_k - machine.band_k / 2.0, machine.goal_k + machine.band_k / 2.0
    on = (machine.start_k < machine.goal_k).astype(np.float64)

    def asks(air_k: Floats) -> Floats:
        on[:] = np.where(on > 0, air_k <= high, air_k < low)
        return on

    return asks


def _average(machine: Machine, step_s: float) -> Callable[[Floats], Floats]:
    """Return what tells of air temperatures for which share of the step the heater is on."""
    wide = max(machine.band_k, 2.0 * machine.power_w * step_s / machine.own_j_k)  # a narrower one would swing
    high = machine.goal_k + wide / 2.0

    def asks(air_k: Floats) -> Floats:
        return np.clip((high - air_k) / wide, 0.0, 1.0)

    return asks


def _radiating(machine: Machine, body: Body, step_s: float) -> Callable[[Floats], Floats]:
    """Return what tells of a state how many watts a piece gets besides what its usual conductance lets pass.

    Taken for the middle of the step ahead, straight on from the last one (Adams and Bashforth). A wall that is so thin
    that a step changes it much gets less of it, so that it never overshoots.
    """
    last: list[Floats] = []
    usual, anchor = body.face.usual(), body.face.anchor()
    quick = step_s * body.area_m2 / body.stored_j_k[:, 0]

    def besides(state: Floats) -> Floats:
        air, coating = state[:, 0], state[:, 1]
        more = passing(body.face, usual, anchor, air, coating) - usual
        watts: Floats = more * body.area_m2 * (air - coating) / np.maximum(1.0, 2.0 * np.abs(more) * quick)
        ahead = watts if not last else 1.5 * watts - 0.5 * last.pop()
        last.append(watts)
        return ahead

    return besides


def _open_share(machine: Machine, from_s: float, step_s: float) -> float:
    """Return which share of a step the door is open."""
    spans = (min(end, from_s + step_s) - max(begin, from_s) for begin, end in machine.open_times)
    return min(1.0, sum(max(0.0, span) for span in spans) / step_s)


def _on(advance: tuple[Floats, Floats, Floats], state: Floats, on: Floats, more: Floats | None) -> Floats:
    """Return the state one step on."""
    matrix, heated, radiated = advance
    ahead: Floats = np.matmul(matrix, state[:, :, None])[:, :, 0] + heated * on[:, None]
    return ahead if more is None else ahead + radiated * more[:, None]


def _advance(machine: Machine, body: Body, step_s: float, *, is_open: bool) -> tuple[Floats, Floats, Floats]:
    """Return what one step does: (k, n, n) that the state is multiplied with, and twice (k, n) that is added.

    What the heater adds that is on all through it, and what one watt more from the air to each piece does.
    """
    rates = _rates(machine, body, machine.loss_w_k + (machine.door_w_k if is_open else 0.0))
    whole = implicit_step(rates, step_s)
    return whole[:, :-2, :-2].copy(), whole[:, :-2, -2].copy(), whole[:, :-2, -1].copy()


def implicit_step(rates: Floats, step_s: float) -> Floats:
    """Return the matrices (k, n, n) that take the state of x' = A x one step on.

    Euler's implicit step, (1 - sA)^-1, over 1/256 of it, then squared eight times: no temperature ever leaves the range
    of those around it, however long the step, and what it is out by is some thousandths of a kelvin.
    """
    whole: Floats = np.linalg.inv(np.eye(rates.shape[-1]) - rates * (step_s / 2**HALVINGS))
    for _ in range(HALVINGS):
        whole = whole @ whole
    return whole


def _rates(machine: Machine, body: Body, loss_w_k: float) -> Floats:
    """Return A of x' = A x for x = (air, layers, joules lost, whether the heater is on, watts more to a piece)."""
    cases, layers = body.stored_j_k.shape
    last = layers  # index of the back layer
    lost, switch, more = layers + 1, layers + 2, layers + 3
    rates = np.zeros((cases, layers + 4, layers + 4))
    rates[:, 0, 0] -= loss_w_k / machine.own_j_k
    rates[:, lost, 0] += loss_w_k
    rates[:, 0, switch] = machine.power_w / machine.own_j_k
    rates[:, 0, more] -= machine.pieces / machine.own_j_k
    rates[:, 1, more] += 1.0 / body.stored_j_k[:, 0]
    _join(rates, 0, 1, body.face_w_k, machine.pieces / machine.own_j_k, 1.0 / body.stored_j_k[:, 0])
    for layer in range(1, last):
        here, there = 1.0 / body.stored_j_k[:, layer - 1], 1.0 / body.stored_j_k[:, layer]
        _join(rates, layer, layer + 1, body.between_w_k, here, there)
    if body.back_to_room:
        rates[:, last, last] -= body.back_w_k / body.stored_j_k[:, -1]
        rates[:, lost, last] += machine.pieces * body.back_w_k
    else:
        _join(rates, 0, last, body.back_w_k, machine.pieces / machine.own_j_k, 1.0 / body.stored_j_k[:, -1])
    return rates


def _join(rates: Floats, one: int, other: int, passes: Floats, here: Floats, there: Floats) -> None:
    """Let heat pass between two of the state's temperatures; `here` and `there`: kelvin per joule of each."""
    rates[:, one, one] -= passes * here
    rates[:, one, other] += passes * here
    rates[:, other, other] -= passes * there
    rates[:, other, one] += passes * there
