"""What was found in a log, in sentences."""

from __future__ import annotations

from wrapwright.core.base.heat_words import celsius_words, shift_words, step_words
from wrapwright.core.press.fit.values import SENSOR_HALF_K, TITLES, UNITS, Asked, Estimate, Fitted

HANGS = 3.0

_FORMS = {
    "approach": "The air nears its level gradually; wall and air were fitted as one.",
    "full-power": "The air rises at full power and is then held; the heater's power and loss were taken as given.",
    "measured-air": "The air goes its own way, so the wall was fitted in the air as it was measured.",
    "steady-air": "The air is taken as level while the wall heats up.",
    "two-constants": "The wall shows two time constants.",
}


def estimate_words(one: Estimate) -> str:
    """Return a figure with its interval, for example `Time constant of the wall: 96.2 s, 95 % interval 95 to 97 s`.

    Temperatures and differences of temperatures stand in both scales.
    """
    both = {"offset": shift_words, "level": celsius_words}.get(one.name)
    if both is not None:
        return f"{TITLES[one.name]}: {both(one.value)}, 95 % interval {both(one.low)} to {both(one.high)}."
    unit = UNITS[one.name].replace("m2", "m²")
    return f"{TITLES[one.name]}: {one.value:.1f} {unit}, 95 % interval {one.low:.1f} to {one.high:.1f} {unit}."


def words_of(fitted: Fitted, asked: Asked, *, difference: float | None, together: float) -> tuple[str, ...]:
    """Return the sentences of a fit beside its figures: how it was done, and what to mind."""
    said = [_FORMS[fitted.form]]
    if fitted.drawn.air_c and not fitted.drawn.wall_c:
        said = [said[0].replace("; wall and air were fitted as one", "")]
    if not fitted.drawn.air_c and fitted.form == "steady-air":
        said.append("The air was not logged: this holds if the oven was level when the blank went in.")
    if difference is not None:
        word = "above" if difference > 0 else "below"
        said.append(
            f"The wall's sensor settles {step_words(abs(difference))} {word} the air's; that much is between the two."
        )
    if together > HANGS:
        said.append(
            f"The residuals hang together, about {together:.0f} in a row: oven or wall do more than the model, "
            "and the intervals were widened for it."
        )
    if fitted.told("offset") is not None:
        said.append(_sensor_words(asked))
    if fitted.film_with_wall is not None:
        low, high = fitted.film_with_wall
        said.append(
            f"With the doubt of the wall's thickness and material the film lies between {low:.0f} and {high:.0f} W/m²K."
        )
    if fitted.told("oven-time-constant") is not None and fitted.drawn.wall_c:
        said.append("What the oven itself takes up is told by a log of the empty oven.")
    return tuple(said)


def _sensor_words(asked: Asked) -> str:
    if asked.reference is None:
        return (
            "The offset is that of the oven and the sensor together; without a reference reading they cannot be told "
            f"apart, and {step_words(SENSOR_HALF_K)} are let in for the sensor (IEC 60584-1, type K, class 2)."
        )
    shown = asked.reference.shown_c - asked.reference.true_c
    return (
        f"At {celsius_words(asked.reference.true_c)} the sensor shows {shift_words(shown)}; that was taken off, "
        "as if it were the same at the oven's temperature."
    )
