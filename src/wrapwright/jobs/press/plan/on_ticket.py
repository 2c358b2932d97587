"""A job's heat as the ticket tells it and as the report states it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.findings import Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wrapwright.jobs.press.plan.for_job import JobHeat
    from wrapwright.jobs.press.plan.values import Planned
    from wrapwright.outside.documents.facts import HeatFacts

_HARM = ("heat-maker", "heat-vacuum")  # told on paper even when it only may be so
_KINDS = {"oven": "an oven", "mug-press": "a mug press", "flat-press": "a flat press"}


def heat_facts(heat: JobHeat | None, planned: Planned | None) -> HeatFacts | None:
    """Return what the ticket's step says: the estimate for this wall and load, or which reading is missing for one."""
    from wrapwright.outside.documents.facts import HeatFacts

    if heat is None:
        return None
    missing = " and ".join(heat.missing)
    said = (f"No estimate for this piece: {missing} is missing (under [press] of the job).",) if missing else ()
    findings = (heat if planned is None else planned).findings
    against = _against(findings)
    stop = next((one for one in findings if one.severity is Severity.ERROR), None)
    if stop is not None:
        return HeatFacts(_not_so(stop, heat.set_c), lines=said, cautions=against)
    if planned is None:
        return HeatFacts(lines=said, cautions=against)
    return HeatFacts(_figure(planned), _rows(planned), _lines(planned), against)


def _not_so(stop: Finding, set_c: float) -> str:
    """Return in place of what to set that it must not be set so."""
    from wrapwright.core.base.heat_words import celsius_words

    return "Not for so long" if stop.rule in ("heat-long", "heat-dwell") else f"Not at {celsius_words(set_c)}"


def _against(findings: Sequence[Finding]) -> tuple[tuple[str, bool], ...]:
    """Return what speaks against heating so, as cautions: what stops it, and what may do harm."""
    told = (one for one in findings if one.severity is Severity.ERROR or one.rule in _HARM)
    return tuple((one.message, one.severity is Severity.ERROR) for one in told)


def _figure(planned: Planned) -> str:
    from wrapwright.core.base.heat_words import celsius_words
    from wrapwright.core.press.load.telling import minutes, rounded_s, span_words

    dwell, set_c = planned.chosen.dwell_s, planned.asked.load.set_c
    if not math.isfinite(dwell.mid):
        return f"{celsius_words(set_c)}: not within an hour"
    span = span_words(dwell.low, dwell.high)
    about = f"{rounded_s(dwell.mid):.0f} s" if span.endswith(" s") else f"{minutes(dwell.mid)} min"
    return f"{celsius_words(set_c)}, about {about} ({span})"


def _rows(planned: Planned) -> tuple[tuple[str, str], ...]:
    from wrapwright.core.press.load.telling import minutes, minutes_words, pieces_words, span_words
    from wrapwright.core.press.load.words import wall_words

    load, found, kept = planned.asked.load, planned.chosen, planned.asked.heater
    where = f'"{kept.name[:40]}"' if kept.id else f"{_KINDS[kept.heater.kind]} (usual figures)"
    about = f"{pieces_words(load.pieces)}, {wall_words(load.wall)}, in {where}."
    span = found.dwell_s
    if not math.isfinite(span.mid):
        return (("Load", about), ("Estimate", "Heat fewer together."))
    closing = "the door of the hot oven" if kept.heater.kind == "oven" else "the hot press"
    closing = closing if load.preheated else closing.replace("hot", "cold")
    since = f"From closing {closing}"
    if span_words(span.low, span.high).endswith(" s"):  # the line above is in seconds
        since = f"{minutes(span.mid)} min ({minutes(span.low)}–{minutes(span.high)}) from closing {closing}"
    warm = f"At temperature after {minutes_words(found.to_temperature_s)}."
    if not math.isfinite(found.to_temperature_s) or found.to_temperature_s > span.high:
        warm = "Still warming up at its end."
    return (("Load", about), ("Estimate", f"{since}; nine cases in ten lie in the band. {warm}"))


def _lines(planned: Planned) -> tuple[str, ...]:
    from wrapwright.core.press.load.words import doubt_words

    return ("An estimate, never a promise: try one piece first.", doubt_words(planned.asked.heater.heater))


def heat_part(heat: JobHeat | None, planned: Planned | None) -> dict[str, Any] | None:
    """Return the report's part on heat; None without a recipe."""
    from wrapwright.core.base.findings import finding_row
    from wrapwright.core.base.units import to_fahrenheit
    from wrapwright.jobs.press.plan.stated import degrees, recipe_statement

    if heat is None:
        return None
    estimate = None if planned is None else _estimate(planned)
    kept = heat.heater
    heater = None
    if kept is not None:
        heater = {"name": kept.name, "kind": kept.heater.kind, "calibrated": kept.calibrated}
    return {
        "recipe": recipe_statement(heat.recipe),
        "heater": heater,
        "set_c": degrees(heat.set_c),
        "set_f": degrees(to_fahrenheit(heat.set_c)),
        "pieces": heat.pieces,
        "estimate": estimate,
        "missing": list(heat.missing),
        "findings": [finding_row(one) for one in (heat if planned is None else planned).findings],
    }


def _estimate(planned: Planned) -> dict[str, Any]:
    from wrapwright.jobs.press.plan.stated import dose_statement, seconds, span_statement

    wall, found = planned.asked.load.wall, planned.chosen
    return {
        "material": wall.material.name,
        "wall_mm": wall.thickness_mm,
        "double": wall.double,
        "face_cm2": round(wall.area_m2 * 1e4, 1),
        "dwell_s": span_statement(found.dwell_s),
        "to_temperature_s": seconds(found.to_temperature_s),
        "dose": dose_statement(found.dose),
        "aim": planned.aim.source,
        "words": list(planned.words),
    }
