"""What is known of one piece's run: from its heat, from the other pieces, from the making of its transfer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from wrapwright.core.press.run.faults.evidence import Evidence, MakingEvidence
from wrapwright.core.press.run.values import Event
from wrapwright.core.press.values import Dose
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.press.run.ending import found_of
from wrapwright.jobs.press.run.keeping import Planned, planned

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from wrapwright.outside.store.rows.press.heats import HeatKept, PieceHeated


def evidence_of(connection: Connection, kept: HeatKept, piece: PieceHeated, bench: Bench) -> Evidence:
    """Return what is known of a piece's run."""
    from wrapwright.outside.store.rows.press.heats import looked_results

    plan = planned(kept)
    found = kept.found if "in_s" in kept.found else found_of(kept, kept.events[-1].at, bench)
    dose = found.get("dose")
    rest = [one.result for one in kept.pieces if one.place != piece.place and one.result]
    before = looked_results(connection, kept.heater, but=kept.id) if kept.heater else ()
    in_s = float(found.get("in_s", 0.0))
    return Evidence(
        heater_kind=plan.heater.kind,
        calibrated=plan.calibrated,
        off_k=found.get("off_k"),
        set_c=plan.plan.set_c,
        in_s=in_s,
        celsius=plan.recipe.celsius,
        seconds=plan.recipe.seconds,
        dose=Dose(**dose) if dose else None,
        planned=plan.plan.dose,
        window=plan.window,
        early_s=float(found.get("early_s", 0.0)),
        late_s=float(found.get("late_s", 0.0)),
        open_s=sum(float(one[1]) for one in found.get("openings", ())),
        pieces=len(kept.pieces),
        capacity=plan.heater.capacity,
        turns_missed=_turns_missed(plan, kept.events, in_s),
        cooled_early_s=_cooled_early(plan, kept.events),
        hold=plan.recipe.hold,
        alike=sum(one == piece.result for one in rest),
        others=len(rest),
        before=(sum(one == piece.result for one in before), len(before)),
        making=making_evidence(connection, piece.piece),
    )


def makings_of(connection: Connection, pieces: Sequence[str]) -> dict[str, int]:
    """Return by a piece's number the newest making that has it on its sheets; those of none are left out."""
    from wrapwright.outside.store.rows.press.heats import making_with_code

    found = {one: making_with_code(connection, one) for one in dict.fromkeys(pieces) if one}
    return {code: making[0] for code, making in found.items() if making is not None}


def making_evidence(connection: Connection, code: str) -> MakingEvidence:
    """Return what the report of a piece's making says; nothing where no making has its code."""
    from wrapwright.outside.store.rows.press.heats import making_with_code

    making = making_with_code(connection, code) if code else None
    if making is None:
        return MakingEvidence()
    number, report, tray = making
    job = _job(report, code)
    checks = job.get("checks", [])
    wrap = job.get("wrap", {})
    ppi = [one["effective_ppi"] for one in job.get("elements", []) if one.get("effective_ppi") is not None]
    return MakingEvidence(
        found=True,
        making=number,
        accepted=frozenset(one["rule"] for one in checks if one.get("accepted")),
        told=frozenset(one["rule"] for one in checks if not one.get("accepted")),
        misfit_mm=wrap.get("misfit_mm"),
        overlap_mm=wrap.get("overlap_mm"),
        drifts=_drifts(connection, int(tray.get("setup", 0) or 0)),
        ppi=min(ppi) if ppi else None,
    )


def _job(report: Mapping[str, Any], code: str) -> Mapping[str, Any]:
    """Return what a sheets report says of the job that a code belongs to."""
    for sheet in report.get("sheets", []):
        for piece in sheet.get("pieces", []):
            if piece.get("code") == code:
                found: Mapping[str, Any] = report["jobs"][piece["job"] - 1]
                return found
    return {}


def _drifts(connection: Connection, setup: int) -> tuple[str, ...]:
    """Return along which axes a set-up's printer drifts."""
    from wrapwright.core.sheet.scale.drift import trends
    from wrapwright.outside.store.rows.scales import scale_rows

    if not setup:
        return ()
    return tuple(
        f"The printer's scale drifts {one.axis}: {abs(one.change) * 100:.2f} % over {one.entries} measurements."
        for one in trends(scale_rows(connection, setup))
        if one.drifts
    )


def _turns_missed(plan: Planned, events: Sequence[Event], in_s: float) -> int:
    due = sum(at < in_s for at in plan.plan.turn_at_s)
    return max(0, due - sum(one.kind == "turned" for one in events))


def _cooled_early(plan: Planned, events: Sequence[Event]) -> float:
    out = next((one.at for one in events if one.kind == "taken-out"), None)
    cooled = next((one.at for one in events if one.kind == "cooled"), None)
    if out is None or cooled is None:
        return 0.0
    return max(0.0, plan.plan.cool_s - (cooled - out).total_seconds())
