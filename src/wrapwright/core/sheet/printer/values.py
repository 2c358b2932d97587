"""What a printer says of itself: its papers and margins, what it takes, and how it is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True)
class Media:
    """One paper that a printer takes, or has in a tray.

    Attributes:
        name: its self-describing name (PWG 5101.1), for example "iso_a4_210x297mm"; "" where it has none.
        width_mm, height_mm: as the printer states them.
        margins_mm: what it cannot reach: top, right, bottom, left; None where it does not say.
        tray, kind: where it lies and what it is, for example "main" and "photographic-matte"; "" where not said.
    """

    name: str
    width_mm: float
    height_mm: float
    margins_mm: tuple[float, float, float, float] | None = None
    tray: str = ""
    kind: str = ""


@dataclass(frozen=True)
class Sizes:
    """Papers of any size between two: least and most width, least and most height, in mm."""

    least_width_mm: float
    most_width_mm: float
    least_height_mm: float
    most_height_mm: float


class Readiness(StrEnum):
    """How a printer is."""

    IDLE = "idle"
    PRINTING = "printing"
    STOPPED = "stopped"
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class PrinterFacts:
    """What a printer says of itself.

    Attributes:
        address: where it was asked.
        name, model, location: its own words; each may be "".
        formats: kinds of file it takes, for example "application/pdf".
        scalings: ways of scaling it can be asked for (`none` = actual size); None where it does not say.
        sides: its ways of using both sides.
        media: papers it takes.
        sizes: papers of any size that it takes.
        ready: papers that are in it now; None where it does not say.
        media_parts: which parts of a paper's description it reads, for example "media-size".
        copies: the most copies of one job.
        operations: numbers of the operations it knows (RFC 8011 section 5.4.15).
        readiness, words: how it is, as a state and in a sentence; "" when there is nothing to be said.
        accepting: whether it takes jobs.
        certificate: SHA-256 of the certificate it showed; "" without one.
    """

    address: str
    name: str = ""
    model: str = ""
    location: str = ""
    formats: tuple[str, ...] = ()
    scalings: tuple[str, ...] | None = None
    sides: tuple[str, ...] = ()
    media: tuple[Media, ...] = ()
    sizes: tuple[Sizes, ...] = ()
    ready: tuple[Media, ...] | None = None
    media_parts: tuple[str, ...] = ()
    copies: int = 1
    operations: frozenset[int] = frozenset()
    readiness: Readiness = Readiness.UNKNOWN
    words: str = ""
    accepting: bool = True
    certificate: str = ""


@dataclass(frozen=True)
class Page:
    """The pages of a file to be printed.

    Attributes:
        width_mm, height_mm: of every page.
        pages: how many.
        format: its kind of file, for example "application/pdf".
        margins_mm: how far the printed matter stays from the edges: top, right, bottom, left; None = not known.
    """

    width_mm: float
    height_mm: float
    pages: int = 1
    format: str = "application/pdf"
    margins_mm: tuple[float, float, float, float] | None = None
