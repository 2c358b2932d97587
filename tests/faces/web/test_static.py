"""The browser's files: contrasts of the colours, imports that lead somewhere, addresses in one place."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from wrapwright.faces.web.rendering import HERE

STATIC = HERE / "static"
TOKENS = (STATIC / "tokens.css").read_text(encoding="utf-8")
DARK_FROM = TOKENS.index("@media (prefers-color-scheme: dark)")


def colours(text: str) -> dict[str, str]:
    return dict(re.findall(r"--([a-z0-9-]+): (#[0-9a-f]{6})", text))


LIGHT = colours(TOKENS[:DARK_FROM])
DARK = LIGHT | colours(TOKENS[DARK_FROM:])


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of WCAG 2.2, from its definitions of relative luminance and contrast ratio."""

    def luminance(colour: str) -> float:
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_the_standards_ends() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#123456", "#123456") == 1.0


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["ground", "panel", "sheet"])
@pytest.mark.parametrize("ink", ["ink", "ink-2", "ink-3", "accent", "heat", "ok", "warn", "bad"])
def test_text_stands_out(scheme: dict[str, str], ground: str, ink: str) -> None:
    assert contrast(scheme[ink], scheme[ground]) >= 4.5  # WCAG 2.2, 1.4.3


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
def test_on_the_accent_and_where_something_is_chosen(scheme: dict[str, str]) -> None:
    assert contrast(scheme["accent-ink"], scheme["accent"]) >= 4.5
    for ink in ("ink", "ink-2", "accent"):
        assert contrast(scheme[ink], scheme["accent-soft"]) >= 4.5


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["ground", "panel", "sheet"])
def test_edges_of_fields_stand_out(scheme: dict[str, str], ground: str) -> None:
    assert contrast(scheme["field-line"], scheme[ground]) >= 3.0  # WCAG 2.2, 1.4.11
    assert contrast(scheme["accent"], scheme[ground]) >= 3.0  # the outline of what has the focus


def scripts() -> list[Path]:
    return sorted((STATIC / "mod").rglob("*.js"))


def test_every_import_leads_to_a_file() -> None:
    seen = 0
    for script in scripts():
        for target in re.findall(r"""(?:from|import)\s+["']([^"']+)["']""", script.read_text(encoding="utf-8")):
            seen += 1
            assert target.startswith("."), f"{script.name} imports {target}"
            assert (script.parent / target).resolve().is_file(), f"{script.name} imports {target}"
    assert seen > 10


def test_only_the_modules_of_the_api_know_addresses() -> None:
    knowing = {one.relative_to(STATIC / "mod") for one in scripts() if "/api/" in one.read_text(encoding="utf-8")}
    assert Path("app/api.js") in knowing
    assert {one.parent.as_posix() for one in knowing - {Path("app/api.js")}} <= {"app/pressing", "app/listed"}


def test_dark_is_made_by_tokens_alone() -> None:
    """A colour stands in tokens.css and nowhere else."""
    found = [
        f"{sheet.name}: {colour}"
        for sheet in sorted(STATIC.glob("*.css"))
        if sheet.name != "tokens.css"
        for colour in re.findall(
            r"(?<![\w-])#[0-9a-fA-F]{3,8}\b(?=[^{]*;)|rgb\([^)]*\)", sheet.read_text(encoding="utf-8")
        )
    ]
    assert found == []


def test_pages_take_their_files_from_where_they_are() -> None:
    for template in sorted((HERE / "templates").glob("*.html")):
        for name in re.findall(r"\{\{ static \}\}/([\w./-]+\.\w+)", template.read_text(encoding="utf-8")):
            assert (STATIC / name).is_file(), f"{template.name} asks for {name}"
