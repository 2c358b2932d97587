"""Wrapwright: from a measured blank and a picture to a transfer that lands where it should.

What the command line makes, checks, draws and fits is a function here: `verb(request, bench, watch) -> result`. Nothing
heavy is loaded before one of them is called.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from wrapwright.outside.system.installed import version

if TYPE_CHECKING:
    from pathlib import Path

    from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
    from wrapwright.core.base.findings import Finding, Severity
    from wrapwright.core.blank.readings import Blank, Handle, Keepout, Reading, Tape, WrapRequest
    from wrapwright.jobs.bench import Bench, Folders, Watch
    from wrapwright.jobs.check_job import check_job
    from wrapwright.jobs.draw_proof import draw_proof
    from wrapwright.jobs.fit_wrap import FitRequest, Fitted, fit_wrap
    from wrapwright.jobs.make_sheets import make_sheets
    from wrapwright.jobs.requests import Checked, CheckRequest, Made, MakeRequest, Proofed, ProofRequest
    from wrapwright.jobs.verdict import ChecksSayNoError

__all__ = [
    "Bench",
    "Blank",
    "CheckRequest",
    "Checked",
    "ChecksSayNoError",
    "Finding",
    "FitRequest",
    "Fitted",
    "Folders",
    "Handle",
    "Keepout",
    "Kind",
    "Made",
    "MakeRequest",
    "ProofRequest",
    "Proofed",
    "Reading",
    "SeveralProblemsError",
    "Severity",
    "Tape",
    "Watch",
    "WrapRequest",
    "WrapwrightError",
    "check_job",
    "draw_proof",
    "fit_wrap",
    "make_sheets",
    "open_bench",
    "version",
]

_NAMES_OF = {
    "core.base.errors": ("Kind", "SeveralProblemsError", "WrapwrightError"),
    "core.base.findings": ("Finding", "Severity"),
    "core.blank.readings": ("Blank", "Handle", "Keepout", "Reading", "Tape", "WrapRequest"),
    "jobs.bench": ("Bench", "Folders", "Watch"),
    "jobs.check_job": ("check_job",),
    "jobs.draw_proof": ("draw_proof",),
    "jobs.fit_wrap": ("FitRequest", "Fitted", "fit_wrap"),
    "jobs.make_sheets": ("make_sheets",),
    "jobs.requests": ("CheckRequest", "Checked", "Made", "MakeRequest", "ProofRequest", "Proofed"),
    "jobs.verdict": ("ChecksSayNoError",),
}
_HOME = {name: f"{__name__}.{module}" for module, names in _NAMES_OF.items() for name in names}


def open_bench(
    *, cache: Path | None = None, data: Path | None = None, fonts: Path | None = None, threads: int | None = None
) -> Bench:
    """Return the bench on which jobs work; what is not given comes from this person's settings.

    Args:
        cache: folder of what is always safe to delete.
        data: folder of the person's own blanks, papers, recipes and profiles.
        fonts: folder of the person's own fonts.
        threads: how many may work at once, 1 to 256.

    Raises:
        WrapwrightError: unusable, when the settings cannot be read or a value is out of range.
    """
    from wrapwright.faces.opening import bench_of, open_settings

    places = {"cache": cache, "data": data, "fonts": fonts}
    options: dict[str, str | int] = {name: str(place) for name, place in places.items() if place is not None}
    if threads is not None:
        options["threads"] = threads
    return bench_of(open_settings(options))


if not TYPE_CHECKING:  # a type checker reads the imports above; it must not think that any name will do

    def __getattr__(name: str) -> object:
        """Return a public name, loaded when it is first asked for."""
        if name not in _HOME:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        found = getattr(import_module(_HOME[name]), name)
        globals()[name] = found
        return found


def __dir__() -> list[str]:
    return sorted(__all__)
