"""Each rule on figures that trip it and on figures that just do not; severities and limits as published."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.checks.facts import BlankFacts, CopyFacts, ElementFacts, Facts, KeepoutHit, Measured, MeasuredCopy
from wrapwright.core.checks.run import ALL_RULES
from wrapwright.core.design.supplies import Misfit

E, W, N = Severity.ERROR, Severity.WARNING, Severity.NOTE
BLANK = BlankFacts(calibrated=True, band_mm=100.0)
MUG = replace(BLANK, has_handle=True)
ROOMY = {"room_rim_mm": 20.0, "room_base_mm": 20.0, "room_left_mm": 20.0, "room_right_mm": 20.0, "round_mm": 240.0}


def copy(kind: str = "picture", **more: object) -> Facts:
    return Facts(BLANK, copies=(CopyFacts("it", kind, **(ROOMY | more)),))  # type: ignore[arg-type]


def on_mug(kind: str = "picture", **more: object) -> Facts:
    return replace(copy(kind, **more), blank=MUG)


def element(kind: str, **more: object) -> Facts:
    return Facts(BLANK, elements=(ElementFacts("it", kind, **more),))  # type: ignore[arg-type]


def measured(**more: object) -> Facts:
    return Facts(BLANK, measured=Measured(copies=(MeasuredCopy("it", **more),)))  # type: ignore[arg-type]


def whole(**more: object) -> Facts:
    return Facts(BLANK, measured=Measured(**more))  # type: ignore[arg-type]


def coated(grey: int) -> Facts:
    return Facts(replace(BLANK, coating=(grey / 255, grey / 255, grey / 255)))


def wide(rim: float, base: float, *, on_fill: bool = False) -> Facts:
    return copy(wide=True, room_rim_mm=rim, room_base_mm=base, on_fill=on_fill)


def run(rule: str, facts: Facts) -> list[Finding]:
    return dict(ALL_RULES)[rule](facts)


# A girth of 240 mm, 500 mm away: read to 60 - asin(r sin 60 / 500) = 56.207 degrees, seen to acos(r / 500) = 85.619.
NEAR = "500 mm away reads 74.9 mm and sees 114.2 mm"
HIT = (KeepoutHit("maker's mark", 12.0),)

TRIPS = [
    ("picture-ppi", copy(ppi=99.9), E),
    ("picture-ppi", copy(ppi=100.0), W),
    ("picture-ppi", copy(ppi=199.9), W),
    ("picture-stretched", copy(stretch=1.021), W),
    ("picture-profile", element("picture", art_pixels=True), N),
    ("picture-profile", element("picture", art_pixels=True, art_profile="Adobe RGB (1998)"), N),
    ("picture-bare", measured(bare_share=0.011), W),
    ("picture-white", measured(white_share=0.61), N),
    ("frame-tint", measured(frame_de=1.0), W),
    ("frame-tint", measured(frame_de=5.0), W),
    ("glyph-missing", element("text", missing=("ß",)), E),
    ("text-does-not-fit", element("text", text_misfit=Misfit("capitals", 0.6, 1.0)), E),
    ("text-small", element("text", cap_height_mm=1.99), W),
    ("stroke-thin", element("text", stem_mm=0.24), W),
    ("stroke-thin", element("picture", line_mm=0.1), W),
    ("stroke-thin", element("text", stem_mm=1.0, line_mm=0.2), W),
    ("text-contrast", measured(contrast=2.9999), W),
    ("text-too-long", copy("text", span_deg=120.1, span_mm=80.1), W),
    ("crosses-seam", copy("text", room_left_mm=-0.1), E),
    ("crosses-seam", copy("code", room_right_mm=-0.1), E),
    ("crosses-seam", copy("picture", room_right_mm=-30.0), N),
    ("over-handle", on_mug("picture", room_left_mm=-0.1), E),
    ("over-keepout", copy("fill", wide=True, keepouts=HIT), E),
    ("over-keepout", copy("text", keepouts=HIT), E),
    ("outside-safe", copy("text", room_rim_mm=3.9), W),
    ("outside-safe", copy("picture", room_left_mm=0.0), W),
    ("outside-safe", on_mug("code", room_right_mm=3.0), W),
    ("off-wrap", copy("text", room_rim_mm=-0.1), E),
    ("off-wrap", copy("picture", room_base_mm=-2.1), E),
    ("uncoated", copy("text", uncoated_mm=0.2), E),
    ("uncoated", copy("fill", wide=True, uncoated_mm=3.0), E),
    ("art-short", wide(0.2, -2.0), E),
    ("art-short", wide(-2.0, 24.0), E),
    ("art-short", wide(-1.0, -2.0), W),
    ("art-short", wide(-2.0, 0.0), W),
    ("art-short", copy("picture", room_rim_mm=0.0), W),
    ("seam-colour", whole(seam_de95=3.1), W),
    ("white-not-white", measured(lighter_de=5.1), W),
    ("coating-dark", coated(144), W),  # sRGB 144 has L* 59.7 (CIE 1976 lightness of IEC 61966-2-1 grey)
    ("coating-dark", coated(93), E),  # 93: L* 39.5
    ("out-of-gamut", measured(out_of_gamut_share=0.101, out_of_gamut_worst=14.0), W),
    ("ink-limit", whole(ink_percent=301.0, ink_limit_percent=300.0), E),
    ("code-module", element("code", module_mm=0.399), E),
    ("code-wide", copy("code", span_deg=60.1), W),
    ("code-unreadable", measured(code_read=False), E),
    ("never-calibrated", Facts(BlankFacts()), N),
]

PASSES = [
    ("picture-ppi", copy(ppi=200.0)),
    ("picture-ppi", copy(ppi=None)),
    ("picture-stretched", copy(stretch=1.0199)),
    ("picture-profile", element("picture", art_pixels=True, art_profile="sRGB IEC61966-2.1")),
    ("picture-profile", element("picture", art_pixels=False)),
    ("picture-profile", element("picture", art_pixels=True, art_space="lab")),
    ("picture-bare", measured(bare_share=0.01)),
    ("picture-white", measured(white_share=0.6)),
    ("frame-tint", measured(frame_de=0.99)),
    ("frame-tint", measured(frame_de=5.01)),
    ("glyph-missing", element("text")),
    ("text-does-not-fit", element("text")),
    ("text-small", element("text", cap_height_mm=2.0)),
    ("stroke-thin", element("text", stem_mm=0.25, line_mm=0.25)),
    ("stroke-thin", element("picture")),
    ("text-contrast", measured(contrast=3.0)),
    ("text-too-long", copy("text", span_deg=120.0)),
    ("text-too-long", copy("picture", span_deg=300.0)),
    ("crosses-seam", copy("text", room_left_mm=0.0)),
    ("crosses-seam", copy("tile", wide=True, room_left_mm=-5.0)),
    ("crosses-seam", on_mug("text", room_left_mm=-5.0)),
    ("over-handle", on_mug("text", room_left_mm=0.0)),
    ("over-handle", on_mug("fill", wide=True, room_left_mm=-12.0)),
    ("over-handle", copy("text", room_left_mm=-5.0)),
    ("over-keepout", copy("text")),
    ("outside-safe", copy("text", room_rim_mm=4.0)),
    ("outside-safe", copy("picture", room_rim_mm=-20.0)),
    ("outside-safe", copy("fill", wide=True, room_rim_mm=0.0)),
    ("off-wrap", copy("text", room_rim_mm=0.0)),
    ("off-wrap", copy("picture", room_base_mm=-2.0)),
    ("off-wrap", copy("picture", room_base_mm=-9.0, room_rim_mm=-9.0)),
    ("off-wrap", copy("tile", wide=True, room_base_mm=-9.0)),
    ("uncoated", copy("text")),
    ("art-short", wide(-2.0, -2.0)),
    ("art-short", wide(26.0, 26.0)),
    ("art-short", wide(5.0, 5.0, on_fill=True)),
    ("art-short", copy("picture", room_rim_mm=3.0)),
    ("art-short", replace(wide(0.0, -2.0), blank=replace(BLANK, cut=(False, True)))),
    ("seam-colour", whole(seam_de95=3.0)),
    ("white-not-white", measured(lighter_de=5.0)),
    ("coating-dark", coated(145)),  # L* 60.1
    ("out-of-gamut", measured(out_of_gamut_share=0.1)),
    ("ink-limit", whole(ink_percent=300.0, ink_limit_percent=300.0)),
    ("ink-limit", whole(ink_percent=390.0)),
    ("code-module", element("code", module_mm=0.4)),
    ("code-wide", copy("code", span_deg=60.0)),
    ("code-unreadable", measured(code_read=True)),
    ("code-unreadable", measured()),
    ("never-calibrated", Facts(BLANK)),
]

PASSED_ON = {"does-not-fit", "bleed-cut", "overlap-short", "profile-misfit", "too-few-readings"}  # see test_run


@pytest.mark.parametrize(("rule", "facts", "severity"), TRIPS)
def test_a_rule_speaks(rule: str, facts: Facts, severity: Severity) -> None:
    found = run(rule, facts)
    assert [(one.rule, one.severity) for one in found] == [(rule, severity)]
    assert found[0].message.endswith(".")
    assert len(found[0].message.split(". ")) >= 2, "says what to do in a sentence of its own"


@pytest.mark.parametrize(("rule", "facts"), PASSES)
def test_a_rule_is_silent(rule: str, facts: Facts) -> None:
    assert run(rule, facts) == []


def test_every_rule_is_tried_both_ways() -> None:
    names = {name for name, _ in ALL_RULES} - PASSED_ON
    assert {rule for rule, *_ in TRIPS} == names
    assert {rule for rule, _ in PASSES} == names


@pytest.mark.parametrize(
    ("rule", "facts", "figure", "limit", "words"),
    [
        ("picture-ppi", copy(ppi=72.0), 72.0, 100.0, ["72", "100"]),
        ("text-contrast", measured(contrast=2.9999), 2.9999, 3.0, ["2.99:1", "3:1"]),
        ("text-too-long", copy("text", span_deg=150.0, span_mm=100.0), 100.0, 80.0, ["100.0 mm", "80.0 mm", NEAR]),
        ("art-short", wide(1.5, -2.0), 1.5, 0.0, ["1.5 mm"]),
        ("art-short", wide(-0.5, -2.0), 0.5, 2.0, ["0.5 mm", "2 mm"]),
        ("outside-safe", copy("text", room_base_mm=1.25), 1.25, 4.0, ["1.2 mm of the base", "4 mm"]),
        ("code-wide", copy("code", span_deg=90.0), 90.0, 60.0, ["90", "60", "40.0 mm"]),
        ("over-keepout", copy("text", keepouts=HIT), 12.0, 0.0, ["maker's mark", "12 mm²"]),
    ],
)
def test_figure_and_limit_stand_in_the_finding_and_its_words(
    rule: str, facts: Facts, figure: float, limit: float, words: list[str]
) -> None:
    (found,) = run(rule, facts)
    assert (found.figure, found.limit) == (pytest.approx(figure), pytest.approx(limit))
    assert all(word in found.message for word in words), found.message


@pytest.mark.parametrize(
    ("rule", "facts", "words"),
    [
        ("picture-ppi", copy(ppi=99.9), "99.9 pixels per inch at its size, under 100"),
        ("picture-ppi", copy(ppi=199.9), "at 99 % of this size"),
        ("text-small", element("text", cap_height_mm=1.9996), "1.9996 mm high, under 2 mm"),
        ("out-of-gamut", measured(out_of_gamut_share=0.1004), "10.04 % of it (over 10 %)"),
        ("code-module", element("code", module_mm=0.399), "0.399 mm, under 0.4 mm"),
        ("code-module", element("code", module_mm=0.399), "at least 101 % of its width"),
        ("coating-dark", coated(93), "L* of 39, under 40"),
    ],
)
def test_a_figure_never_reads_as_the_limit_it_misses(rule: str, facts: Facts, words: str) -> None:
    (found,) = run(rule, facts)
    assert words in found.message


@pytest.mark.parametrize(("space", "words"), [("rgb", "sRGB is assumed"), ("cmyk", "inks can only be guessed")])
def test_a_picture_without_a_profile_is_told_what_is_assumed(space: str, words: str) -> None:
    (found,) = run("picture-profile", element("picture", art_pixels=True, art_space=space))
    assert words in found.message


@pytest.mark.parametrize(
    ("misfit", "words"),
    [
        (Misfit("capitals", 0.624, 1.0), "only with capitals 0.62 mm high, under the smallest of 1.0 mm"),
        (Misfit("capitals", 0.9996, 1.0), "only with capitals 0.9996 mm high"),
        (Misfit("length", 123.44, 100.0), "is 123.4 mm long, over the 100.0 mm that its box is wide"),
        (Misfit("height", 20.0, 16.0), "is 20.0 mm high, over the 16.0 mm that its box is high"),
        (Misfit("turn", 400.0, 125.66), "has a line 400.0 mm long, over one turn of its arc (125.7 mm)"),
    ],
)
def test_a_text_that_does_not_fit_says_by_how_much(misfit: Misfit, words: str) -> None:
    (found,) = run("text-does-not-fit", element("text", text_misfit=misfit))
    assert words in found.message
    assert (found.figure, found.limit, found.unit) == (misfit.figure_mm, misfit.limit_mm, "mm")


def test_a_missing_glyph_is_told_with_what_would_bring_it() -> None:
    extra = element("text", missing=("م",), advice="Install the extra fonts.")
    assert run("glyph-missing", extra)[0].message.endswith("(U+0645). Install the extra fonts.")
    assert "Install" not in run("glyph-missing", element("text", missing=("日",)))[0].message


def test_the_remedy_against_an_unmeasured_printer_stands_by_itself_and_is_short() -> None:
    """Who installed the product has no folder of examples; and the roomier tickets keep 200 letters of a message."""
    (found,) = run("never-calibrated", Facts(BlankFacts()))
    assert "Set-ups, Calibrate; or wrapwright scale" in found.message
    assert "print through that set-up" in found.message
    assert not re.search(r"\.(toml|md)\b", found.message)
    assert len(found.message) <= 200


def test_no_picture_is_advised_to_vanish() -> None:
    (found,) = run("picture-ppi", copy(ppi=1.0))
    assert found.message.endswith("Use a picture with more pixels.")
    (found,) = run("picture-ppi", copy(ppi=72.0))
    assert found.message.endswith("or print it at 36 % of this size.")


def test_a_rule_speaks_once_an_element_of_its_worst_copy() -> None:
    copies = tuple(
        CopyFacts("crest", "picture", number, 3, at, ppi=ppi)
        for number, (at, ppi) in enumerate([(0.0, 150.0), (112.0, 90.0), (180.0, 120.0)])
    )
    (found,) = run("picture-ppi", Facts(BLANK, copies=copies))
    assert (found.element, found.figure, found.severity) == ("crest", 90.0, E)
    assert "crest at 112 deg" in found.message
