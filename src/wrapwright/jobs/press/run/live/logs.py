"""A logger's growing file, followed while its heat runs."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.press.run.logged import Row
from wrapwright.core.press.run.values import HeatState
from wrapwright.jobs.bench import Bench

if TYPE_CHECKING:
    from wrapwright.outside.logs.values import FollowedRow

FOLDER = "logs"  # of the data folder: where logs that are only named lie
_MOST_LOOKS = 20  # a file of 80 MB; what is longer is read on with the next look
_KEPT_S = 2 * 3600.0


@dataclass(frozen=True)
class Following:
    """How far a log has been read.

    Attributes:
        next_byte: where the next look begins.
        rows: of the last two hours.
    """

    next_byte: int = 0
    rows: tuple[FollowedRow, ...] = field(default=())


def log_file(named: str, bench: Bench) -> Path:
    """Return the file of a log: a whole path as it is, a bare name in the data folder's `logs`."""
    return bench.folders.data / FOLDER / named


def rows_of(named: str, state: HeatState, bench: Bench) -> tuple[tuple[Row, ...], str]:
    """Return the readings of a log by the heat's own time, and a sentence where it cannot be read (else "").

    The last row is taken to be as old as the file's last change; the rows before it by their own stamps. So neither
    the logger's clock nor its zone matters.
    """
    if not named or state.loaded is None:
        return (), ""
    file = log_file(named, bench)
    if not file.is_file():
        return (), f"The log {file.name} is not there yet; the dose is the model's."
    try:
        following = _followed(file, bench)
        changed = file.stat().st_mtime
    except WrapwrightError as problem:
        return (), f"The log {file.name} cannot be read, so the dose is the model's: {problem.message}"
    except OSError as error:
        return (), f"The log {file.name} cannot be read ({error.strerror or error}), so the dose is the model's."
    if not following.rows:
        return (), f"The log {file.name} has no reading yet; the dose is the model's."
    age = max(0.0, bench.clock().timestamp() - changed)
    last = following.rows[-1].since_s
    now_s = (state.now - state.loaded).total_seconds()
    return tuple(Row(now_s - age - (last - one.since_s), one.air_c, one.wall_c) for one in following.rows), ""


def _followed(file: Path, bench: Bench) -> Following:
    from wrapwright.outside.logs.following import follow_log

    key = ("log", file)
    held: Following = bench.recent.heats.find(key) or Following()
    for _ in range(_MOST_LOOKS):
        found = follow_log(file, held.next_byte)
        before = () if found.anew else held.rows
        held = Following(found.next_byte, _lately((*before, *found.rows)))
        bench.recent.heats.put(key, held)
        if not found.rows:
            break
    return held


def _lately(rows: tuple[FollowedRow, ...]) -> tuple[FollowedRow, ...]:
    """Return the rows of the last two hours."""
    if not rows or rows[0].since_s >= rows[-1].since_s - _KEPT_S:
        return rows
    return tuple(one for one in rows if one.since_s >= rows[-1].since_s - _KEPT_S)
