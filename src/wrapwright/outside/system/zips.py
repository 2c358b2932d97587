"""Zip files (APPNOTE 6.3): written the same way every time, and read as files that may be made to do harm."""

from __future__ import annotations

import io
import shutil
import stat
import zipfile
from collections.abc import Iterator, Sequence
from pathlib import Path, PurePosixPath
from typing import BinaryIO

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.base.faults import FULL
from wrapwright.outside.system.files import is_inside, write_aside

MOST_FILES = 1000
MOST_BYTES = 2_000_000_000  # unpacked, all together
MOST_DEEP = 16  # folders in folders; the system's own calls to remove them end at some hundreds
MOST_LISTED = 8 << 20  # bytes of the list of files, which is read at once; 1000 names of 8 kB
_DATE = (2000, 1, 1, 0, 0, 0)
_UNIX = 3  # of the version made by
_RIGHTS = (stat.S_IFREG | 0o644) << 16
_BLOCK = 1 << 20
_PACKINGS = {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}


def is_zip(file: Path) -> bool:
    """Return whether a file is a zip file, whatever its name."""
    try:
        return zipfile.is_zipfile(file)
    except OSError:
        return False


def write_zip(file: Path, entries: Sequence[tuple[str, bytes | Path]]) -> None:
    """Write a zip of (name, content or file holding it) in this order; the same entries give the same bytes.

    Nothing in it is packed: what a design needs is packed already, and packing differs between libraries.

    Raises:
        WrapwrightError: unusable, when the file cannot be written or an entry cannot be read.
    """

    def write(out: BinaryIO) -> None:
        with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
            for name, content in entries:
                info = zipfile.ZipInfo(name, _DATE)
                info.create_system, info.external_attr = _UNIX, _RIGHTS
                _put(archive, info, content)

    write_aside(file, write)


def _put(archive: zipfile.ZipFile, info: zipfile.ZipInfo, content: bytes | Path) -> None:
    if isinstance(content, bytes):
        archive.writestr(info, content)
        return
    info.file_size = content.stat().st_size
    with content.open("rb") as source, archive.open(info, "w") as target:
        shutil.copyfileobj(source, target, _BLOCK)


def unzip(file: Path, folder: Path, *, called: str = "") -> None:
    """Unpack a zip file, `called` so in messages (by its own name when left out), into an empty folder.

    Raises:
        WrapwrightError: unusable, when it is damaged or locked, names a place outside the folder or a place twice,
            holds links, or is larger than the limits (1000 files, 16 folders deep, 2 GB unpacked); nothing of such a
            file is to be used. Unreachable, when the disk is full.
    """
    where = called or file.name
    try:
        with _Sparing(io.FileIO(file)) as opened, zipfile.ZipFile(opened) as archive:
            for info in _files(archive, where):
                target = folder.joinpath(*PurePosixPath(info.filename).parts)
                target.parent.mkdir(parents=True, exist_ok=True)
                with archive.open(info) as source, target.open("xb") as out:
                    shutil.copyfileobj(source, out, _BLOCK)
    except (zipfile.BadZipFile, zipfile.LargeZipFile, EOFError, NotImplementedError, RuntimeError, ValueError) as error:
        raise _harmful(f"the zip file is damaged: {error}.", where) from error
    except OSError as error:
        message = f"the zip file cannot be unpacked: {error.strerror or error}."
        if error.errno in FULL:
            raise WrapwrightError(Kind.UNREACHABLE, message, remedy="Make room there and try again.") from error
        raise _harmful(message, where) from error


class _Sparing(io.BufferedReader):
    """A file that does not give more than MOST_LISTED bytes at once: the list of files is read so, before all else."""

    def read(self, size: int | None = -1, /) -> bytes:
        """Return at most `size` bytes.

        Raises:
            BadZipFile: more than the limit is asked for.
        """
        if size is None or size > MOST_LISTED:
            raise zipfile.BadZipFile(f"its list of files is larger than {MOST_LISTED >> 20} MB")
        return super().read(size)


def _files(archive: zipfile.ZipFile, where: str) -> Iterator[zipfile.ZipInfo]:
    """Yield the files of an archive once all of them are known to be harmless."""
    infos = [info for info in archive.infolist() if not info.is_dir()]
    if len(infos) > MOST_FILES:
        raise _harmful(f"the zip file holds {len(infos)} files; the most is {MOST_FILES}.", where)
    total = sum(info.file_size for info in infos)
    if total > MOST_BYTES:
        raise _harmful(f"unpacked, the zip file has {total / 1e9:.1f} GB; the most is {MOST_BYTES / 1e9:g}.", where)
    seen: set[str] = set()
    for info in infos:
        if not is_inside(info.filename):
            raise _harmful(f"the zip file names a place outside its folder ({info.filename[:60]!r}).", where)
        if len(PurePosixPath(info.filename).parts) > MOST_DEEP:
            raise _harmful(f"the zip file holds folders more than {MOST_DEEP} deep.", where)
        if info.filename.casefold() in seen:
            raise _harmful(f"the zip file holds {info.filename[:60]!r} twice.", where)
        seen.add(info.filename.casefold())
        if stat.S_ISLNK(info.external_attr >> 16):
            raise _harmful(f"{info.filename[:60]!r} in the zip file is a link.", where)
        if info.flag_bits & 1 or info.compress_type not in _PACKINGS:
            raise _harmful(f"{info.filename[:60]!r} in the zip file is locked or packed in an unknown way.", where)
    yield from infos


def _harmful(message: str, where: str) -> WrapwrightError:
    return unusable(message, remedy="Use a file that wrapwright export has written.", where=where)
