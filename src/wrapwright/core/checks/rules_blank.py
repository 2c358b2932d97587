"""Rules about the blank, its readings and the sheet: what other parts have found, and the printer's scale."""

from __future__ import annotations

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.checks.facts import Facts

# What fitting and arranging hold the figures of, they have already judged; here each rule passes its findings on.


def overlap_short(facts: Facts) -> list[Finding]:
    """Return what fitting the wrap found: the overlap is less than the doubt about the readings asks for."""
    return _raised(facts, "overlap-short")


def profile_misfit(facts: Facts) -> list[Finding]:
    """Return what fitting the wrap found: the blank bulges more than one flat shape can follow."""
    return _raised(facts, "profile-misfit")


def too_few_readings(facts: Facts) -> list[Finding]:
    """Return what fitting the wrap found: a bulge could not have been seen in the readings."""
    return _raised(facts, "too-few-readings")


def does_not_fit(facts: Facts) -> list[Finding]:
    """Return what arranging the sheet found: the trim is larger than what can be printed."""
    return _raised(facts, "does-not-fit")


def bleed_cut(facts: Facts) -> list[Finding]:
    """Return what arranging the sheet found: the bleed had to give way."""
    return _raised(facts, "bleed-cut")


def _raised(facts: Facts, rule: str) -> list[Finding]:
    return [one for one in facts.raised if one.rule == rule]


def never_calibrated(facts: Facts) -> list[Finding]:
    """Return a note when the printer's scale was never measured."""
    if facts.blank.calibrated:
        return []
    message = (
        "the printer's scale was never measured: lengths may be off by 0.5 %. Measure it once for the "
        "printer and its paper (Set-ups, Calibrate; or wrapwright scale), and print through that set-up."
    )
    return [Finding("never-calibrated", Severity.NOTE, message, None, None, None, None)]
