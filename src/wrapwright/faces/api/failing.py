"""How a failure is answered: every problem has the status and the document of the one table of outcomes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from fastapi import FastAPI
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.core.base.faults import fault_of
from wrapwright.core.base.findings import finding_row
from wrapwright.faces.api.misfits import problem_of
from wrapwright.faces.outcomes import OUTCOMES, document
from wrapwright.jobs.bench import Bench

_SHOWN = 20  # problems of one request that are listed


@dataclass(frozen=True)
class Problem:
    """One problem: `kind` and `exit` as on the command line, one sentence, what to do, what it is about."""

    kind: str
    exit: int
    message: str
    remedy: str
    where: str


@dataclass(frozen=True)
class Failure:
    """The body of every answer from 400 up.

    Attributes:
        format: of this document.
        error: the problem, the first when there are several.
        problems: all of them, when there are several.
        checks: what the checks found, when it was they that said no.
        current: the design's newest revision, when another station saved first.
    """

    format: int
    error: Problem
    problems: Sequence[Problem] = ()
    checks: Sequence[Mapping[str, Any]] = ()
    current: int | None = field(default=None)


class AnswerError(WrapwrightError):
    """A problem with a status of its own, for what only a browser can do wrong."""

    status = 422
    current: int | None = None
    headers: Mapping[str, str] | None = None


def answer(  # the fields of the answer are its arguments
    status: int,
    kind: Kind,
    message: str,
    *,
    remedy: str = "",
    current: int | None = None,
    headers: Mapping[str, str] | None = None,
) -> AnswerError:
    """Return a problem that is answered with this status."""
    error = AnswerError(kind, message, remedy=remedy)
    error.status, error.current, error.headers = status, current, headers
    return error


def status_of(error: WrapwrightError) -> int:
    """Return the HTTP status of a problem; one stopped by the user is nobody's fault and never sent, so 503."""
    if isinstance(error, AnswerError):
        return error.status
    return OUTCOMES[error.kind].http or 503


def failure(error: WrapwrightError, hidden: Sequence[str] = ()) -> JSONResponse:
    """Return the answer for a problem."""
    headers = error.headers if isinstance(error, AnswerError) else None
    return JSONResponse(told(error, hidden), status_of(error), headers)


def told(error: WrapwrightError, hidden: Sequence[str] = ()) -> dict[str, object]:
    """Return the document of a problem; what is `hidden` (this machine's folders) does not stand in it."""
    made = document(error)
    findings = getattr(error, "findings", ())
    if findings:
        made["checks"] = [finding_row(one) for one in findings]
    if isinstance(error, AnswerError) and error.current is not None:
        made["current"] = error.current
    plain: dict[str, object] = _without(made, hidden)
    return plain


def _without(value: Any, hidden: Sequence[str]) -> Any:
    """Return a document without the folders in it, and without characters that no encoding knows."""
    if isinstance(value, str):
        for folder in hidden:
            value = value.replace(folder, "")
        return value.encode("utf-8", "backslashreplace").decode("utf-8")
    if isinstance(value, dict):
        return {key: _without(one, hidden) for key, one in value.items()}
    return [_without(one, hidden) for one in value] if isinstance(value, list) else value


AsPage = Callable[[Request, WrapwrightError, int], Response]


def add_failures(app: FastAPI, as_page: AsPage | None = None) -> None:
    """Let the application answer every problem so; `as_page` makes the answer of what is not below /api."""

    def answered(request: Request, error: WrapwrightError) -> Response:
        if as_page is not None and not request.url.path.startswith("/api/"):
            return as_page(request, error, status_of(error))
        return failure(error, hidden_in(request.app.state.bench))

    async def problem(request: Request, error: Exception) -> Response:
        assert isinstance(error, WrapwrightError)
        return answered(request, error)

    async def invalid(request: Request, error: Exception) -> Response:
        assert isinstance(error, RequestValidationError)
        return answered(request, misfit(error))

    async def plain(request: Request, error: Exception) -> Response:
        assert isinstance(error, HTTPException)
        return answered(request, _of_status(error))

    async def fault(request: Request, error: Exception) -> Response:
        return answered(request, fault_of(error, remedy="The window it runs in says where."))

    app.add_exception_handler(WrapwrightError, problem)
    app.add_exception_handler(RequestValidationError, invalid)
    app.add_exception_handler(HTTPException, plain)
    app.add_exception_handler(Exception, fault)


def hidden_in(bench: Bench) -> tuple[str, ...]:
    """Return this machine's folders, which no answer tells, the longest first."""
    folders = bench.folders
    places = {str(one) for one in (folders.cache, folders.data, folders.fonts)}
    return tuple(sorted((f"{one}{end}" for one in places for end in ("/", "\\", "")), key=len, reverse=True))


def misfit(error: RequestValidationError) -> WrapwrightError:
    """Return what is wrong with a request as our problems, one a place."""
    problems = [problem_of(one) for one in error.errors()[:_SHOWN]]
    return problems[0] if len(problems) == 1 else SeveralProblemsError(tuple(problems))


def _of_status(error: HTTPException) -> AnswerError:
    kinds = {404: Kind.MISSING, 413: Kind.UNUSABLE}
    words = {
        400: "The request cannot be read: it is not JSON, or nested too deeply.",
        404: "There is nothing at this address.",
        405: "This address does not take such a request.",
    }
    status = error.status_code
    message = words.get(status) or f"{str(error.detail).rstrip('.')}."
    return answer(status, kinds.get(status, Kind.USAGE), message, headers=error.headers)
