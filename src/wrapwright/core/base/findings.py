"""Findings: problems in the work, kept as values in a list."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from wrapwright.core.base.units import stated


class Severity(StrEnum):
    """How much a finding matters."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@dataclass(frozen=True)
class Finding:
    """One remark of one rule.

    Attributes:
        rule: the rule's public name, for example `picture-ppi`.
        severity: error, warning or note.
        message: one sentence with the figure, the limit and the remedy.
        element: name of the element it is about, or None.
        figure: what was measured, or None.
        limit: the figure it was held against, or None.
        unit: unit of figure and limit ("mm", "ppi", "dE00", "%", ...), or None.
        accepted: an error the user has accepted by name.
    """

    rule: str
    severity: Severity
    message: str
    element: str | None = None
    figure: float | None = None
    limit: float | None = None
    unit: str | None = None
    accepted: bool = False


ALL = "all"  # stands for every rule where errors are accepted

# An error of this rule can never be accepted.
NEVER_ACCEPTED = frozenset({"does-not-fit"})


def accept(findings: list[Finding], rules: frozenset[str]) -> list[Finding]:
    """Return the findings with the errors of the named rules (or of all of them: ALL) marked as accepted."""
    return [
        replace(one, accepted=True)
        if one.severity is Severity.ERROR and one.rule not in NEVER_ACCEPTED and (one.rule in rules or ALL in rules)
        else one
        for one in findings
    ]


def finding_row(one: Finding) -> dict[str, object]:
    """Return a finding as documents state it, its keys in their published order."""
    return {
        "rule": one.rule,
        "severity": one.severity.value,
        "message": one.message,
        "element": one.element,
        "figure": None if one.figure is None else stated(one.figure),
        "limit": None if one.limit is None else stated(one.limit),
        "unit": one.unit,
        "accepted": one.accepted,
    }


def stopping(findings: list[Finding]) -> list[Finding]:
    """Return the errors that nobody accepted."""
    return [one for one in findings if one.severity is Severity.ERROR and not one.accepted]
