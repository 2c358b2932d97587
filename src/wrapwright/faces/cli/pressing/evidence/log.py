"""`press log`: what a log of a heat-up tells of a heater and a wall."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.faces.cli.options import Force, Json, Quiet, Verbose
from wrapwright.faces.cli.readings import length_option
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from datetime import date

    from wrapwright.core.press.fit.values import Reference
    from wrapwright.jobs.press.evidence.values import FitLog, Told

EXAMPLE = (
    'wrapwright press log heat-up.csv --heater "Small oven" --at "200 C" --material steel --thickness "0.5 mm"\n'
    "  wrapwright press log heat-up.csv --air 2 --wall 3 --unit C --plot heat-up.svg"
)

HeaterName = Annotated[str, typer.Option("--heater", metavar="NAME", help="The heater that it is about.")]
At = Annotated[str | None, typer.Option(metavar="TEMP", help='What it was set to: "200 C" or "392 F".')]
Day = Annotated[str | None, typer.Option("--date", metavar="DAY", help="When it was gathered: 2026-05-02.")]
Note = Annotated[str, typer.Option(metavar="WORDS", help="A note to keep with it.")]
DryRun = Annotated[bool, typer.Option("--dry-run", help="Only look; keep nothing.")]

_OPTIONS = {
    **{one: f"--{one}" for one in ("air", "wall", "time", "unit", "dates", "heater", "at", "note", "date", "plot")},
    **{one: f"--{one}" for one in ("material", "recipe", "reference", "thickness", "cover")},
    "columns": "--air, --wall",
    "readings": "--reading",
    "step": "--step",
    "class": "--thermometer",
    "set": "--at",
    "points": "--point",
}


def log(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The log: a CSV of times and temperatures.")],
    *,
    heater: HeaterName = "",
    at: At = None,
    material: Annotated[str, typer.Option(metavar="NAME", help="What the logged wall is made of.")] = "",
    thickness: Annotated[
        str | None, length_option("Thickness of the logged wall; of double-walled ware, of its outer shell.")
    ] = None,
    double: Annotated[bool | None, typer.Option("--double/--single", help="Double-walled vacuum ware, or not.")] = None,
    cover: Annotated[
        list[str] | None, typer.Option(metavar="NAME", help="What lay over it: paper, sleeve; may be repeated.")
    ] = None,
    recipe: Annotated[str, typer.Option(metavar="NAME", help="The recipe whose wall and covers it had.")] = "",
    air: Annotated[str, typer.Option(metavar="COLUMN", help="The air's column, by name or number.")] = "",
    wall: Annotated[str, typer.Option(metavar="COLUMN", help="The wall's column, by name or number.")] = "",
    time: Annotated[str, typer.Option(metavar="COLUMN", help="The times' column, by name or number.")] = "",
    unit: Annotated[str, typer.Option(metavar="C|F", help="Of the temperatures, where the log does not say.")] = "",
    dates: Annotated[str, typer.Option(metavar="ORDER", help="day-first or month-first.")] = "",
    reference: Annotated[
        str | None,
        typer.Option(metavar="TRUE=SHOWN", help='The sensor against a known temperature: "100 C=99.2 C".'),
    ] = None,
    start: Annotated[str | None, typer.Option("--from", metavar="TIME", help="Look from here on: 90 s, 2 min.")] = None,
    end: Annotated[str | None, typer.Option("--to", metavar="TIME", help="Look up to here.")] = None,
    plot: Annotated[Path | None, typer.Option(metavar="FILE", help="Draw it with its residuals: FILE.svg.")] = None,
    force: Force = False,
    day: Day = None,
    note: Note = "",
    dry_run: DryRun = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Fit a log of a heat-up: time constants, film coefficient and offset, each with its 95 % interval.

    What the log cannot tell is named, with the reason. With --heater it is kept, and its figures stand in the heater
    from now on; without, or with --dry-run, it is only looked at.
    """
    from wrapwright.faces.cli.readings import lengths_of
    from wrapwright.faces.opening import bench_of, open_settings

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    columns = {"air": air, "wall": wall, "time": time, "unit": unit.upper(), "dates": dates.casefold()}
    about = about_of(heater, day, note, keep=not dry_run)
    wanted: dict[str, Any] = {"recipe": recipe, "material": material, "double": double}
    wanted["wall_mm"] = lengths_of({"--thickness": thickness}, [])[0].get("--thickness")
    wanted["covers"] = None if cover is None else tuple(cover)
    request = _request(file, columns, {**wanted, "about": about}, (at, start, end), reference)
    with talk.watching() as watch:
        told = _fitted(request, plot, bench, watch, force=force)
    tell(told, talk)
    if plot is not None:
        talk.say(f"Drawn: {plot}")


