"""A design's list signed off: who agreed and when, and what was changed since."""

from __future__ import annotations

from dataclasses import dataclass, replace

from wrapwright.core.base.errors import raise_all
from wrapwright.core.names.decisions import Decisions
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.live.opening import job_file_of
from wrapwright.jobs.names.live.surveying import Survey, survey_of
from wrapwright.jobs.names.signing import SignNames, sign_names, signed_words, since


@dataclass(frozen=True)
class SignList:
    """Sign a design's list off, today, in the name of who agreed to its contact sheet."""

    design: int
    by: str


@dataclass(frozen=True)
class SeeSigned:
    """What is to be said of a list's sign-off."""

    design: int


@dataclass(frozen=True)
class SignedView:
    """Sentences about the sign-off, none when nobody has signed; `whole` while nothing was changed since."""

    words: tuple[str, ...]
    whole: bool


def sign_list(request: SignList, bench: Bench, watch: Watch) -> SignedView:
    """Return what is to be said now.

    Raises:
        NamesWaitError: kind checks, when rows wait for a decision.
        WrapwrightError: usage, when nobody signs; else as `see_signed`.
    """
    survey = survey_of(request.design, bench)
    raise_all(list(survey.opened.problems))
    job = job_file_of(survey.opened.design, survey.opened.kept, bench)
    sign_names(SignNames(job, request.by, bench.clock().date()), bench, watch)
    return _view(survey)


def see_signed(request: SeeSigned, bench: Bench, watch: Watch) -> SignedView:
    """Return what is to be said of the sign-off.

    Raises:
        WrapwrightError: missing, for no such design or list; unusable, when the sign-off's file is damaged.
    """
    del watch
    return _view(survey_of(request.design, bench))


def _view(survey: Survey) -> SignedView:
    if survey.opened.names is None:
        return SignedView((), whole=False)
    table = survey.opened.kept.sha256 if survey.decisions else ""
    found = since(replace(survey.names, decisions=Decisions(dict(survey.decisions), table)))
    words = signed_words(found)
    return SignedView(words, whole=len(words) == 1)
