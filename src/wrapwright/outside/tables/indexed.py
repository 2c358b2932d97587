"""A table's records in a file of the cache from which any of them is read at once, wherever it stands."""

from __future__ import annotations

import hashlib
import json
import secrets
from array import array
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import unusable
from wrapwright.core.names.values import Cells
from wrapwright.outside.system.files import replace
from wrapwright.outside.system.keeping import used
from wrapwright.outside.tables.reading import Table

if TYPE_CHECKING:
    from numpy.typing import NDArray

FORM = 1


@dataclass(frozen=True, eq=False)
class Indexed:
    """Records with something in them, in the table's order.

    Attributes:
        file: a line of JSON each.
        numbers: their numbers, ascending.
        places: where their lines begin, and where the last ends: bytes.
        empty: how many records have nothing in them.
    """

    file: Path
    numbers: NDArray[Any]
    places: NDArray[Any]
    empty: int

    def __len__(self) -> int:
        """Return how many records there are."""
        return len(self.numbers)

    def at(self, positions: Sequence[int]) -> list[Cells]:
        """Return the records at positions counted from 0, in the order asked for."""
        with self.file.open("rb") as stream:
            found = []
            for one in positions:
                stream.seek(int(self.places[one]))
                found.append(_cells(stream.read(int(self.places[one + 1] - self.places[one]))))
            return found

    def position(self, number: int) -> int | None:
        """Return the position of the record with a number, None when nothing stands in that row."""
        import numpy as np

        at = int(np.searchsorted(self.numbers, number))
        return at if at < len(self) and int(self.numbers[at]) == number else None

    def all(self) -> Iterator[Cells]:
        """Yield all records, in constant memory."""
        with self.file.open("rb") as stream:
            for line in stream:
                yield _cells(line)

    def holding(self, words: str) -> list[int]:
        """Return the positions of the records in which a text stands, whatever its case."""
        wanted = words.casefold()
        return [at for at, one in enumerate(self.all()) if any(wanted in cell.casefold() for cell in one.cells)]


def indexed(table: Table, cache: Path) -> Indexed:
    """Return a table's records ready to be picked; read through once, then found in the cache.

    Raises:
        WrapwrightError: unusable, where a record cannot be read, or the cache not be written.
    """
    import numpy as np

    taken = table.taken
    said = repr((FORM, taken.encoding, taken.separator, taken.sheet, table.header_row, table.form))
    name = f"{taken.sha256}-rows-{hashlib.sha256(said.encode('utf-8')).hexdigest()[:16]}"
    folder = cache / "tables" / taken.sha256[:2]
    rows, about = folder / f"{name}.lines", folder / f"{name}.npy"
    if not (rows.is_file() and about.is_file()):
        _written(table, rows, about)
    used(rows)
    used(about)
    found = np.load(about, allow_pickle=False)
    return Indexed(rows, found[0, :-1], found[1], int(found[0, -1]))


def forget_table(sha256: str, cache: Path) -> None:
    """Remove all that was read of a table into the cache."""
    for file in (cache / "tables" / sha256[:2]).glob(f"{sha256}-*"):
        file.unlink(missing_ok=True)


def _written(table: Table, rows: Path, about: Path) -> None:
    import numpy as np

    mark = secrets.token_hex(6)
    aside = rows.with_name(f".{mark}.lines")
    numbers, places, place, first = array("q"), array("q"), 0, table.header_row
    last = first
    try:
        rows.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        with aside.open("xb") as stream:
            for one in table.records():
                last = one.number
                if one.empty:
                    continue
                line = _line(one)
                numbers.append(one.number)
                places.append(place)
                place += len(line)
                stream.write(line)
        empty = last - first - len(numbers)
        pairs = np.array([[*numbers, max(0, empty)], [*places, place]], dtype=np.int64)
        replace(aside, rows)
        other = about.with_name(f".{mark}.npy")
        with other.open("xb") as stream:
            np.save(stream, pairs, allow_pickle=False)
        replace(other, about)
    except OSError as error:
        remedy = "Free some room, or name another cache folder."
        raise unusable(f"the table's rows cannot be kept in the cache: {error.strerror}.", remedy=remedy) from error
    finally:
        if aside.exists():
            aside.unlink()


def _line(one: Cells) -> bytes:
    kinds = {str(at): kind for at, kind in one.kinds.items()}
    return (json.dumps([one.number, one.line, one.cells, kinds]) + "\n").encode("ascii")


def _cells(line: bytes) -> Cells:
    number, at, cells, kinds = json.loads(line)
    return Cells(number, at, tuple(cells), {int(place): kind for place, kind in kinds.items()})
