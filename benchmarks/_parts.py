"""Run a bench that stands in several parts, each a module of one folder with `rows(quick)`."""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module
from pathlib import Path


def parts_of(folder: str) -> list[str]:
    """Return the names of the parts in a folder beside this file."""
    return sorted(file.stem for file in (Path(__file__).parent / folder).glob("*.py") if not file.stem.startswith("_"))


def asked(words: Sequence[str], known: list[str]) -> tuple[list[str], list[str]]:
    """Return the parts that are wanted, all of them without --part, and what is left of the words."""
    if not words or words[0] != "--part":
        return known, list(words)
    if len(words) < 2 or words[1] not in known:
        raise SystemExit(f"--part takes one of {', '.join(known)}.")
    return [words[1]], list(words[2:])


def show(folder: str, name: str, *, quick: bool) -> None:
    """Print the rows of one part below its name."""
    print(f"{name}:", flush=True)
    for row in import_module(f"benchmarks.{folder}.{name}").rows(quick):
        print(f"  {row}", flush=True)


def show_all(folder: str, *, quick: bool, words: Sequence[str]) -> None:
    """Print the rows of every part, or of the one that is asked for; nothing else may be asked."""
    wanted, further = asked(words, parts_of(folder))
    if further:
        raise SystemExit(f"{' '.join(further)} is not known here: give --part and a name, or nothing.")
    for name in wanted:
        show(folder, name, quick=quick)
