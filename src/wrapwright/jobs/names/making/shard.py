"""Make one shard of a list: some sheets as a PDF of their own, and the list of what lies on them."""

from __future__ import annotations

import hashlib
import json
import secrets
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.base.faults import fault_of
from wrapwright.core.names.values import Row
from wrapwright.jobs.names.making.values import ShardMade, ShardRequest
from wrapwright.outside.system.files import file_sha256

if TYPE_CHECKING:
    from wrapwright.core.sheet.lay.printed.values import LaidPage, LaidPiece
    from wrapwright.jobs.names.making.base import Base
    from wrapwright.outside.pdf.listed.values import ListedPage, OwnArt, WrittenPiece

# What a row can lack by itself; anything else is wrong with all of them.
_OF_THE_ROW = (Kind.UNUSABLE, Kind.MISSING)
_NEEDED = (
    "jobs.names.examining", "jobs.names.making.base", "jobs.names.making.pieces", "jobs.open_bench",
    "jobs.lay.printing", "jobs.work.painting", "outside.pdf.listed.grounds", "outside.raster.renderer",
    "outside.fonts.setting", "outside.codes.writing", "outside.images.reading",
)  # fmt: skip
_NO_ROOM = "Free some room, or name another cache folder; what was made so far is kept."


@dataclass(frozen=True)
class ShardRow:
    """One place of a shard.

    Attributes:
        row: the row of the piece that lies there.
        piece: its number in the whole list.
        name: what its label says.
        inputs: hashes of the pictures that the row names, as they were when the run began.
    """

    row: Row
    piece: int
    name: str
    inputs: Mapping[str, str] = field(default_factory=dict)


def shard_name(number: int, ending: str) -> str:
    """Return the name of a shard's file in the run's folder."""
    return f"shard-{number:06d}.{ending}"


def ready() -> None:
    """Import what a worker needs for its first shard."""
    for name in _NEEDED:
        import_module(f"wrapwright.{name}")


def make_shard(request: ShardRequest) -> ShardMade:
    """Return the shard, made or found: one that stands already is not made again.

    Raises:
        WrapwrightError: refused, when the job file or a picture has changed since the run began; unusable, when
            nothing can be written.
    """
    standing = standing_shard(request)
    if standing is not None:
        return standing
    from wrapwright.jobs.names.making.base import base_of
    from wrapwright.outside.system.files import replace as renamed

    run = request.run
    base = base_of(run)
    pdf, listed = run.folder / shard_name(request.number, "pdf"), run.folder / shard_name(request.number, "jsonl")
    aside = _aside(pdf)
    try:
        lines, refused = _written(base, request, aside)
        digest = file_sha256(aside)
        renamed(aside, pdf)
    except OSError as error:
        raise _unwritten(error, pdf.name) from error
    finally:
        aside.unlink(missing_ok=True)
    text = "".join(line + "\n" for line in lines)
    put_file(listed, text)
    made = ShardMade(
        number=request.number,
        file=pdf.name,
        sha256=digest,
        list_file=listed.name,
        list_sha256=hashlib.sha256(text.encode()).hexdigest(),
        pieces=len(lines),
        rows_sha256=file_sha256(run.folder / shard_name(request.number, "rows")),
        refused=refused,
    )
    put_file(run.folder / shard_name(request.number, "json"), json.dumps(vars(made)))
    return made


def standing_shard(request: ShardRequest) -> ShardMade | None:
    """Return a shard that stands whole, None where it has to be made: its files are held against their hashes."""
    folder, number = request.run.folder, request.number
    try:
        said: dict[str, Any] = json.loads((folder / shard_name(number, "json")).read_text(encoding="utf-8"))
        made = ShardMade(**said)
        whole = (
            made.rows_sha256 == file_sha256(folder / shard_name(number, "rows"))
            and made.sha256 == file_sha256(folder / made.file)
            and made.list_sha256 == file_sha256(folder / made.list_file)
        )
    except (OSError, ValueError, TypeError):
        return None
    return made if whole else None


def _written(base: Base, request: ShardRequest, file: Path) -> tuple[list[str], int]:
    """Write the shard's PDF; return the lines of its list in the order of its places, and how many say refused."""
    from wrapwright.outside.pdf.listed.writer import listed_pdf
    from wrapwright.outside.pdf.metadata import About
    from wrapwright.outside.system.installed import version

    job, pages = base.opened.job, base.pages
    about = About(job.title, f"Wrapwright {version()}", job.date.isoformat() if job.date else "")
    seen: list[_Seen] = []
    listed = _pages(base, request, seen)
    lines: list[str] = []
    refused = 0
    for written in listed_pdf(listed, base.art, ppi=job.sheet.ppi, about=about, file=file):
        page = seen.pop()
        laid = iter(zip(page.page.pieces, written, strict=True))
        for one, why in page.places:
            lines.append(line_of(_refused(page.sheet, one, why) if why else _entry(page.sheet, one, *next(laid))))
            refused += bool(why)
    pages.forget()
    return lines, refused


