"""A growing log read bit by bit: only what was added since the last look, whole rows alone."""

from __future__ import annotations

import math
from pathlib import Path

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.logs.layout import layout_of
from wrapwright.outside.logs.reading import Reader, in_celsius, reader_of, unit_for
from wrapwright.outside.logs.stamps import DAY_S, over_midnight
from wrapwright.outside.logs.text import head_of
from wrapwright.outside.logs.values import Followed, FollowedRow, LogAsked, Unit

AT_ONCE = 4_000_000  # bytes read in one look; the rest comes with the next
FEWEST_BYTES = 16  # a log of fewer has only begun


def follow_log(file: Path, from_byte: int = 0, asked: LogAsked | None = None) -> Followed:
    """Return the rows that were added to a log since a byte, and the byte where the next look begins.

    A last line without its end is left for the next look. A file that has become shorter was begun anew and is read
    from its start. Rows that cannot be read are passed over; times count from the file's first row.

    Args:
        file: the growing log.
        from_byte: 0, or `next_byte` of the look before.
        asked: what a person says about its columns and unit.

    Raises:
        WrapwrightError: missing or unusable, as for `read_log`; a log that has only begun gives no rows.
    """
    wanted = asked or LogAsked()
    if file.is_file() and file.stat().st_size < FEWEST_BYTES:
        return Followed((), 0, anew=from_byte >= FEWEST_BYTES)
    lines, encoding, size = head_of(file)
    anew = from_byte > size
    start = 0 if anew else from_byte
    try:
        layout = layout_of(lines, encoding, file.name)
        reader = reader_of(lines, layout, wanted, file.name)
    except WrapwrightError:
        if len(lines) < 4:
            return Followed((), start, anew)  # the header alone says too little
        raise
    head = [row for row in (reader.row(line) for line in lines[layout.lines_before :]) if row is not None]
    if not head:
        return Followed((), start, anew)
    unit, _ = unit_for(reader, head, wanted)
    text, after = _added(file, start, encoding)
    added = text.splitlines()
    skip = layout.lines_before if start == 0 else 0
    return Followed(tuple(_rows(added[skip:], reader, unit, head[0][0])), after, anew)


def _added(file: Path, start: int, encoding: str) -> tuple[str, int]:
    """Return the whole lines from a byte on, and the byte behind them."""
    wide = encoding.startswith("utf-16")
    with file.open("rb") as opened:
        mark = opened.read(2)
        opened.seek(start)
        piece = opened.read(AT_ONCE)
    big = encoding == "utf-16-be" or mark == b"\xfe\xff"
    end = (b"\0\n" if big else b"\n\0") if wide else b"\n"
    at = piece.rfind(end)
    while wide and at >= 0 and at % 2:
        at = piece.rfind(end, 0, at + 1)
    if at < 0:
        return "", start
    whole = piece[: at + len(end)]
    plain = ("utf-16-be" if big else "utf-16-le") if wide else encoding
    return whole.decode(plain, errors="replace").lstrip("\ufeff"), start + len(whole)


def _rows(lines: list[str], reader: Reader, unit: Unit, first: float) -> list[FollowedRow]:
    made: list[FollowedRow] = []
    for line in lines:
        row = reader.row(line)
        if row is None:
            continue
        since = row[0] - first
        if reader.clock.kind == "clock" and over_midnight(0.0, since):
            since += DAY_S
        air, wall = (None if math.isnan(one) else in_celsius(one, unit) for one in row[1:])
        made.append(FollowedRow(since, air, wall))
    return made
