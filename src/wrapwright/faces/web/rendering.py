"""Pages from templates, with what every page shows: its steps, its unit, who is here."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Watch

HERE = Path(__file__).parent
MM_PER_INCH = 25.4
YEAR_S = 31_536_000


@dataclass(frozen=True)
class Step:
    """A step in the top bar; without an address it cannot be gone to yet, and `why` says what to do first."""

    name: str
    href: str
    current: bool
    why: str = ""


@cache
def templates() -> Environment:
    """Return the one environment of all pages; it escapes everything and refuses unknown names."""
    made = Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["mm"] = length
    made.filters["bare"] = bare
    return made


def page(request: Request, name: str, *, status: int = 200, step: str = "", **values: Any) -> HTMLResponse:
    """Return a page.

    Args:
        request: the request that it answers.
        name: of the template.
        status: of the answer.
        step: shelf, measure, compose, sheet, names, tray, press, history or setups: the one that is marked as current.
        values: for the template; `design` (an id) also becomes the design that Compose and Sheet go to.
    """
    unit = unit_of(request)
    design = int(values.get("design") or 0) or last_design(request)
    shared = {
        "static": f"/s/{request.app.state.assets.version}",
        "nonce": getattr(request.state, "nonce", ""),
        "person": getattr(request.state, "person", "") or "",
        "unit": unit,
        "step": step,
        "steps": steps(step, design),
    }
    text = templates().get_template(name).render(shared | values)
    answer = HTMLResponse(text, status_code=status)
    if request.query_params.get("unit"):
        answer.set_cookie("unit", unit, max_age=YEAR_S, samesite="strict")
    if values.get("design"):
        answer.set_cookie("design", str(design), max_age=YEAR_S, samesite="strict")
    return answer


def trouble(request: Request, error: WrapwrightError, status: int) -> HTMLResponse:
    """Return the page that says what went wrong and where to go from there."""
    title = "Not there" if status == 404 else "That did not work"
    return page(request, "trouble.html", status=status, title=title, message=error.message, remedy=error.remedy)


def steps(current: str, design: int) -> tuple[Step, ...]:
    """Return the steps of the work in their order; Compose and Sheet need a design."""
    why = "" if design else "open a design on the shelf first"
    return (
        Step("Shelf", "/", current == "shelf"),
        Step("Measure", "/measure", current == "measure"),
        Step("Compose", f"/designs/{design}" if design else "", current == "compose", why),
        Step("Sheet", f"/designs/{design}/sheet" if design else "", current == "sheet", why),
        Step("Tray", "/tray", current == "tray"),
        Step("Press", "/press", current == "press"),
        Step("History", "/history", current == "history"),
    )


def unit_of(request: Request) -> str:
    """Return "mm" or "in": as the address asks, else as the person chose last."""
    asked = request.query_params.get("unit") or request.cookies.get("unit", "")
    return "in" if asked == "in" else "mm"


def last_design(request: Request) -> int:
    """Return the design that was open last in this browser and is still there, 0 for none."""
    from wrapwright.jobs.kept.designs import ShowDesign, show_design

    text = request.cookies.get("design", "")
    if not (text.isascii() and text.isdecimal() and len(text) < 10):
        return 0
    try:
        return show_design(ShowDesign(int(text)), request.app.state.bench, Watch()).id
    except WrapwrightError:
        return 0


def length(mm: float, unit: str, digits: int = 1, *, alone: bool = False) -> Markup:
    """Return a length as it stands without scripts, carrying its millimetres for the script that knows the locale.

    Args:
        mm: the length.
        unit: "mm" or "in".
        digits: decimals in millimetres; inches get two more.
        alone: without its unit, where the next figure has it.
    """
    value, places = (mm / MM_PER_INCH, digits + 2) if unit == "in" else (mm, digits)
    shown = f"{value:.{places}f}" + ("" if alone else f"\u00a0{unit}")
    return Markup('<span class="figure" data-mm="{}" data-digits="{}"{}>{}</span>').format(
        f"{mm:.6g}", digits, Markup(" data-alone" if alone else ""), shown
    )


def bare(mm: float, unit: str, digits: int = 2) -> str:
    """Return a length for a field: the figure alone, without zeros at its end; inches get one decimal more."""
    shown = f"{mm / MM_PER_INCH:.{digits + 1}f}" if unit == "in" else f"{mm:.{digits}f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown
