"""What the user decided about rows: made in spite of a problem, skipped, or mended; and what still waits."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from wrapwright.core.base.errors import unusable
from wrapwright.core.names.mapping import edited, record_digest
from wrapwright.core.names.values import Cells, Decision, Problem

FORMAT = 1
_CHOICES = ("make", "skip")


@dataclass(frozen=True)
class Decisions:
    """All decisions about one list, by row number.

    Attributes:
        rows: one for each row that was decided about.
        table: SHA-256 of the table when the last of them was made; "" when there is none.
    """

    rows: Mapping[int, Decision] = field(default_factory=dict)
    table: str = ""

    def of(self, cells: Cells) -> Decision | None:
        """Return the decision about a record of the file, None when there is none or the record is another by now."""
        found = self.rows.get(cells.number)
        return found if found is not None and found.digest == record_digest(cells) else None

    def lost(self, cells: Cells, header: tuple[str, ...]) -> Decision | None:
        """Return what was decided about a record's row when it held something else, and is not so now; else None.

        That is a skip, or a changed cell that does not say the same by now; problems are asked about anew anyway.
        """
        found = self.rows.get(cells.number)
        if found is None or found.digest == record_digest(cells):
            return None
        now = dict(zip((name.casefold() for name in header), (*cells.cells, *[""] * len(header)), strict=False))
        changed = any(now.get(column.casefold()) != text for column, text in found.cells.items())
        return found if changed or found.choice == "skip" else None

    @property
    def sha256(self) -> str:
        """The hash of all that was decided."""
        return hashlib.sha256(decisions_text(self).encode("utf-8")).hexdigest()


def with_edits(cells: Cells, header: tuple[str, ...], decision: Decision | None) -> tuple[Cells, tuple[str, ...]]:
    """Return a record with its decided changes, and the columns that were changed."""
    if decision is None or not decision.cells:
        return cells, ()
    return edited(cells, header, decision.cells), tuple(sorted(decision.cells))


def is_settled(problem: Problem, decision: Decision | None) -> bool:
    """Return whether a row's own problem no longer waits: it is a note, accepted, or the row is skipped."""
    if not problem.waits:
        return True
    if decision is None:
        return False
    return decision.choice == "skip" or (problem.acceptable and problem.key in decision.accepted)


def is_group_settled(problem: Problem, decisions: Iterable[Decision | None]) -> bool:
    """Return whether one question about several rows is answered: accepted at any of them, or one at most is made."""
    found = list(decisions)
    skipped = sum(one is not None and one.choice == "skip" for one in found)
    return len(found) - skipped <= 1 or any(one is not None and problem.key in one.accepted for one in found)


def decided(
    old: Decisions,
    cells: Cells,
    table: str,
    *,
    choice: Literal["make", "skip"] | None = None,
    edits: Mapping[str, str] | None = None,
    accepted: Iterable[str] = (),
) -> Decisions:
    """Return the decisions with one more about a record of the file; what was decided about it before is kept.

    A skipped row that is mended or accepted is made again; what was accepted before a cell was changed is asked anew.
    `choice` None leaves it as it is, or makes it "make".
    """
    before = old.of(cells) or Decision(cells.number, record_digest(cells))
    made = replace(
        before,
        choice=choice or ("make" if edits or accepted else before.choice),
        cells={**before.cells, **(edits or {})},
        accepted=(frozenset() if edits else before.accepted) | frozenset(accepted),
    )
    return Decisions({**old.rows, cells.number: made}, table)


def undecided(old: Decisions, rows: Iterable[int]) -> Decisions:
    """Return the decisions without those about some rows."""
    gone = set(rows)
    return replace(old, rows={number: one for number, one in old.rows.items() if number not in gone})


def decisions_text(decisions: Decisions) -> str:
    """Return decisions as the text of their file: JSON, rows in order; the same decisions give the same text."""
    rows = [_entry(decisions.rows[number]) for number in sorted(decisions.rows)]
    lines = ",\n".join(json.dumps(row, ensure_ascii=False) for row in rows)
    head = json.dumps({"format": FORMAT, "table": decisions.table})[:-1]
    return f'{head}, "rows": [\n{lines}\n]}}\n' if rows else f'{head}, "rows": []}}\n'


def _entry(one: Decision) -> dict[str, Any]:
    entry: dict[str, Any] = {"row": one.row, "digest": one.digest, "choice": one.choice}
    if one.cells:
        entry["cells"] = dict(sorted(one.cells.items()))
    if one.accepted:
        entry["accepted"] = sorted(one.accepted)
    return entry


def decisions_of(text: str, *, where: str = "") -> Decisions:
    """Return the decisions that a file's text holds.

    Raises:
        WrapwrightError: unusable; it is not such a file, or of another format.
    """
    remedy = "Mend it, or put it away and decide anew."
    try:
        document = json.loads(text)
    except json.JSONDecodeError as problem:
        message = (
            f"the file of decisions is damaged: it is no JSON from line {problem.lineno}, column {problem.colno} on."
        )
        raise unusable(message, remedy=remedy, where=where) from None
    except (ValueError, RecursionError):
        raise unusable("the file of decisions is damaged: it is no JSON.", remedy=remedy, where=where) from None
    if not isinstance(document, dict) or "format" not in document:
        raise unusable("the file of decisions does not say its format.", remedy=remedy, where=where)
    if document["format"] != FORMAT:
        message = f"the file of decisions has format {str(document['format'])[:20]}; this version reads {FORMAT}."
        raise unusable(message, remedy=remedy, where=where)
    rows, table = document.get("rows"), document.get("table")
    if not isinstance(rows, list) or not isinstance(table, str):
        raise unusable("the file of decisions lacks its table or its rows.", remedy=remedy, where=where)
    found: dict[int, Decision] = {}
    for at, entry in enumerate(rows, start=1):
        one = _decision(entry)
        if one is None or one.row in found:
            raise unusable(f"entry {at} of the file of decisions is no decision.", remedy=remedy, where=where)
        found[one.row] = one
    return Decisions(found, table)


def _decision(entry: object) -> Decision | None:
    """Return one entry as a decision, None when it is none."""
    if not isinstance(entry, dict):
        return None
    row, digest, choice = entry.get("row"), entry.get("digest"), entry.get("choice")
    cells, accepted = entry.get("cells", {}), entry.get("accepted", [])
    good = isinstance(row, int) and not isinstance(row, bool) and row > 0 and isinstance(digest, str)
    good = good and choice in _CHOICES and _texts(cells, dict) and _texts(accepted, list)
    return Decision(row, digest, choice, cells, frozenset(accepted)) if good else None  # type: ignore[arg-type]


def _texts(found: object, kind: type) -> bool:
    """Return whether a list or table holds texts only."""
    if not isinstance(found, kind):
        return False
    values = [*found.keys(), *found.values()] if isinstance(found, dict) else list(found)  # type: ignore[call-overload]
    return all(isinstance(one, str) for one in values)
