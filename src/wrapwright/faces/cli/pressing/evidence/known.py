"""`press known`: what is known of a heater, and from what; a recipe known to be good in it; evidence removed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.pressing.evidence.log import Day, DryRun, Note, about_of, as_options, tell
from wrapwright.faces.cli.readings import length_option, misuse
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.jobs.bench import Bench
    from wrapwright.jobs.press.evidence.values import Known, Told

EXAMPLE = (
    'wrapwright press known --heater "Small oven"\n'
    '  wrapwright press known --heater "Small oven" --recipe steel-oven --wall "0.5 mm" --at "200 C" --dwell "6 min"'
)


def known(
    *,
    heater: Annotated[str, typer.Option(metavar="NAME", help="The heater.")],
    recipe: Annotated[str, typer.Option(metavar="NAME", help="A recipe that is known to be good in it.")] = "",
    wall: Annotated[str | None, length_option("Thickness of the wall it is good for.")] = None,
    at: Annotated[str | None, typer.Option(metavar="TEMP", help="What is set for it, else its middle.")] = None,
    stay: Annotated[
        str | None, typer.Option("--dwell", metavar="TIME", help="How long they stay: 6 min, 5:30, 330 s.")
    ] = None,
    pieces: Annotated[int, typer.Option("--pieces", "-n", metavar="NUMBER", help="Heated together.")] = 1,
    remove: Annotated[int, typer.Option(metavar="NUMBER", min=0, help="Remove evidence by its number.")] = 0,
    day: Day = None,
    note: Note = "",
    dry_run: DryRun = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Show what is known of a heater, and from what.

    With --recipe a recipe known to be good in it is kept as evidence: it bounds the heater's offset, through the dose
    alone, and says how far. With --remove a piece of evidence is dropped.
    """
    from wrapwright.faces.opening import bench_of, open_settings

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    if recipe and remove:
        raise misuse("--recipe and --remove do not go together.", "Do one after the other.")
    if not recipe and (wall or at or stay):
        raise misuse("--wall, --at and --dwell say how a recipe is heated, and there is no --recipe.", "Name it.")
    if recipe:
        about = (heater, day, note, not dry_run)
        tell(_good(recipe, (wall, at, stay, pieces), about, bench, talk), talk)
        return
    _tell(_shown(heater, remove, bench, talk), talk)


def _good(
    recipe: str,
    heat: tuple[str | None, str | None, str | None, int],
    about: tuple[str, str | None, str, bool],
    bench: Bench,
    talk: Talk,
) -> Told:
    from wrapwright.core.press.load.asked import set_celsius
    from wrapwright.core.press.recipe.asked import seconds_of
    from wrapwright.faces.cli.readings import lengths_of
    from wrapwright.jobs.press.evidence.values import KeepKnown
    from wrapwright.jobs.press.evidence.without import keep_known

    wall, at, stay, pieces = heat
    heater, day, note, keep = about
    request = KeepKnown(
        about_of(heater, day, note, keep=keep),
        recipe,
        None if at is None else set_celsius(at, where="--at"),
        None if stay is None else seconds_of(stay, where="--dwell"),
        pieces,
        lengths_of({"--wall": wall}, [])[0].get("--wall"),
    )
    with talk.watching() as watch:
        try:
            return keep_known(request, bench, watch)
        except WrapwrightError as problem:
            raise as_options(problem) from None


def _shown(heater: str, remove: int, bench: Bench, talk: Talk) -> Known:
    from wrapwright.jobs.press.evidence.keeping import drop_evidence, show_evidence
    from wrapwright.jobs.press.evidence.values import DropEvidence, ShowEvidence

    with talk.watching() as watch:
        found = show_evidence(ShowEvidence(heater=heater), bench, watch)
        return drop_evidence(DropEvidence(found.heater.id, remove), bench, watch) if remove else found


def _tell(found: Known, talk: Talk) -> None:
    from wrapwright.faces.cli.kept.telling import show_columns

    if talk.json:
        from wrapwright.jobs.press.evidence.stated import known_table

        show_document({"format": FORMAT, **known_table(found)})
        return
    used = set(found.sources.values())
    rows = [
        (str(one.id), one.day.isoformat(), one.kind, "in use" if one.id in used else "", one.note)
        for one in found.evidence
    ]
    show_columns(rows)
    for one in found.words:
        show(one)
    if not rows:
        talk.say("There is no evidence yet. See: wrapwright press readings --help")
