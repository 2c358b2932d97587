"""Heats as the command line tells them."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from wrapwright.faces.cli.kept.telling import show_columns
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wrapwright.jobs.press.run.values import HeatTold, PieceTold


def heat_row(told: HeatTold) -> dict[str, Any]:
    """Return a heat as a document says it."""
    return asdict(told)


def show_heat_told(told: HeatTold, talk: Talk, *, looked: int = 0) -> None:
    """Print a heat: as a document, or its line, what to do now, its cautions and its pieces.

    `looked`: the place that was just looked at; of that one alone the likely causes are shown.
    """
    if talk.json:
        show_document({"format": FORMAT, "heat": heat_row(told)})
        return
    show(line_of(told))
    for words in told.words:
        show(words)
    for caution in told.cautions:
        if caution.grave or talk.verbose:
            talk.say(f"Caution: {caution.text}")
    if told.dose.planned_mid is not None:
        show(_dose_words(told))
    show_columns([_piece_columns(one) for one in told.pieces])
    for piece in told.pieces:
        if looked in (0, piece.place):
            _causes(piece)
    following = _next(told)
    if following:
        when = ", once they are out" if following.endswith("taken-out") else ""
        talk.say(f"Next{when}: wrapwright press {following}")


def show_heats_told(told: Sequence[HeatTold], talk: Talk) -> None:
    """Print heats: as a document, or a line each."""
    if talk.json:
        show_document({"format": FORMAT, "heats": [heat_row(one) for one in told]})
        return
    show_columns([_columns(one) for one in told])


def line_of(told: HeatTold) -> str:
    """Return a heat in a line: its number, heater, phase and time."""
    return "  ".join(one for one in _columns(told) if one)


def _columns(told: HeatTold) -> tuple[str, ...]:
    from wrapwright.core.base.heat_words import seconds_words

    left = ""
    if told.over_s is not None:
        left = f"{seconds_words(told.over_s)} over"
    elif told.remaining_s is not None:
        left = f"{seconds_words(told.remaining_s)} left"
    phase = "soak" if told.soak else told.phase
    pieces = ", ".join(one.piece or str(one.place) for one in told.pieces)
    return (f"heat {told.id}", told.started[:16].replace("T", " "), told.heater.name, told.recipe.name, phase, left,
            pieces)  # fmt: skip


def _next(told: HeatTold) -> str:
    """Return the command that is due, "" for none."""
    if told.phase == "look":
        place = next((one.place for one in told.pieces if not one.result), 0)
        return f"look {told.id} {place} good, or its fault" if place else ""
    kind = {"preheat": "ready", "loading": "loaded", "dwell": "taken-out", "unload": "taken-out", "cool": "cooled"}
    if told.phase == "dwell" and told.door_open:
        return f"event {told.id} door-closed"
    if told.phase == "dwell" and told.turn_due:
        return f"event {told.id} turned"
    return f"event {told.id} {kind[told.phase]}" if told.phase in kind else ""


def _dose_words(told: HeatTold) -> str:
    dose = told.dose
    planned = f"planned {dose.planned_mid:.1f} min ({dose.planned_low:.1f} to {dose.planned_high:.1f})"
    target = "window not known yet" if dose.target is None else f"aim {dose.target:.1f} min"
    if dose.now is None:
        return f"Dose at 195 °C (383 °F): {planned}; {target}."
    so_far = f"{dose.now:.1f} min ({dose.now_low:.1f} to {dose.now_high:.1f})"
    return f"Dose at 195 °C (383 °F): {so_far} by the {dose.by}; {planned}; {target}."


def _piece_columns(one: PieceTold) -> tuple[str, ...]:
    made = f"making {one.making}" if one.making else ""
    return (f"  {one.place}", one.piece, one.result or "not looked at", made, one.note)


def _causes(piece: PieceTold) -> None:
    for at, cause in enumerate(piece.causes, 1):
        if at == 1:
            show(f"Place {piece.place}, {piece.result}: likely causes by what is known of this run")
        show(f"  {cause.share * 100:3.0f} %  {cause.words}. {' '.join(cause.because)}")
        show(f"         {cause.change}")
