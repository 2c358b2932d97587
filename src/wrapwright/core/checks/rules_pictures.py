"""Rules about pictures: pixels enough, proportions, profiles, bare and white parts, faint frames."""

from __future__ import annotations

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.checks.facts import Facts
from wrapwright.core.checks.telling import apart, worst_copies, worst_measured

# Common practice, no source, all of them.
PPI_ERROR = 100.0
PPI_WARNING = 200.0
SMALLEST_PERCENT = 10  # a picture that small is no advice
STRETCH_PERCENT = 2.0
BARE_PERCENT = 1.0
WHITE_PERCENT = 60.0
FRAME_DE = (1.0, 5.0)


def picture_ppi(facts: Facts) -> list[Finding]:
    """Return an error under 100 ppi, a warning under 200, for each picture's worst copy."""
    found = []
    for copy, away in worst_copies(facts, lambda one: None if one.ppi is None else -one.ppi):
        ppi = -away
        if ppi >= PPI_WARNING:
            continue
        poor = ppi < PPI_ERROR
        limit = PPI_ERROR if poor else PPI_WARNING
        percent = int(ppi / PPI_WARNING * 100)
        smaller = f", or print it at {percent} % of this size" if percent >= SMALLEST_PERCENT else ""
        result = "it will print in visible steps" if poor else "it will print a little soft"
        found.append(
            Finding(
                "picture-ppi",
                Severity.ERROR if poor else Severity.WARNING,
                f"{copy.label} has {apart(ppi, limit)} pixels per inch at its size, under {limit:.0f}: {result}. Use "
                f"a picture with more pixels{smaller}.",
                copy.element,
                ppi,
                limit,
                "ppi",
            )
        )
    return found


def picture_stretched(facts: Facts) -> list[Finding]:
    """Return a warning for each picture whose proportions are changed by more than 2 %."""
    return [
        Finding(
            "picture-stretched",
            Severity.WARNING,
            f"{copy.label} is stretched by {apart(percent, STRETCH_PERCENT, 1)} %, over {STRETCH_PERCENT:g} %. "
            'Give width or height only, or fit = "inside" or "cover".',
            copy.element,
            percent,
            STRETCH_PERCENT,
            "%",
        )
        for copy, percent in worst_copies(facts, lambda one: (one.stretch - 1.0) * 100.0)
        if percent > STRETCH_PERCENT
    ]


def picture_profile(facts: Facts) -> list[Finding]:
    """Return a note for each pixel picture without a profile, or with another than sRGB.

    CIELAB needs none: its numbers are colours by themselves.
    """
    found = []
    for one in facts.elements:
        profile = one.art_profile
        if not one.art_pixels or (profile is not None and "srgb" in profile.casefold()):
            continue
        if profile is None and one.art_space == "lab":
            continue
        if profile is None:
            taken = "its inks can only be guessed" if one.art_space == "cmyk" else "sRGB is assumed"
            message = (
                f"{one.name} carries no colour profile: {taken}. If its colours look wrong in the proof, "
                "save it again with its profile."
            )
        else:
            message = f"{one.name} carries the profile {profile}: its colours are converted from it. Nothing to do."
        found.append(Finding("picture-profile", Severity.NOTE, message, one.name))
    return found


def picture_bare(facts: Facts) -> list[Finding]:
    """Return a warning for each picture that lets the bare coating show through."""
    return [
        Finding(
            "picture-bare",
            Severity.WARNING,
            f"{label} is see-through over bare coating on {apart(percent, BARE_PERCENT)} % of its area (over "
            f"{BARE_PERCENT:g} %): the blank's own colour shows there. Put a fill below it, or accept that the "
            "coating is seen.",
            row.element,
            percent,
            BARE_PERCENT,
            "%",
        )
        for row, label, percent in worst_measured(facts, lambda one: _percent(one.bare_share))
        if percent > BARE_PERCENT
    ]


def picture_white(facts: Facts) -> list[Finding]:
    """Return a note for each picture that is mostly white: white is no ink."""
    return [
        Finding(
            "picture-white",
            Severity.NOTE,
            f"{label} is white on {apart(percent, WHITE_PERCENT)} % of its area (over {WHITE_PERCENT:g} %): no ink "
            "prints there, the coating is seen instead. Crop it, or leave it if that is meant.",
            row.element,
            percent,
            WHITE_PERCENT,
            "%",
        )
        for row, label, percent in worst_measured(facts, lambda one: _percent(one.white_share))
        if percent > WHITE_PERCENT
    ]


def frame_tint(facts: Facts) -> list[Finding]:
    """Return a warning for each picture whose background is nearly, but not quite, paper white."""
    low, high = FRAME_DE
    return [
        Finding(
            "frame-tint",
            Severity.WARNING,
            f"the background of {label} is off pure white by CIEDE2000 {figure:.1f} (between {low:g} and {high:g}): "
            "it prints as a faint square. Make the background pure white or transparent, or mask the picture.",
            row.element,
            figure,
            low,
            "dE00",
        )
        for row, label, figure in worst_measured(facts, lambda one: one.frame_de)
        if low <= figure <= high
    ]


def _percent(share: float | None) -> float | None:
    return None if share is None else share * 100.0
