"""Files that come in: streamed to the store's own folder, hashed on the way, and gone when anything goes wrong."""

from __future__ import annotations

import hashlib
import secrets
import shutil
import time
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from anyio import to_thread
from starlette.requests import ClientDisconnect, Request

from wrapwright.core.base.errors import Kind
from wrapwright.core.base.faults import FULL
from wrapwright.faces.api.failing import AnswerError, answer
from wrapwright.outside.system.files import clean_name

MB = 1_000_000
BIGGEST = 512 * MB
FOLDER = "incoming"
_PIECE = 1 << 20  # bytes written at a time
_OLD_S = 24 * 3600


@dataclass(frozen=True)
class Arrived:
    """A whole file that came in: its cleaned name, where it lies for now, its hash and size."""

    name: str
    file: Path
    sha256: str
    bytes: int


@asynccontextmanager
async def arriving(request: Request, name: str, data: Path, *, biggest: int = BIGGEST) -> AsyncIterator[Arrived]:
    """Give the file that is the body of a request; it is gone after the block, unless the block moved it away.

    Args:
        request: its body is read piece by piece; memory stays flat.
        name: as the sender wrote it.
        data: the store's folder.
        biggest: bytes.

    Raises:
        AnswerError: 413 when it is larger than `biggest` (said or come), 507 when the disk has no room, 422 when it
            is empty, 400 when the sender stopped half-way.
    """
    folder = data / FOLDER
    said = request.headers.get("content-length", "")
    if said.isdecimal() and int(said) > biggest:
        raise too_large(biggest, int(said))
    await to_thread.run_sync(_ready, folder, int(said) if said.isdecimal() else 0)
    file = folder / f"{secrets.token_hex(8)}{Path(clean_name(name)).suffix.lower()[:8]}"
    try:
        sha256, size = await _written(request, file, biggest)
        if not size:
            raise answer(422, Kind.UNUSABLE, "The file is empty.", remedy="Choose the file again.")
        yield Arrived(clean_name(name), file, sha256, size)
    finally:
        file.unlink(missing_ok=True)


async def _written(request: Request, file: Path, biggest: int) -> tuple[str, int]:
    digest, size, kept = hashlib.sha256(), 0, bytearray()

    def write(out: BinaryIO, piece: bytes) -> None:
        digest.update(piece)
        out.write(piece)

    try:
        with file.open("xb") as out:
            async for piece in request.stream():
                size += len(piece)
                if size > biggest:
                    raise too_large(biggest)
                kept += piece
                if len(kept) >= _PIECE:
                    await to_thread.run_sync(write, out, bytes(kept))
                    kept.clear()
            await to_thread.run_sync(write, out, bytes(kept))
    except ClientDisconnect as error:
        raise answer(400, Kind.STOPPED, "The file did not come whole; nothing of it was kept.") from error
    except OSError as error:
        raise _no_room(error, file.parent) from error
    return digest.hexdigest(), size


def _ready(folder: Path, said: int) -> None:
    """Make the folder, and see whether the disk has room for what is said to come."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        free = shutil.disk_usage(folder).free
    except OSError as error:
        raise _no_room(error, folder) from error
    if said > free:
        raise _full(said, free)


def _no_room(error: OSError, folder: Path) -> AnswerError:
    if error.errno in FULL:
        return _full(0, shutil.disk_usage(folder).free)
    return answer(
        503,
        Kind.UNREACHABLE,
        f"The store's folder cannot be written: {error.strerror or 'reason unknown'}.",
        remedy="See that it is there and may be written to.",
    )


def _full(needed: int, free: int) -> AnswerError:
    asked = f"{needed / MB:.0f} MB are needed, " if needed else ""
    message = f"The disk that holds the store is full: {asked}{free / MB:.0f} MB are free. Nothing was kept."
    return answer(507, Kind.UNREACHABLE, message, remedy="Make room on it and try again.")


def too_large(biggest: int, said: int = 0) -> AnswerError:
    """Return the problem of a body beyond its limit."""
    figure = f"is {said / MB:.1f} MB" if said else "goes on"
    message = f"The file {figure}; at most {biggest / MB:g} MB are taken. Nothing of it was kept."
    return answer(413, Kind.UNUSABLE, message, remedy="Make it smaller.", headers={"Connection": "close"})


def sweep(data: Path) -> None:
    """Remove what uploads left that a loss of power ended, a day later at the earliest."""
    for file in (data / FOLDER).glob("*"):
        try:
            if time.time() - file.stat().st_mtime > _OLD_S:
                file.unlink()
        except OSError:
            continue  # another server took it away
