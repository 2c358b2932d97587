"""`press sleeve`: which sleeve does for a blank, why the others do not, and how long it is cut."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Annotated

import typer

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.readings import length_option, lengths_of, misuse
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.core.press.sleeve.values import Sleeve

EXAMPLE = 'wrapwright press sleeve --girth "242 mm" --smallest "194 mm" --band "102 mm" --sleeve "127 mm"'

_UNSOURCED = "Common practice, no source: a setting."
Own = Annotated[
    list[str] | None,
    typer.Option(
        "--sleeve", metavar="WIDTH", help='One at hand, laid flat: "127 mm" or NAME="127 mm"; may be repeated.'
    ),
]


def sleeve(
    *,
    girth: Annotated[str, length_option("Largest girth that it must pass, a handle in where it must pass one.")],
    band: Annotated[str, length_option("Height of the band.")],
    smallest: Annotated[str | None, length_option("Smallest girth in the band, if not the same.")] = None,
    own: Own = None,
    shrink: Annotated[str, typer.Option(metavar="PERCENT", help=f"What it can lose of its girth. {_UNSOURCED}")] = "50",
    lengthwise: Annotated[
        str, typer.Option(metavar="PERCENT", help=f"What it loses of its length. {_UNSOURCED}")
    ] = "10",
    limit: Annotated[str, typer.Option(metavar="TEMP", help=f"What it bears. {_UNSOURCED}")] = "210 C",
    at: Annotated[str | None, typer.Option(metavar="TEMP", help='What the heater is set to: "200 C", "392 F".')] = None,
    ease: Annotated[str, length_option(f"More girth than it must pass. {_UNSOURCED}")] = "8 mm",
    grip: Annotated[
        str, typer.Option(metavar="PERCENT", help=f"Most that its shrunk girth is of the band's. {_UNSOURCED}")
    ] = "95",
    fold: Annotated[str, length_option(f"What folds in at each end. {_UNSOURCED}")] = "15 mm",
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Choose a shrink sleeve: it passes over the blank, holds tight on the band and bears the heat.

    Without --sleeve the widths that would do are told.
    """
    from wrapwright.core.press.load.asked import set_celsius
    from wrapwright.core.press.sleeve.values import Girths, Rules
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.press.plan.sleeves import ChooseSleeve, choose_sleeve, sleeve_statement

    talk, bench = Talk(quiet, verbose, json), bench_of(open_settings())
    written = {"--girth": girth, "--band": band, "--smallest": smallest, "--ease": ease, "--fold": fold}
    lengths = lengths_of(dict(written), [])[0]
    shares = {key: _share(text, key) for key, text in (("--shrink", shrink), ("--lengthwise", lengthwise))}
    sleeves = _sleeves(own or [], shares["--shrink"], shares["--lengthwise"], set_celsius(limit, where="--limit"))
    largest = lengths["--girth"]
    girths = Girths(largest, lengths.get("--smallest", largest), lengths["--band"])
    rules = Rules(lengths["--ease"], _share(grip, "--grip"), lengths["--fold"])
    request = ChooseSleeve(girths, sleeves, rules, None if at is None else set_celsius(at, where="--at"))
    with talk.watching() as watch:
        chosen = choose_sleeve(request, bench, watch)
    if talk.json:
        show_document({"format": FORMAT, "sleeve": sleeve_statement(chosen, rules)})
        return
    for one in chosen.words:
        show(one)
    show("The rules and limits are common practice, no source: what the sleeve's maker states comes first.")


def _share(text: str, where: str) -> float:
    """Return a share of "50" or "50 %".

    Raises:
        WrapwrightError: usage; not a share.
    """
    found = re.fullmatch(r"\s*([0-9]+(?:[.,][0-9]+)?)\s*%?\s*", text)
    if found is None:
        raise misuse(f'{where} "{text[:40]}" is not a share.', f'Write {where} "50 %".')
    return float(found[1].replace(",", ".")) / 100.0


def _sleeves(written: list[str], radial: float, lengthwise: float, limit_c: float) -> tuple[Sleeve, ...]:
    from wrapwright.core.base.units import length_mm
    from wrapwright.core.press.sleeve.values import Sleeve

    problems: list[WrapwrightError] = []
    found = []
    for text in written:
        name, _, width = text.rpartition("=")
        try:
            found.append(Sleeve(length_mm(width, where="--sleeve"), radial, lengthwise, limit_c, name.strip()))
        except WrapwrightError as problem:
            problems.append(problem)
    if len(found) > 50:
        problems.append(unusable(f"{len(found)} sleeves are more than 50.", remedy="Leave some out.", where="--sleeve"))
    raise_all(problems)
    return tuple(found)
