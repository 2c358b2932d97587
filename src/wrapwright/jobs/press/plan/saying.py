"""A heat's plan in sentences, in the order in which they are read."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wrapwright.jobs.press.plan.values import Planned


def words_of(planned: Planned) -> tuple[str, ...]:
    """Return what is said of a plan: what it wants, of what that is made up, how well it is known."""
    from wrapwright.core.press.load.telling import count_words, minutes_words
    from wrapwright.core.press.load.words import (
        ESTIMATE,
        aim_words,
        doubt_words,
        range_words,
        recommended_words,
        wall_words,
        warming_words,
    )

    asked, found = planned.asked, planned.chosen
    heater, load = asked.heater.heater, asked.load
    said = [recommended_words(heater, load, found), warming_words(load, found)]
    if asked.wall_from == "recipe":
        said.append(f"The wall is the recipe's own, {wall_words(load.wall)}: measure yours and give it.")
    if asked.dwell_s is not None:
        dose = planned.band.dose
        said.append(
            f"The {minutes_words(asked.dwell_s)} that you give come to {count_words(dose.mid)} at 195 °C (383 °F), "
            f"between {count_words(dose.low)} and {count_words(dose.high)}."
        )
    part = next((one.part for one in planned.band.shares if one.source == "oven temperature"), None)
    said += [range_words(found, planned.aim), aim_words(planned.aim, asked.recipe.title), doubt_words(heater, part)]
    return (*said, ESTIMATE)
