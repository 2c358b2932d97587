"""Rules about colour: the join, what is lighter than the coating, dark coatings, gamut, ink."""

from __future__ import annotations

import numpy as np

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.checks.facts import Facts
from wrapwright.core.checks.telling import apart, worst_measured
from wrapwright.core.colour import lab

# Common practice, no source, all of them.
SEAM_DE = 3.0
LIGHTER_DE = 5.0
DARK_ERROR = 40.0
DARK_WARNING = 60.0
GAMUT_PERCENT = 10.0
GAMUT_DE = 5.0


def seam_colour(facts: Facts) -> list[Finding]:
    """Return a warning when the two sides of the join differ."""
    figure = facts.measured.seam_de95
    if figure is None or figure <= SEAM_DE:
        return []
    message = (
        f"the colours across the join differ by CIEDE2000 {apart(figure, SEAM_DE, 1)} (95th percentile), over "
        f"{SEAM_DE:g}: the seam "
        'will show. Use art whose ends meet, a join such as "blend 12 mm", or move the seam.'
    )
    return [Finding("seam-colour", Severity.WARNING, message, None, figure, SEAM_DE, "dE00")]


def white_not_white(facts: Facts) -> list[Finding]:
    """Return a warning for each element that asks for a colour lighter than the coating."""
    return [
        Finding(
            "white-not-white",
            Severity.WARNING,
            f"{label} asks for a colour lighter than the coating by CIEDE2000 {apart(figure, LIGHTER_DE, 1)}, over "
            f"{LIGHTER_DE:g}: dye only darkens, the coating will be seen instead. Choose a darker colour or a "
            "lighter blank.",
            row.element,
            figure,
            LIGHTER_DE,
            "dE00",
        )
        for row, label, figure in worst_measured(facts, lambda one: one.lighter_de)
        if figure > LIGHTER_DE
    ]


def coating_dark(facts: Facts) -> list[Finding]:
    """Return an error for a coating under L* 40, a warning under 60."""
    lightness = float(lab.of_srgb(np.asarray(facts.blank.coating))[0])
    if lightness >= DARK_WARNING:
        return []
    hopeless = lightness < DARK_ERROR
    limit = DARK_ERROR if hopeless else DARK_WARNING
    message = (
        f"the coating has a lightness L* of {apart(lightness, limit)}, under {limit:g}: dye is transparent, "
        f"{'hardly anything will be seen on it' if hopeless else 'all colours turn dark on it'}. Use a lighter blank."
    )
    severity = Severity.ERROR if hopeless else Severity.WARNING
    return [Finding("coating-dark", severity, message, None, lightness, limit, "L*")]


def out_of_gamut(facts: Facts) -> list[Finding]:
    """Return a warning for each element with more than 10 % of its area beyond the printer's colours."""
    found = []
    for row, label, share in worst_measured(facts, lambda one: one.out_of_gamut_share):
        percent = share * 100.0
        if percent > GAMUT_PERCENT:
            worst = f", at worst by {row.out_of_gamut_worst:.0f}" if row.out_of_gamut_worst is not None else ""
            message = (
                f"{apart(percent, GAMUT_PERCENT)} % of {label} (over {GAMUT_PERCENT:g} %) cannot be printed as "
                f"asked: off by more than CIEDE2000 {GAMUT_DE:g}{worst}. Look at the proof; choose duller colours or "
                "another intent."
            )
            found.append(Finding("out-of-gamut", Severity.WARNING, message, row.element, percent, GAMUT_PERCENT, "%"))
    return found


def ink_limit(facts: Facts) -> list[Finding]:
    """Return an error when the ink in one place is more than the paper takes."""
    ink, limit = facts.measured.ink_percent, facts.measured.ink_limit_percent
    if ink is None or limit is None or ink <= limit:
        return []
    message = (
        f"the ink adds up to {apart(ink, limit)} % in one place, over the limit of {limit:.0f} %: it will not dry "
        "and spreads. Use the profile made for this paper, or lighten the darkest parts."
    )
    return [Finding("ink-limit", Severity.ERROR, message, None, ink, limit, "%")]
