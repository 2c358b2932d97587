"""`fit`: readings of a blank in, its flat wrap out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.readings import (
    Circle,
    Corner,
    Diameter,
    DiameterBottom,
    DiameterTop,
    Girth,
    GirthBottom,
    GirthTop,
    Height,
    Placed,
    Wall,
    Width,
    as_options,
    blank_of,
    length_option,
    lengths_of,
)
from wrapwright.faces.cli.talk import Talk, lines, rows, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.jobs.fit_wrap import FitRequest, Fitted

EXAMPLE = 'wrapwright fit --girth-top "11 1/16 in" --girth-bottom "8 7/8 in" --wall "6 1/4 in"'


def fit(
    *,
    girth: Girth = None,
    girth_top: GirthTop = None,
    girth_bottom: GirthBottom = None,
    diameter: Diameter = None,
    diameter_top: DiameterTop = None,
    diameter_bottom: DiameterBottom = None,
    wall: Wall = None,
    height: Height = None,
    width: Width = None,
    circle: Circle = None,
    corner: Corner = None,
    reading: Placed = None,
    overlap: Annotated[str, typer.Option(metavar="LENGTH", help='Overlap at the seam, or "auto".')] = "0",
    paper_thickness: Annotated[str, length_option("Thickness of the paper.")] = "0",
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
        "--width": width,
        "--circle": circle,
        "--corner": corner,
        "--overlap": None if auto else overlap,
        "--paper-thickness": paper_thickness,
    }
    talk = Talk(quiet, verbose, json)
    given, placed = lengths_of(written, reading or [])
    wish, thickness = given.pop("--overlap", None), given.pop("--paper-thickness")
    blank = blank_of(given, placed)
    if blank.kind == "flat" and not wish:
        wish = None  # 0 is where geometry starts, and a flat blank has none
    request = FitRequest(blank, WrapRequest(overlap_mm=wish), thickness)
    with talk.watching() as watch:
        try:
            fitted = fit_wrap(request, bench_of(open_settings()), watch)
        except WrapwrightError as problem:
            raise as_options(problem) from None
    _tell(fitted, request, talk)


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
