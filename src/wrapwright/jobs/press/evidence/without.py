"""Evidence without a logger: readings of a thermometer, a recipe known to be good, a map of the oven."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.evidence.keeping import heater_about, keep_evidence
from wrapwright.jobs.press.evidence.values import (
    About,
    EvidenceKind,
    KeepKnown,
    KeepMap,
    KeepReadings,
    Known,
    ShowEvidence,
    Told,
)

if TYPE_CHECKING:
    from wrapwright.core.press.fit.values import Found
    from wrapwright.core.press.fit.without.oven_map import Point


def keep_readings(request: KeepReadings, bench: Bench, watch: Watch) -> Told:
    """Return what readings of a thermometer tell; kept where a heater is named.

    Raises:
        WrapwrightError: unusable: fewer than two readings, figures that cannot be; missing for no such heater.
    """
    del watch
    from wrapwright.core.press.fit.without.readings import CLASS_K, Readings, offset_of

    heater_about(request.about, bench)
    own = CLASS_K if request.class_k is None else request.class_k
    offset = offset_of(Readings(request.set_c, request.read_c, request.step_k, own))
    given = {
        "set_c": request.set_c,
        "read_c": list(request.read_c),
        "step_k": request.step_k,
        "class_k": own,
    }
    more = {
        "offset_k": offset.offset_k,
        "half_k": offset.half_k,
        "parts_k": {"spread": offset.spread_k, "step": offset.step_k, "thermometer": offset.class_k},
    }
    return _kept("readings", request.about, given, offset.found(), offset.words, more, bench)


def keep_known(request: KeepKnown, bench: Bench, watch: Watch) -> Told:
    """Return what a recipe known to be good tells of its heater, through the dose alone.

    Raises:
        WrapwrightError: unusable, when no offset of the heater explains it, or the wall is missing; missing for no such
            recipe or heater.
    """
    from wrapwright.core.press.fit.without.known import KnownGood, bounded
    from wrapwright.jobs.press.plan.planning import aim_for, asked_of
    from wrapwright.jobs.press.plan.values import PlanHeat

    heater = heater_about(request.about, bench)
    if heater is None:
        raise unusable("no heater is named.", remedy="Name the one the recipe is good in.", where="heater")
    watch.step("reckoning the heat", 0.2)
    plan = PlanHeat(
        request.recipe,
        heater.name,
        heater.id,
        request.pieces,
        request.wall_mm,
        set_c=request.set_c,
        dwell_s=request.dwell_s,
        recipe_wall=True,
    )
    asked = asked_of(plan, bench)
    aim = aim_for(asked)
    dwell = asked.dwell_s or sum(asked.recipe.seconds) / 2.0
    source = "by accepted trials" if aim.source == "trials" else "what the recipe's own range of dwells gives"
    told = bounded(asked.heater.heater, KnownGood(asked.load, dwell, (aim.low, aim.high), source))
    given = {
        "recipe": asked.recipe.name,
        "version": asked.recipe.version,
        "set_c": asked.load.set_c,
        "dwell_s": dwell,
        "pieces": asked.load.pieces,
        "material": asked.load.wall.material.name,
        "wall_mm": asked.load.wall.thickness_mm,
    }
    more = {
        "offset_low_k": None if told.open_low else told.low_k,
        "offset_high_k": None if told.open_high else told.high_k,
        "minutes": told.minutes,
        "tells": told.tells,
    }
    return _kept("recipe", request.about, given, told.found(), told.words, more, bench)


def keep_map(request: KeepMap, bench: Bench, watch: Watch) -> Told:
    """Return what a map of the oven tells: its middle with its spread, and where it is warm and cold.

    Raises:
        WrapwrightError: unusable: no points, two of one place and setting; missing for no such heater.
    """
    del watch
    from wrapwright.core.press.fit.without.oven_map import checked, chief_set_c, map_found, map_words, whole_oven

    heater_about(request.about, bench)
    points = checked(request.points)
    rows = [{"set_c": p.set_c, "place": p.place, "offset_k": p.offset_k, "half_k": p.half_k} for p in points]
    words = (whole_oven(points, chief_set_c(points)).words, *map_words(points))
    return _kept("map", request.about, {"points": rows}, map_found(points), words, {"points": rows}, bench)


def _kept(
    kind: EvidenceKind,
    about: About,
    given: Mapping[str, Any],
    found: Found,
    words: tuple[str, ...],
    more: Mapping[str, Any],
    bench: Bench,
) -> Told:
    from wrapwright.jobs.press.evidence.stated import figures_of

    told = Told(kind, figures_of(found), words, more=more)
    if not about.keep or not (about.heater_id or about.heater.strip()):
        return told
    table = {"figures": dict(told.figures), **more, "words": list(words)}
    number, known = keep_evidence(about, kind, given, table, bench)
    return replace(told, evidence=number, known=known)


def newest_map(heater: str, bench: Bench, watch: Watch) -> tuple[Point, ...]:
    """Return the points of a heater's newest map, by its name.

    Raises:
        WrapwrightError: missing, for no such heater or no map of it.
    """
    from wrapwright.jobs.press.evidence.keeping import show_evidence

    known = show_evidence(ShowEvidence(heater=heater), bench, watch)
    points = map_points(known)
    if not points:
        message = f"There is no map of {known.heater.name} yet."
        raise WrapwrightError(Kind.MISSING, message, remedy='Keep one: --point "200 C; top left; 207 C" ...')
    return points


def map_points(known: Known) -> tuple[Point, ...]:
    """Return the points of the newest map that is known of a heater; none without one."""
    from wrapwright.core.press.fit.without.oven_map import Point

    newest = next((one for one in known.evidence if one.kind == "map"), None)
    if newest is None:
        return ()
    return tuple(
        Point(float(p["set_c"]), str(p["place"]), float(p["offset_k"]), float(p["half_k"]))
        for p in newest.given["points"]
    )
