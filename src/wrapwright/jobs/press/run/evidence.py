"""What is known of one piece's run: from its heat, from the other pieces, from the making of its transfer."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import WrapwrightError
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
    """Return by a piece's number the making that has it on its sheets; those of none are left out."""
    found = {one: _making(connection, one) for one in dict.fromkeys(pieces) if one}
    return {code: making.number for code, making in found.items() if making is not None}


def making_evidence(connection: Connection, code: str) -> MakingEvidence:
    """Return what the report of a piece's making says; nothing where there is none of that code."""
    making = _making(connection, code) if code else None
    if making is None:
        return MakingEvidence()
    job = making.job
    checks, wrap = job.get("checks", []), job.get("wrap", {})
    ppi = [one["effective_ppi"] for one in job.get("elements", []) if one.get("effective_ppi") is not None]
    return MakingEvidence(
        found=True,
        making=making.number,
        accepted=frozenset(one["rule"] for one in checks if one.get("accepted")),
        told=frozenset(one["rule"] for one in checks if not one.get("accepted")),
        misfit_mm=wrap.get("misfit_mm"),
        overlap_mm=wrap.get("overlap_mm"),
        drifts=_drifts(connection, making.setup),
        ppi=min(ppi) if ppi else None,
    )


@dataclass(frozen=True)
class _Making:
    """A making, what its report says of the piece's job, and the set-up it was printed with: its number or name."""

    number: int
    job: Mapping[str, Any]
    setup: int | str


def _making(connection: Connection, code: str) -> _Making | None:
    """Return the newest making that has a code on its sheets, or the one that is named as `making 12` or `12-1`.

    A design's own sheet has no codes: its pieces are called by the making and their number on it.
    """
    from wrapwright.outside.store.rows.press.heats import making_numbered, making_with_code

    found = making_with_code(connection, code)
    if found is not None:
        number, report, tray = found
        return _Making(number, _job(report, lambda piece: piece.get("code") == code), tray.get("setup") or 0)
    named = _NAMED.fullmatch(code)
    found = making_numbered(connection, int(named[1])) if named else None
    if found is None or named is None:
        return None
    number, report, tray = found
    if "jobs" not in report:
        return _Making(number, report, str(report.get("setup") or ""))
    wanted = int(named[2] or 1)
    return _Making(number, _job(report, lambda piece: piece.get("piece") == wanted), tray.get("setup") or 0)


_NAMED = re.compile(r"MAKING ([0-9]{1,9})(?:-([0-9]{1,6}))?")


def _job(report: Mapping[str, Any], wanted: Callable[[Mapping[str, Any]], bool]) -> Mapping[str, Any]:
    """Return what a sheets report says of the job that a piece belongs to."""
    for sheet in report.get("sheets", []):
        for piece in sheet.get("pieces", []):
            if wanted(piece):
                found: Mapping[str, Any] = report["jobs"][piece["job"] - 1]
                return found
    return {}


def _drifts(connection: Connection, setup: int | str) -> tuple[str, ...]:
    """Return along which axes a set-up's printer drifts; nothing where it is not known or has been removed."""
    from wrapwright.core.sheet.scale.drift import trends
    from wrapwright.outside.store.rows.scales import scale_rows
    from wrapwright.outside.store.rows.setups import setup_kept

    if not setup:
        return ()
    try:
        number = setup if isinstance(setup, int) else setup_kept(connection, name=setup).id
    except WrapwrightError:
        return ()
    return tuple(
        f"The printer's scale drifts {one.axis}: {abs(one.change) * 100:.2f} % over {one.entries} measurements."
        for one in trends(scale_rows(connection, number))
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
