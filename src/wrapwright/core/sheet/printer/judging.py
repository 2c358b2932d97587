"""Whether a printer will print a sheet as it is: paper, scale, margins, kind of file, copies, and how it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.sheet.papers import PAPERS
from wrapwright.core.sheet.printer.values import Media, Page, PrinterFacts, Readiness, Sizes

# Two statements of one paper's size may differ by their rounding (hundredths of mm, points, sixteenths of an inch).
SAME_PAPER_MM = 0.5  # common practice, no source
SAME_MARGIN_MM = 0.05
FORMAT, PAPER, SCALING, MARGINS, COPIES, STATE = (
    "printer-format",
    "printer-paper",
    "printer-scaling",
    "printer-margins",
    "printer-copies",
    "printer-state",
)
SIDES = ("top", "right", "bottom", "left")
_SPOKEN = {
    "application/pdf": "PDF",
    "image/png": "PNG",
    "image/tiff": "TIFF",
    "image/jpeg": "JPEG",
    "image/pwg-raster": "PWG Raster",
    "image/urf": "raster of phones",
    "application/postscript": "PostScript",
}
_ANY = "application/octet-stream"  # says nothing of what is really read


def judged(page: Page, printer: PrinterFacts, *, copies: int = 1) -> tuple[Finding, ...]:
    """Return what speaks against printing these pages there: errors, warnings and notes, none when all is well."""
    found = (
        *_format(page, printer),
        *_paper(page, printer),
        *_scaling(printer),
        *_margins(page, printer),
        *_copies(copies, printer),
        *_state(printer),
    )
    return tuple(found)


def loaded(page: Page, printer: PrinterFacts) -> Media | None:
    """Return the paper for these pages: one that is in the printer, else one that it takes, else None.

    A printer may state one paper with several margins. Without any it prints over the edge, and then many enlarge the
    picture a little whatever they are asked (common practice, no source): so the widest margins that the pages leave
    free are taken, and none at all only where the pages need it.
    """
    for media in (printer.ready or (), printer.media):
        same = [one for one in media if same_size(page, one)]
        if same:
            return min(same, key=lambda one: _choice(page, one))
    return None


def _choice(page: Page, media: Media) -> tuple[bool, bool, float]:
    """Return what orders papers of one size, the best first."""
    if media.margins_mm is None:
        return (True, False, 0.0)
    widest = max(media.margins_mm)
    if page.margins_mm is None:
        return (False, widest == 0.0, widest)
    short = any(True for _ in _out_of_reach(page, media))
    return (short, False, widest if short else -widest)


def same_size(page: Page, media: Media) -> bool:
    """Return whether a page is as large as a paper, upright or turned, within 0.5 mm."""
    sides = sorted((media.width_mm, media.height_mm))
    own = sorted((page.width_mm, page.height_mm))
    return all(abs(one - other) <= SAME_PAPER_MM for one, other in zip(own, sides, strict=True))


def size_words(width_mm: float, height_mm: float) -> str:
    """Return a paper's size in words, with its name where it has one."""
    sides = sorted((width_mm, height_mm))
    for name, known in PAPERS.items():
        if all(abs(one - other) <= SAME_PAPER_MM for one, other in zip(sides, known, strict=True)):
            return f"{name} ({width_mm:.1f} x {height_mm:.1f} mm)"
    return f"{width_mm:.1f} x {height_mm:.1f} mm"


def _format(page: Page, printer: PrinterFacts) -> Iterator[Finding]:
    if page.format in printer.formats:
        return
    own = _SPOKEN.get(page.format, page.format)
    taken = [_SPOKEN.get(one, one) for one in printer.formats if one != _ANY]
    if not taken:
        yield Finding(FORMAT, Severity.WARNING, f"The printer does not say whether it takes {own}.")
        return
    message = (
        f"The printer takes {', '.join(taken[:6])}, but not {own}: send it through this machine's own print service, "
        "which converts it."
    )
    yield Finding(FORMAT, Severity.ERROR, message)


