"""`fit`: readings of a blank in, its flat wrap out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

import typer

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError, raise_all
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, lines, rows, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.core.blank.readings import Blank, How, Reading
    from wrapwright.jobs.fit_wrap import FitRequest, Fitted

EXAMPLE = 'wrapwright fit --girth-top "11 1/16 in" --girth-bottom "8 7/8 in" --wall "6 1/4 in"'

# How a reading is called here and in a job.
_OPTIONS = {
    "blank": "",
    "blank: wall": "--wall",
    "blank: height": "--height",
    "blank: readings": "--reading",
    "wrap: overlap": "--overlap",
    "wrap": "--overlap",
    "sheet: thickness": "--paper-thickness",
}


def _length(help_text: str) -> typer.models.OptionInfo:
    info: typer.models.OptionInfo = typer.Option(metavar="LENGTH", help=help_text)
    return info


def fit(
    *,
    girth: Annotated[str | None, _length("Distance round a straight blank.")] = None,
    girth_top: Annotated[str | None, _length("Distance round the top of the wall.")] = None,
    girth_bottom: Annotated[str | None, _length("Distance round the foot of the wall.")] = None,
    diameter: Annotated[str | None, _length("Diameter of a straight blank, instead of its girth.")] = None,
    diameter_top: Annotated[str | None, _length("Diameter at the top of the wall.")] = None,
    diameter_bottom: Annotated[str | None, _length("Diameter at the foot of the wall.")] = None,
    wall: Annotated[str | None, _length("Height measured along the wall.")] = None,
    height: Annotated[str | None, _length("Upright height, instead of the wall.")] = None,
    reading: Annotated[
        list[str] | None,
        typer.Option(metavar="POS=GIRTH", help="A girth at a position along the wall; repeat it, from the foot up."),
    ] = None,
    overlap: Annotated[str, typer.Option(metavar="LENGTH", help='Overlap at the seam, or "auto".')] = "0",
    paper_thickness: Annotated[str, _length("Thickness of the paper.")] = "0",
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Work out the flat wrap of a blank from its readings.

    Lengths may be written as 235, "235 mm", "23.5 cm", "9 1/4 in" or 9-1/4". Without --overlap and --paper-thickness
    this is pure geometry: overlap 0, paper 0, the readings taken as they stand.
    """
    from wrapwright.core.blank.readings import WrapRequest
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.fit_wrap import FitRequest, fit_wrap

    auto = overlap.strip().lower() == "auto"
    written = {
        "--girth": girth,
        "--girth-top": girth_top,
        "--girth-bottom": girth_bottom,
        "--diameter": diameter,
        "--diameter-top": diameter_top,
        "--diameter-bottom": diameter_bottom,
        "--wall": wall,
        "--height": height,
        "--overlap": None if auto else overlap,
        "--paper-thickness": paper_thickness,
    }
    talk = Talk(quiet, verbose, json)
    given, placed = _lengths(written, reading or [])
    wish, thickness = given.pop("--overlap", None), given.pop("--paper-thickness")
    request = FitRequest(_blank(given, placed), WrapRequest(overlap_mm=wish), thickness)
    with talk.watching() as watch:
        try:
            fitted = fit_wrap(request, bench_of(open_settings()), watch)
        except WrapwrightError as problem:
            raise _as_options(problem) from None
    _tell(fitted, request, talk)


def _lengths(written: dict[str, str | None], readings: list[str]) -> tuple[dict[str, float], list[Reading]]:
    """Return the lengths that were given, by option, and the readings with positions; every problem is told."""
    from wrapwright.core.base.units import length_mm

    given: dict[str, float] = {}
    placed: list[Reading] = []
    problems: list[WrapwrightError] = []
    for name, text in written.items():
        if text is not None:
            try:
                given[name] = length_mm(text, where=name)
            except WrapwrightError as problem:
                problems.append(problem)
    for text in readings:
        try:
            placed.append(_placed(text))
        except WrapwrightError as problem:
            problems.append(problem)
    raise_all(problems)
    return given, placed


