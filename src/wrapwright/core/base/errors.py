"""Problems with a call: one family, each with its kind and with what to do next."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from typing import TypeVar

Result = TypeVar("Result")


class Kind(StrEnum):
    """What sort of problem it is; the faces turn it into an exit code and an HTTP status."""

    FAULT = "fault"
    USAGE = "usage"
    UNUSABLE = "unusable"
    CHECKS = "checks"
    SETUP = "setup"
    UNREACHABLE = "unreachable"
    REFUSED = "refused"
    MISSING = "missing"
    STOPPED = "stopped"


# When several problems are found together, the first kind in this order names the outcome.
ORDER: tuple[Kind, ...] = (Kind.UNUSABLE, Kind.SETUP, Kind.CHECKS)


class WrapwrightError(Exception):
    """A problem with the call: what happened (with the figure and the limit) and what to do.

    Attributes:
        kind: the sort of problem.
        message: one clear sentence.
        remedy: what to do; may be empty when the message already says it.
        where: the key, element, file or option it is about; may be empty.
    """

    def __init__(self, kind: Kind, message: str, *, remedy: str = "", where: str = "") -> None:
        super().__init__(kind, message, remedy, where)
        self.kind = kind
        self.message = message
        self.remedy = remedy
        self.where = where

    def __reduce__(self) -> tuple[object, ...]:
        """Keep the keyword-only fields when the error crosses a process border."""
        return (_rebuild, (type(self), self.kind, self.message, self.remedy, self.where))

    def __str__(self) -> str:
        """Return the sentence a person reads."""
        head = f"{self.where}: {self.message}" if self.where else self.message
        return f"{head} {self.remedy}".rstrip()


def _rebuild(cls: type[WrapwrightError], kind: Kind, message: str, remedy: str, where: str) -> WrapwrightError:
    return cls(kind, message, remedy=remedy, where=where)


class SeveralProblemsError(WrapwrightError):
    """Several problems found in one go; `problems` lists them all, in the order they were found."""

    def __init__(self, problems: tuple[WrapwrightError, ...]) -> None:
        first = leading(problems)
        super().__init__(first.kind, first.message, remedy=first.remedy, where=first.where)
        self.problems = problems

    def __reduce__(self) -> tuple[object, ...]:
        """Keep every problem when the error crosses a process border."""
        return (SeveralProblemsError, (self.problems,))

    def __str__(self) -> str:
        """Return all sentences, one a line."""
        return "\n".join(str(problem) for problem in self.problems)


def leading(problems: tuple[WrapwrightError, ...]) -> WrapwrightError:
    """Return the problem whose kind comes first in ORDER (else the first one)."""
    for kind in ORDER:
        for problem in problems:
            if problem.kind is kind:
                return problem
    return problems[0]


def raise_all(problems: list[WrapwrightError]) -> None:
    """Raise nothing for an empty list, the one problem for one, SeveralProblemsError for more."""
    if len(problems) == 1:
        raise problems[0]
    if problems:
        raise SeveralProblemsError(tuple(problems))


def noted(problems: list[WrapwrightError], step: Callable[[], Result]) -> Result | None:
    """Return what a step returns, or None with its problems added to the list, so that the next step can be tried.

    Only what the user can mend together with other things is noted (the kinds in ORDER); the rest is raised at once.
    """
    try:
        return step()
    except WrapwrightError as problem:
        if problem.kind not in ORDER:
            raise
        problems += problem.problems if isinstance(problem, SeveralProblemsError) else (problem,)
        return None


def unusable(message: str, *, remedy: str = "", where: str = "") -> WrapwrightError:
    """Return the commonest error: something readable but impossible, missing or unusable."""
    return WrapwrightError(Kind.UNUSABLE, message, remedy=remedy, where=where)
