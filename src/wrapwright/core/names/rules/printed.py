"""Rules about a row's texts as they would print: glyphs, size, room. Limits are those of the checks."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from dataclasses import dataclass

from wrapwright.core.base.findings import Severity
from wrapwright.core.checks.rules_text import CAP_HEIGHT_MM, MODULE_MM, STROKE_MM
from wrapwright.core.checks.telling import apart
from wrapwright.core.design.supplies import Misfit
from wrapwright.core.names.letters import called, is_emoji
from wrapwright.core.names.rules.doubts import Doubt


@dataclass(frozen=True)
class Printed:
    """What was measured of a text or code of a row; where it lies is judged by the rules about places.

    Attributes:
        cap_mm: height of its capitals as set.
        stem_mm: its thinnest stroke, or None.
        missing: characters that no font has.
        advice: what would bring fonts that have them.
        misfit: by how much it misses its box.
        module_mm: width of a code's module; None for text.
    """

    cap_mm: float | None = None
    stem_mm: float | None = None
    missing: tuple[str, ...] = ()
    advice: str = ""
    misfit: Misfit | None = None
    module_mm: float | None = None


def glyphs(text: Printed) -> list[Doubt]:
    """Return an error that names each character which no font has, by its code point and name."""
    if not text.missing:
        return []
    named = ", ".join(called(char) for char in text.missing[:6])
    more = f" and {len(text.missing) - 6} more" if len(text.missing) > 6 else ""
    figure = " ".join(f"U+{ord(char):04X}" for char in text.missing[:6])
    return [Doubt("glyph-missing", Severity.ERROR, f"no font has {named}{more}.", figure, _advice(text))]


def _advice(text: Printed) -> str:
    if text.advice:
        return text.advice
    if any(is_emoji(char) for char in text.missing):
        return "Emoji need a font of outlines that has them: put one beside the job and name it, or take them out."
    plain = "".join(unicodedata.normalize("NFKC", char) for char in text.missing)
    if plain.isascii() and plain.isalnum():
        return f'Plain letters may be meant: "{plain}".'
    return "Name a font that has them, or take them out."


def fits(text: Printed) -> list[Doubt]:
    """Return an error for a text that cannot be brought into its box."""
    miss = text.misfit
    if miss is None:
        return []
    if miss.what == "capitals":
        figure = f"{apart(miss.figure_mm, miss.limit_mm, 2)} mm of {miss.limit_mm:.1f} mm"
        said = "it would go into its box only with capitals smaller than can be printed."
    else:
        figure = f"{apart(miss.figure_mm, miss.limit_mm, 1)} mm of {miss.limit_mm:.1f} mm"
        said = {"length": "it is longer than its box.", "height": "it is higher than its box."}.get(
            miss.what, "it is longer than one turn of its arc."
        )
    remedy = "Shorten it, break it into lines, or make the box larger."
    return [Doubt("text-does-not-fit", Severity.ERROR, said, figure, remedy)]


def small(text: Printed) -> list[Doubt]:
    """Return a warning for capitals under 2 mm: dye spreads and closes them."""
    if text.cap_mm is None or text.cap_mm >= CAP_HEIGHT_MM or text.misfit is not None:
        return []
    figure = f"{apart(text.cap_mm, CAP_HEIGHT_MM, 2)} mm of {CAP_HEIGHT_MM:g} mm"
    said = "its capitals would be too small to read: dye spreads and closes them."
    return [Doubt("text-small", Severity.WARNING, said, figure, "Shorten it, or make the box larger.")]


def thin(text: Printed) -> list[Doubt]:
    """Return a warning for a stroke under 0.25 mm: it may not hold."""
    if text.stem_mm is None or text.stem_mm >= STROKE_MM:
        return []
    figure = f"{apart(text.stem_mm, STROKE_MM, 2)} mm of {STROKE_MM:g} mm"
    said = "its thinnest stroke may not hold."
    return [Doubt("stroke-thin", Severity.WARNING, said, figure, "Use a heavier weight, or shorten it.")]


def modules(text: Printed) -> list[Doubt]:
    """Return an error for a code whose modules are under 0.4 mm."""
    if text.module_mm is None or text.module_mm >= MODULE_MM - 1e-9:
        return []
    figure = f"{apart(text.module_mm, MODULE_MM, 2)} mm of {MODULE_MM:g} mm"
    said = "its modules are too small for a telephone to be sure of."
    return [Doubt("code-module", Severity.ERROR, said, figure, "Say less in it, or make it larger.")]


PRINTED_RULES: tuple[Callable[[Printed], list[Doubt]], ...] = (glyphs, fits, small, thin, modules)


def printed_doubts(text: Printed) -> tuple[Doubt, ...]:
    """Return what all rules about printed text say of it, in the table's order."""
    return tuple(doubt for rule in PRINTED_RULES for doubt in rule(text))
