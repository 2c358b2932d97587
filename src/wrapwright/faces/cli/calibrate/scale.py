"""`scale`: a printer's scale from two long lines: the target, what was measured, what was measured before."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.faces.cli.options import Force, Json, Quiet, Verbose
from wrapwright.faces.cli.readings import length_option, misuse
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from datetime import date

    from wrapwright.core.sheet.scale.entries import ScaleEntry
    from wrapwright.jobs.bench import Bench
    from wrapwright.jobs.calibrate.scales import Scales

EXAMPLE = (
    "wrapwright scale --paper Letter -o target.pdf\n"
    '  wrapwright scale --setup "Desk printer" --across "206.4 mm" --along "271.3 mm"'
)

_OPTIONS = ("across", "along", "asked", "division", "date", "note")

Paper = Annotated[str | None, typer.Option(metavar="PAPER", help="Letter, A4, A3 ... or 13x19 in.")]
Margins = Annotated[str | None, length_option("What the printer cannot reach, on every side.")]
Output = Annotated[Path | None, typer.Option("--output", "-o", metavar="FILE", help="Where the PDF goes.")]
Setup = Annotated[str, typer.Option(metavar="NAME", help="A set-up that is kept.")]


def scale(
    *,
    paper: Paper = None,
    margins: Margins = None,
    output: Output = None,
    force: Force = False,
    setup: Setup = "",
    across: Annotated[str | None, length_option("The length measured across, in the head's travel.")] = None,
    along: Annotated[str | None, length_option("The length measured along, in the feed.")] = None,
    asked: Annotated[
        str | None, typer.Option(metavar="ACROSSxALONG", help="What the target said, if not the set-up's own.")
    ] = None,
    division: Annotated[str, length_option("Smallest division that was read.")] = "0.5 mm",
    day: Annotated[str | None, typer.Option("--date", metavar="DAY", help="When it was measured: 2026-05-02.")] = None,
    note: Annotated[str, typer.Option(metavar="WORDS", help="A note to keep with it.")] = "",
    remove: Annotated[int, typer.Option(metavar="NUMBER", min=0, help="Remove a measurement by its number.")] = 0,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Measure a printer's scale by two long lines.

    With -o the target is drawn, its lines as far apart as the printer reaches, nothing corrected. With --across and
    --along what was measured on it is kept, and the set-up prints with it from now on. With --setup alone its
    measurements are listed.
    """
    from wrapwright.faces.opening import bench_of, open_settings

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    lengths = (across, along)
    if output is not None:
        if across or along or remove:
            raise misuse("-o draws a target, and lengths are kept of one.", "Do one after the other.")
        sheet = {key: value for key, value in (("paper", paper), ("margins", margins)) if value is not None}
        _draw(sheet, setup, output, bench, talk, force=force)
        return
    if not setup:
        raise misuse("-o or --setup is missing.", "Draw a target with -o FILE, or name the set-up that was measured.")
    if paper or margins:
        raise misuse("--paper and --margins say what to draw, and there is no -o.", "Add -o FILE, or leave them out.")
    if remove:
        scales = _removed(setup, remove, bench, talk)
    elif across or along:
        scales = _kept(setup, lengths, (asked, division, day, note), bench, talk)
    else:
        scales = _shown(setup, bench, talk)
    _tell(scales, talk)


def _draw(sheet: dict[str, str], setup: str, file: Path, bench: Bench, talk: Talk, *, force: bool) -> None:
    from wrapwright.core.base.units import mm_words
    from wrapwright.jobs.calibrate.target import PrintTarget, hand_over, print_target

    if not sheet and not setup:
        raise misuse("a target needs its paper.", "Add --paper Letter, or --setup NAME.")
    with talk.watching() as watch:
        drawn = print_target(PrintTarget(sheet, setup), bench, watch)
        hand_over(drawn.data, file, force=force)
    if talk.json:
        document = {"file": file.as_posix(), "paper": drawn.paper, "asked_mm": list(drawn.asked_mm)}
        show_document({"format": FORMAT, "target": document})
        return
    show(str(file))
    across, along = (mm_words(one) for one in drawn.asked_mm)
    talk.say(f"Print it at actual size on {drawn.paper}; asked are {across} across and {along} along.")


