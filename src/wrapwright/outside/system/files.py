"""Writing files so that a reader sees the old one or the new one, never a half; and names that every system takes."""

from __future__ import annotations

import contextlib
import hashlib
import os
import re
import secrets
import time
import unicodedata
from collections.abc import Callable
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import BinaryIO

from wrapwright.core.base.errors import Kind, WrapwrightError

NAME_BYTES = 120  # room for an ending within the 255 bytes that common file systems allow
_TRIES = 40
_WAIT_S = 0.05
_RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
_ENDING = re.compile(r"(?<=.)\.[0-9A-Za-z]{1,10}\Z")
_FORBIDDEN = re.compile(r'[<>:"/\\|?*\x00-\x1f\x7f]')


def write_aside(path: Path, content: bytes | Callable[[BinaryIO], None]) -> None:
    """Write a file beside its place and rename it into it; on failure what was there stays.

    Args:
        path: the final place; its folder must exist.
        content: the bytes, or a function that writes them to an open file.

    Raises:
        WrapwrightError: kind unusable when the folder is missing or may not be written, refused when a reader keeps
            holding the file (Windows) for 2 seconds.
    """
    aside = path.with_name(f".{clean_name(path.name)[:40]}.{secrets.token_hex(6)}")
    try:
        with aside.open("xb") as file:
            if callable(content):
                content(file)
            else:
                file.write(content)
            file.flush()
            os.fsync(file.fileno())
        replace(aside, path)
    except OSError as error:
        reason = error.strerror or str(error)
        raise WrapwrightError(
            Kind.UNUSABLE,
            f"The file cannot be written: {reason}.",
            remedy="Name a folder that is there and may be written to.",
            where=str(path),
        ) from error
    finally:
        with contextlib.suppress(OSError):
            aside.unlink(missing_ok=True)


def replace(source: Path, target: Path) -> None:
    """Rename a file onto another, waiting while a reader holds the old one (Windows).

    Raises:
        WrapwrightError: kind refused, when it is still held after 2 seconds.
        OSError: for any other reason.
    """
    for _ in range(_TRIES):
        try:
            source.replace(target)
            return
        except PermissionError:
            if not target.is_file():
                raise
        time.sleep(_WAIT_S)
    raise WrapwrightError(
        Kind.REFUSED,
        f"Another program keeps {target.name} open, after {_TRIES * _WAIT_S:.0f} s of waiting.",
        remedy="Close it there and try again.",
        where=str(target),
    )


def file_sha256(file: Path) -> str:
    """Return the SHA-256 of a file's content in lower-case hexadecimal."""
    with file.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def clean_name(text: str, *, otherwise: str = "unnamed") -> str:
    """Return a text as a file name that Windows, macOS and Linux take; at most 120 bytes of UTF-8.

    Control, reserved and path characters become "-", names of devices get a "-" before them, points and blanks at the
    ends go. A longer one is cut before its ending. The same text always gives the same name; two texts may give one.
    """
    name = unicodedata.normalize("NFC", text)
    name = "".join("-" if unicodedata.category(char) in {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"} else char for char in name)
    name = _FORBIDDEN.sub("-", name).strip(" .")
    name = shortened(name, NAME_BYTES)
    if name.split(".")[0].strip().lower() in _RESERVED:
        name = f"-{name}"
    return name or otherwise


def shortened(name: str, most: int, *, mark: str = "") -> str:
    """Return a file name of at most `most` bytes of UTF-8, cut before its ending, where `mark` is put in."""
    found = _ENDING.search(name)
    ending = mark + (found[0] if found else "")
    stem = name[: found.start()] if found else name
    written, room = stem.encode("utf-8"), most - len(ending.encode("utf-8"))
    if len(written) > room:
        stem = written[:room].decode("utf-8", errors="ignore").rstrip(" .")
    return f"{stem}{ending}"


def is_inside(name: str) -> bool:
    """Return whether a relative path stays within its folder, whatever system reads it."""
    if not name or "\0" in name:
        return False
    for path in (PurePosixPath(name), PureWindowsPath(name)):
        if path.is_absolute() or path.drive or path.root or ".." in path.parts:
            return False
    return True
