"""The shelf of blanks, as a job file that says `use` looks at it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from wrapwright.jobs.bench import Bench

if TYPE_CHECKING:
    from wrapwright.outside.jobfile.named import Shelf


def shelf_of(bench: Bench) -> Shelf:
    """Return the look at the shelf: the store is opened only by it, and one that is not there is not made."""

    def look() -> Mapping[str, tuple[Mapping[str, Any], Mapping[str, Any]]]:
        if bench.store is None or not bench.store.exists():
            return {}
        from wrapwright.outside.store.rows.blanks import newest_blanks

        with bench.store.reading() as connection:
            return {one.name: (one.table, one.wrap) for one in newest_blanks(connection)}

    return look
