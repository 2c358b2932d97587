"""What a log shows and what is found in it: values that everything about fitting shares."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from wrapwright.core.press.values import Cover, Heater, Wall

Name = Literal["wall-time-constant", "film", "oven-time-constant", "offset", "level"]
Form = Literal["approach", "full-power", "measured-air", "steady-air", "two-constants"]

# IEC 60584-1:2013, class 2, type K: 2.5 K up to 333 degrees C.
SENSOR_HALF_K = 2.5

TITLES: dict[Name, str] = {
    "wall-time-constant": "Time constant of the wall",
    "film": "Film coefficient",
    "oven-time-constant": "Time constant of the oven",
    "offset": "Offset of the oven",
    "level": "Level of the air",
}
UNITS: dict[Name, str] = {
    "wall-time-constant": "s",
    "film": "W/m2K",
    "oven-time-constant": "s",
    "offset": "K",
    "level": "C",
}


@dataclass(frozen=True)
class Series:
    """A log: times in s that never run back, temperatures in degrees C, NaN where one is missing.

    Attributes:
        times_s: of every row.
        air_c: of the oven's air; empty when the log has none.
        wall_c: of the blank's wall; empty when the log has none.
    """

    times_s: tuple[float, ...]
    air_c: tuple[float, ...] = ()
    wall_c: tuple[float, ...] = ()


@dataclass(frozen=True)
class Reference:
    """A sensor held against something whose temperature is known, both in degrees C: ice water, boiling water.

    Attributes:
        true_c: what it is.
        shown_c: what the sensor said.
        half_k: half-width of how well both are known.
    """

    true_c: float
    shown_c: float
    half_k: float = 0.5


@dataclass(frozen=True)
class Asked:
    """What is known beside the log.

    Attributes:
        set_c: what the oven was set to; None: not known, and then no offset is found.
        wall: of the blank that was logged; None: no film coefficient is found.
        covers: that it wore.
        heater: whose power and loss are held, where the air rises at full power.
        room_c: round the oven.
        reference: for the sensor's own offset.
        from_s, to_s: the part of the log to look at; None: it is found.
    """

    set_c: float | None = None
    wall: Wall | None = None
    covers: tuple[Cover, ...] = ()
    heater: Heater | None = None
    room_c: float = 25.0
    reference: Reference | None = None
    from_s: float | None = None
    to_s: float | None = None


@dataclass(frozen=True)
class Estimate:
    """A figure that the log tells, with its 95 % interval; `name` says what, UNITS in what."""

    name: Name
    value: float
    low: float
    high: float

    @property
    def half(self) -> float:
        """Half the interval's width."""
        return (self.high - self.low) / 2.0


@dataclass(frozen=True)
class Untold:
    """A figure that the log cannot tell, and why."""

    name: Name
    why: str


@dataclass(frozen=True)
class Drawn:
    """The rows that were used with what was fitted to them: times in s, temperatures in degrees C."""

    times_s: tuple[float, ...]
    air_c: tuple[float, ...] = ()
    air_fit_c: tuple[float, ...] = ()
    wall_c: tuple[float, ...] = ()
    wall_fit_c: tuple[float, ...] = ()


@dataclass(frozen=True)
class Fitted:
    """What was found in a log.

    Attributes:
        estimates: what the log tells.
        untold: what it cannot tell, by name.
        form: how the air was taken: an approach to its level, full power and then held, as measured, or steady.
        drawn: the rows used and their fit.
        rows: how many were used.
        from_s, to_s: the part of the log that was used.
        noise_k: standard deviation of the residuals of air and wall; None where there is no such column.
        sensor_k: what the sensor shows too much, with its half-width; None without a reference reading.
        film_with_wall: the film coefficient's range when the wall's own doubt is let in too.
        words: sentences about it.
    """

    estimates: tuple[Estimate, ...]
    untold: tuple[Untold, ...]
    form: Form
    drawn: Drawn
    rows: int
    from_s: float
    to_s: float
    noise_k: tuple[float | None, float | None]
    sensor_k: tuple[float, float] | None = None
    film_with_wall: tuple[float, float] | None = None
    words: tuple[str, ...] = field(default=())

    def told(self, name: Name) -> Estimate | None:
        """Return an estimate by its name, or None."""
        return next((one for one in self.estimates if one.name == name), None)


@dataclass(frozen=True)
class Found:
    """What one piece of evidence says of a heater; None where it says nothing.

    Attributes:
        offset_k: true temperature less what is set.
        offset_half_k: half-width of that, 95 %, the sensor's own doubt in it.
        film: low, middle and high of the film coefficient, W/m2K.
        own_j_k: heat that the oven itself takes up per kelvin.
        source: words.
    """

    offset_k: float | None = None
    offset_half_k: float | None = None
    film: tuple[float, float, float] | None = None
    own_j_k: float | None = None
    source: str = ""
