"""The pixels that all pieces share, drawn once for all workers of a run on one machine: the one keeps what it drew."""

from __future__ import annotations

import hashlib
import json
from contextlib import suppress
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.design.layers import Box
from wrapwright.core.sheet.lay.printed.values import LaidPage
from wrapwright.core.sheet.mirror import image_box
from wrapwright.outside.pdf.flate import Packed
from wrapwright.outside.pdf.listed.values import Paint, SharedArt
from wrapwright.outside.pdf.listed.writer import lies
from wrapwright.outside.system.files import write_aside


def share_pixels(art: SharedArt, page: LaidPage, *, ppi: float, folder: Path, number: int) -> None:
    """Have the shared pixels ready as they lie under a page's pieces.

    Each way of lying is looked for in the run's folder, and kept there when it had to be drawn. Neighbouring shards
    begin with different ones, so that two workers that start together draw one each.

    Args:
        art: what the pieces share; its `packed` are filled.
        page: the first of a shard.
        ppi: of the pixels.
        folder: of the run.
        number: of the shard.
    """
    paint, packed = art.paint, art.packed
    if paint is None:
        return
    boxes = [(piece, image_box(piece.bleed_box, ppi)) for piece in page.pieces]
    ways = {lies(piece, box, ppi): (piece.to_page, box) for piece, box in boxes}
    keys = list(ways)
    for key in [*keys[number % len(keys) :], *keys[: number % len(keys)]] if keys else []:
        if key not in packed:
            packed[key] = _kept(folder, paint, *ways[key])


def _kept(folder: Path, paint: Paint, to_page: NDArray[np.float64], box: Box) -> Packed:
    said = repr((np.round(to_page, 9).tolist(), [round(value, 9) for value in box]))
    file = folder / f"ground-{hashlib.sha256(said.encode('ascii')).hexdigest()[:24]}.art"
    found = _read(file)
    if found is None:
        found = paint(to_page, box)
        _put(file, found)
    return found


def _read(file: Path) -> Packed | None:
    """Return what is kept in a file, None where there is none, or where it is not whole."""
    try:
        head, _, data = file.read_bytes().partition(b"\n")
        said = json.loads(head)
        whole = said.pop("sha256") == hashlib.sha256(data).hexdigest()
        return Packed(data, **said) if whole else None
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None


def _put(file: Path, packed: Packed) -> None:
    """Keep pixels; where they cannot be kept, each worker draws its own."""
    said = {name: value for name, value in vars(packed).items() if name != "data"}
    said["sha256"] = hashlib.sha256(packed.data).hexdigest()
    with suppress(WrapwrightError):
        write_aside(file, json.dumps(said).encode("ascii") + b"\n" + packed.data)
