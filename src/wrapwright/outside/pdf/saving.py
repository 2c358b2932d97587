"""A PDF written to a file or stream that may fail."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any, BinaryIO, cast

import pikepdf


def save_pdf(pdf: pikepdf.Pdf, out: BinaryIO | Path, **how: Any) -> None:
    """Write a document.

    Args:
        pdf: what is written.
        out: an open file or stream, or the path of a file that is replaced.
        how: as pikepdf's `save` takes it.

    Raises:
        OSError: where the disk is full or takes no more.
    """
    if isinstance(out, Path):
        with out.open("wb") as file:
            save_pdf(pdf, file, **how)
        return
    patient = _Patient(out)
    pdf.save(cast("BinaryIO", patient), **how)
    if patient.problem is not None:
        raise patient.problem


class _Patient(io.RawIOBase):
    """A stream that keeps the first problem of another for later.

    An error from within the library's own writing ends the whole process: it is raised while its objects are undone.
    """

    def __init__(self, out: BinaryIO) -> None:
        super().__init__()
        self.out = out
        self.problem: OSError | None = None

    def writable(self) -> bool:
        return True

    def write(self, data: Any, /) -> int:
        if self.problem is None:
            try:
                self.out.write(data)
            except OSError as problem:
                self.problem = problem
        return len(data)

    def seekable(self) -> bool:
        return True

    def seek(self, offset: int, whence: int = 0, /) -> int:
        return self.out.seek(offset, whence)

    def tell(self) -> int:
        return self.out.tell()
