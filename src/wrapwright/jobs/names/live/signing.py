"""A design's list signed off: who agreed and when, and what was changed since."""

from __future__ import annotations

import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError, raise_all
from wrapwright.core.names.decisions import Decisions
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.live.keeping import place_signed, refuse_while_made
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
    """What is to be said of a sign-off.

    Attributes:
        words: sentences, none when nobody has signed.
        whole: nothing was changed since.
        list_sha256: hash of the list as it is now, as reports of what was made tell it; "" while it cannot be used.
    """

    words: tuple[str, ...]
    whole: bool
    list_sha256: str = ""


def sign_list(request: SignList, bench: Bench, watch: Watch) -> SignedView:
    """Return what is to be said now; the sign-off stands in the store, in the place of an earlier one.

    Raises:
        NamesWaitError: kind checks, when rows wait for a decision.
        WrapwrightError: usage, when nobody signs; refused while the list is being made; else as `see_signed`.
    """
    from wrapwright.jobs.kept.forgetting import forget_files
    from wrapwright.outside.store.contents import settle, staged
    from wrapwright.outside.store.rows.names import put_signed_row, signed_row

    store = bench.kept()
    survey = survey_of(request.design, bench)
    raise_all(list(survey.opened.problems))
    with store.reading() as connection:
        refuse_while_made(connection, request.design)
    job = job_file_of(survey.opened.design, survey.opened.kept, bench)
    with _aside(bench) as file:
        sign_names(SignNames(job, request.by, bench.clock().date(), file), bench, watch)
        with staged(store, file, move=True) as come, store.writing() as connection:
            before = signed_row(connection, request.design)
            settle(store, connection, come, bench.clock())
            put_signed_row(connection, request.design, come.sha256, bench.clock())
    if before not in (None, come.sha256):
        forget_files(bench)
    return _view(survey, bench)


def see_signed(request: SeeSigned, bench: Bench, watch: Watch) -> SignedView:
    """Return what is to be said of the sign-off.

    Raises:
        WrapwrightError: missing, for no such design or list; unusable, when the sign-off's file is damaged.
    """
    del watch
    return _view(survey_of(request.design, bench), bench)


@contextmanager
def _aside(bench: Bench) -> Iterator[Path]:
    """Give a place for a file on its way in; what is still there after the block is removed."""
    from wrapwright.outside.store.contents import remove_file

    home = bench.kept().folder / "incoming"
    file = home / f"signing-{secrets.token_hex(8)}"
    try:
        home.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        message = f"The store's folder cannot be written: {error.strerror or error}."
        raise WrapwrightError(Kind.UNREACHABLE, message, remedy="Make room there.", where=str(home)) from error
    try:
        yield file
    finally:
        remove_file(file)


def _view(survey: Survey, bench: Bench) -> SignedView:
    if survey.opened.names is None:
        return SignedView((), whole=False)
    place_signed(survey.opened.design.id, bench)
    table = survey.opened.kept.sha256 if survey.decisions else ""
    names = replace(survey.names, decisions=Decisions(dict(survey.decisions), table))
    words = signed_words(since(names))
    return SignedView(words, whole=len(words) == 1, list_sha256=names.sha256)
