"""The public names of all rules."""

from __future__ import annotations

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

ALL = "all"  # stands for every rule where errors are accepted
