"""A log of a heat-up: read, fitted, drawn, and kept as evidence of its heater."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.evidence.keeping import heater_about, keep_evidence
from wrapwright.jobs.press.evidence.values import FitLog, Told

if TYPE_CHECKING:
    from wrapwright.core.press.fit.values import Asked, Fitted
    from wrapwright.core.press.values import Cover, Wall
    from wrapwright.jobs.press.kept.heaters import HeaterKept
    from wrapwright.outside.logs.values import LogLook, LogRead
    from wrapwright.outside.store.rows.press.evidence import EvidenceRow


def look_at(request: FitLog, bench: Bench, watch: Watch) -> LogLook:
    """Return the columns of a log, its first rows, and what must be asked before it can be read.

    Raises:
        WrapwrightError: missing or unusable, when it is no log.
    """
    del bench, watch
    from wrapwright.outside.logs.reading import look_at_log

    return look_at_log(request.file, request.columns)


def fit_evidence(request: FitLog, bench: Bench, watch: Watch) -> Told:
    """Return what a log tells; kept where a heater is named and it is to be kept.

    Raises:
        WrapwrightError: missing or unusable, in one sentence with the reason: no log, columns or units that must be
            asked about, no heat-up, a stuck sensor; missing for no such heater or recipe.
    """
    from wrapwright.core.press.fit.fitting import fit_log, found_in
    from wrapwright.core.press.fit.values import Series
    from wrapwright.core.press.fit.words import estimate_words
    from wrapwright.jobs.press.evidence.stated import figures_of
    from wrapwright.outside.logs.reading import read_log

    heater = heater_about(request.about, bench)
    asked = _asked(request, heater, bench)
    watch.step("reading the log", 0.1)
    log = read_log(request.file, request.columns)
    watch.step("fitting", 0.4)
    fitted = fit_log(Series(log.times_s, log.air_c, log.wall_c), asked)
    found = found_in(fitted, asked)
    untold = tuple(f"Not told: {_low(one.name)}; {one.why}" for one in fitted.untold)
    words = (*(estimate_words(one) for one in fitted.estimates), *untold, *fitted.words, *log.words)
    told = Told("log", figures_of(found), words, fitted)
    if heater is None or not request.about.keep:
        return told
    watch.step("keeping", 0.9)
    about = replace(request.about, heater_id=heater.id)
    number, known = keep_evidence(about, "log", _given(request, log, asked), _found(told, fitted), bench)
    return replace(told, evidence=number, known=known)


def plot_of(told: Told, title: str, *, alone: bool) -> str:
    """Return the plot of a fitted log as SVG.

    Raises:
        WrapwrightError: usage, for evidence that is no log.
    """
    from wrapwright.outside.documents.screen.evidence.log_plot import log_plot

    if told.fitted is None:
        raise WrapwrightError(Kind.USAGE, "Only a log has a plot of its residuals.", where="plot")
    return log_plot(told.fitted, title, alone=alone)


def kept_plot(row: EvidenceRow) -> str:
    """Return the plot of a log that is kept as SVG for a page, nothing for other evidence."""
    from wrapwright.core.press.fit.values import Fitted
    from wrapwright.jobs.press.evidence.stated import drawn_from
    from wrapwright.outside.documents.screen.evidence.log_plot import log_plot

    if not row.found.get("drawn"):
        return ""
    air, wall = row.found.get("noise_k", (None, None))
    drawn = drawn_from(row.found["drawn"])
    fitted = Fitted((), (), row.found.get("form", "approach"), drawn, len(drawn.times_s), 0.0, 0.0, (air, wall))
    return log_plot(fitted, str(row.given.get("file", "log")))


def write_plot(told: Told, file: Path, title: str, *, force: bool) -> Path:
    """Return the file that the plot was written to, as SVG.

    Raises:
        WrapwrightError: usage for another ending; refused when it stands and `force` is not given; unusable when its
            folder cannot be written to.
    """
    from wrapwright.outside.system.files import write_aside

    if file.suffix.casefold() != ".svg":
        message = f'the plot is written as SVG, and "{file.name}" ends otherwise.'
        raise WrapwrightError(Kind.USAGE, message, remedy="Name it with .svg.", where="plot")
    if file.exists() and not force:
        message = "This file stands already; nothing was changed."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name, or add --force.", where=str(file))
    write_aside(file, plot_of(told, title, alone=True).encode("utf-8"))
    return file


def _asked(request: FitLog, heater: HeaterKept | None, bench: Bench) -> Asked:
    from wrapwright.core.press.fit.values import Asked

    wall, covers = _wall(request, bench)
    _refuse_set(request.set_c)
    return Asked(
        set_c=request.set_c,
        wall=wall,
        covers=covers,
        heater=None if heater is None else heater.heater,
        reference=request.reference,
        from_s=request.from_s,
        to_s=request.to_s,
    )


def _refuse_set(set_c: float | None) -> None:
    from wrapwright.core.press.load.asked import set_celsius

    if set_c is not None:
        set_celsius(set_c, where="at")


def _wall(request: FitLog, bench: Bench) -> tuple[Wall | None, tuple[Cover, ...]]:
    """Return the wall that was logged and what it wore; None where it is not known how thick it is."""
    from wrapwright.core.press.heat.known import cover_named, material_named
    from wrapwright.core.press.load.asked import wall_mm
    from wrapwright.core.press.load.piece import USUAL_FACE_M2, covers_of, wall_of
    from wrapwright.core.press.values import Wall
    from wrapwright.jobs.press.kept.recipes import recipe_named

    recipe = recipe_named(request.recipe, bench) if request.recipe.strip() else None
    covers = () if recipe is None else covers_of(recipe)
    if request.covers is not None:
        covers = tuple(cover_named(one) for one in request.covers)
    thickness = request.wall_mm
    if thickness is None:
        if request.material:
            message = "the wall's material is given, and its thickness is missing."
            raise unusable(message, remedy="Measure it at the rim with a calliper.", where="thickness")
        return None, covers
    thickness = wall_mm(thickness, where="thickness")
    if recipe is not None:
        return wall_of(recipe, thickness, material=request.material, double=request.double), covers
    if not request.material:
        message = "the wall's thickness is given, and what it is made of is missing."
        raise unusable(message, remedy="Name its material, or the recipe it was heated by.", where="material")
    return Wall(material_named(request.material), thickness, USUAL_FACE_M2, bool(request.double)), covers


def _given(request: FitLog, log: LogRead, asked: Asked) -> dict[str, Any]:
    return {
        "file": request.shown or request.file.name,
        "rows": log.rows,
        "set_c": asked.set_c,
        "material": asked.wall.material.name if asked.wall else "",
        "wall_mm": asked.wall.thickness_mm if asked.wall else None,
        "covers": [one.name for one in asked.covers],
        "recipe": request.recipe,
        "reference": None if asked.reference is None else [asked.reference.true_c, asked.reference.shown_c],
    }


def _found(told: Told, fitted: Fitted) -> dict[str, Any]:
    from wrapwright.jobs.press.evidence.stated import drawn_table, fitted_table

    return {
        "figures": dict(told.figures),
        **fitted_table(fitted),
        "words": list(told.words),
        "drawn": drawn_table(fitted.drawn),
    }


def _low(name: str) -> str:
    from wrapwright.core.press.fit.values import TITLES

    title = next(words for key, words in TITLES.items() if key == name)
    return title[:1].lower() + title[1:]
