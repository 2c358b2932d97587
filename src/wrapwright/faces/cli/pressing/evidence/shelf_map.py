"""`press map`: an oven's offset by set point and by place on its shelves."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.heat_words import celsius_words, shift_words, step_words
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.pressing.evidence.log import Day, DryRun, Note, about_of, as_options, tell
from wrapwright.faces.cli.readings import misuse
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.core.press.fit.without.oven_map import Point
    from wrapwright.jobs.bench import Bench

EXAMPLE = (
    'wrapwright press map --heater "Small oven" --point "200 C; top left; 207 C" --point "200 C; bottom; 196 C"\n'
    '  wrapwright press map --heater "Small oven" --at "190 C" --place "top left"'
)


def shelf_map(
    *,
    heater: Annotated[str, typer.Option(metavar="NAME", help="The oven.")],
    point: Annotated[
        list[str] | None,
        typer.Option(metavar="SET;PLACE;READ", help='A point: "200 C; top left; 207 C"; repeat it.'),
    ] = None,
    half: Annotated[
        str, typer.Option(metavar="DIFFERENCE", help="How well each reading is known, either way.")
    ] = "5 C",
    at: Annotated[str | None, typer.Option(metavar="TEMP", help="Read the map off at this setting.")] = None,
    place: Annotated[str, typer.Option(metavar="WORDS", help="And at this place.")] = "",
    day: Day = None,
    note: Note = "",
    dry_run: DryRun = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Keep a map of an oven, show the newest, or read an offset off it.

    Between two measured set points it is interpolated; beyond them the nearest is used, and it says so.
    """
    from wrapwright.core.base.units import temperature_step_k
    from wrapwright.faces.opening import bench_of, open_settings

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    if not point:
        _shown(heater, at, place, bench, talk)
        return
    if at or place:
        raise misuse("--point keeps a map, and --at and --place read one off.", "Do one after the other.")
    from wrapwright.jobs.press.evidence.values import KeepMap
    from wrapwright.jobs.press.evidence.without import keep_map

    known_to = temperature_step_k(half, where="--half")
    points = tuple(_point(one, known_to) for one in point)
    with talk.watching() as watch:
        try:
            told = keep_map(KeepMap(about_of(heater, day, note, keep=not dry_run), points), bench, watch)
        except WrapwrightError as problem:
            raise as_options(problem) from None
    tell(told, talk)


def _point(text: str, half_k: float) -> Point:
    from wrapwright.core.press.fit.without.oven_map import Point
    from wrapwright.core.press.load.asked import set_celsius
    from wrapwright.core.press.recipe.asked import celsius_of

    parts = [one.strip() for one in text.split(";")]
    if len(parts) != 3:
        message = f'--point "{text}" is not a setting, a place and a reading with ; between them.'
        raise WrapwrightError(Kind.USAGE, message, remedy='Write it as "200 C; top left; 207 C".')
    set_c = set_celsius(parts[0], where="--point")
    return Point(set_c, parts[1], celsius_of(parts[2], where="--point") - set_c, half_k)


def _shown(heater: str, at: str | None, place: str, bench: Bench, talk: Talk) -> None:
    from wrapwright.core.press.fit.without.oven_map import offset_at, places_of, whole_oven
    from wrapwright.core.press.load.asked import set_celsius
    from wrapwright.faces.cli.kept.telling import show_columns
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.evidence.without import newest_map

    points = newest_map(heater, bench, Watch())
    if at is not None:
        set_c = set_celsius(at, where="--at")
        read = offset_at(points, set_c, place) if place else whole_oven(points, set_c)
        if talk.json:
            said = {"set_c": set_c, "place": place, "offset_k": read.offset_k, "half_k": read.half_k, "how": read.how}
            show_document({"format": FORMAT, "offset": {**said, "words": [read.words]}})
            return
        show(f"{shift_words(read.offset_k)}, known to {step_words(read.half_k)}. {read.words}")
        return
    if talk.json:
        rows = [{"set_c": p.set_c, "place": p.place, "offset_k": p.offset_k, "half_k": p.half_k} for p in points]
        show_document({"format": FORMAT, "places": list(places_of(points)), "points": rows})
        return
    show_columns(
        [(p.place, celsius_words(p.set_c), shift_words(p.offset_k), f"known to {step_words(p.half_k)}") for p in points]
    )
