"""A heat's plan as plain values, for documents: temperatures in both scales, times in seconds."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.units import to_fahrenheit, to_fahrenheit_step

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wrapwright.core.press.load.values import Recommended, Shift, Span
    from wrapwright.core.press.values import Curve, Dose, Window
    from wrapwright.jobs.press.plan.values import Asked, Planned

_POINTS = 120  # of a curve in a document


def plan_statement(planned: Planned) -> dict[str, Any]:
    """Return the plan of one load; a time past an hour, and a bound that is not known yet, is null."""
    from wrapwright.core.base.findings import finding_row

    aim, band = planned.aim, planned.band
    return {
        **load_statement(planned.asked),
        "dwell_s": seconds(planned.dwell_s),
        "dwell_given": planned.asked.dwell_s is not None,
        "recommended": recommended_statement(planned.chosen),
        "rows": [recommended_statement(one) for one in planned.rows],
        "dose": dose_statement(band.dose),
        "aim": {
            "low": dose(aim.low),
            "mid": dose(aim.mid),
            "high": dose(aim.high),
            "source": aim.source,
            **_bounds(aim.window),
        },
        "doubts": [
            {"source": one.source, "part": round(one.part, 3), "low": dose(one.low), "high": dose(one.high)}
            for one in band.shares
        ],
        "sensitivity": [shift_statement(one) for one in planned.shifts],
        "curves": {name: _curve(getattr(band, name)) for name in ("air", "wall", "coating")},
        "findings": [finding_row(one) for one in planned.findings],
        "words": list(planned.words),
    }


def load_statement(asked: Asked) -> dict[str, Any]:
    """Return what goes into which heater by which recipe."""
    recipe, load, heater = asked.recipe, asked.load, asked.heater
    return {
        "recipe": recipe_statement(recipe),
        "heater": {
            "id": heater.id,
            "name": heater.name,
            "kind": heater.heater.kind,
            "capacity": asked.capacity,
            "power_w": round(heater.heater.power_w, 1),
            "calibrated": heater.calibrated,
            "offset_c": degrees(heater.heater.offset_k),
            "offset_f": degrees(to_fahrenheit_step(heater.heater.offset_k)),
            "offset_half_c": degrees(heater.heater.offset_half_k),
            "offset_half_f": degrees(to_fahrenheit_step(heater.heater.offset_half_k)),
        },
        "wall": {
            "material": load.wall.material.name,
            "thickness_mm": round(load.wall.thickness_mm, 6),
            "double": load.wall.double,
            "from": asked.wall_from,
        },
        "pieces": load.pieces,
        "set_c": degrees(load.set_c),
        "set_f": degrees(to_fahrenheit(load.set_c)),
    }


def recipe_statement(recipe: Any) -> dict[str, Any]:
    """Return a recipe's name, version, ranges and source."""
    return {
        "name": recipe.name,
        "version": recipe.version,
        "celsius": [degrees(one) for one in recipe.celsius],
        "fahrenheit": [degrees(to_fahrenheit(one)) for one in recipe.celsius],
        "seconds": [seconds(one) for one in recipe.seconds],
        "source": recipe.source,
    }


def recommended_statement(row: Recommended) -> dict[str, Any]:
    """Return how long so many pieces want."""
    return {
        "pieces": row.pieces,
        "dwell_s": span_statement(row.dwell_s),
        "range_s": [seconds(one) for one in row.range_s],
        "to_temperature_s": seconds(row.to_temperature_s),
        "dose": dose_statement(row.dose),
    }


def span_statement(span: Span) -> dict[str, float | None]:
    """Return a time with its doubt."""
    return {"low": seconds(span.low), "mid": seconds(span.mid), "high": seconds(span.high)}


def dose_statement(found: Dose) -> dict[str, float]:
    """Return a dose with its band, equivalent minutes."""
    return {"low": dose(found.low), "mid": dose(found.mid), "high": dose(found.high)}


def shift_statement(shift: Shift) -> dict[str, Any]:
    """Return what a change does, in figures and words."""
    from wrapwright.core.press.load.words import change_words, effect_words

    return {
        "change": shift.change,
        "words": f"{change_words(shift)}: {effect_words(shift)}",
        "dose": dose(shift.dose),
        "share": round(shift.share, 3),
        "dwell_s": seconds(shift.dwell_s),
    }


def seconds(value: float) -> float | None:
    """Return a time to the second, None past an hour's reckoning."""
    return round(value) + 0.0 if math.isfinite(value) else None


def degrees(value: float) -> float:
    """Return a temperature to a tenth of a degree."""
    return round(value, 1) + 0.0


def dose(value: float) -> float:
    """Return equivalent minutes to three figures."""
    return float(f"{value:.3g}")


def _bounds(window: Window) -> dict[str, Any]:
    def both(ends: tuple[float, float] | None) -> list[float] | None:
        return None if ends is None else [dose(one) for one in ends]

    return {"complete_from": both(window.low), "blurs_from": both(window.high)}


def _curve(curve: Curve) -> dict[str, list[float]]:
    at = _chosen(len(curve.times_s))
    rows: dict[str, Sequence[float]] = {"mid_c": curve.mid_c, "low_c": curve.low_c, "high_c": curve.high_c}
    told = {name: [degrees(row[one]) for one in at] for name, row in rows.items() if row}
    return {"times_s": [round(curve.times_s[one], 1) for one in at], **told}


def _chosen(count: int) -> list[int]:
    step = max(1, math.ceil(count / _POINTS))
    return sorted({*range(0, count, step), count - 1})
