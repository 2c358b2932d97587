"""Print a trial's coupons: true size, mirrored, in the set-up's own colours, each with its number and its heat."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.trial.values import TrialPlan

if TYPE_CHECKING:
    from wrapwright.core.press.trial.sheet.pages import Labelled, PrintedPage
    from wrapwright.core.sheet.request import SheetRequest
    from wrapwright.jobs.work.colouring import Colouring

MOST_SPARES = 24
POSITIONS = "positions"
_BLANK = "________"


@dataclass(frozen=True)
class PrintTrial:
    """The coupons to print.

    Attributes:
        id, name: of the trial, as in ShowTrial.
        setup, setup_id: a kept set-up, by name or number; "" and 0 for none.
        sheet: paper and margins as a job file's [sheet]; with a set-up, what differs from it.
        size_mm: width and height of a coupon; None: 32 x 50 mm.
        length_mm: distance round the blank, for positions; None: as long as the coupons beside each other.
        spares: further coupons whose heat is written in by hand; None: as many as the plan expects to be proposed.
        picture: page that is wanted as SVG for a screen, 0 for all as PDF.
    """

    id: int = 0
    name: str = ""
    setup: str = ""
    setup_id: int = 0
    sheet: Mapping[str, Any] = field(default_factory=dict)
    size_mm: tuple[float, float] | None = None
    length_mm: float | None = None
    spares: int | None = None
    picture: int = 0


@dataclass(frozen=True)
class TrialPrinted:
    """The file, what it is to be printed on, how many pages and coupons, and what to mind."""

    data: bytes
    paper: str
    pages: int
    coupons: int
    cautions: tuple[str, ...]


def print_trial(request: PrintTrial, bench: Bench, watch: Watch) -> TrialPrinted:
    """Return a trial's coupons as a file.

    Raises:
        WrapwrightError: missing for no such trial, set-up or page; unusable for a size, a length or a paper that cannot
            be, or a set-up whose profile is not a printer's.
    """
    from wrapwright.core.press.trial.sheet.pages import coupon_pages
    from wrapwright.data.press import cautions_for
    from wrapwright.jobs.calibrate.target import labels, sheet_of
    from wrapwright.jobs.press.trial.plain import plan_from
    from wrapwright.outside.store.rows.press.trials import trial_kept

    watch.step("drawing the coupons", 0.2)
    with bench.kept().reading() as connection:
        row = trial_kept(connection, id=request.id, name=request.name)
    plan = plan_from(row.plan)
    sheet = sheet_of(request.sheet, bench, setup=request.setup, id=request.setup_id)
    labelled = _labelled(plan, request.spares)
    pieces = _pieces(plan, request, labelled, sheet)
    pages = coupon_pages(pieces, sheet, title=row.name, words=_words(plan, sheet), set_label=labels(bench))
    watch.step("writing them", 0.7)
    colouring = _colouring(request, bench)
    data = _picture(pages, request.picture) if request.picture else _pdf(pages, colouring, row.name)
    minded = tuple(one.text for one in cautions_for("print", plan.ware, plan.heater_kind, flat=True))
    return TrialPrinted(data, sheet.paper, len(pages), len(labelled), minded)


def _labelled(plan: TrialPlan, spares: int | None) -> tuple[Labelled, ...]:
    from wrapwright.core.base.heat_words import celsius_words, seconds_words
    from wrapwright.core.press.trial.sheet.pages import Labelled

    more = plan.total - len(plan.settings) if spares is None else spares
    if not 0 <= more <= MOST_SPARES:
        message = f"{more} spare coupons cannot be printed; 0 to {MOST_SPARES} can."
        raise unusable(message, remedy="Print the rest another time.", where="spares")
    planned = [
        Labelled(number, celsius_words(celsius), _time_words(plan, number, seconds_words(seconds)))
        for number, (celsius, seconds) in enumerate(plan.settings, start=1)
    ]
    if plan.kind != "coupons":
        return tuple(planned)
    first = len(planned) + 1
    return (
        *planned,
        *(Labelled(number, f"{_BLANK} °C / °F", f"{_BLANK} min") for number in range(first, first + more)),
    )


def _time_words(plan: TrialPlan, number: int, time: str) -> str:
    if plan.kind != "strip":
        return time
    return f"{time}, first" if number == 1 else f"{time}, then"


def _pieces(
    plan: TrialPlan, request: PrintTrial, labelled: Sequence[Labelled], sheet: SheetRequest
) -> tuple[Any, ...]:  # fmt: skip
    from wrapwright.core.press.trial.sheet.pages import USUAL_MM, pieces_for

    size = request.size_mm or USUAL_MM
    if plan.kind != POSITIONS:
        if request.length_mm is not None:
            message = "a length belongs to the positions of one heat; this trial has pieces of their own."
            raise unusable(message, remedy="Leave it out, or give a size.", where="length")
        return pieces_for(labelled, size, sheet)
    return pieces_for(labelled, size, sheet, strip_mm=request.length_mm or size[0] * len(labelled))


def _words(plan: TrialPlan, sheet: SheetRequest) -> tuple[str, ...]:
    """Return what stands at the head of the first page."""
    from wrapwright.jobs.press.trial.telling import how_words

    printer = f"{sheet.setup}, {sheet.paper}" if sheet.setup else sheet.paper
    return (
        f"For the recipe {plan.recipe}, in {plan.heater}; {plan.wall_mm:g} mm {plan.material}. For {printer}, at"
        " actual size. The coupons read backwards here and the right way when they are done. Cut all marks and words"
        " away: what stays on the paper prints.",
        *how_words(plan),
    )


def _colouring(request: PrintTrial, bench: Bench) -> Colouring:
    """Return the colours: sRGB for the printer's own software, or the set-up's own ink.

    Raises:
        WrapwrightError: unusable, when the profile is not a printer's or its file is gone.
    """
    from wrapwright.jobs.work.colouring import Colouring
    from wrapwright.outside.icc.conversion import conversion
    from wrapwright.outside.icc.profiles import read_printer
    from wrapwright.outside.icc.working import working_space
    from wrapwright.outside.store.contents import content_file
    from wrapwright.outside.store.rows.setups import setup_kept

    working = working_space([], convert=False)
    there = None
    if request.setup or request.setup_id:
        with bench.kept().reading() as connection:
            kept = setup_kept(connection, id=request.setup_id, name=request.setup)
        if kept.profile_sha256:
            file = content_file(bench.kept(), kept.profile_sha256)
            device = read_printer(file, named=str(kept.colour.get("profile", "the set-up's profile")))
            black = bool(kept.colour.get("black_point", True))
            there = conversion(working.profile, device, kept.colour.get("intent", "perceptual"), black_point=black)
    return Colouring(working, there, {}, bench.folders.cache / "tables", ())


def _pdf(pages: Sequence[PrintedPage], colouring: Colouring, title: str) -> bytes:
    from wrapwright.outside.pdf import content
    from wrapwright.outside.pdf.document import Document, SheetColour
    from wrapwright.outside.pdf.metadata import About
    from wrapwright.outside.system.installed import version

    profile = colouring.page_profile
    colour = SheetColour(colouring.channels, profile.data, profile.description, colouring.there is not None)
    document = Document(colour, colouring.ink)
    resources, points = document.resources(), content.page_points()
    for page in pages:
        box = (0.0, 0.0, page.width_mm, page.height_mm)
        parts = []
        for one in page.tints:
            if one.path.subpaths:
                fill = content.word_ops if one.words else content.fill_ops
                parts.append(f"{document.set_ink(one.colour)}\n{fill(one.path, points)}")
        document.page((box, box, box), ["\n".join(parts)], resources)
    out = io.BytesIO()
    document.finish(About(title, f"Wrapwright {version()}"), out)
    return out.getvalue()


def _picture(pages: Sequence[PrintedPage], number: int) -> bytes:
    """Return one page as SVG (W3C SVG 2), in millimetres, y turned down.

    Raises:
        WrapwrightError: missing, when there is no such page.
    """
    from wrapwright.core.base.colours import hex_of
    from wrapwright.jobs.live.views.strings import path_data

    if not 1 <= number <= len(pages):
        message = f"These coupons have {len(pages)} page{'' if len(pages) == 1 else 's'}; there is no page {number}."
        raise WrapwrightError(Kind.MISSING, message, remedy="Ask for one of them.")
    page = pages[number - 1]
    width, height = f"{page.width_mm:g}", f"{page.height_mm:g}"
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 -{height} {width} {height}" width="{width}mm"'
        f' height="{height}mm"><rect y="-{height}" width="{width}" height="{height}" fill="#fff"/>'
    ]
    parts += [
        f'<path fill="{hex_of(one.colour)}" d="{path_data(one.path)}"/>' for one in page.tints if one.path.subpaths
    ]
    return "".join((*parts, "</svg>")).encode("ascii")
