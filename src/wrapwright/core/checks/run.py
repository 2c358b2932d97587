"""All rules in one explicit table, and the running of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from wrapwright.core.base.findings import Finding
from wrapwright.core.checks import rules_blank, rules_colour, rules_pictures, rules_places, rules_text
from wrapwright.core.checks.facts import Facts

Rule = Callable[[Facts], list[Finding]]

RULES_WITHOUT_PIXELS: tuple[tuple[str, Rule], ...] = (
    ("does-not-fit", rules_blank.does_not_fit),
    ("profile-misfit", rules_blank.profile_misfit),
    ("too-few-readings", rules_blank.too_few_readings),
    ("overlap-short", rules_blank.overlap_short),
    ("bleed-cut", rules_blank.bleed_cut),
    ("coating-dark", rules_colour.coating_dark),
    ("off-wrap", rules_places.off_wrap),
    ("over-handle", rules_places.over_handle),
    ("over-keepout", rules_places.over_keepout),
    ("crosses-seam", rules_places.crosses_seam),
    ("uncoated", rules_places.uncoated),
    ("outside-safe", rules_places.outside_safe),
    ("art-short", rules_places.art_short),
    ("picture-ppi", rules_pictures.picture_ppi),
    ("picture-stretched", rules_pictures.picture_stretched),
    ("picture-profile", rules_pictures.picture_profile),
    ("glyph-missing", rules_text.glyph_missing),
    ("text-does-not-fit", rules_text.text_does_not_fit),
    ("text-small", rules_text.text_small),
    ("stroke-thin", rules_text.stroke_thin),
    ("text-too-long", rules_text.text_too_long),
    ("code-module", rules_text.code_module),
    ("code-wide", rules_text.code_wide),
    ("never-calibrated", rules_blank.never_calibrated),
)

RULES_WITH_PIXELS: tuple[tuple[str, Rule], ...] = (
    ("text-contrast", rules_text.text_contrast),
    ("code-unreadable", rules_text.code_unreadable),
    ("seam-colour", rules_colour.seam_colour),
    ("white-not-white", rules_colour.white_not_white),
    ("out-of-gamut", rules_colour.out_of_gamut),
    ("ink-limit", rules_colour.ink_limit),
    ("picture-bare", rules_pictures.picture_bare),
    ("picture-white", rules_pictures.picture_white),
    ("frame-tint", rules_pictures.frame_tint),
)

ALL_RULES = RULES_WITHOUT_PIXELS + RULES_WITH_PIXELS


def run_rules(facts: Facts, rules: Sequence[tuple[str, Rule]]) -> list[Finding]:
    """Return the findings of the given rules, in the table's order."""
    return [finding for _, rule in rules for finding in rule(facts)]
