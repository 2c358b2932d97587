"""The options by which a blank's readings are given, and the blank they describe."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError, raise_all

if TYPE_CHECKING:
    from wrapwright.core.blank.readings import Blank, How, Reading

# How a reading is called here and in a job.
_OPTIONS = {
    "blank": "",
    "blank: wall": "--wall",
    "blank: height": "--height",
    "blank: width": "--width",
    "blank: circle": "--circle",
    "blank: corner": "--corner",
    "blank: readings": "--reading",
    "wrap: overlap": "--overlap",
    "wrap": "--overlap",
    "sheet: thickness": "--paper-thickness",
}


_FLAT = ("--width", "--circle", "--corner")
_KEYS = {
    *("girth", "girth_top", "girth_bottom", "diameter", "diameter_top", "diameter_bottom"),
    *("coating", "handle", "readings"),
}


def length_option(help_text: str) -> typer.models.OptionInfo:
    """Return an option that takes a length."""
    info: typer.models.OptionInfo = typer.Option(metavar="LENGTH", help=help_text)
    return info


Girth = Annotated[str | None, length_option("Distance round a straight blank.")]
GirthTop = Annotated[str | None, length_option("Distance round the top of the wall.")]
GirthBottom = Annotated[str | None, length_option("Distance round the foot of the wall.")]
Diameter = Annotated[str | None, length_option("Diameter of a straight blank, instead of its girth.")]
DiameterTop = Annotated[str | None, length_option("Diameter at the top of the wall.")]
DiameterBottom = Annotated[str | None, length_option("Diameter at the foot of the wall.")]
Wall = Annotated[str | None, length_option("Height measured along the wall.")]
Height = Annotated[str | None, length_option("Upright height, instead of the wall; the height of a flat blank.")]
Width = Annotated[str | None, length_option("Width of a flat blank, with --height.")]
Circle = Annotated[str | None, length_option("Diameter of a flat round blank.")]
Corner = Annotated[str | None, length_option("Radius of a flat blank's rounded corners.")]
Placed = Annotated[
    list[str] | None,
    typer.Option(metavar="POS=GIRTH", help="A girth at a position along the wall; repeat it, from the foot up."),
]


def lengths_of(written: dict[str, str | None], readings: list[str]) -> tuple[dict[str, float], list[Reading]]:
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


def blank_of(given: dict[str, float], placed: list[Reading]) -> Blank:
    """Return the blank that the options describe."""
    from wrapwright.core.blank.readings import Blank, Tape

    tape = Tape(thickness_mm=0.0)  # the readings are taken as they stand
    if any(name in given for name in _FLAT):
        return replace(_flat_of(given, placed), tape=tape)
    wall_mm, axial_mm = given.pop("--wall", None), given.pop("--height", None)
    if wall_mm is not None and axial_mm is not None:
        raise misuse("--wall and --height both say how high the wall is.", "Give one of them.")
    if placed:
        if given or axial_mm is not None:
            other = next(iter(given), "--height")
            raise misuse(f"--reading and {other} do not go together.", "Give readings with positions, and only them.")
        return Blank("profile", tuple(placed), wall_mm=wall_mm, tape=tape)
    ends = _ends(given)
    if wall_mm is None and axial_mm is None:
        raise misuse("The height is missing.", "Add --wall (measured along the wall) or --height (upright).")
    kind: Literal["straight", "tapered"] = "straight" if len(ends) == 1 else "tapered"
    return Blank(kind, ends, wall_mm=wall_mm, axial_mm=axial_mm, tape=tape)


def _flat_of(given: dict[str, float], placed: list[Reading]) -> Blank:
    """Return the flat blank that the options describe."""
    from wrapwright.core.blank.readings import Blank, PlateReadings

    first = next(name for name in _FLAT if name in given)
    other = next((name for name in given if name not in (*_FLAT, "--height")), "--reading" if placed else "")
    if other:
        raise misuse(f"{first} and {other} do not go together.", "A flat blank has a width and a height, or a circle.")
    width, height, circle = (given.get(name) for name in ("--width", "--height", "--circle"))
    if circle is None and (width is None or height is None):
        missing = "--width" if width is None else "--height"
        raise misuse(f"{first} needs {missing} beside it.", "Give width and height, or the circle.")
    if circle is not None and (width is not None or height is not None):
        raise misuse("--circle and sides do not go together.", "Give width and height, or the circle.")
    return Blank("flat", (), plate=PlateReadings(width, height, circle, given.get("--corner", 0.0)))


def _ends(given: dict[str, float]) -> tuple[Reading, ...]:
    """Return the one reading of a straight blank, or those at the foot and the top of a tapered one."""
    straight = [name for name in ("--girth", "--diameter") if name in given]
    bottom = [name for name in ("--girth-bottom", "--diameter-bottom") if name in given]
    top = [name for name in ("--girth-top", "--diameter-top") if name in given]
    for group in (straight, bottom, top):
        if len(group) == 2:
            raise misuse(f"{group[0]} and {group[1]} say the same twice.", "Give one of them.")
    if straight and (bottom or top):
        raise misuse(
            f"{straight[0]} and {(bottom + top)[0]} do not go together.",
            "Give one reading for a straight blank, or a top and a bottom for a tapered one.",
        )
    if straight:
        return (_read(straight[0], given[straight[0]]),)
    if not bottom and not top:
        raise misuse("No readings were given.", 'For example: --girth "9 1/4 in" --wall "6 1/2 in"')
    if not bottom or not top:
        missing = "--girth-bottom or --diameter-bottom" if not bottom else "--girth-top or --diameter-top"
        raise misuse(f"{(bottom + top)[0]} needs its other end.", f"Add {missing}.")
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
        raise misuse(f'--reading "{text}" has no "=".', 'Write it as "40 mm=231 mm".')
    where = f"--reading {text}"
    return Reading(length_mm(position, where=where), length_mm(girth, where=where), where=where)


def misuse(message: str, remedy: str) -> WrapwrightError:
    """Return the problem of options that cannot be meant together."""
    return WrapwrightError(Kind.USAGE, message, remedy=remedy)


def as_options(problem: WrapwrightError) -> WrapwrightError:
    """Return the problem with the keys of a job called by the options' names."""
    if isinstance(problem, SeveralProblemsError):
        return SeveralProblemsError(tuple(as_options(one) for one in problem.problems))
    where = _OPTIONS.get(problem.where, problem.where)
    table, _, key = where.partition(": ")
    if table == "blank" and key.split(" ")[0] in _KEYS:
        where = "--reading" if key.startswith("readings") else f"--{key.replace('_', '-').replace(' ', '-')}"
    return WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where)
