"""Everything about lists of names: what a piece costs, how a long list grows, and what else there is in names_parts.

Words: --part NAME for one of the parts in names_parts.
"""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module
from pathlib import Path

FOLDER = "names_parts"


def main(*, quick: bool, words: Sequence[str] = ()) -> None:
    """Print the rows of every part that is there."""
    parts = sorted(file.stem for file in (Path(__file__).parent / FOLDER).glob("*.py") if not file.stem.startswith("_"))
    for name in _asked(list(words), parts):
        print(f"{name}:", flush=True)
        for row in import_module(f"benchmarks.{FOLDER}.{name}").rows(quick):
            print(f"  {row}", flush=True)


def _asked(words: list[str], known: list[str]) -> list[str]:
    """Return the parts that are wanted."""
    if not words:
        return known
    if len(words) != 2 or words[0] != "--part" or words[1] not in known:
        raise SystemExit(f"Give --part and one of {', '.join(known)}, or nothing.")
    return words[1:]
