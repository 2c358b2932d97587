"""What the tests of kept things begin with."""

from __future__ import annotations

from pathlib import Path

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.designs import NewDesign, PutFile, SaveDesign, new_design, put_file, save_design
from wrapwright.jobs.kept.pictures import KeepPicture, keep_picture
from wrapwright.outside.store.records import DesignKept, PictureKept

QUIET = Watch()
STRAIGHT = {"kind": "straight", "girth": "9 1/4 in", "wall": "100 mm"}
LEAF = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="20mm" viewBox="0 0 10 20">'
    '<path fill="{}" d="M5 0 L10 20 L0 20 Z"/></svg>'
)


def leaf(folder: Path, name: str = "leaf.svg", colour: str = "#224400") -> Path:
    """A drawing of one triangle, 10 x 20 mm."""
    folder.mkdir(parents=True, exist_ok=True)
    file = folder / name
    file.write_text(LEAF.format(colour), encoding="utf-8", newline="\n")
    return file


def kept_leaf(bench: Bench, folder: Path, name: str = "leaf.svg", colour: str = "#224400") -> PictureKept:
    return keep_picture(KeepPicture(name, leaf(folder, name, colour)), bench, QUIET)


def begun(bench: Bench, title: str = "Weir Street") -> DesignKept:
    return new_design(NewDesign(title, {"format": 1, "blank": STRAIGHT, "element": []}), bench, QUIET)


def with_leaf(bench: Bench, folder: Path, title: str = "Weir Street", colour: str = "#224400") -> DesignKept:
    """A design with one picture on it, at its second revision."""
    kept, picture = begun(bench, title), kept_leaf(bench, folder, colour=colour)
    name = put_file(PutFile(kept.id, picture.sha256, picture.name), bench, QUIET)
    element = {"kind": "picture", "file": name, "width": "30 mm", "at": ["front", "back"]}
    return save_design(SaveDesign(kept.id, {**kept.document, "element": [element]}, 1), bench, QUIET)


def files_of(bench: Bench) -> list[str]:
    """Every file below the data folder but the store's own, from there."""
    root = bench.folders.data
    found = [one.relative_to(root).as_posix() for one in root.rglob("*") if one.is_file()]
    return sorted(one for one in found if not one.startswith("store.sqlite3"))
