"""Published packing instances, read from a folder of plain JSON files."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

BINS = "2BP"  # what the files call two-dimensional bin packing
BESIDE = Path(__file__).resolve().parents[2] / "shared" / "data" / "packing"


@dataclass(frozen=True)
class Instance:
    """Rectangles and the sheet they are to be laid on; a strip has height 0.

    Attributes:
        best: the best number of sheets (length of strip) known, with quarter turns and edge-to-edge cuts; or None.
    """

    name: str
    sheet: tuple[int, int]
    items: tuple[tuple[int, int, int, bool], ...]
    best: int | None


def folder_of(asked: str | None) -> Path:
    """Return the folder to read; the one beside the project where none is named."""
    folder = Path(asked) if asked else BESIDE
    if not folder.is_dir():
        told = f"There is no folder {asked}." if asked else "No folder of instances lies beside the project."
        raise SystemExit(f"{told} Give one with --data FOLDER: JSON files of instances with bin and items.")
    return folder


def sheets_in(folder: Path) -> list[tuple[str, list[Instance]]]:
    """Return the files that hold sheets to fill, each with its instances."""
    return _read(folder, "bin")


def strips_in(folder: Path) -> list[tuple[str, list[Instance]]]:
    """Return the files that hold strips to shorten, each with its instances."""
    return _read(folder, "strip_width")


def _read(folder: Path, key: str) -> list[tuple[str, list[Instance]]]:
    found = []
    for file in sorted(folder.glob("*.json")):
        try:
            held = json.loads(file.read_text(encoding="utf-8"))
        except ValueError as problem:
            raise SystemExit(f"{file.name} is not JSON: {problem}") from problem
        rows = held.get("instances", []) if isinstance(held, dict) else []
        if key == "bin" and str(held.get("problem", BINS) if isinstance(held, dict) else BINS) != BINS:
            continue  # cutting stock and others: `bench sheets` has them
        # Values of pieces or prices of sheets make it another problem.
        rows = [one for one in rows if key in one and "items" in one and all(len(item) == 3 for item in one["items"])]
        if rows:
            found.append((file.name, [_instance(one, key) for one in rows]))
    return found


def _instance(row: dict[str, object], key: str) -> Instance:
    sheet = row[key]
    best = row.get("best")
    known = None
    if isinstance(best, dict):
        known = best.get("R|G") if key == "bin" else best.get("SPP|R|F height")
    items = tuple((w, h, copies, True) for w, h, copies in row["items"])  # type: ignore[attr-defined]
    sides = (int(sheet[0]), int(sheet[1])) if isinstance(sheet, list) else (int(str(sheet)), 0)
    return Instance(str(row.get("name", "?")), sides, items, known)
