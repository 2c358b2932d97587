"""Make one shard of a list: some sheets as a PDF of their own, and the list of what lies on them."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.names.values import Row
from wrapwright.jobs.names.making.values import ShardMade, ShardRequest

if TYPE_CHECKING:
    from wrapwright.core.sheet.lay.printed.values import LaidPage
    from wrapwright.jobs.names.making.base import Base
    from wrapwright.outside.pdf.listed.values import ListedPage, WrittenPiece


def shard_name(number: int, ending: str) -> str:
    """Return the name of a shard's file in the run's folder."""
    return f"shard-{number:06d}.{ending}"


def make_shard(request: ShardRequest) -> ShardMade:
    """Return the shard, made or found: one that stands already is not made again.

    Raises:
        WrapwrightError: what a row's texts or pictures cannot be made of, the job file has changed, or no room.
    """
    standing = standing_shard(request)
    if standing is not None:
        return standing
    from wrapwright.jobs.names.making.base import base_of
    from wrapwright.outside.system.files import write_aside

    run = request.run
    base = base_of(run)
    pdf, listed = run.folder / shard_name(request.number, "pdf"), run.folder / shard_name(request.number, "jsonl")
    aside = run.folder / f".{pdf.name}.{_own_mark()}"
    try:
        lines = _written(base, request, aside)
        from wrapwright.outside.system.files import replace as renamed

        digest = _sha256(aside)
        renamed(aside, pdf)
    finally:
        aside.unlink(missing_ok=True)
    text = "".join(line + "\n" for line in lines)
    write_aside(listed, text.encode("utf-8"))
    made = ShardMade(
        request.number, pdf.name, digest, listed.name, hashlib.sha256(text.encode()).hexdigest(), len(lines)
    )
    write_aside(run.folder / shard_name(request.number, "json"), json.dumps(vars(made)).encode("utf-8"))
    return made


def standing_shard(request: ShardRequest) -> ShardMade | None:
    """Return a shard that stands whole, None where it has to be made: its files are held against their hashes."""
    folder, number = request.run.folder, request.number
    try:
        said: dict[str, Any] = json.loads((folder / shard_name(number, "json")).read_text(encoding="utf-8"))
        made = ShardMade(**said)
        whole = _sha256(folder / made.file) == made.sha256 and _sha256(folder / made.list_file) == made.list_sha256
    except (OSError, ValueError, TypeError):
        return None
    return made if whole else None


def _written(base: Base, request: ShardRequest, file: Path) -> list[str]:
    """Write the shard's PDF; return the lines of its list, piece by piece in the order of its pages."""
    from wrapwright.outside.pdf.listed.writer import listed_pdf
    from wrapwright.outside.pdf.metadata import About
    from wrapwright.outside.system.installed import version

    job, pages = base.opened.job, base.pages
    about = About(job.title, f"Wrapwright {version()}", job.date.isoformat() if job.date else "")
    seen: list[tuple[int, LaidPage, list[Row]]] = []
    listed = _pages(base, request, seen)
    lines: list[str] = []
    for written in listed_pdf(listed, base.art, ppi=job.sheet.ppi, about=about, file=file, often=pages.often()):
        sheet, page, rows = seen.pop()
        for laid, row, one in zip(page.pieces, rows, written, strict=True):
            lines.append(line_of(_entry(sheet, laid, row, one)))
    pages.forget()
    return lines


def _pages(base: Base, request: ShardRequest, seen: list[tuple[int, LaidPage, list[Row]]]) -> Iterator[ListedPage]:
    from wrapwright.jobs.names.making.pieces import Pieces
    from wrapwright.outside.pdf.listed.values import ListedPage

    run = request.run
    drawing = Pieces(base)
    rows = rows_of(run.folder / shard_name(request.number, "rows"))
    for sheet in range(request.first, request.last):
        numbers = run.places.on(sheet)
        here = [next(rows) for _ in numbers]
        page = base.pages.page(sheet, [name for _, name in here])
        own = tuple(drawing.own(row, number + 1) for number, (row, _) in zip(numbers, here, strict=True))
        seen.append((sheet, page, [row for row, _ in here]))
        yield ListedPage(page, own)


def _entry(sheet: int, laid: Any, row: Row, one: WrittenPiece) -> dict[str, Any]:
    left, bottom, right, top = (round(value, 6) for value in laid.trim_box)
    return {
        "piece": laid.slip.piece,
        "code": laid.slip.code,
        "row": row.number,
        "row_sha256": row.digest,
        "sheet": sheet + 1,
        "x_mm": left,
        "y_mm": bottom,
        "width_mm": round(right - left, 6),
        "height_mm": round(top - bottom, 6),
        "turn_deg": laid.turn_deg,
        "sha256": one.sha256,
        "pixels_sha256": one.pixels_sha256,
    }


def line_of(entry: Mapping[str, Any]) -> str:
    """Return one line of a list: JSON with its keys in their order."""
    return json.dumps(entry, ensure_ascii=False, separators=(",", ":"))


def put_row(row: Row, name: str) -> str:
    """Return a row as a line of a shard's rows; `name` is what its label says."""
    entry = {
        "number": row.number,
        "line": row.line,
        "fields": dict(row.fields),
        "pictures": dict(row.pictures),
        "colours": dict(row.colours),
        "hidden": sorted(row.hidden),
        "digest": row.digest,
        "name": name,
    }
    return line_of(entry)


def rows_of(file: Path) -> Iterator[tuple[Row, str]]:
    """Yield a shard's rows and the names on their labels, one a piece, in the order of its places."""
    with file.open(encoding="utf-8", newline="\n") as stream:
        for line in stream:
            said = json.loads(line)
            name = said.pop("name")
            said["hidden"] = frozenset(said["hidden"])
            yield Row(**said), name


def _own_mark() -> str:
    import os

    return f"{os.getpid()}"


def _sha256(file: Path) -> str:
    with file.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()
