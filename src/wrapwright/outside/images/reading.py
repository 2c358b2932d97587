"""Pictures read once: from a file of the user's to a normalised picture or outlines in the cache."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path
from typing import Any

import numpy as np

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.design.supplies import Art, Pixels
from wrapwright.outside.images.entry import Entry, opened, seal
from wrapwright.outside.images.kinds import HEAD_BYTES, NAMES, VECTOR, kind_of
from wrapwright.outside.images.outlines import shapes_of
from wrapwright.outside.system.child import run_child, working_folder
from wrapwright.outside.system.files import file_sha256
from wrapwright.outside.system.keeping import make_room, used

READER = 2  # raise it whenever reading gives other samples, outlines or notes for the same file
FILE_BYTES = 512_000_000
VECTOR_BYTES = 20_000_000
PIXELS = 200_000_000
LONGEST_PX = 6000
KEPT_BYTES = 4_000_000_000  # of pictures as read; deleting them costs only reading them again
SPARED_S = 3600.0  # a picture used within the hour may belong to a job that runs now

_DECODE = "wrapwright.outside.images.child.decode"
_SPACES = {"gray": 1, "rgb": 3, "cmyk": 4, "lab": 3}


def read_art(file: Path, *, cache: Path, longest_px: int = LONGEST_PX) -> Art:
    """Return a picture as it is kept in the cache, decoding it in a child only when it is not there yet.

    Pixels are upright, 8 or 16 bits a channel, in the file's own colour space with its profile beside them. SVG
    and PDF give outlines when everything on the page is of solid colour, else pixels.

    Args:
        file: the picture; its kind is told by its content.
        cache: folder of the cache; always safe to delete.
        longest_px: longer side of vector art that has to become pixels.

    Raises:
        WrapwrightError: unusable, when the file is missing, too large, of another kind, damaged or hostile.
    """
    where = file.name
    try:
        kind = _kind(file)
        name = f"{file_sha256(file)}-{READER}-1"
    except OSError as problem:
        raise unusable(f"The picture cannot be opened: {_plain(problem)}.", where=where) from problem
    for known in _names(kind, name, longest_px):
        entry = opened(_place(cache, known))
        if entry is not None:
            used(entry.file)
            return _art(known, entry)
    try:
        return _decoded(file, kind, name, cache=cache, longest_px=longest_px)
    except WrapwrightError as problem:
        raise WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where) from problem


def open_pixels(art: Art, *, cache: Path) -> Pixels:
    """Return the samples of an art of kind "pixels", read-only and memory-mapped from the cache.

    CMYK samples count ink (0 = none). Lab samples are 16 bits: L* = v x 100 / 65535, a* and b* = v / 257 - 128.

    Raises:
        WrapwrightError: fault for outlines; unusable when the cache no longer holds the picture.
    """
    if art.kind != "pixels":
        raise WrapwrightError(Kind.FAULT, "Outlines have no pixels to open.")
    file = _place(cache, art.id)
    shape = (int(art.height), int(art.width), art.bands)
    dtype = np.uint16 if art.bits == 16 else np.uint8
    entry = opened(file)
    if entry is None or entry.samples != int(np.prod(shape)) * (art.bits // 8):
        raise unusable(
            "The picture as read is no longer in the cache, or is damaged there.",
            remedy="Start again: it is read anew.",
        )
    array = np.memmap(file, dtype=dtype, mode="r", shape=shape)
    return Pixels(art.id, array, art.space, art.alpha, entry.icc or None)


def forget_art(sha256: str, *, cache: Path) -> None:
    """Remove what was read from the picture of that content, whatever it was read as."""
    for file in (cache / "art" / sha256[:2]).glob(f"{sha256}-*.art"):
        with contextlib.suppress(OSError):  # held by a reader (Windows): the cache lets it go in its own time
            file.unlink()


def _kind(file: Path) -> str:
    """Return the file's kind; raise when it is none of ours, empty or too large."""
    size = file.stat().st_size
    if size == 0:
        raise unusable("The picture file is empty (0 bytes).", where=file.name)
    with file.open("rb") as stream:
        kind = kind_of(stream.read(HEAD_BYTES))
    if not kind:
        raise unusable(
            "The file is not a picture that can be read, whatever its name says.",
            remedy=f"Use one of {', '.join(NAMES.values())}.",
            where=file.name,
        )
    most = VECTOR_BYTES if kind in VECTOR else FILE_BYTES
    if size > most:
        raise unusable(
            f"The {NAMES[kind]} file has {size / 1e6:.0f} MB; at most {most / 1e6:.0f} MB are read.",
            remedy="Save it smaller.",
            where=file.name,
        )
    return kind


