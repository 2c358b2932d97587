"""Getting ready what elements are made of: pictures read, masks, text set, codes made."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.design import path as paths
from wrapwright.core.design.elements import AnyElement, Code, Picture, Text, Tile
from wrapwright.core.design.fields import filled
from wrapwright.core.design.supplies import Art, SetText, Supply
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.work.opening import Opened

# Vector art that must become pixels is drawn at twice the sheet's ppi, in steps so that near sizes share one.
OVERSAMPLING = 2.0
STEP_PX = 512
LEAST_PX, MOST_PX = 1024, 12288


@dataclass
class Supplied:
    """What was got ready.

    Attributes:
        supplies: by element index.
        masks: by element index, the filled shape of a mask file, in shares of its page, y up.
        inputs: (path as the job writes it, SHA-256) of every file used, in order, each once.
    """

    supplies: dict[int, Supply] = field(default_factory=dict)
    masks: dict[int, paths.Path] = field(default_factory=dict)
    inputs: dict[str, str] = field(default_factory=dict)


def supplied(job: Opened, wrap_width_mm: float, bench: Bench) -> Supplied:
    """Return everything the job's elements need; all problems are raised together, each with its element's name."""
    found = Supplied()
    problems: list[WrapwrightError] = []
    for index, element in enumerate(job.job.elements):
        for step in _steps(element):
            try:
                step(found, index, element, job, wrap_width_mm, bench)
            except WrapwrightError as problem:
                if not _told(element, job):
                    problems.append(_named(problem, element.name))
    raise_all(problems)
    return found


Step = Callable[[Supplied, int, AnyElement, Opened, float, Bench], None]


def _steps(element: AnyElement) -> tuple[Step, ...]:
    if isinstance(element, Picture | Tile):
        return (_read_picture, _read_mask)
    if isinstance(element, Text):
        return (_set,)
    return (_make_code,) if isinstance(element, Code) else ()


def _told(element: AnyElement, job: Opened) -> bool:
    """Return whether an element names a file that is not there: that has been said already."""
    if isinstance(element, Picture) and element.mask is not None and element.mask.file in job.absent:
        return True
    written = element.file if isinstance(element, Picture | Tile) else element.font if isinstance(element, Text) else ""
    return written in job.absent


def _named(problem: WrapwrightError, name: str) -> WrapwrightError:
    if problem.where == name or problem.where.startswith(f"{name}: "):
        return problem
    where = f"{name}: {problem.where}" if problem.where else name
    return WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where)


def _read_picture(
    found: Supplied, index: int, element: AnyElement, job: Opened, wrap_width_mm: float, bench: Bench
) -> None:
    if isinstance(element, Picture | Tile):
        longest = longest_px(element, wrap_width_mm, job.job.sheet.ppi)
        found.supplies[index] = _read(found, element.file, job, bench, longest)


def _read_mask(
    found: Supplied, index: int, element: AnyElement, job: Opened, _wrap_width_mm: float, bench: Bench
) -> None:
    if not isinstance(element, Picture) or element.mask is None or element.mask.kind != "file":
        return
    art = _read(found, element.mask.file, job, bench, LEAST_PX)
    if art.kind != "outlines":
        raise unusable(
            f"the mask {element.mask.file} holds no plain filled shape.",
            remedy="A mask is an SVG whose shapes are filled with one solid colour, without gradients or filters.",
        )
    found.masks[index] = paths.joined(shape.path for shape in art.shapes if shape.stroke == 0.0)


def _read(found: Supplied, written: str, job: Opened, bench: Bench, longest_px: int) -> Art:
    from wrapwright.outside.images.reading import read_art
    from wrapwright.outside.system.files import file_sha256

    file = job.path_of(written)
    art = read_art(file, cache=bench.folders.cache, longest_px=longest_px)
    found.inputs[as_written(written)] = file_sha256(file)
    return art


def as_written(written: str) -> str:
    """Return a path for the report: as the job writes it, but never one that tells about this machine."""
    return Path(written).name if Path(written).is_absolute() or written.startswith("~") else written


def longest_px(element: Picture | Tile, wrap_width_mm: float, ppi: int) -> int:
    """Return how many pixels the longer side of vector art gets when it has to become pixels, the uncropped page."""
    if isinstance(element, Tile):
        longest = element.width_mm
    elif element.wrap_width:
        longest = max(wrap_width_mm, element.height_mm or 0.0)
    else:
        # With one side given the other may be longer; twice is enough for all but slivers.
        sides = [side for side in (element.width_mm, element.height_mm) if side is not None]
        longest = max(sides, default=100.0) * (1.0 if len(sides) == 2 else 2.0)
    if isinstance(element, Picture):  # what is cropped away is drawn as well, so the page is larger by that
        left, top, right, bottom = element.crop
        longest /= max(0.01, min(right - left, bottom - top))
    wanted = longest / 25.4 * ppi * OVERSAMPLING
    stepped = STEP_PX * -(-int(wanted) // STEP_PX)
    return min(MOST_PX, max(LEAST_PX, stepped))


def _set(found: Supplied, index: int, element: AnyElement, job: Opened, _wrap_width_mm: float, bench: Bench) -> None:
    from wrapwright.outside.fonts.setting import set_text
    from wrapwright.outside.fonts.shelf import FontShelf

    if not isinstance(element, Text):
        return
    shelf = FontShelf(job_folder=job.folder, user_folder=bench.folders.fonts)
    text: SetText = set_text(element, fonts=shelf, fields=job.job.fields)
    found.supplies[index] = text
    found.inputs.update(text.fonts)


def _make_code(
    found: Supplied, index: int, element: AnyElement, job: Opened, _wrap_width_mm: float, _bench: Bench
) -> None:
    from wrapwright.outside.codes.writing import code_modules

    if isinstance(element, Code):
        found.supplies[index] = code_modules(filled(element.text, job.job.fields), element.level)
