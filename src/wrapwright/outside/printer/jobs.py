"""How far a job is at the printer, in plain words."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum
from typing import TypeGuard

from wrapwright.outside.printer.encoding import Attributes, Value


class JobState(IntEnum):
    """States of a job (RFC 8011, section 5.3.7)."""

    UNKNOWN = 0
    PENDING = 3
    HELD = 4
    PROCESSING = 5
    STOPPED = 6
    CANCELED = 7
    ABORTED = 8
    COMPLETED = 9


ENDED = frozenset({JobState.CANCELED, JobState.ABORTED, JobState.COMPLETED})
# The document is not all there yet (RFC 8011, section 5.3.8).
INCOMPLETE = frozenset({"job-incoming", "job-data-insufficient"})

_STATES = {
    JobState.UNKNOWN: "the printer says nothing of it",
    JobState.PENDING: "waiting",
    JobState.HELD: "held at the printer",
    JobState.PROCESSING: "printing",
    JobState.STOPPED: "stopped at the printer",
    JobState.CANCELED: "cancelled",
    JobState.ABORTED: "given up by the printer",
    JobState.COMPLETED: "printed",
}
# RFC 8011, sections 5.3.8 and 5.4.12; PWG 5100.1 and 5100.9 for the rest. Without -report, -warning and -error.
REASONS = {
    "media-empty": "the paper is out",
    "media-needed": "it wants paper",
    "media-low": "little paper is left",
    "media-jam": "the paper is jammed",
    "media-path-jam": "the paper is jammed",
    "input-tray-missing": "the paper tray is not in its place",
    "output-tray-missing": "the output tray is not in its place",
    "output-area-full": "the output tray is full",
    "output-area-almost-full": "the output tray is nearly full",
    "cover-open": "a cover is open",
    "door-open": "a door is open",
    "interlock-open": "a cover or door is open",
    "marker-supply-empty": "the ink is out",
    "marker-supply-low": "little ink is left",
    "marker-ink-empty": "the ink is out",
    "marker-ink-almost-empty": "little ink is left",
    "marker-waste-full": "the tank for waste ink is full",
    "marker-waste-almost-full": "the tank for waste ink is nearly full",
    "toner-empty": "the toner is out",
    "toner-low": "little toner is left",
    "paused": "the printer is paused",
    "moving-to-paused": "the printer is about to pause",
    "shutdown": "the printer is off",
    "offline": "the printer is off or out of reach",
    "connecting-to-device": "the print service looks for the printer",
    "timed-out": "the printer does not answer its print service",
    "printer-stopped": "the printer stands still",
    "printer-stopped-partly": "part of the printer stands still",
    "spool-area-full": "the printer's memory is full",
    "other": "something it does not name",
    "job-printing": "",
    "job-incoming": "the file is on its way",
    "job-data-insufficient": "the file has not arrived whole",
    "job-queued": "",
    "job-transforming": "the file is being prepared",
    "job-interpreting": "the file is being read",
    "job-canceled-by-user": "someone cancelled it",
    "job-canceled-by-operator": "someone cancelled it at the printer",
    "job-canceled-at-device": "someone cancelled it at the printer",
    "processing-to-stop-point": "it is being stopped",
    "job-completed-successfully": "",
    "job-completed-with-warnings": "with warnings",
    "job-completed-with-errors": "with errors",
    "aborted-by-system": "",
    "unsupported-document-format": "it does not take this kind of file",
    "document-format-error": "it cannot read the file",
    "document-unprintable": "it cannot print the file",
    "document-access-error": "it could not read the file",
    "unsupported-attributes-or-values": "it cannot print as asked",
    "errors-detected": "it found faults",
    "warnings-detected": "",
    "none": "",
}


@dataclass(frozen=True)
class JobSeen:
    """A job at the printer.

    Attributes:
        id: the printer's number for it; 0 where it gave none.
        name: its name, "" where it was not said.
        state: how far it is.
        reasons: the printer's keywords.
        words: state and reasons in plain words.
        sheets: how many sides were printed so far; None where not said.
    """

    id: int
    name: str
    state: JobState
    reasons: tuple[str, ...]
    words: str
    sheets: int | None = None

    @property
    def ended(self) -> bool:
        """Whether it is over, well or not."""
        return self.state in ENDED

    @property
    def complete(self) -> bool:
        """Whether the printer has the whole document."""
        return not INCOMPLETE & set(self.reasons)


def job_seen(said: Attributes, *, known: int = 0) -> JobSeen:
    """Return the job that the attributes tell of; `known` is its number where they name none."""
    number = _value(said, "job-id", known)
    state = _value(said, "job-state", 0)
    seen = JobState(state) if state in list(JobState) else JobState.UNKNOWN
    reasons = tuple(one for one in said.get("job-state-reasons", ()) if isinstance(one, str))
    own = _value(said, "job-state-message", "")
    words = state_words(_STATES[seen], reasons, own)
    sheets = _value(said, "job-impressions-completed", None)
    name = _value(said, "job-name", "")
    return JobSeen(
        number if _is_number(number) else known,
        name if isinstance(name, str) else "",
        seen,
        reasons,
        words,
        sheets if _is_number(sheets) else None,
    )


def _value(said: Attributes, key: str, otherwise: Value) -> Value:
    return next(iter(said.get(key, ())), otherwise)


def _is_number(value: Value) -> TypeGuard[int]:
    return isinstance(value, int) and not isinstance(value, bool) and value >= 0


def state_words(state: str, reasons: tuple[str, ...], own: Value = "") -> str:
    """Return a state with its reasons in plain words; where none is known, with the printer's own message."""
    told = list(dict.fromkeys(words for one in reasons if (words := reason_words(one))))
    if not told and isinstance(own, str) and own.strip() and not reasons:
        told = [own.strip()[:200]]
    return ": ".join(part for part in (state, ", ".join(told)) if part)


def reason_words(reason: str) -> str:
    """Return a reason's keyword in plain words; "" for one that says nothing, the keyword itself for an unknown one."""
    keyword = reason
    for ending in ("-report", "-warning", "-error"):
        keyword = keyword.removesuffix(ending)
    return REASONS.get(keyword, keyword.replace("-", " ")[:80])
