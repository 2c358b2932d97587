"""A small oven and a coupon of half a millimetre of steel."""

from __future__ import annotations

from wrapwright.core.press.heat.known import cover_named, material_named
from wrapwright.core.press.recipe.heater import starter_of
from wrapwright.core.press.trial.reckoning import Bed
from wrapwright.core.press.values import Wall


def oven_bed() -> Bed:
    return Bed(starter_of("oven"), Wall(material_named("steel"), 0.5, 0.0025), (cover_named("paper"),))
