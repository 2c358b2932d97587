"""Evidence as documents and the store state it: plain tables."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.units import stated

if TYPE_CHECKING:
    from wrapwright.core.press.fit.values import Drawn, Fitted, Found
    from wrapwright.jobs.press.evidence.values import Known, Told
    from wrapwright.outside.store.rows.press.evidence import EvidenceRow

_SHOWN = 300  # rows of a log that are kept with it, for its plot
_COLUMNS = ("times_s", "air_c", "air_fit_c", "wall_c", "wall_fit_c")


def figures_of(found: Found) -> dict[str, Any]:
    """Return what goes into a heater, by the names of its figures; what is not told is left out."""
    table: dict[str, Any] = {}
    if found.offset_k is not None and found.offset_half_k is not None:
        table |= {"offset_k": stated(found.offset_k), "offset_half_k": stated(found.offset_half_k)}
    if found.film is not None:
        table["film"] = [stated(one) for one in found.film]
    if found.own_j_k is not None:
        table["own_j_k"] = stated(found.own_j_k)
    return table


def fitted_table(fitted: Fitted) -> dict[str, Any]:
    """Return a fitted log as a table: figures with intervals, what is not told, how it was done."""
    from wrapwright.core.press.fit.values import TITLES, UNITS

    return {
        "form": fitted.form,
        "rows": fitted.rows,
        "from_s": stated(fitted.from_s),
        "to_s": stated(fitted.to_s),
        "estimates": [
            {
                "name": one.name,
                "title": TITLES[one.name],
                "value": stated(one.value),
                "low": stated(one.low),
                "high": stated(one.high),
                "unit": UNITS[one.name],
            }
            for one in fitted.estimates
        ],
        "untold": [{"name": one.name, "title": TITLES[one.name], "why": one.why} for one in fitted.untold],
        "noise_k": [None if one is None else stated(one) for one in fitted.noise_k],
        "film_with_wall": None if fitted.film_with_wall is None else [stated(one) for one in fitted.film_with_wall],
    }


def drawn_table(drawn: Drawn) -> dict[str, list[float]]:
    """Return the rows of a log with their fit, thinned to what a plot can show."""
    step = -(-len(drawn.times_s) // _SHOWN)
    return {name: [round(one, 2) for one in getattr(drawn, name)[::step]] for name in _COLUMNS}


def drawn_from(table: Mapping[str, Sequence[float]]) -> Drawn:
    """Return the rows of a log from their table."""
    from wrapwright.core.press.fit.values import Drawn

    return Drawn(**{name: tuple(table.get(name, ())) for name in _COLUMNS})


def told_table(told: Told) -> dict[str, Any]:
    """Return what a piece of evidence told, as a document states it."""
    table: dict[str, Any] = {"kind": told.kind, "evidence": told.evidence}
    if told.known is not None:
        table["heater"] = told.known.heater.name
    if told.fitted is not None:
        table |= fitted_table(told.fitted)
    return {**table, **told.more, "figures": dict(told.figures), "words": list(told.words)}


def known_table(known: Known) -> dict[str, Any]:
    """Return all that is known of a heater, as a document states it."""
    heater = known.heater.heater
    return {
        "heater": {"id": known.heater.id, "name": heater.name, "kind": heater.kind},
        "calibrated": known.heater.calibrated,
        "figures": {
            "offset_k": stated(heater.offset_k),
            "offset_half_k": stated(heater.offset_half_k),
            "film": [stated(one) for one in (heater.film.low, heater.film.mid, heater.film.high)],
            "own_j_k": stated(heater.own_j_k),
            "loss_w_k": stated(heater.loss_w_k),
            "power_w": stated(heater.power_w),
        },
        "sources": dict(known.sources),
        "evidence": [evidence_table(one) for one in known.evidence],
        "words": list(known.words),
    }


def evidence_table(row: EvidenceRow) -> dict[str, Any]:
    """Return one piece of evidence as a document states it; the rows of its plot are left out."""
    found = {key: value for key, value in row.found.items() if key != "drawn"}
    return {
        "id": row.id,
        "kind": row.kind,
        "day": row.day.isoformat(),
        "given": dict(row.given),
        "found": found,
        "note": row.note,
    }
