"""`gauge`: a printed strip that reads a blank's flat length, and its reading."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Literal

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError, raise_all
from wrapwright.faces.cli.calibrate.scale import Margins, Output, Paper, Setup
from wrapwright.faces.cli.options import Force, Json, Quiet, Verbose
from wrapwright.faces.cli.readings import Girth, GirthBottom, GirthTop, Wall, as_options, length_option, misuse
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.core.blank.readings import Blank
    from wrapwright.jobs.bench import Bench
    from wrapwright.jobs.calibrate.gauge import GaugeDrawn
    from wrapwright.jobs.calibrate.reading import GaugeRead

EXAMPLE = (
    'wrapwright gauge --setup "Desk printer" --girth "9 1/4 in" --wall "6 1/2 in" -o gauge.pdf\n'
    '  wrapwright gauge --setup "Desk printer" --read 235+7 --blank "Steel bottle"'
)


def gauge(
    *,
    girth: Girth = None,
    girth_top: GirthTop = None,
    girth_bottom: GirthBottom = None,
    wall: Wall = None,
    at: Annotated[
        list[str] | None, length_option("Wall position of an arc's middle line; repeat it. Else one at each end.")
    ] = None,
    setup: Setup = "",
    paper: Paper = None,
    margins: Margins = None,
    paper_thickness: Annotated[str | None, length_option("Thickness of the paper.")] = None,
    lies: Annotated[str, typer.Option(metavar="WAY", help="across or along, if not the way the wraps will lie.")] = "",
    output: Output = None,
    force: Force = False,
    read: Annotated[
        list[str] | None,
        typer.Option(metavar="[POS=]HEAD+LINE", help="What the strip read: 235+7, or 10=228+4 for an arc; repeat it."),
    ] = None,
    pieces: Annotated[
        int, typer.Option(metavar="NUMBER", min=0, max=2, help="Pieces the strip was joined of; 0: as it is drawn.")
    ] = 0,
    blank: Annotated[str, typer.Option(metavar="NAME", help="Keep the reading with this blank on the shelf.")] = "",
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Measure a blank with a printed strip.

    With -o a strip is drawn for rough readings, the way the wraps will lie, through the same set-up; for a taper two
    arcs. With --read what it says is printed as a job file's [blank], or kept with a blank on the shelf. Tape, paper
    and printer cancel: the reading is used as it stands.
    """
    from wrapwright.faces.opening import bench_of, open_settings

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    given = (("paper", paper), ("margins", margins), ("thickness", paper_thickness))
    sheet = {key: value for key, value in given if value is not None}
    way = _way(lies)
    rough = {"--girth": girth, "--girth-top": girth_top, "--girth-bottom": girth_bottom, "--wall": wall}
    try:
        if read:
            if output or girth or girth_top or girth_bottom or at:
                raise misuse("--read takes a reading, and the other options draw a strip.", "Do one after the other.")
            where = (sheet, setup, way, pieces, blank)
            _tell_read(_taken(read, wall, where, bench, talk), talk)
            return
        if output is None:
            raise misuse("-o or --read is missing.", "Draw a strip with -o FILE, or give what it read.")
        _draw(rough, at or [], (sheet, setup, way), output, bench, talk, force=force)
    except WrapwrightError as problem:
        raise as_options(problem) from None


Where = tuple[dict[str, str], str, Literal["", "across", "along"]]


def _draw(
    rough: dict[str, str | None], at: list[str], where: Where, file: Path, bench: Bench, talk: Talk, *, force: bool
) -> None:
    from wrapwright.core.base.units import length_mm
    from wrapwright.jobs.calibrate.gauge import DrawGauge, draw_gauge
    from wrapwright.jobs.calibrate.target import hand_over

    sheet, setup, lies = where
    places = tuple(length_mm(one, where="--at") for one in at)
    request = DrawGauge(_rough(rough), places, sheet, setup, lies=lies)
    with talk.watching() as watch:
        drawn = draw_gauge(request, bench, watch)
        hand_over(drawn.data, file, force=force)
    if talk.json:
        show_document({"format": FORMAT, "gauge": {"file": file.as_posix(), **drawn_row(drawn)}})
        return
    show(str(file))
    for one in drawn.words:
        talk.say(one)