def _kept(
    setup: str, written: tuple[str | None, str | None], more: tuple[str | None, str, str | None, str],
    bench: Bench, talk: Talk,
) -> Scales:  # fmt: skip
    from wrapwright.jobs.calibrate.scales import KeepScale, keep_scale

    across, along = written
    if across is None or along is None:
        missing = "--across" if across is None else "--along"
        raise misuse(f"{missing} is missing: both lengths are measured.", "Measure both lines of the target.")
    asked, division, day, note = more
    lengths = _lengths({"--across": across, "--along": along, "--division": division})
    request = KeepScale(
        (lengths["--across"], lengths["--along"]),
        name=setup,
        asked_mm=_asked(asked) if asked else None,
        division_mm=lengths["--division"],
        day=_day(day) if day else None,
        note=note,
    )
    with talk.watching() as watch:
        try:
            return keep_scale(request, bench, watch)
        except WrapwrightError as problem:
            raise _as_options(problem) from None


def _as_options(problem: WrapwrightError) -> WrapwrightError:
    """Return the problem with what it is about called by the options' names."""
    if isinstance(problem, SeveralProblemsError):
        return SeveralProblemsError(tuple(_as_options(one) for one in problem.problems))
    where = f"--{problem.where}" if problem.where in _OPTIONS else problem.where
    return WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where)


def _removed(setup: str, entry: int, bench: Bench, talk: Talk) -> Scales:
    from wrapwright.jobs.calibrate.scales import DropScale, ShowScales, drop_scale, show_scales

    with talk.watching() as watch:
        number = show_scales(ShowScales(name=setup), bench, watch).setup.id
        return drop_scale(DropScale(number, entry), bench, watch)


def _shown(setup: str, bench: Bench, talk: Talk) -> Scales:
    from wrapwright.jobs.calibrate.scales import ShowScales, show_scales

    with talk.watching() as watch:
        return show_scales(ShowScales(name=setup), bench, watch)


def _lengths(written: dict[str, str]) -> dict[str, float]:
    from wrapwright.faces.cli.readings import lengths_of

    return lengths_of(dict(written), [])[0]


def _asked(text: str) -> tuple[float, float]:
    from wrapwright.core.base.units import length_mm

    parts = text.replace("×", "x").split("x")
    if len(parts) != 2:
        message = f'--asked "{text}" is not two lengths with an x between them.'
        raise WrapwrightError(Kind.USAGE, message, remedy='Write it as "207 mm x 271 mm".')
    across, along = (length_mm(part, where="--asked") for part in parts)
    return across, along


def _day(text: str) -> date:
    from datetime import date

    try:
        return date.fromisoformat(text)
    except ValueError:
        message = f'--date "{text}" is no day.'
        raise WrapwrightError(Kind.USAGE, message, remedy="Write it as 2026-05-02.") from None


def entry_row(entry: ScaleEntry) -> dict[str, Any]:
    """Return a measurement as a document says it."""
    from wrapwright.core.base.units import stated

    lengths = entry.lengths
    return {
        "id": entry.id,
        "date": entry.day.isoformat(),
        "paper": entry.paper,
        "asked_mm": [stated(one) for one in lengths.asked_mm],
        "measured_mm": [stated(one) for one in lengths.measured_mm],
        "scale": [stated(one) for one in lengths.scale],
        "scale_error": [stated(one) for one in lengths.error],
        "note": entry.note,
    }


def _tell(scales: Scales, talk: Talk) -> None:
    from wrapwright.faces.cli.kept.telling import show_columns

    if talk.json:
        rows = [entry_row(one) for one in scales.entries]
        asked = None if scales.asked_mm is None else list(scales.asked_mm)
        words = {"asked_mm": asked, "measurements": rows, "words": list(scales.words)}
        show_document({"format": FORMAT, "setup": scales.setup.name, **words})
        return
    show_columns([_columns(one) for one in scales.entries])
    for one in scales.words:
        show(one)


def _columns(entry: ScaleEntry) -> tuple[str, ...]:
    scale, error = entry.lengths.scale, entry.lengths.error
    figures = (f"{name} {scale[at]:.4f} ± {error[at]:.4f}" for at, name in enumerate(("across", "along")))
    return (str(entry.id), entry.day.isoformat(), entry.paper, *figures, entry.note)