def _request(
    file: Path,
    columns: dict[str, str],
    named: dict[str, Any],
    written: tuple[str | None, str | None, str | None],
    reference: str | None,
) -> FitLog:
    from wrapwright.core.press.load.asked import set_celsius
    from wrapwright.core.press.recipe.asked import seconds_of
    from wrapwright.jobs.press.evidence.values import FitLog
    from wrapwright.outside.logs.values import LogAsked

    for key, allowed in (("unit", ("", "C", "F", "K")), ("dates", ("", "day-first", "month-first"))):
        if columns[key] not in allowed:
            message = f'--{key} "{columns[key]}" is not one of {", ".join(one for one in allowed if one)}.'
            raise WrapwrightError(Kind.USAGE, message)
    at, start, end = written
    return FitLog(
        file,
        columns=LogAsked(**columns),  # type: ignore[arg-type]
        set_c=None if at is None else set_celsius(at, where="--at"),
        from_s=None if start is None else seconds_of(start, where="--from"),
        to_s=None if end is None else seconds_of(end, where="--to"),
        reference=None if reference is None else _reference(reference),
        **named,
    )


def _reference(text: str) -> Reference:
    from wrapwright.core.base.units import temperature_c
    from wrapwright.core.press.fit.values import Reference

    true, sign, shown = text.partition("=")
    if not sign:
        message = f'--reference "{text}" is not two temperatures with = between them.'
        raise WrapwrightError(Kind.USAGE, message, remedy='Write it as "100 C=99.2 C": what it is, what is shown.')
    return Reference(temperature_c(true, where="--reference"), temperature_c(shown, where="--reference"))


def _fitted(request: FitLog, plot: Path | None, bench: Any, watch: Any, *, force: bool) -> Told:
    from wrapwright.jobs.press.evidence.logs import fit_evidence, write_plot

    try:
        told = fit_evidence(request, bench, watch)
        if plot is not None:
            write_plot(told, plot, request.about.heater or request.file.name, force=force)
    except WrapwrightError as problem:
        raise as_options(problem) from None
    return told


def about_of(heater: str, day: str | None, note: str, *, keep: bool) -> Any:
    """Return what evidence is about, from the options that all of it shares."""
    from wrapwright.jobs.press.evidence.values import About

    return About(heater, day=None if day is None else _day(day), note=note, keep=keep)


def _day(text: str) -> date:
    from datetime import date

    try:
        return date.fromisoformat(text)
    except ValueError:
        message = f'--date "{text}" is no day.'
        raise WrapwrightError(Kind.USAGE, message, remedy="Write it as 2026-05-02.") from None


def as_options(problem: WrapwrightError) -> WrapwrightError:
    """Return the problem with what it is about called by the options' names."""
    if isinstance(problem, SeveralProblemsError):
        return SeveralProblemsError(tuple(as_options(one) for one in problem.problems))
    where = _OPTIONS.get(problem.where, problem.where)
    return WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where)


def tell(told: Told, talk: Talk) -> None:
    """Print what a piece of evidence told, and what became of it."""
    if talk.json:
        from wrapwright.jobs.press.evidence.stated import told_table

        show_document({"format": FORMAT, "evidence": told_table(told)})
        return
    for one in told.words:
        show(one)
    if told.known is not None:
        talk.say(f"Kept as number {told.evidence} of {told.known.heater.name}.")
        for one in told.known.words:
            talk.say(one)
