"""What is asked of printing and what comes back: frozen, picklable values."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.findings import Finding, stopping
from wrapwright.outside.store.records import PrintKept


@dataclass(frozen=True)
class PrintSheets:
    """Print a sheets file at actual size.

    Attributes:
        file: a PDF that was made; a report.json beside it tells how near to the edge its pieces lie.
        to: a printer's address, the name of a set-up with a printer or folder, or a folder; "": that of `setup`.
        setup: the set-up with which the sheets were made, whose margins count; "" for none.
        copies: how many.
        title: what it is called; "": what its report says, else the file's name.
        even_so: print in spite of what speaks against it.
        leave: hand it over and do not wait until it is printed.
        look_s: seconds between two looks at the job.
    """

    file: Path
    to: str = ""
    setup: str = ""
    copies: int = 1
    title: str = ""
    even_so: bool = False
    leave: bool = False
    look_s: float = 1.0


@dataclass(frozen=True)
class Printed:
    """What became of it.

    Attributes:
        sent: the print, as it stands.
        files: what was put into a folder.
        findings: what spoke against it, all of it accepted, and what is to be known.
        again: False when the file was there already and was not sent once more.
    """

    sent: PrintKept
    files: tuple[Path, ...] = ()
    findings: tuple[Finding, ...] = ()
    again: bool = True


@dataclass(frozen=True)
class Target:
    """Where it goes: a printer's address or a folder, and what is known of it."""

    address: str = ""
    folder: str = ""
    certificate: str = ""
    pattern: str = ""
    setup: str = ""
    margins_mm: tuple[float, float, float, float] | None = None

    @property
    def written(self) -> str:
        """The address or the folder."""
        return self.address or self.folder


class PrinterSaysNoError(WrapwrightError):
    """What speaks against printing there; `findings` holds all of it."""

    def __init__(self, findings: tuple[Finding, ...], where: str = "") -> None:
        errors = stopping(list(findings))
        told = " ".join(one.message for one in errors)
        super().__init__(Kind.CHECKS, told, remedy="Nothing was printed; --even-so prints all the same.", where=where)
        self.findings = findings

    def __reduce__(self) -> tuple[object, ...]:
        """Keep the findings when the error crosses a process border."""
        return (PrinterSaysNoError, (self.findings, self.where))
