"""Joins documents of a few pages each into one, without holding their pages in memory."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from contextlib import ExitStack
from pathlib import Path as File

import pikepdf

_DAY = "2000-01-01"
_OPEN = 32  # parts that are open at once: each costs memory and a file handle


def joined_pdf(parts: Sequence[File], file: File, *, title: str, on: str = "") -> None:
    """Write one PDF of all pages of the parts, in order; the same parts give the same bytes.

    Args:
        parts: PDF files; they are read while this one is written.
        file: where it goes.
        title: of the document.
        on: its date, "2026-05-02", or "" for none (its dates are then 2000-01-01).
    """
    with ExitStack() as stack, pikepdf.new() as whole:
        if len(parts) > _OPEN:
            folder = File(stack.enter_context(tempfile.TemporaryDirectory(prefix="wrapwright-")))
            several = [parts[first : first + _OPEN] for first in range(0, len(parts), _OPEN)]
            parts = [folder / f"{number:06d}.pdf" for number in range(len(several))]
            for some, part in zip(several, parts, strict=True):
                joined_pdf(some, part, title=title, on=on)
        for part in parts:
            whole.pages.extend(stack.enter_context(pikepdf.open(part)).pages)
        dated(whole, title, on)
        whole.save(file, deterministic_id=True)


def dated(pdf: pikepdf.Pdf, title: str, on: str) -> None:
    """Give a document its title and its date, and nothing else that says when it was made."""
    day = f"D:{(on or _DAY).replace('-', '')}000000Z"
    pdf.docinfo = pdf.make_indirect(
        pikepdf.Dictionary(Title=pikepdf.String(title), CreationDate=pikepdf.String(day), ModDate=pikepdf.String(day))
    )
