"""The map of the code, docs/flow.md, made from the import contracts, the imports and the modules' first lines."""

from __future__ import annotations

import ast
import tomllib
from functools import cache
from pathlib import Path

from tests.house.tree import ROOT, SOURCE, statements

MADE = "<!-- Made from the code by tests/house/docs/flow_map.py; test_flow.py beside it says how to make it anew. -->"

HEAD = """# The map of the code

A request comes in at a face, a job carries it out, outside things are asked for what they know, and core decides
what is true. Values go down and come back; nothing below knows what is above it.

## The way of one job

`wrapwright make` is `jobs/make_sheets.py`, which reads like a work order:

1. `jobs/work/opening.py` reads the job file through `outside/jobfile/reading.py`: core values, or every problem at
   once.
2. `core/blank/wrapped.py` turns the readings into the flat wrap, its overlap and its doubts.
3. `jobs/work/supplying.py` has the pictures decoded in a child (`outside/images/reading.py`), texts set as outlines
   (`outside/fonts/setting.py`) and codes made (`outside/codes/writing.py`).
4. `core/design/layout.py` lays every element on the wrap as seen and returns the draw list
   (`core/design/drawlist.py`). Sheet, proof and checks all read this one list.
5. `core/sheet/arrange.py` finds the wrap's place on the paper and its marks; `core/sheet/mirror.py` alone may
   mirror.
6. `core/checks/run.py` holds the facts against every rule. An error that nobody accepted ends the job here.
7. `outside/raster/renderer.py` draws what must be pixels, `outside/icc/conversion.py` takes them to the printer's
   colours, and `outside/pdf/sheets.py` writes the page with its outlines.
8. `outside/documents/proof.py` and `outside/documents/ticket.py` set the papers.
9. `outside/system/delivery.py` hands over all files or none.

## The way of one drop

An element is let go on the wrap in the browser:

1. `faces/web/static/mod/canvas` moves it while it is dragged and tells one change; `mod/compose` writes that into the
   job document and sends the whole document.
2. `faces/web/gate.py` looks at where the request comes from and who asks; `faces/api/routes` hands it to the jobs.
3. `jobs/kept/designs.py` keeps the document as the next revision (`outside/store`), or refuses because another station
   was quicker.
4. `jobs/live/drawing.py` composes it as `make` would, as far as it goes, and gives back `jobs/live/values.py`: places,
   outlines, addresses of sprites and of the proof. What did not change is remembered in the bench
   (`jobs/live/recent.py`).
5. The browser asks for the proof (`jobs/live/proofs.py`), lays it round the piece (`mod/view`), and asks for the checks
   (`jobs/live/checking.py`).
6. Asked to make it, `jobs/live/worker.py` has `jobs/kept/making.py` run in a process of its own: the work order above,
   on the stored document.

## The way of many pieces

`wrapwright sheets` and the tray are `jobs/lay` and `jobs/tray`:

1. `jobs/lay/gathering.py` (or `jobs/tray/gathering.py`) opens and composes every job for one printer.
2. `jobs/lay/goods.py` makes a part of each: its trim as printed (`core/sheet/lay/shapes.py`) with room for bleed,
   gutter and label.
3. `core/sheet/lay/lay.py` lays the parts, in steps: patterns by column generation (`core/sheet/stock`) where many are
   alike, ruin and recreate on cut trees (`core/sheet/pack`) where few are, interlocked shapes for scissors
   (`core/sheet/nest`). Each brings a lower bound. `jobs/lay/arranging.py` watches the time.
4. `core/sheet/cut` finds the strokes to the finished trim and replays them; `outside/documents/cutting` sets the pages.
5. `core/sheet/lay/printed` gives each copy its matrix and its label; `outside/pdf/laid.py` writes the pages, each art
   once.
6. `jobs/print` hands the file to a printer or a watched folder (`outside/printer`).

## The way of one heat

`wrapwright press dwell`, `press start` and the screen Press are `jobs/press`:

1. `jobs/press/kept` finds recipe and heater, the workshop's before the shipped ones; `core/press/recipe/stops.py`
   says where a heat stops.
2. `jobs/press/plan/planning.py` asks `core/press/load/recommend.py` for the dwell: `core/press/heat/warming.py`
   warms heater and wall, many cases at once, `core/press/dose/band.py` counts what that is worth to the dye.
3. `jobs/press/run` keeps what is told of a heat as events (`outside/store/rows/press/heats.py`);
   `core/press/run/state.py` works the state out of plan, events and now, `outside/system/clock/steady.py` tells the
   now.
4. Faults are ranked by the heat's own evidence (`core/press/run/faults/ranking.py`).
5. What is learnt comes from logs (`outside/logs`, `core/press/fit/fitting.py`, `jobs/press/evidence`) and from
   trials (`core/press/trial`, `jobs/press/trial`), and goes into the next plan.

## The way of a list of names

`wrapwright names make` is `jobs/names/make_names.py`:

1. `jobs/names/opening.py` opens job, table (`outside/tables/reading.py`) and decisions; `jobs/names/checking.py`
   holds every row against `core/names/rules`. Nothing is made while a row waits.
2. `jobs/names/making/planning.py` finds the fullest sheet and puts the rows of each shard into the run's folder,
   which is named by the hash of all that the result depends on.
3. `jobs/names/making/shard.py` makes a shard once: the shared art (`core/names/making/own.py` parts it from each
   piece's own) and the pieces beside it (`outside/pdf/listed/writer.py`); here, in processes, or on a cluster
   (`jobs/names/spread`).
4. `outside/pdf/listed/merging.py` joins the shards; the manifest, contact sheet and handling list are written
   beside them.
5. `wrapwright names verify` reads it all back (`jobs/names/proving`).

Whatever goes wrong with the call is a `WrapwrightError` (`core/base/errors.py`); `faces/outcomes.py` turns its kind
into an exit code. What is wrong with the work is a `Finding` (`core/base/findings.py`).
"""

