"""Make the contact sheet of a list by itself, before anything is printed: what the customer signs off."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.names.making.places import Order
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.checking import ready_names
from wrapwright.jobs.names.values import CheckNames


@dataclass(frozen=True)
class ShowContact:
    """Make the contact sheet of a job's list.

    Attributes:
        job: path of the job file.
        file: where it goes, a PDF.
        force: replace a file that stands there.
        order: in which the pieces will fill the sheets.
        seconds: longest search for a fuller sheet.
    """

    job: Path
    file: Path
    force: bool = False
    order: Order = "rows"
    seconds: float = 2.0


def show_contact(request: ShowContact, bench: Bench, watch: Watch) -> str:
    """Return the SHA-256 of the list whose contact sheet was written.

    Raises:
        NamesWaitError: kind checks, when rows wait for a decision.
        WrapwrightError: usage for another ending than .pdf; refused when the file stands and force was not given; the
            job or its list cannot be read, it fits no paper, or the file cannot be written.
    """
    from wrapwright.jobs.names.contact.contact import contact_pdf
    from wrapwright.jobs.names.making.planning import Wanted, plan
    from wrapwright.outside.system.files import write_aside

    if request.file.suffix.casefold() != ".pdf":
        raise WrapwrightError(Kind.USAGE, "A contact sheet is a PDF.", remedy="Name the file contact.pdf.", where="-o")
    if request.file.exists() and not request.force:
        message = f"{request.file.name} is there already."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name, or add --force.", where="-o")
    if not request.file.parent.is_dir():
        message = f"there is no folder {request.file.parent}."
        raise unusable(message, remedy="Make it, or name another place.", where="-o")
    names, checked = ready_names(CheckNames(request.job), bench, watch)
    wanted = Wanted(checked.pieces, checked.pieces, request.order, request.seconds)
    planned = plan(names, wanted, bench, watch)
    with tempfile.TemporaryDirectory(prefix="wrapwright-") as folder:
        made = Path(folder) / "contact.pdf"
        contact_pdf(names, planned, made, bench, watch)
        write_aside(request.file, made.read_bytes())
    return names.sha256
