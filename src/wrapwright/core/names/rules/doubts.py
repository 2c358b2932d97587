"""A doubt about a value, before it is known in which row and field the value stands."""

from __future__ import annotations

from dataclasses import dataclass

from wrapwright.core.base.findings import Severity
from wrapwright.core.names.values import Problem


@dataclass(frozen=True)
class Doubt:
    """What a rule says: as in Problem, without the row and the field."""

    rule: str
    severity: Severity
    problem: str
    figure: str
    remedy: str
    acceptable: bool = True

    def at(self, row: int, field: str) -> Problem:
        """Return the problem of a row and field that this doubt makes."""
        return Problem(row, field, self.problem, self.figure, self.remedy, self.severity, self.rule, self.acceptable)


def shown(text: str, most: int = 40) -> str:
    """Return a value in quotes for a sentence, shortened, with signs that leave no mark told by their code points."""
    short = text if len(text) <= most else f"{text[: most - 1]}…"
    seen = (char if char == " " or char.isprintable() else f"<U+{ord(char):04X}>" for char in short)
    return f'"{"".join(seen)}"'