# Folders whose `__init__.py` says nothing: what each is for.
ABOUT = {
    "data": "Facts that ship with the product: materials, recipes, cautions, the demo.",
    "faces": "Thin faces over the jobs, and the one table of outcomes.",
    "faces/cli": "The command line: one file a command.",
    "jobs": "One file a request that a person makes.",
    "outside": "One folder a thing outside the product.",
    "outside/icc": "ICC profiles read, and colours converted exactly.",
    "outside/images": "Pictures read once, in a child, into the cache.",
    "outside/pdf": "The sheets' PDF.",
    "outside/raster": "Draw lists drawn as pixels, strip by strip.",
    "outside/system": "The machine: files, folders, children, processes.",
    "core/base": "Units, colours, findings, errors: what all the rest stands on.",
    "core/blank": "From the readings of a blank to its flat wrap.",
    "core/checks": "The rules: facts in, findings out.",
    "core/colour": "Colour spaces, differences, contrast, coatings.",
    "core/design": "Elements, where they sit on the wrap, and the draw list.",
    "core/sheet": "The paper: the wrap's place on it, the mirror, the marks.",
}


def page() -> str:
    """Return docs/flow.md as the code makes it."""
    lines = [MADE, "", *HEAD.splitlines(), "", "## Who may use whom", ""]
    for contract in _contracts():
        lines += [*_rule(contract), ""]
    lines += ["## Who uses whom", "", "| folder | uses |", "| --- | --- |"]
    used = _uses()
    lines += [f"| `{folder}` | {', '.join(f'`{one}`' for one in used[folder]) or '-'} |" for folder in used]
    for folder in _folders():
        lines += ["", f"## {_named(folder)}", "", _about(folder)]
        rows = [f"| `{file.name}` | {first_line(file)} |" for file in _modules(folder)]
        lines += ["", "| module | what it is |", "| --- | --- |", *rows] if rows else []
    return "\n".join(lines) + "\n"


def _contracts() -> list[dict[str, object]]:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    found: list[dict[str, object]] = settings["tool"]["importlinter"]["contracts"]
    return found


def _rule(contract: dict[str, object]) -> list[str]:
    """Return a contract as lines: layers from the top down, or who may not import what."""
    name = str(contract["name"])
    title = f"**{name[:1].upper()}{name[1:]}.**"
    if contract["type"] == "forbidden":
        sources, banned = _words(contract["source_modules"]), _words(contract["forbidden_modules"])
        return [f"{title} {', '.join(sources)} may import none of {', '.join(banned)}."]
    floors = [_floor(str(one)) for one in contract["layers"]]  # type: ignore[attr-defined]
    return [f"{title} Each may use those below it:", "", *(f"- {floor}" for floor in floors if floor)]


def _words(names: object) -> list[str]:
    return [f"`{str(one).removeprefix('wrapwright.')}`" for one in names]  # type: ignore[attr-defined]


def _floor(layer: str) -> str:
    """Return the modules of a layer that exist already; one in brackets in the contract may be still to come."""
    names = [one.strip() for one in layer.split("|")]
    return ", ".join(f"`{one}`" for one in names if not one.startswith("("))


def _folders() -> list[Path]:
    """Return every folder with code or data, those of the upper floors first."""
    packages = sorted({file.parent for file in SOURCE.rglob("__init__.py")} - {SOURCE})
    order = {name: place for place, name in enumerate(("faces", "jobs", "outside", "core", "data"))}
    return sorted(packages, key=lambda one: (order[one.relative_to(SOURCE).parts[0]], _named(one)))


def _named(folder: Path) -> str:
    return folder.relative_to(SOURCE).as_posix()


def _modules(folder: Path) -> list[Path]:
    return sorted(file for file in folder.glob("*.py") if file.name != "__init__.py")


def first_line(file: Path) -> str:
    """Return the first paragraph of a module's docstring in one line."""
    return _read(file)[0]


@cache
def _read(file: Path) -> tuple[str, tuple[ast.ImportFrom, ...]]:
    """Return the first paragraph of a module's docstring in one line, and what it imports, late imports included."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    said = " ".join((ast.get_docstring(tree) or "").split("\n\n")[0].split()).replace("|", "\\|")
    return said, tuple(one for one in statements(tree) if isinstance(one, ast.ImportFrom))


def _about(folder: Path) -> str:
    """Return what a folder is for; a folder that nobody has described is an error."""
    return first_line(folder / "__init__.py") or ABOUT[_named(folder)]


def _uses() -> dict[str, list[str]]:
    """Return for every folder with modules the other folders that it imports, late imports included."""
    used = {}
    for folder in _folders():
        found = {target for file in _modules(folder) for target in _imported(file)} - {_named(folder)}
        if _modules(folder):
            used[_named(folder)] = sorted(found)
    return used


def _imported(file: Path) -> list[str]:
    """Return the folders of our own modules that a file imports (`settings` is a module of its own)."""
    found = []
    for node in _read(file)[1]:
        if (node.module or "").startswith("wrapwright."):
            parts = str(node.module).split(".")[1:]
            inner = SOURCE.joinpath(*parts)
            found.append("/".join(parts) if inner.is_dir() or len(parts) == 1 else "/".join(parts[:-1]))
    return found
