"""Print the target that a printer's scale is measured by: two long lines, nothing corrected."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from wrapwright.core.sheet.marks import SetLabel
    from wrapwright.core.sheet.request import SheetRequest
    from wrapwright.core.sheet.scale.drawn import DrawnPage


@dataclass(frozen=True)
class PrintTarget:
    """The target to draw.

    Attributes:
        sheet: paper and margins as a job file's [sheet]; with a set-up, what differs from it.
        setup: name of a kept set-up, "" for none.
        id: number of a kept set-up, instead of its name.
        picture: as SVG for a screen instead of PDF.
    """

    sheet: Mapping[str, Any] = field(default_factory=dict)
    setup: str = ""
    id: int = 0
    picture: bool = False


@dataclass(frozen=True)
class Drawn:
    """A drawn page as a file.

    Attributes:
        data: the file.
        paper: what it is to be printed on.
        asked_mm: nominal distances across and along.
    """

    data: bytes
    paper: str
    asked_mm: tuple[float, float]


def print_target(request: PrintTarget, bench: Bench, watch: Watch) -> Drawn:
    """Return the target as a file.

    Raises:
        WrapwrightError: missing for no such set-up; unusable for a paper that cannot be, or of which too little is
            reached.
    """
    from wrapwright.core.sheet.scale.target import target_on
    from wrapwright.core.sheet.scale.target_page import target_page
    from wrapwright.jobs.calibrate.picture import picture_of

    watch.step("drawing the target", 0.2)
    target = target_on(sheet_of(request.sheet, bench, setup=request.setup, id=request.id))
    page = target_page(target, set_label=labels(bench))
    data = picture_of(page) if request.picture else pdf_of([page], "Two long lines")
    return Drawn(data, target.paper, target.asked_mm)


def sheet_of(table: Mapping[str, Any], bench: Bench, *, setup: str = "", id: int = 0) -> SheetRequest:  # noqa: A002
    """Return what is asked of the sheet: a kept set-up's figures where one is named, with what differs from them.

    Raises:
        WrapwrightError: missing for no such set-up; unusable, with all that is wrong.
    """
    from wrapwright.jobs.calibrate.scales import sheet_request
    from wrapwright.outside.store.rows.setups import setup_kept

    kept: dict[str, Any] = {}
    if setup or id:
        with bench.kept().reading() as connection:
            found = setup_kept(connection, id=id, name=setup)
        kept = {**found.sheet, "setup": found.name}
    return sheet_request({**kept, **table})


def labels(bench: Bench) -> SetLabel:
    """Return what sets the words on a drawn page."""
    from wrapwright.outside.fonts.labels import label_path
    from wrapwright.outside.fonts.shelf import FontShelf

    return partial(label_path, fonts=FontShelf(job_folder=Path(), user_folder=bench.folders.fonts))


def pdf_of(pages: list[DrawnPage], title: str) -> bytes:
    """Return the PDF of drawn pages."""
    from wrapwright.outside.icc.profiles import srgb_profile
    from wrapwright.outside.pdf.drawn import drawn_pdf
    from wrapwright.outside.pdf.metadata import About
    from wrapwright.outside.system.installed import version

    return drawn_pdf(pages, srgb=srgb_profile().data, about=About(title, f"Wrapwright {version()}"))


def hand_over(data: bytes, file: Path, *, force: bool) -> Path:
    """Return the file that was written.

    Raises:
        WrapwrightError: usage for a name that does not end in .pdf; refused when the file stands and `force` is not
            given; unusable when the folder cannot be written to.
    """
    from wrapwright.core.base.errors import Kind, WrapwrightError
    from wrapwright.outside.system.files import write_aside

    if file.suffix.casefold() != ".pdf":
        message = f'it is written as PDF, and "{file.name}" does not end in .pdf.'
        raise WrapwrightError(Kind.USAGE, message, remedy="Name the file with .pdf.", where="-o")
    if file.exists() and not force:
        message = "This file stands already; nothing was changed."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name, or add --force.", where=str(file))
    write_aside(file, data)
    return file
