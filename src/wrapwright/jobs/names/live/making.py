"""A design's list made: asked for, and done by the worker as the exported job file would be."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from wrapwright.core.base.errors import Kind, WrapwrightError, raise_all
from wrapwright.core.names.making.places import Order
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.contact.show_contact import ShowContact
from wrapwright.outside.store.records import MadeKept

if TYPE_CHECKING:
    from wrapwright.jobs.names.make_names import NamesMade

MOST_NAMED = 10_000  # rows of a subset


@dataclass(frozen=True)
class AskNames:
    """Make a design's list.

    Attributes:
        design: its number; its newest revision is made.
        order: "rows" or "piles", as in MakeNames.
        rows: numbers of the only rows that are made, again or by themselves; empty: all.
        sheets_a_file: more sheets than these make several files.
        accept: rules whose errors about the typical piece are accepted.
        only: "contact": the contact sheet alone, to be signed off before anything is printed; "" for all.
    """

    design: int
    order: Order = "rows"
    rows: tuple[int, ...] = ()
    sheets_a_file: int = 500
    accept: tuple[str, ...] = ()
    only: Literal["", "contact"] = ""


@dataclass(frozen=True)
class MakeKeptNames:
    """Make one revision of a design with its list in `folder`; `how` is what the row of the making says."""

    design: int
    revision: int
    how: Any
    accept: tuple[str, ...]
    folder: Path


def ask_names(request: AskNames, bench: Bench, watch: Watch) -> MadeKept:
    """Return the making asked for, waiting.

    Raises:
        WrapwrightError: missing for no such design or list; checks, while rows wait for a decision, with how many;
            unusable for a mapping that cannot be used; refused while the check is under way; usage for a rule that
            there is not or that can never be accepted.
    """
    from wrapwright.jobs.kept.made import accepted_rules
    from wrapwright.jobs.names.live.showing import check_view, position_of
    from wrapwright.jobs.names.live.surveying import survey_of, whole_or_refused
    from wrapwright.outside.store.rows.made import add_names_made_row

    del watch
    accept = accepted_rules(request.accept)
    survey = survey_of(request.design, bench)
    raise_all([*survey.opened.problems, *([survey.trouble] if survey.trouble else [])])
    whole_or_refused(survey)
    waiting = check_view(survey).waiting
    if waiting:
        said = "1 problem waits" if waiting == 1 else f"{waiting} problems wait"
        message = f"{said} for a decision; nothing is made before."
        raise WrapwrightError(Kind.CHECKS, message, remedy="Change the cell, accept it or skip the row.", where="names")
    for number in request.rows:
        position_of(survey, number)
    how = {key: value for key, value in asdict(request).items() if key not in ("design", "accept")}
    how["rows"] = [*request.rows]
    with bench.kept().writing() as connection:
        return add_names_made_row(connection, survey.opened.design, how, accept, bench.clock())


def make_kept_names(request: MakeKeptNames, bench: Bench, watch: Watch) -> NamesMade:
    """Return what was left in the folder: byte for byte what the exported job file gives, or its contact sheet alone.

    Raises:
        WrapwrightError: missing for no such design or list; as `make_names`.
    """
    from wrapwright.core.checks.names import folded
    from wrapwright.jobs.kept.designs import ShowDesign, show_design
    from wrapwright.jobs.names.live.opening import job_file_of
    from wrapwright.jobs.names.make_names import MakeNames, make_names
    from wrapwright.outside.store.rows.names import list_kept

    watch.step("reading the design", 0.0)
    design = show_design(ShowDesign(request.design, request.revision), bench, watch)
    with bench.kept().reading() as connection:
        kept = list_kept(connection, design.id)
    how = request.how
    job, order, seconds = job_file_of(design, kept, bench), how.get("order", "rows"), how.get("seconds", 2.0)
    if how.get("only") == "contact":
        return _contact(ShowContact(job, request.folder, order=order, seconds=seconds), design.title, bench, watch)
    wanted = MakeNames(
        job,
        request.folder,
        order=order,
        rows=tuple(how.get("rows", ())) or None,
        sheets_a_file=how.get("sheets_a_file", 500),
        accept=folded(request.accept),
        seconds=seconds,
    )
    return make_names(wanted, bench, watch)


def _contact(wanted: ShowContact, title: str, bench: Bench, watch: Watch) -> NamesMade:
    """Return the report of a contact sheet by itself; `wanted.file` is the folder where both go."""
    from wrapwright.jobs.names.contact.show_contact import show_contact
    from wrapwright.jobs.names.make_names import NamesMade
    from wrapwright.outside.system.delivery import delivery
    from wrapwright.outside.system.files import file_sha256
    from wrapwright.outside.system.installed import version

    with delivery(wanted.file, force=False) as folder:
        file = folder / "contact.pdf"
        digest = show_contact(replace(wanted, file=file), bench, watch)
        left = [{"path": file.name, "sha256": file_sha256(file), "bytes": file.stat().st_size}]
        report = {"format": 1, "wrapwright": version(), "title": title, "names": {"list_sha256": digest}, "files": left}
        text = json.dumps(report, ensure_ascii=False, indent=2) + "\n"
        (folder / "report.json").write_text(text, encoding="utf-8", newline="\n")
    return NamesMade(report)
