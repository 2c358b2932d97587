"""The public names of all rules."""

from __future__ import annotations

from collections.abc import Iterable

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.findings import ALL
from wrapwright.core.base.nearest import nearest

RULE_NAMES: tuple[str, ...] = (
    "picture-ppi",
    "picture-stretched",
    "picture-profile",
    "picture-bare",
    "picture-white",
    "frame-tint",
    "glyph-missing",
    "text-does-not-fit",
    "text-small",
    "stroke-thin",
    "text-contrast",
    "text-too-long",
    "crosses-seam",
    "over-handle",
    "over-keepout",
    "outside-safe",
    "off-wrap",
    "uncoated",
    "art-short",
    "seam-colour",
    "white-not-white",
    "coating-dark",
    "out-of-gamut",
    "ink-limit",
    "overlap-short",
    "profile-misfit",
    "too-few-readings",
    "code-module",
    "code-wide",
    "code-unreadable",
    "does-not-fit",
    "bleed-cut",
    "never-calibrated",
)

# A rule's name is long and seldom known by heart: a word half like it is answered with it. Our own choice.
_ALIKE = 0.5
_WHERE_RULES_STAND = (
    "wrapwright check JOB names the rule of each finding; the documentation's page checks.md lists all."
)


def folded(rules: Iterable[str]) -> frozenset[str]:
    """Return rules that a person named, in small letters."""
    return frozenset(rule.strip().casefold() for rule in rules)


def unknown_rules(rules: Iterable[str], *, where: str) -> list[WrapwrightError]:
    """Return a problem for each word that names no rule (nor all of them), with the nearest that does."""
    known = (*RULE_NAMES, ALL)
    problems = []
    for rule in rules:
        if rule.strip().casefold() not in known:
            near = nearest(rule, known, alike=_ALIKE)
            hint = f'Did you mean "{near}"?' if near else _WHERE_RULES_STAND
            problems.append(unusable(f'there is no rule "{rule[:60]}".', remedy=hint, where=where))
    return problems
