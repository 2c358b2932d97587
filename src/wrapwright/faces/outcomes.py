"""How an outcome leaves the house: one table, kind of problem -> exit code and HTTP status."""

from __future__ import annotations

from dataclasses import dataclass

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError

FORMAT = 1


@dataclass(frozen=True)
class Outcome:
    """What the command line and the web say: `exit` for a shell, `http` for a browser (None: never sent)."""

    exit: int
    http: int | None


DONE = Outcome(0, 200)

OUTCOMES: dict[Kind, Outcome] = {
    Kind.FAULT: Outcome(1, 500),
    Kind.USAGE: Outcome(2, 422),
    Kind.UNUSABLE: Outcome(3, 422),
    Kind.CHECKS: Outcome(4, 409),
    Kind.SETUP: Outcome(5, 503),
    Kind.UNREACHABLE: Outcome(6, 503),
    Kind.REFUSED: Outcome(7, 409),
    Kind.MISSING: Outcome(8, 404),
    Kind.STOPPED: Outcome(130, None),
}


def document(error: WrapwrightError) -> dict[str, object]:
    """Return the one JSON document of a failure; `problems` lists them all when there are several."""
    made: dict[str, object] = {"format": FORMAT, "error": entry(error)}
    if isinstance(error, SeveralProblemsError):
        made["problems"] = [entry(problem) for problem in error.problems]
    return made


def entry(error: WrapwrightError) -> dict[str, object]:
    """Return one problem as kind, exit, message, remedy, where."""
    return {
        "kind": error.kind.value,
        "exit": OUTCOMES[error.kind].exit,
        "message": error.message,
        "remedy": error.remedy,
        "where": error.where,
    }
