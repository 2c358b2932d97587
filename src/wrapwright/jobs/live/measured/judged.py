"""The typed form judged: what is wrong, field by field, and the blank as far as it can be read in spite of it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError, raise_all
from wrapwright.core.blank.wrapped import Setup, Wrapped, wrap_blank
from wrapwright.jobs.live.measured.typed import Loc, Table, Typed
from wrapwright.outside.jobfile.job import Job, job_of
from wrapwright.outside.jobfile.model import JobFile
from wrapwright.outside.jobfile.presence import keys_in_doubt
from wrapwright.outside.jobfile.problems import problems_of

if TYPE_CHECKING:
    from collections.abc import Iterator

# Left out when something in them is wrong, so that the rest can be drawn all the same.
_WHOLE = {("blank", "handle"), ("blank", "coated"), ("wrap", "band")}
_MOST_ROUNDS = 12


@dataclass(frozen=True)
class FieldProblem:
    """A problem and the field it is told at, as in `blank.readings.2.1`; "blank" or "wrap" for no single one."""

    field: str
    message: str
    remedy: str


@dataclass(frozen=True)
class Judged:
    """What became of the form.

    Attributes:
        problems: all that is wrong with what was typed, in the order of the form.
        job: the blank and the wrap's wishes as far as they are sound; None while they cannot be drawn.
        wrapped: its flat wrap; None likewise.
    """

    problems: tuple[FieldProblem, ...]
    job: Job | None
    wrapped: Wrapped | None


def judged(form: Typed) -> Judged:
    """Return the form judged; what is wrong in a part that a blank can do without hides nothing of the rest."""
    state = _State(form)
    for _ in range(_MOST_ROUNDS):
        job = state.job()
        if job is None:
            break
        try:
            wrapped = wrap_blank(job.blank, job.wrap, Setup())
        except WrapwrightError as problem:
            told = problem.problems if isinstance(problem, SeveralProblemsError) else (problem,)
            if not state.told(told):
                break
        else:
            return Judged(tuple(state.problems), job, wrapped)
    return Judged(tuple(state.problems), None, None)


class _State:
    """The document while faulty parts are taken out of it, and the problems they had."""

    def __init__(self, form: Typed) -> None:
        self.form = form
        self.blank = dict(form.blank)
        self.wrap = dict(form.wrap)
        self.rows = {key: list(numbers) for key, numbers in form.rows.items()}
        self.problems: list[FieldProblem] = []

    def job(self) -> Job | None:
        """Return the job of what is left, None while it cannot be read."""
        for _ in range(_MOST_ROUNDS):
            document = {"format": 1, "blank": self.blank, "wrap": self.wrap}
            try:
                model = JobFile.model_validate(document)
            except ValidationError as error:
                found = zip(error.errors(include_url=False), problems_of(error, document, JobFile), strict=True)
                before = [(tuple(one["loc"]), problem) for one, problem in found]
                if not self._take(before):
                    return None
                continue
            doubts = [(_loc_of(one.where), one) for one in keys_in_doubt(document)]
            doubts = [one for one in doubts if self._counts(one[0])]
            if doubts and not self._take(doubts):
                return None
            if not doubts:
                return job_of(model, stem="", names=[], files=()) if model.blank.kind else None
        return None

    def told(self, problems: Sequence[WrapwrightError]) -> bool:
        """Note what core says, less what is only missing; return whether something was taken out for it."""
        pairs = [(_loc_of(problem.where), problem) for problem in problems]
        return self._take([one for one in pairs if self._counts(one[0])])

    def _counts(self, loc: Loc) -> bool:
        """Return whether a problem says more than that something is empty or was found wrong before."""
        missing = {one.field for one in self.form.needed} | {one.field for one in self.problems}
        return (loc != ("blank",) and ".".join(map(str, loc)) not in missing) or not missing

    def _take(self, found: Sequence[tuple[Loc, WrapwrightError]]) -> bool:
        """Note the problems and take what they are about out of the document; return whether anything went."""
        known = {(one.field, one.message) for one in self.problems}
        for loc, problem in found:
            entry = FieldProblem(self._field(loc), problem.message, problem.remedy)
            if (entry.field, entry.message) not in known:
                self.problems.append(entry)
        places = sorted({loc for loc, _ in found}, key=_backwards, reverse=True)
        return sum(self._leave_out(loc) for loc in places) > 0

    def _field(self, loc: Loc) -> str:
        """Return the field's name with the row's number as in the form."""
        parts = list(loc)
        if len(parts) > 2 and isinstance(parts[2], int):
            numbers = self.rows.get(str(parts[1]), [])
            parts[2] = numbers[parts[2]] if parts[2] < len(numbers) else parts[2]
        return ".".join(map(str, parts))

    def _leave_out(self, loc: Loc) -> bool:
        """Take a part out of the document; return whether it was there."""
        if len(loc) < 2 or loc[0] not in ("blank", "wrap"):
            return False
        tables: dict[str, Any] = self.blank if loc[0] == "blank" else self.wrap
        key = str(loc[1])
        if key in ("readings", "keepout") and len(loc) > 2 and isinstance(loc[2], int):
            return self._leave_row(tables, key, loc[2])
        inner = tables.get(key)
        if len(loc) > 2 and loc[:2] not in _WHOLE and isinstance(inner, dict):
            tables[key] = {name: value for name, value in inner.items() if name != loc[2]}
            return loc[2] in inner
        return tables.pop(key, None) is not None

    def _leave_row(self, tables: dict[str, Any], key: str, at: int) -> bool:
        rows = tables.get(key)
        if not isinstance(rows, list) or at >= len(rows):
            return False
        left = [row for number, row in enumerate(rows) if number != at]
        self.rows[key] = [row for number, row in enumerate(self.rows.get(key, [])) if number != at]
        tables[key] = left
        if not left:
            del tables[key]
        return True


def _backwards(loc: Loc) -> tuple[str, ...]:
    """Return a key that puts later rows behind earlier ones."""
    return tuple(f"{part:06d}" if isinstance(part, int) else part for part in loc)


_WHERE = re.compile(r"(?P<head>blank|wrap)(?:: (?P<rest>.+))?")


def _loc_of(where: str) -> Loc:
    """Return the place in the document that a problem's `where` names: `blank: readings 2` -> blank, readings, 1."""
    found = _WHERE.fullmatch(where)
    if found is None:
        return ("blank",)
    return (found["head"], *_parts(found["rest"] or ""))


def _parts(rest: str) -> Iterator[int | str]:
    for word in rest.split():
        yield int(word) - 1 if word.isdigit() else word


def blank_read(table: Table, wrap: Table) -> tuple[Job, Wrapped]:
    """Return a blank that was kept, with its flat wrap.

    Raises:
        WrapwrightError: unusable; what is wrong in its tables or readings.
    """
    document = {"format": 1, "blank": dict(table), "wrap": dict(wrap)}
    doubts = list(keys_in_doubt(document))
    try:
        model = JobFile.model_validate(document)
    except ValidationError as error:
        problems = [*problems_of(error, document, JobFile), *doubts]
        raise SeveralProblemsError(tuple(problems)) from None
    raise_all(doubts)
    job = job_of(model, stem="", names=[], files=())
    return job, wrap_blank(job.blank, job.wrap, Setup())
