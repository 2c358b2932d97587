"""What is to be printed: how large its pages are, what it is, and which content it has."""

from __future__ import annotations

from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.base.units import INCH_MM
from wrapwright.core.sheet.printer.values import Page
from wrapwright.outside.system.files import file_sha256

MOST_BYTES = 2_000_000_000
_POINT_MM = INCH_MM / 72
_SAME_MM = 0.05
_PDF = b"%PDF-"
_MAKE = "Name a sheets.pdf that was made."


def sha256_of(file: Path) -> str:
    """Return the SHA-256 of a file's content, in hex.

    Raises:
        WrapwrightError: missing, when there is none; unusable, when it cannot be read or has over 2 GB.
    """
    try:
        if file.stat().st_size > MOST_BYTES:
            raise unusable(f"The file has over {MOST_BYTES // 10**9} GB.", remedy=_MAKE, where=str(file))
        return file_sha256(file)
    except FileNotFoundError as error:
        raise WrapwrightError(Kind.MISSING, "There is no such file.", remedy=_MAKE, where=str(file)) from error
    except OSError as error:
        message = f"The file cannot be read: {error.strerror or error}."
        raise unusable(message, remedy=_MAKE, where=str(file)) from error


def page_of(file: Path) -> Page:
    """Return the pages of a PDF file: their one size as they are seen, and how many.

    Raises:
        WrapwrightError: unusable, for anything but a PDF file with pages of one size that opens without a password.
    """
    import pikepdf

    try:
        with file.open("rb") as content:
            begins = content.read(1024)
        if _PDF not in begins:
            raise unusable("The file is no PDF.", remedy=_MAKE, where=str(file))
        with pikepdf.open(file) as pdf:
            sizes = [_size(page) for page in pdf.pages]
    except pikepdf.PasswordError as error:
        raise unusable("The file wants a password.", remedy=_MAKE, where=str(file)) from error
    except (pikepdf.PdfError, OSError, ValueError, TypeError, ArithmeticError, AttributeError) as error:
        raise unusable("The file is damaged, or no PDF.", remedy=_MAKE, where=str(file)) from error
    if not sizes:
        raise unusable("The file has no pages.", remedy=_MAKE, where=str(file))
    width, height = sizes[0]
    for at, (other, tall) in enumerate(sizes, 1):
        if abs(other - width) > _SAME_MM or abs(tall - height) > _SAME_MM:
            message = (
                f"Page {at} is {other:.1f} x {tall:.1f} mm, page 1 {width:.1f} x {height:.1f} mm: print them apart."
            )
            raise unusable(message, where=str(file))
    return Page(width, height, len(sizes))


def _size(page: object) -> tuple[float, float]:
    """Return a page's width and height in mm as it is seen (ISO 32000-2, section 7.7.3.3)."""
    box = [float(value) for value in page.mediabox]  # type: ignore[attr-defined]
    unit = float(page.obj.get("/UserUnit", 1)) * _POINT_MM  # type: ignore[attr-defined]
    width, height = abs(box[2] - box[0]) * unit, abs(box[3] - box[1]) * unit
    turn = int(page.rotation) if hasattr(page, "rotation") else 0
    return (height, width) if turn % 180 else (width, height)
