"""What is asked for with a file: its name, actual size, the paper to the hundredth of a millimetre, copies."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import unusable
from wrapwright.core.sheet.printer.values import Media
from wrapwright.outside.printer.encoding import Tag, Written, one

LONGEST_NAME = 255  # bytes, RFC 8011 section 5.1.3
_PIECE = 262_144
_PER_MM = 100  # media sizes and margins are hundredths of mm, PWG 5100.3


@dataclass(frozen=True)
class JobTicket:
    """What is asked for with a file.

    Attributes:
        name: the job's own name, by which it is found again.
        title: the document's name.
        width_mm, height_mm: of the paper.
        media: the printer's own statement of that paper; None when it names none.
        parts: which parts of a paper's description the printer reads; empty = it does not say.
        format: kind of file.
        copies: how many.
        one_sided: whether to ask for one side; left out where the printer knows no sides.
    """

    name: str
    title: str
    width_mm: float
    height_mm: float
    media: Media | None = None
    parts: tuple[str, ...] = ()
    format: str = "application/pdf"
    copies: int = 1
    one_sided: bool = True


@dataclass(frozen=True)
class Sent:
    """A file to be sent, read while it goes out.

    Attributes:
        file: its path.
        length: its bytes.
    """

    file: Path
    length: int

    def parts(self) -> Iterator[bytes]:
        """Yield the file's content.

        Raises:
            WrapwrightError: unusable, when it cannot be read or is no longer as long as it was.
        """
        left = self.length
        try:
            with self.file.open("rb") as file:
                while left and (piece := file.read(min(_PIECE, left))):
                    left -= len(piece)
                    yield piece
        except OSError as error:
            raise unusable(f"The file cannot be read: {error.strerror or error}.", where=str(self.file)) from error
        if left:
            raise unusable("The file was shortened while it was sent.", where=str(self.file))


def document_attributes(ticket: JobTicket) -> list[Written]:
    """Return what is said of the document."""
    return [
        one(Tag.NAME, "document-name", _short(ticket.title)),
        one(Tag.FORMAT, "document-format", ticket.format),
    ]


def job_attributes(ticket: JobTicket) -> list[Written]:
    """Return what is asked of the print: actual size (PWG 5100.16 `print-scaling`), paper, copies, one side."""
    asked = [
        one(Tag.INTEGER, "copies", ticket.copies),
        one(Tag.BEGIN, "media-col", media_col(ticket)),
        one(Tag.KEYWORD, "print-scaling", "none"),
    ]
    return [*asked, one(Tag.KEYWORD, "sides", "one-sided")] if ticket.one_sided else asked


def media_col(ticket: JobTicket) -> tuple[Written, ...]:
    """Return the paper as a collection (PWG 5100.3): the size always, the rest as far as the printer reads it."""
    width, height, media = ticket.width_mm, ticket.height_mm, ticket.media
    if media is not None:
        width, height = media.width_mm, media.height_mm
    size = (_hundredths("x-dimension", width), _hundredths("y-dimension", height))
    asked = [one(Tag.BEGIN, "media-size", size)]
    if media is not None and media.margins_mm is not None:
        names = ("media-top-margin", "media-right-margin", "media-bottom-margin", "media-left-margin")
        asked += [_hundredths(name, mm) for name, mm in zip(names, media.margins_mm, strict=True)]
    if media is not None and media.tray:
        asked.append(one(Tag.KEYWORD, "media-source", media.tray))
    if media is not None and media.kind:
        asked.append(one(Tag.KEYWORD, "media-type", media.kind))
    return tuple(part for part in asked if not ticket.parts or part.name in {*ticket.parts, "media-size"})


def _hundredths(name: str, mm: float) -> Written:
    return one(Tag.INTEGER, name, round(mm * _PER_MM))


def _short(text: str) -> str:
    """Return a text of at most 255 bytes in UTF-8."""
    return text.encode("utf-8")[:LONGEST_NAME].decode("utf-8", "ignore")
