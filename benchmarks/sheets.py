"""Everything about sheets of many pieces: packing, cutting stock, strokes, laying freely, and five hundred pieces.

Words: --part NAME (many, stock, strokes, nest or packing) for one of them; what follows `packing` is handed on to it.
"""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module

from benchmarks._parts import asked, parts_of, show

FOLDER = "sheet_parts"


def main(*, quick: bool, words: Sequence[str] = ()) -> None:
    """Print the rows of every part that is there."""
    wanted, further = asked(words, [*parts_of(FOLDER), "packing"])
    for name in wanted:
        if name == "packing":
            print("packing:", flush=True)
            import_module("benchmarks.packing").main(quick=quick, words=further)
        else:
            show(FOLDER, name, quick=quick)
