"""Judging: the facts of a composition and what the rules say about them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from wrapwright.core.base.findings import Finding, accept
from wrapwright.core.checks.facts import Facts
from wrapwright.core.checks.gather import Asked, facts_of
from wrapwright.core.checks.run import RULES_WITH_PIXELS, RULES_WITHOUT_PIXELS, run_rules
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.work.composing import Composition

if TYPE_CHECKING:
    from wrapwright.outside.raster.measuring.stack import Keep


def judged(
    composed: Composition, watch: Watch, *, raised: Sequence[Finding] = (), accepted: frozenset[str] = frozenset(),
    keep: Keep | None = None,
) -> tuple[tuple[Finding, ...], Facts]:  # fmt: skip
    """Return all findings of a composition, accepted errors marked, and the facts they rest on.

    Args:
        composed: the composition.
        watch: told of progress.
        raised: findings that arranging the sheet has made.
        accepted: rules accepted for this run, beside those of the job.
        keep: gives back what a copy gave when it was painted before, when someone keeps that.
    """
    from wrapwright.jobs.work.measuring import measured_of

    facts = facts_of(composed.draw_list, asked_of(composed), raised=(*composed.findings(), *raised))
    found = run_rules(facts, RULES_WITHOUT_PIXELS)
    watch.step("checking the colours", 0.3)
    facts = replace(facts, measured=measured_of(composed, keep))
    found += run_rules(facts, RULES_WITH_PIXELS)
    return tuple(accept(found, composed.opened.job.accept | accepted)), facts


def asked_of(composed: Composition) -> Asked:
    """Return what the job asks, as the checks read it."""
    job = composed.opened.job
    return Asked(
        blank=job.blank,
        wrap=job.wrap,
        elements=job.elements,
        supplies=composed.supplied.supplies,
        band_from_mm=composed.wrapped.band_from_mm,
        calibrated=job.sheet.calibrated,
    )