def _paper(page: Page, printer: PrinterFacts) -> Iterator[Finding]:
    own = size_words(page.width_mm, page.height_mm)
    known = any(same_size(page, one) for one in printer.media) or any(_within(page, one) for one in printer.sizes)
    if printer.ready:
        if any(same_size(page, one) for one in printer.ready):
            return
        there = ", ".join(dict.fromkeys(size_words(one.width_mm, one.height_mm) for one in printer.ready))
        able = "load the sheet's paper" if known else "the printer does not name that paper among those it takes"
        yield Finding(PAPER, Severity.ERROR, f"The sheet is {own}, but in the printer is {there}: {able}.")
    elif not known and (printer.media or printer.sizes):
        yield Finding(PAPER, Severity.ERROR, f"The sheet is {own}, which is no paper that the printer takes.")
    else:
        yield Finding(PAPER, Severity.NOTE, f"The printer does not say which paper is in it: it must be {own}.")


def _within(page: Page, sizes: Sizes) -> bool:
    across, along = sorted((page.width_mm, page.height_mm))
    widths = (sizes.least_width_mm - SAME_PAPER_MM, sizes.most_width_mm + SAME_PAPER_MM)
    heights = (sizes.least_height_mm - SAME_PAPER_MM, sizes.most_height_mm + SAME_PAPER_MM)
    return widths[0] <= across <= widths[1] and heights[0] <= along <= heights[1]


def _scaling(printer: PrinterFacts) -> Iterator[Finding]:
    if printer.scalings is None:
        message = (
            "The printer does not say whether it can leave the size as it is: measure the sheet's check bars before "
            "the first piece is pressed."
        )
        yield Finding(SCALING, Severity.WARNING, message)
    elif "none" not in printer.scalings:
        ways = ", ".join(printer.scalings) or "nothing"
        message = f"The printer cannot leave the size as it is: it scales by {ways}. Wraps made with it will not fit."
        yield Finding(SCALING, Severity.ERROR, message)


def _margins(page: Page, printer: PrinterFacts) -> Iterator[Finding]:
    media = loaded(page, printer)
    if media is None or media.margins_mm is None or page.margins_mm is None:
        return
    short = list(_out_of_reach(page, media))
    if not short:
        if max(media.margins_mm) == 0.0:
            message = (
                "The printer reaches that far only when it prints over the edge, and then many enlarge the picture: "
                "measure the check bars before the first piece is pressed."
            )
            yield Finding(MARGINS, Severity.WARNING, message)
        return
    worst = max(short, key=lambda one: one[2] - one[1])
    parts = ", ".join(f"{side} {theirs:.2f} mm (the sheet {mine:.2f} mm)" for side, mine, theirs in short)
    message = f"The printer cannot reach as far as the sheet is printed: {parts}. Make the sheet with these margins."
    yield Finding(MARGINS, Severity.ERROR, message, figure=worst[1], limit=worst[2], unit="mm")


def _out_of_reach(page: Page, media: Media) -> Iterator[tuple[str, float, float]]:
    """Yield (side, the page's margin, the printer's) for each side on which the pages are printed farther out."""
    for side, mine, theirs in zip(SIDES, page.margins_mm or (), _turned(page, media), strict=False):
        if theirs > mine + SAME_MARGIN_MM:
            yield side, mine, theirs


def _turned(page: Page, media: Media) -> Iterable[float]:
    """Return the paper's margins as the page lies on it: a page turned to the paper may lie either way round."""
    top, right, bottom, left = media.margins_mm or (0.0, 0.0, 0.0, 0.0)
    if (page.width_mm > page.height_mm) == (media.width_mm > media.height_mm):
        return (top, right, bottom, left)
    return (max(left, right), max(top, bottom), max(left, right), max(top, bottom))


def _copies(copies: int, printer: PrinterFacts) -> Iterator[Finding]:
    if copies > printer.copies:
        message = f"The printer makes at most {printer.copies} of one file; {copies} were asked for."
        yield Finding(COPIES, Severity.ERROR, message, figure=float(copies), limit=float(printer.copies))


def _state(printer: PrinterFacts) -> Iterator[Finding]:
    why = f" {printer.words}" if printer.words else ""
    if not printer.accepting:
        yield Finding(STATE, Severity.ERROR, f"The printer takes no jobs at the moment.{why}")
    elif printer.readiness is Readiness.STOPPED:
        yield Finding(STATE, Severity.WARNING, f"The printer stands still: the sheet waits until it is seen to.{why}")
    elif printer.words:
        yield Finding(STATE, Severity.NOTE, f"The printer says:{why}")
