"""How heater and wall warm up together, for one case or many at once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.heat.films import Face, cover_resistance
from wrapwright.core.press.heat.refusals import refuse_heat, refuse_time
from wrapwright.core.press.heat.stepping import INNER_S, Machine, stepped
from wrapwright.core.press.heat.walls import Body, body, layers_for
from wrapwright.core.press.values import Heater, Load

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Cases:
    """What differs between cases of one load; arrays of shape (k,), None: as the heater and the load say.

    Attributes:
        film: surface coefficient, W/m2K.
        offset_k: true temperature less what is set.
        thickness: of the wall, as a factor of the one given.
        cover: where each cover's conductivity lies in its range: -1 low, 0 mid, 1 high.
        back: coefficient at the back of a single wall, W/m2K: in an oven towards its air, in a press towards the room.
            None: nothing passes there, which is the default and an estimate (see `warm_up`).
        pieces: how many go in together; need not be whole here.
    """

    film: Floats | None = None
    offset_k: Floats | None = None
    thickness: Floats | None = None
    cover: Floats | None = None
    back: Floats | None = None
    pieces: Floats | None = None


@dataclass(frozen=True)
class Warming:
    """What k cases did at m moments.

    Attributes:
        times_s: (m,), from when the pieces went in.
        air_c: (k, m), of the oven's air, or of a press's element.
        wall_c: (k, m), mean of the wall.
        coating_c: (k, m), of the heated face.
        heater_j: (k,), electricity that the heater took.
        lost_j: (k,), what went to the room.
        stored_j: (k,), what heater and pieces hold more than at the start.
        one_dimensional: whether the wall was reckoned in layers: where its Biot number, with the highest film that the
            heater may have, is over LUMPED_UP_TO, so that all cases of one load are reckoned alike.
    """

    times_s: Floats
    air_c: Floats
    wall_c: Floats
    coating_c: Floats
    heater_j: Floats
    lost_j: Floats
    stored_j: Floats
    one_dimensional: bool = field(default=False)


def warm_up(
    heater: Heater,
    load: Load,
    *,
    until_s: float,
    step_s: float = 1.0,
    cases: Cases | None = None,
    switching: bool = False,
) -> Warming:
    """Return how heater and wall warm up from when the pieces went in, every `step_s` or a little oftener.

    Heater: one heat capacity (air, liner, racks; a press: its element) that a thermostat keeps in its band with what
    power there is, that loses to the room, loses more while the door is open, and gives to all pieces alike. Wall: one
    temperature while its Biot number is at most 0.1, else layers of one dimension. Between them surface coefficient
    and covers in series. Pieces and room start at the same temperature.

    The film's radiant share follows the temperatures (Stefan-Boltzmann, oven walls as hot as the air); the film is
    what it is on average of a heat-up, so that a time constant found from a log gives it.

    Estimates, not measured truth: that one temperature stands for all the air; that the covers themselves hold no
    heat (0.13 mm of paper holds 6 % of what 0.5 mm of steel does); that a curved wall counts as a flat one; that base
    and handle warm with the wall; and that nothing passes the wall's back. The last is so for the outer shell of
    double-walled ware. Inside an open vessel the air hardly moves and warms with the wall; where the mouth faces hot
    air or element, the wall is a little quicker than reckoned here, and `Cases.back` can say so. In a press the
    inside loses to the room: the wall then stays a little cooler.

    Args:
        heater: what heats.
        load: what is heated.
        until_s: length of the time that is looked at.
        step_s: at most between two moments; inside, steps are never longer than 2 s.
        cases: what differs between cases; None is one case, everything in the middle.
        switching: whether the thermostat is seen to switch; else it gives what it gives on average of many heats.

    Raises:
        WrapwrightError: unusable: figures that no heater, wall or load can have, one sentence each.
    """
    refuse_heat(heater, load)
    refuse_time(until_s, step_s)
    given = cases or Cases()
    count = _count(given)
    machine = replace(_machine(heater, load, given, count), switching=switching)
    wall = _body(heater, load, given, machine.goal_k)
    moments = max(1, math.ceil(until_s / step_s - 1e-9))
    inner = max(1, math.ceil(until_s / moments / INNER_S - 1e-9))
    seen = stepped(machine, wall, step_s=until_s / moments / inner, inner=inner, moments=moments)
    room = load.room_c
    return Warming(
        np.linspace(0.0, until_s, moments + 1),
        seen.air_k + room,
        seen.wall_k + room,
        seen.coating_k + room,
        seen.heater_j,
        seen.lost_j,
        seen.stored_j,
        wall.layers > 1,
    )


def _count(cases: Cases) -> int:
    given = (cases.film, cases.offset_k, cases.thickness, cases.cover, cases.back, cases.pieces)
    lengths: set[int] = {len(one) for one in given if one is not None}
    if len(lengths) > 1:
        raise ValueError(f"cases of different numbers: {sorted(lengths)}.")
    return lengths.pop() if lengths else 1


def _each(given: Floats | None, usual: float, count: int) -> Floats:
    return np.full(count, usual) if given is None else np.asarray(given, dtype=np.float64)


def _machine(heater: Heater, load: Load, cases: Cases, count: int) -> Machine:
    """Return the heater's part of every case."""
    goal = np.maximum(load.set_c + _each(cases.offset_k, heater.offset_k, count) - load.room_c, 0.0)
    open_times: Sequence[tuple[float, float]] = [(0.0, load.door_s)] if load.preheated else []
    open_times = [*open_times, *((one.at_s, one.at_s + one.for_s) for one in load.openings)]
    return Machine(
        power_w=heater.power_w,
        loss_w_k=heater.loss_w_k,
        own_j_k=heater.own_j_k,
        door_w_k=heater.door_w_k if heater.kind == "oven" else 0.0,
        band_k=heater.band_k,
        goal_k=goal,
        start_k=goal if load.preheated else np.zeros(count),
        pieces=_each(cases.pieces, float(load.pieces), count),
        open_times=tuple(open_times),
    )


def _body(heater: Heater, load: Load, cases: Cases, goal_k: Floats) -> Body:
    """Return one piece's part of every case."""
    count = len(goal_k)
    face = Face(
        _each(cases.film, heater.film.mid, count),
        cover_resistance(load.covers, _each(cases.cover, 0.0, count)),
        heater.radiant,
        goal_k,
        load.room_c,
    )
    back = _each(None if load.wall.double else cases.back, 0.0, count)
    factor = _each(cases.thickness, 1.0, count)
    layers = layers_for(load.wall, _quickest(heater, load, face), float(factor.max()))
    return body(load.wall, face, factor, back, back_to_room=heater.kind != "oven", layers=layers)


def _quickest(heater: Heater, load: Load, face: Face) -> float:
    """Return the most that may pass to the coating, W/m2K, of what the cases and the heater's own range hold."""
    film = max(heater.film.high, float(face.film.max()))
    return 1.0 / (1.0 / film + float(cover_resistance(load.covers, 1.0)))
