"""The history: what was made, how far what is being made is, and what the checks said of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from wrapwright.data.press import cautions
from wrapwright.faces.api.asking import Whole
from wrapwright.faces.web.rendering import page
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import MadeKept

router = APIRouter()

CAUTIONS = frozenset({"ink-gloves", "test-piece", "makers-first", "lip"})
AT_ONCE = 50  # rows of one page
RUNNING = ("waiting", "making")
_SHAPES = {"straight": "straight", "tapered": "tapered", "profile": "bulging"}
_FILES = {
    "sheets.pdf": "the transfers, to print at 100 %",
    "proof.pdf": "as seen, to show before it is made",
    "ticket.pdf": "the page that goes with the work",
    "report.json": "every figure, for programs",
}


@dataclass(frozen=True)
class FileShown:
    """A file to download: what it is for, and its size as one says it."""

    name: str
    words: str
    size: str


@dataclass(frozen=True)
class FindingShown:
    """One finding of the report, its severity as a word."""

    severity: str
    message: str
    accepted: bool


@dataclass(frozen=True)
class MadeShown:
    """One making as the history shows it.

    Attributes:
        kept: the record.
        running: whether it is waiting or being made.
        blank: name of the design's blank, else what the report says of its shape.
        wrap_mm: width and height of the wrap, or None.
        findings: errors first.
        files: what can be downloaded.
        trouble: the failure's sentence and remedy, or "".
        scale: which scale it was printed with, or "".
    """

    kept: MadeKept
    running: bool
    blank: str
    wrap_mm: tuple[float, float] | None
    findings: tuple[FindingShown, ...]
    files: tuple[FileShown, ...]
    trouble: str
    scale: str


@router.get("/history")
def history(request: Request, before: Whole = 0) -> HTMLResponse:
    """Return the history, the newest first; `before` leaves out what has that number or a higher one."""
    from wrapwright.jobs.kept.made import ListMade, list_made

    bench: Bench = request.app.state.bench
    blanks = _blanks(bench)
    rows = list_made(ListMade(before=before, most=AT_ONCE + 1), bench, Watch())
    return page(
        request,
        "history.html",
        step="history",
        made=[made_shown(one, blanks.get(one.design, "")) for one in rows[:AT_ONCE]],
        older=rows[AT_ONCE - 1].id if len(rows) > AT_ONCE else 0,
        before=before,
        cautions=[one.text for one in cautions() if one.name in CAUTIONS],
    )


def made_shown(kept: MadeKept, blank: str) -> MadeShown:
    """Return a making as the history shows it; `blank` is the name of the design's blank where it has one."""
    wrap = kept.report.get("wrap", {})
    return MadeShown(
        kept,
        kept.state in RUNNING,
        blank or _blank_of(kept.report),
        (wrap["width_mm"], wrap["height_mm"]) if wrap else None,
        _findings(kept.report or kept.error),
        tuple(FileShown(one.name, _words_of(one.name), size_words(one.bytes)) for one in kept.files),
        _trouble(kept.error),
        _scale(kept.report),
    )


def size_words(count: int) -> str:
    """Return a size in bytes as one says it: 812 bytes, 34 kB, 1.2 MB."""
    if count < 1000:
        return f"{count} bytes"
    return f"{count / 1000:.0f} kB" if count < 1_000_000 else f"{count / 1_000_000:.1f} MB"


def _blanks(bench: Bench) -> dict[int, str]:
    from wrapwright.jobs.kept.designs import ListDesigns, list_designs

    return {one.id: one.blank for one in list_designs(ListDesigns(), bench, Watch())}


def _blank_of(report: Mapping[str, Any]) -> str:
    kind = str(report.get("blank", {}).get("kind", ""))
    return f"{_SHAPES[kind]} blank" if kind in _SHAPES else ""


def _words_of(name: str) -> str:
    if name in _FILES:
        return _FILES[name]
    return "a sheet as a picture" if name.startswith("sheet") else ""


def _scale(report: Mapping[str, Any]) -> str:
    """Return the sentence that tells sheets made before and after a calibration apart; "" while nothing is made."""
    if not report:
        return ""
    whose = f" of {report['setup']}" if report.get("setup") else ""
    if report.get("scale_date"):
        return f"Printed with the scale{whose} of {report['scale_date']}."
    measured = any(one != 1.0 for one in report.get("scale", ()))
    return f"Printed with the scale{whose} that was typed in." if measured else "Printed with no measured scale."


def _findings(document: Mapping[str, Any]) -> tuple[FindingShown, ...]:
    order = ("error", "warning", "note")
    rows = [
        FindingShown(str(one["severity"]), str(one["message"]), bool(one.get("accepted")))
        for one in document.get("checks", ())
    ]
    return tuple(sorted(rows, key=lambda one: order.index(one.severity) if one.severity in order else len(order)))


def _trouble(document: Mapping[str, Any]) -> str:
    error = document.get("error", {})
    return " ".join(str(error[key]) for key in ("message", "remedy") if error.get(key))