def _blank(given: dict[str, float], placed: list[Reading]) -> Blank:
    """Return the blank that the options describe."""
    from wrapwright.core.blank.readings import Blank, Tape

    tape = Tape(thickness_mm=0.0)  # the readings are taken as they stand
    wall_mm, axial_mm = given.pop("--wall", None), given.pop("--height", None)
    if wall_mm is not None and axial_mm is not None:
        raise _misuse("--wall and --height both say how high the wall is.", "Give one of them.")
    if placed:
        if given or axial_mm is not None:
            other = next(iter(given), "--height")
            raise _misuse(f"--reading and {other} do not go together.", "Give readings with positions, and only them.")
        return Blank("profile", tuple(placed), wall_mm=wall_mm, tape=tape)
    ends = _ends(given)
    if wall_mm is None and axial_mm is None:
        raise _misuse("The height is missing.", "Add --wall (measured along the wall) or --height (upright).")
    kind: Literal["straight", "tapered"] = "straight" if len(ends) == 1 else "tapered"
    return Blank(kind, ends, wall_mm=wall_mm, axial_mm=axial_mm, tape=tape)


def _ends(given: dict[str, float]) -> tuple[Reading, ...]:
    """Return the one reading of a straight blank, or those at the foot and the top of a tapered one."""
    straight = [name for name in ("--girth", "--diameter") if name in given]
    bottom = [name for name in ("--girth-bottom", "--diameter-bottom") if name in given]
    top = [name for name in ("--girth-top", "--diameter-top") if name in given]
    for group in (straight, bottom, top):
        if len(group) == 2:
            raise _misuse(f"{group[0]} and {group[1]} say the same twice.", "Give one of them.")
    if straight and (bottom or top):
        raise _misuse(
            f"{straight[0]} and {(bottom + top)[0]} do not go together.",
            "Give one reading for a straight blank, or a top and a bottom for a tapered one.",
        )
    if straight:
        return (_read(straight[0], given[straight[0]]),)
    if not bottom and not top:
        raise _misuse("No readings were given.", 'For example: --girth "9 1/4 in" --wall "6 1/2 in"')
    if not bottom or not top:
        missing = "--girth-bottom or --diameter-bottom" if not bottom else "--girth-top or --diameter-top"
        raise _misuse(f"{(bottom + top)[0]} needs its other end.", f"Add {missing}.")
    return _read(bottom[0], given[bottom[0]]), _read(top[0], given[top[0]])


def _read(name: str, length: float) -> Reading:
    from wrapwright.core.blank.readings import Reading

    how: How = "diameter" if name.startswith("--diameter") else "girth"
    return Reading(None, length, how, where=name)


def _placed(text: str) -> Reading:
    """Return the reading of POS=GIRTH."""
    from wrapwright.core.base.units import length_mm
    from wrapwright.core.blank.readings import Reading

    position, equals, girth = text.partition("=")
    if not equals:
        raise _misuse(f'--reading "{text}" has no "=".', 'Write it as "40 mm=231 mm".')
    where = f"--reading {text}"
    return Reading(length_mm(position, where=where), length_mm(girth, where=where), where=where)


def _misuse(message: str, remedy: str) -> WrapwrightError:
    return WrapwrightError(Kind.USAGE, message, remedy=remedy)


def _as_options(problem: WrapwrightError) -> WrapwrightError:
    """Return the problem with the keys of a job called by the options' names."""
    if isinstance(problem, SeveralProblemsError):
        return SeveralProblemsError(tuple(_as_options(one) for one in problem.problems))
    where = _OPTIONS.get(problem.where, problem.where)
    return WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where)


def _tell(fitted: Fitted, request: FitRequest, talk: Talk) -> None:
    from wrapwright.core.blank.statement import cutting_statement, wrap_statement
    from wrapwright.faces.cli.fit_words import shape_lines

    wrapped = fitted.wrapped
    # Overlap 0 is where pure geometry starts, not a wish for a butt join.
    findings = [one for one in wrapped.findings if one.rule != "overlap-short" or request.wrap.overlap_mm]
    if talk.json:
        document = {"format": FORMAT, "wrap": wrap_statement(wrapped), **cutting_statement(wrapped.wrap)}
        show_document({**document, "checks": rows(findings)})
        return
    for line in shape_lines(fitted):
        show(line)
    for line in lines(findings):
        talk.say(line)
