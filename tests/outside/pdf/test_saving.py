"""A document is written as the library writes it; a disk that is full is an error, never the end of the process."""

from __future__ import annotations

import errno
import io
from pathlib import Path

import pikepdf
import pytest

from wrapwright.outside.pdf.saving import save_pdf


class _Full(io.BytesIO):
    def write(self, data: object, /) -> int:
        if self.tell() > 2000:
            raise OSError(errno.ENOSPC, "No space left on device")
        return super().write(data)  # type: ignore[arg-type]


@pytest.fixture
def pdf() -> pikepdf.Pdf:
    made = pikepdf.new()
    for number in range(40):
        made.add_blank_page().Contents = made.make_stream(f"{number} 0 m".encode() * 50)
    return made


def test_it_writes_what_the_library_writes(pdf: pikepdf.Pdf, tmp_path: Path) -> None:
    pdf.save(tmp_path / "one.pdf", static_id=True)
    save_pdf(pdf, tmp_path / "other.pdf", static_id=True)
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "other.pdf").read_bytes()


def test_a_full_disk_is_an_error(pdf: pikepdf.Pdf) -> None:
    with pytest.raises(OSError, match="No space left") as caught:
        save_pdf(pdf, _Full(), compress_streams=False)
    assert caught.value.errno == errno.ENOSPC
