"""What the rules about printed text say; the limits are those of the checks (docs/checks.md)."""

from __future__ import annotations

import pytest

from wrapwright.core.design.supplies import Misfit
from wrapwright.core.names.rules.printed import Printed, printed_doubts


@pytest.mark.parametrize(
    ("text", "rule", "figure"),
    [
        (Printed(missing=("é", "\u0301")), "glyph-missing", "U+00E9 U+0301"),
        (Printed(misfit=Misfit("capitals", 0.8, 1.0)), "text-does-not-fit", "0.80 mm of 1.0 mm"),
        (Printed(misfit=Misfit("length", 61.25, 60.0)), "text-does-not-fit", "61.2 mm of 60.0 mm"),
        (Printed(misfit=Misfit("turn", 61.25, 60.0)), "text-does-not-fit", "61.2 mm of 60.0 mm"),
        (Printed(cap_mm=1.999), "text-small", "1.999 mm of 2 mm"),
        (Printed(stem_mm=0.2), "stroke-thin", "0.20 mm of 0.25 mm"),
        (Printed(module_mm=0.35), "code-module", "0.35 mm of 0.4 mm"),
    ],
)
def test_each_rule(text: Printed, rule: str, figure: str) -> None:
    (doubt,) = printed_doubts(text)
    assert (doubt.rule, doubt.figure) == (rule, figure)
    assert doubt.remedy


def test_at_the_limit_nothing_is_said() -> None:
    at = Printed(2.0, 0.25, (), "", None, 0.4)
    assert printed_doubts(at) == ()
    assert printed_doubts(Printed()) == ()


@pytest.mark.parametrize(
    ("missing", "advice", "said"),
    [
        (("😀",), "", "Emoji need a font"),
        (("𝓐", "𝓭"), "", 'Plain letters may be meant: "Ad"'),  # NFKC, Unicode Standard Annex 15
        (("अ",), "Install the extra fonts.", "Install the extra fonts."),
        (("ꙮ",), "", "Name a font that has them"),
    ],
)
def test_advice_for_missing_glyphs(missing: tuple[str, ...], advice: str, said: str) -> None:
    (doubt,) = printed_doubts(Printed(missing=missing, advice=advice))
    assert said in doubt.remedy


def test_many_missing_glyphs_are_counted() -> None:
    (doubt,) = printed_doubts(Printed(missing=tuple("ገጠረጀዘየደፈ")))
    assert doubt.problem.endswith("and 2 more.")
