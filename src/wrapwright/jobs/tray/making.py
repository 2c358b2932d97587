"""Make the sheets of a tray: the same work as for a sheets file, from stored designs."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError, raise_all
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.lay.requests import MadeTogether, TogetherRequest
from wrapwright.jobs.tray.values import Tray


@dataclass(frozen=True)
class MakeTray:
    """Make these sheets in `folder`; `accept` names rules whose errors are accepted."""

    tray: Tray
    accept: tuple[str, ...]
    folder: Path


def make_tray(request: MakeTray, bench: Bench, watch: Watch) -> MadeTogether:
    """Return the report of what was left in the folder.

    Raises:
        ChecksSayNoError: kind checks, with the findings of all designs, when an error is not accepted.
        WrapwrightError: the tray is empty, a design has been removed or cannot be composed, or fits no paper.
    """
    from wrapwright.core.checks.names import folded
    from wrapwright.jobs.lay.make_together import make_gathered
    from wrapwright.jobs.tray.gathering import gathered_tray

    found = gathered_tray(request.tray, bench, watch)
    raise_all([one.error for one in found.troubles])
    if found.gathered is None:
        raise WrapwrightError(Kind.UNUSABLE, "The tray is empty.", remedy="Put a design in it.")
    wanted = TogetherRequest(request.folder, seconds=request.tray.seconds, accept=folded(request.accept))
    return make_gathered(found.gathered, wanted, bench, watch)
