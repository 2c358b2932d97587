"""Everything about sheets of many pieces: packing, cutting stock, strokes, laying freely, and five hundred pieces.

Words: --part NAME (many, stock, strokes, nest or packing) for one of them; what follows `packing` is handed on to it.
"""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module
from pathlib import Path

HERE = Path(__file__).parent
FOLDER = "sheet_parts"


def main(*, quick: bool, words: Sequence[str] = ()) -> None:
    """Print the rows of every part that is there."""
    parts = {file.stem: f"benchmarks.{FOLDER}.{file.stem}" for file in (HERE / FOLDER).glob("*.py")}
    wanted, further = _asked(list(words), [*sorted(parts), "packing"])
    for name in wanted:
        print(f"{name}:", flush=True)
        if name == "packing":
            import_module("benchmarks.packing").main(quick=quick, words=further)
            continue
        for row in import_module(parts[name]).rows(quick):
            print(f"  {row}", flush=True)


def _asked(words: list[str], known: list[str]) -> tuple[list[str], list[str]]:
    """Return the parts that are wanted, and what is left of the words."""
    if not words or words[0] != "--part":
        return known, words
    if len(words) < 2 or words[1] not in known:
        raise SystemExit(f"--part takes one of {', '.join(known)}.")
    return [words[1]], words[2:]
