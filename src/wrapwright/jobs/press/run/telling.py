"""A stored heat as it is told: its state now, its dose, what to do, what may be done."""

from __future__ import annotations

from datetime import datetime
from functools import cache
from typing import TYPE_CHECKING

from wrapwright.core.press.run.faults.ranking import ONE_CHANGE
from wrapwright.core.press.run.faults.values import Ranked
from wrapwright.core.press.run.happening import may_happen
from wrapwright.core.press.run.live import Offer, offer_of
from wrapwright.core.press.run.values import GOOD, Phase
from wrapwright.core.press.run.words import STEPS, event_words, state_words
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.press.run.keeping import Planned, planned
from wrapwright.jobs.press.run.live.dosing import Dosed, dosed
from wrapwright.jobs.press.run.live.moments import said
from wrapwright.jobs.press.run.values import (
    CautionTold,
    DoseTold,
    EventTold,
    HeaterWord,
    HeatTold,
    OfferTold,
    PieceTold,
    RecipeWord,
)

if TYPE_CHECKING:
    from wrapwright.outside.store.rows.press.heats import HeatKept, PieceHeated


def told(kept: HeatKept, now: datetime, bench: Bench, words: tuple[str, ...] = ()) -> HeatTold:
    """Return a heat as it is told now; `words` are said besides, first."""
    plan = planned(kept)
    found = dosed(kept, plan, now, bench)
    state = found.state
    offers = _offers(plan, found)
    results = tuple(one.result for one in kept.pieces)
    said_now = [*words, *state_words(plan.plan, state, results), *found.words, *(one.words for one in offers)]
    said_now += plan.words if state.phase in ("preheat", "loading") else ()
    said_now += [ONE_CHANGE] if any(one not in ("", GOOD) for one in results) else []
    return HeatTold(
        id=kept.id,
        revision=kept.revision,
        heater=HeaterWord(kept.heater, plan.heater.name, plan.heater.kind),
        recipe=RecipeWord(plan.recipe.name, plan.recipe.version, plan.recipe.title),
        phase=state.phase,
        soak=state.soak,
        now=said(state.now),
        phase_began=said(state.began),
        phase_ends=_said(state.ends),
        remaining_s=_round(state.remaining_s),
        over_s=_round(state.over_s),
        set_c=plan.plan.set_c,
        dwell_s=state.dwell_s,
        preheat_s=plan.plan.preheat_s,
        cool_s=plan.plan.cool_s,
        door_open=state.door_open,
        turn_at_s=plan.plan.turn_at_s,
        pieces=tuple(_piece(one, kept, plan) for one in kept.pieces),
        events=tuple(EventTold(one.number, one.kind, said(one.at), event_words(one)) for one in kept.events),
        dose=_dose(plan, found),
        words=tuple(said_now),
        cautions=cautions_of(
            state.phase, plan.recipe.ware, plan.heater.kind, flat=plan.recipe.flat, double=plan.double
        ),
        offers=offers,
        started=said(kept.started),
        loaded=_said(state.loaded),
        out=_said(state.out),
        ended=_said(kept.ended),
        in_s=round(state.in_s, 3),
        soak_s=_round(found.warm_s),
        turn_due=state.turn_due,
        stopped=state.stopped,
        may=may_happen(state),
    )


@cache
def cautions_of(phase: Phase, ware: str, kind: str, *, flat: bool, double: bool) -> tuple[CautionTold, ...]:
    """Return the cautions of the step that a heat is at, the grave ones first."""
    from wrapwright.data.press import cautions_for

    found = [one for step in STEPS[phase] for one in cautions_for(step, ware, kind, flat=flat, double=double)]
    return tuple(CautionTold(one.text, one.grave) for one in sorted(found, key=lambda one: not one.grave))


def _offers(plan: Planned, found: Dosed) -> tuple[OfferTold, ...]:
    offer: Offer | None = (
        None if found.track is None else offer_of(plan.plan, found.state, found.track, logged=found.by == "log")
    )
    if offer is None:
        return ()
    if offer.seconds > 0.0:
        return (OfferTold("longer", offer.seconds, offer.words),)
    return (OfferTold("taken-out", None, offer.words),)


def _dose(plan: Planned, found: Dosed) -> DoseTold:
    dose, aimed = found.dose, plan.plan.dose
    return DoseTold(
        now=None if dose is None else round(dose.mid, 3),
        now_low=None if dose is None else round(dose.low, 3),
        now_high=None if dose is None else round(dose.high, 3),
        planned_low=None if aimed is None else round(aimed.low, 3),
        planned_mid=None if aimed is None else round(aimed.mid, 3),
        planned_high=None if aimed is None else round(aimed.high, 3),
        target=_round(plan.plan.target),
        by=found.by,
        air_c=None if found.air_c is None else round(found.air_c, 1),
        coating_c=None if found.coating_c is None else round(found.coating_c, 1),
    )


def _piece(one: PieceHeated, kept: HeatKept, plan: Planned) -> PieceTold:
    causes = kept.found.get("causes", {}).get(str(one.place), ())
    ranked = tuple(Ranked(**{**row, "because": tuple(row["because"])}) for row in causes)
    making = int(plan.makings.get(one.piece, 0))
    return PieceTold(one.place, one.piece, one.result, one.note, making, ranked)


def _said(at: datetime | None) -> str | None:
    return None if at is None else said(at)


def _round(value: float | None) -> float | None:
    return None if value is None else round(value, 3)
