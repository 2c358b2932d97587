"""The first drawing, made before anyone asks for one."""

from __future__ import annotations

import contextlib
import tempfile
import threading
from pathlib import Path
from typing import Any

from wrapwright.jobs.bench import Bench, Watch

SMALL: dict[str, Any] = {
    "format": 1,
    "blank": {"kind": "tapered", "girth_top": "240 mm", "girth_bottom": "220 mm", "wall": "60 mm"},
    "sheet": {"ppi": 100},
    "element": [{"kind": "text", "text": "A", "size": "8 mm"}, {"kind": "code", "text": "A", "width": "20 mm"}],
}


def warm_up(bench: Bench) -> None:
    """Draw a small piece as a screen would, so that the first design a person opens waits for no library.

    Nothing is kept; what goes wrong here will be told where it matters.
    """
    from wrapwright.jobs.live.checking import CheckLive, check_live
    from wrapwright.jobs.live.drawing import DrawDesign, draw_design
    from wrapwright.jobs.live.proofs import ProofPicture, proof_picture

    with contextlib.suppress(Exception), tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        draw_design(DrawDesign(SMALL, folder), bench, Watch())
        proof_picture(ProofPicture(SMALL, folder, 256), bench, Watch())
        check_live(CheckLive(SMALL, folder, 0), bench, Watch())


def warm_up_aside(bench: Bench) -> None:
    """Begin to warm up beside everything else."""
    threading.Thread(target=warm_up, args=(bench,), daemon=True, name="warming up").start()