def _names(kind: str, name: str, longest_px: int) -> tuple[str, ...]:
    """Return the names under which the cache may hold it: vector art made pixels carries its size."""
    return (name, f"{name}-{longest_px}") if kind in VECTOR else (name,)


def _place(cache: Path, name: str) -> Path:
    return cache / "art" / name[:2] / f"{name}.art"


def _decoded(file: Path, kind: str, name: str, *, cache: Path, longest_px: int) -> Art:
    """Let a child read the file, seal what it leaves into the cache, and return it."""
    request = {"kind": kind, "longest_px": longest_px, "pixels": PIXELS}
    with working_folder(cache / "work") as folder:
        words = run_child(_DECODE, request, folder=folder, content=file)
        _believed(words, folder)
        sized = kind in VECTOR and words["form"] == "pixels"
        known = f"{name}-{longest_px}" if sized else name
        profile = folder / "profile.icc"
        icc = profile.read_bytes() if words["profile"] is not None and profile.is_file() else b""
        seal(folder / "samples", _place(cache, known), icc=icc, words=words)
    make_room((cache / "art").glob("*/*.art"), limit_bytes=KEPT_BYTES, spared_s=SPARED_S)
    entry = opened(_place(cache, known))
    if entry is None:
        raise WrapwrightError(Kind.SETUP, "The cache did not keep the picture as read.", remedy="Free some disk space.")
    return _art(known, entry)


def _believed(words: dict[str, Any], folder: Path) -> None:
    """Raise unless the child's description is sound and agrees with the samples it left: it is not trusted."""
    samples = folder / "samples"
    size = samples.stat().st_size if samples.is_file() else -1
    try:
        good = _sound(words) and size == _expected(words)
    except (KeyError, TypeError, ValueError, OverflowError):
        good = False
    if not good:
        raise unusable("The file is damaged or not what it says: what was read from it does not hold together.")


def _sound(words: dict[str, Any]) -> bool:
    """Return whether every value has its type and lies within its limits."""
    notes, profile = words["notes"], words["profile"]
    texts = isinstance(notes, list) and all(isinstance(note, str) and len(note) < 500 for note in notes)
    named = profile is None or (isinstance(profile, str) and len(profile) < 500)
    if not (texts and len(notes) < 50 and named):
        return False
    if words["form"] == "outlines":
        return 0 < float(words["width"]) <= 20_000 and 0 < float(words["height"]) <= 20_000
    bands = _SPACES[words["space"]] + (1 if words["alpha"] else 0)
    whole = all(isinstance(words[key], int) for key in ("width", "height", "bands", "bits"))
    area = words["width"] * words["height"]
    return whole and words["bands"] == bands and words["bits"] in (8, 16) and words["width"] > 0 and 0 < area <= PIXELS


def _expected(words: dict[str, Any]) -> int:
    """Return how many bytes of samples the description calls for."""
    if words["form"] == "outlines":
        return 16 * int(words["points"])
    return int(words["width"] * words["height"] * words["bands"] * words["bits"] // 8)


def _art(name: str, entry: Entry) -> Art:
    """Return the art a sealed entry describes."""
    words = entry.words
    common = {"id": name, "notes": tuple(words["notes"]), "profile": words["profile"]}
    if words["form"] == "outlines":
        with entry.file.open("rb") as stream:
            points = np.frombuffer(stream.read(entry.samples), dtype="<f8").reshape(-1, 2)
        return Art(
            kind="outlines",
            width=float(words["width"]),
            height=float(words["height"]),
            alpha=True,
            bands=4,
            shapes=shapes_of(words["shapes"], points),
            **common,
        )
    return Art(
        kind="pixels",
        width=words["width"],
        height=words["height"],
        bands=words["bands"],
        bits=words["bits"],
        space=words["space"],
        alpha=words["alpha"],
        **common,
    )


def _plain(problem: OSError) -> str:
    """Return the system's reason without paths."""
    return os.strerror(problem.errno).lower() if problem.errno else "the system gives no reason"
