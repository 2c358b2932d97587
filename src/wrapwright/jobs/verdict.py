"""What the checks' findings mean for a job: go on, or stop with all of them listed."""

from __future__ import annotations

from collections.abc import Iterable

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.findings import NEVER_ACCEPTED, Finding, stopping


class ChecksSayNoError(WrapwrightError):
    """The checks found errors that nobody accepted; `findings` holds all findings, warnings and notes too."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        errors = stopping(list(findings))
        rules = sorted({one.rule for one in errors})
        count = "1 error" if len(errors) == 1 else f"{len(errors)} errors"
        options = " ".join(f"--accept {rule}" for rule in rules)
        never = [rule for rule in rules if rule in NEVER_ACCEPTED]
        remedy = f"Mend the job, or make it in spite of that with {options}."
        if never:
            remedy = f"Mend the job: {' and '.join(never)} cannot be accepted."
        elements = sorted({one.element for one in errors if one.element})
        message = f"The checks found {count}: {', '.join(rules)}."
        super().__init__(Kind.CHECKS, message, remedy=remedy, where=", ".join(elements))
        self.findings = findings

    def __reduce__(self) -> tuple[object, ...]:
        """Keep the findings when the error crosses a process border."""
        return (ChecksSayNoError, (self.findings,))


def stand_or_stop(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return the findings when no unaccepted error is among them.

    Raises:
        ChecksSayNoError: kind checks, with all findings.
    """
    every = tuple(findings)
    if stopping(list(every)):
        raise ChecksSayNoError(every)
    return every