def _rough(written: dict[str, str | None]) -> Blank:
    """Return the blank of the rough readings; a straight one may come without its wall."""
    from wrapwright.core.blank.readings import Blank, Reading
    from wrapwright.faces.cli.readings import blank_of, lengths_of

    given, _ = lengths_of(written, [])
    if "--girth" in given and "--wall" not in given and len(given) == 1:
        return Blank("straight", (Reading(None, given["--girth"], where="--girth"),))
    return blank_of(given, [])


def _taken(
    read: list[str], wall: str | None, where: tuple[Any, str, Literal["", "across", "along"], int, str],
    bench: Bench, talk: Talk,
) -> GaugeRead:  # fmt: skip
    from wrapwright.core.base.units import length_mm
    from wrapwright.jobs.calibrate.reading import ReadGauge, take_gauge

    sheet, setup, lies, pieces, blank = where
    problems: list[WrapwrightError] = []
    readings: list[tuple[float | None, float]] = []
    for one in read:
        try:
            readings.append(read_of(one))
        except WrapwrightError as problem:
            problems.append(problem)
    raise_all(problems)
    wall_mm = None if wall is None else length_mm(wall, where="--wall")
    request = ReadGauge(tuple(readings), wall_mm, sheet, setup, lies=lies, pieces=pieces, blank=blank)
    with talk.watching() as watch:
        return take_gauge(request, bench, watch)


def read_of(text: str) -> tuple[float | None, float]:
    """Return (wall position or None, flat length) of [POS=]HEAD+LINE, or of a length that is worked out already.

    Raises:
        WrapwrightError: usage for words that are no reading; unusable for marks that the gauge does not have.
    """
    from wrapwright.core.base.units import length_mm
    from wrapwright.core.blank.gauge.reading import read_gauge

    where = f"--read {text}"
    place, equals, marks = text.rpartition("=")
    position = length_mm(place, where=where) if equals else None
    head, plus, line = marks.partition("+")
    if not plus:
        return position, length_mm(marks, where=where)
    try:
        figures = float(head.strip()), float(line.strip())
    except ValueError:
        message = f'--read "{text}" is no reading.'
        raise WrapwrightError(Kind.USAGE, message, remedy="Write the head's mark + the line: 235+7.") from None
    return position, read_gauge(*figures)


def _way(lies: str) -> Literal["", "across", "along"]:
    word = lies.strip().casefold()
    if word in ("", "across", "along"):
        return word  # type: ignore[return-value]
    raise WrapwrightError(Kind.USAGE, f'--lies "{lies}" is no way to lie.', remedy="Write across or along.")


def drawn_row(drawn: GaugeDrawn) -> dict[str, Any]:
    """Return a drawn gauge as a document says it."""
    from wrapwright.core.base.units import stated

    strips = [
        {
            "at_mm": None if one.at_mm is None else stated(one.at_mm),
            "reads_mm": [stated(one.low_mm), stated(one.high_mm)],
            "pieces": one.pieces,
            "radius_mm": None if one.radius_mm is None else stated(one.radius_mm),
        }
        for one in drawn.strips
    ]
    rest = {"setup": drawn.setup, "paper": drawn.paper, "thickness_mm": drawn.thickness_mm, "scale": drawn.scale}
    return {"pages": drawn.pages, "lies": drawn.lies, "strips": strips, **rest, "words": list(drawn.words)}


def _tell_read(read: GaugeRead, talk: Talk) -> None:
    from wrapwright.faces.cli.kept.telling import row_of, show_tables

    if talk.json:
        kept = None if read.kept is None else row_of(read.kept)
        document = {"flats_mm": list(read.flats_mm), "blank": dict(read.table), "words": list(read.words)}
        show_document({"format": FORMAT, "reading": document, "kept": kept})
        return
    show_tables({"blank": read.table})
    for one in read.words:
        talk.say(one)
    if read.kept is not None:
        talk.say(f"Kept with {read.kept.name}, version {read.kept.version}.")