@dataclass(frozen=True, eq=False)
class _Seen:
    """A page that was drawn, and its places: each one's row, and why it could not be made, "" where it was."""

    sheet: int
    page: LaidPage
    places: list[tuple[ShardRow, str]]


def _pages(base: Base, request: ShardRequest, seen: list[_Seen]) -> Iterator[ListedPage]:
    from wrapwright.jobs.names.making.pieces import Pieces
    from wrapwright.outside.pdf.listed.grounds import share_pixels
    from wrapwright.outside.pdf.listed.values import ListedPage

    run = request.run
    drawing = Pieces(base)
    rows = rows_of(run.folder / shard_name(request.number, "rows"))
    for sheet in range(request.first, request.last):
        here = [next(rows) for _ in run.places.on(sheet)]
        drawn = [_own(drawing, one) for one in here]
        whys = [one if isinstance(one, str) else "" for one in drawn]
        named = [None if why else (one.piece, one.name) for one, why in zip(here, whys, strict=True)]
        page = base.pages.page(sheet, named)
        if sheet == request.first:
            share_pixels(base.art, page, ppi=base.opened.job.sheet.ppi, folder=run.folder, number=request.number)
        seen.append(_Seen(sheet, page, list(zip(here, whys, strict=True))))
        own = tuple(one for one in drawn if not isinstance(one, str))
        yield ListedPage(page, own, base.pages.names(named, base.naming))


def _own(drawing: Any, one: ShardRow) -> OwnArt | str:
    """Return a piece's own art, or why there is none."""
    try:
        own: OwnArt = drawing.own(one.row, one.piece, one.inputs)
        return own
    except WrapwrightError as problem:
        if problem.kind not in _OF_THE_ROW:
            raise
        return problem.message
    except (ArithmeticError, LookupError, TypeError, ValueError) as fault:  # a fault of ours in one row spares the rest
        return fault_of(fault).message


def _entry(sheet: int, one: ShardRow, laid: LaidPiece, written: WrittenPiece) -> dict[str, Any]:
    left, bottom, right, top = (round(value, 6) for value in laid.trim_box)
    return {
        **_who(sheet, one),
        "code": laid.slip.code,
        "x_mm": left,
        "y_mm": bottom,
        "width_mm": round(right - left, 6),
        "height_mm": round(top - bottom, 6),
        "turn_deg": laid.turn_deg,
        "sha256": written.sha256,
        "pixels_sha256": written.pixels_sha256,
    }


def _refused(sheet: int, one: ShardRow, why: str) -> dict[str, Any]:
    return {**_who(sheet, one), "refused": why}


def _who(sheet: int, one: ShardRow) -> dict[str, Any]:
    return {
        "piece": one.piece,
        "row": one.row.number,
        "row_sha256": one.row.digest,
        "name": one.name,
        "sheet": sheet + 1,
    }


def line_of(entry: Mapping[str, Any]) -> str:
    """Return one line of a list: JSON with its keys in their order."""
    return json.dumps(entry, ensure_ascii=False, separators=(",", ":"))


def put_row(row: Row, piece: int, name: str, inputs: Mapping[str, str]) -> str:
    """Return one place of a shard as a line of its rows."""
    entry = {
        "number": row.number,
        "line": row.line,
        "fields": dict(row.fields),
        "pictures": dict(row.pictures),
        "colours": dict(row.colours),
        "hidden": sorted(row.hidden),
        "digest": row.digest,
    }
    return line_of({"piece": piece, "name": name, "inputs": dict(inputs), "row": entry})


def rows_of(file: Path) -> Iterator[ShardRow]:
    """Yield a shard's places in their order."""
    with file.open(encoding="utf-8", newline="\n") as stream:
        for line in stream:
            said = json.loads(line)
            row = said["row"]
            row["hidden"] = frozenset(row["hidden"])
            yield ShardRow(Row(**row), said["piece"], said["name"], said["inputs"])


def put_file(path: Path, text: str) -> None:
    """Write a file of the run aside and rename it into its place, unless it stands there as it should.

    Nothing waits for the disk: a file that a lost current has spoilt is not what its hash says, and is made again.

    Raises:
        WrapwrightError: unusable, when it cannot be written.
    """
    from wrapwright.outside.system.files import replace as renamed

    data = text.encode("utf-8")
    aside = _aside(path)
    try:
        if path.is_file() and path.stat().st_size == len(data) and path.read_bytes() == data:
            return
        aside.write_bytes(data)
        renamed(aside, path)
    except OSError as error:
        raise _unwritten(error, path.name) from error
    finally:
        aside.unlink(missing_ok=True)


def _aside(path: Path) -> Path:
    return path.with_name(f".{path.name}.{secrets.token_hex(6)}")


def _unwritten(error: OSError, name: str) -> WrapwrightError:
    return unusable(f"{name} of the run cannot be written: {error.strerror or error}.", remedy=_NO_ROOM)
