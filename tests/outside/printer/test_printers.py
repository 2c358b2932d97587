"""Attributes of printers of many makes: described papers, named papers, margins for all, and what is not said."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from tests.outside.printer.fake_printer import media, says

from wrapwright.core.sheet.printer.values import Media, PrinterFacts, Readiness, Sizes
from wrapwright.outside.printer.encoding import Group, Range, Tag, Written, one, packed, unpacked
from wrapwright.outside.printer.printers import media_named, printer_facts


def facts(*attributes: Written, **changed: Written | None) -> PrinterFacts:
    kept = [*says(**changed), *attributes]
    said = unpacked(packed(0, 1, [(Group.PRINTER, kept)])).first(Group.PRINTER)
    return printer_facts(said, "ipp://desk.example/ipp/print")


# Names of PWG 5101.1 with the sizes it states for them.
@pytest.mark.parametrize(
    ("name", "size"),
    {
        "iso_a4_210x297mm": (210.0, 297.0),
        "na_letter_8.5x11in": (215.9, 279.4),
        "na_super-b_13x19in": (330.2, 482.6),
        "jpn_hagaki_100x148mm": (100.0, 148.0),
        "custom_min_89x127mm": (89.0, 127.0),
    }.items(),
)
def test_names_hold_their_size(name: str, size: tuple[float, float]) -> None:
    found = media_named(name)
    assert found is not None
    assert (found.width_mm, found.height_mm) == pytest.approx(size)


def test_names_without_a_size_are_no_paper() -> None:
    assert [media_named(name) for name in ("", "letter", "iso_a4_x297mm", "a" * 400)] == [None] * 4


def test_papers_only_named_get_margins_that_are_sure() -> None:
    """The widest that the printer names on each side (media-*-margin-supported, PWG 5100.3)."""
    sides = {"top": (0, 300), "right": (0, 320), "bottom": (0, 1270), "left": (330,)}
    margins = [one(Tag.INTEGER, f"media-{side}-margin-supported", *values) for side, values in sides.items()]
    found = facts(
        *margins,
        one(Tag.KEYWORD, "media-supported", "iso_a4_210x297mm", "nonsense"),
        one(Tag.KEYWORD, "media-ready", "iso_a4_210x297mm"),
        media_col_database=None,
        media_col_ready=None,
    )
    paper = Media("iso_a4_210x297mm", 210.0, 297.0, (3.0, 3.2, 12.7, 3.3))
    assert (found.media, found.ready) == ((paper,), (paper,))


def test_what_is_not_said_is_not_made_up() -> None:
    found = facts(media_col_database=None, media_col_ready=None, print_scaling_supported=None, copies_supported=None)
    assert (found.media, found.ready, found.scalings, found.copies) == ((), None, None, 1)
    assert printer_facts({}, "x") == PrinterFacts(address="x")


def test_papers_of_any_size() -> None:
    size = (one(Tag.RANGE, "x-dimension", Range(8900, 21590)), one(Tag.RANGE, "y-dimension", Range(12700, 111760)))
    roll = one(Tag.BEGIN, "media-size", size)
    found = facts(media_col_database=one(Tag.BEGIN, "media-col-database", media(21590, 27940), (roll,)))
    assert found.sizes == (Sizes(89.0, 215.9, 127.0, 1117.6),)
    assert [(paper.width_mm, paper.height_mm) for paper in found.media] == [(215.9, 279.4)]


@pytest.mark.parametrize(
    ("reasons", "words"),
    {
        ("media-empty-error",): "the paper is out",
        ("media-jam-error", "cover-open-warning"): "the paper is jammed, a cover is open",
        ("marker-supply-low-report",): "little ink is left",
        ("none",): "",
        ("com.example-belt-worn-warning",): "com.example belt worn",
    }.items(),
)
def test_reasons_in_plain_words(reasons: tuple[str, ...], words: str) -> None:
    found = facts(
        printer_state=one(Tag.ENUM, "printer-state", 5),
        printer_state_reasons=one(Tag.KEYWORD, "printer-state-reasons", *reasons),
    )
    assert (found.readiness, found.words) == (Readiness.STOPPED, words)


VALUES = some.one_of(
    some.none(), some.booleans(), some.integers(-(2**31), 2**31 - 1), some.text(max_size=8), some.binary(max_size=4),
    some.builds(Range, some.integers(-5, 5), some.integers(-5, 5)),
)  # fmt: skip
NESTED = some.recursive(
    VALUES,
    lambda inner: some.dictionaries(
        some.sampled_from(["media-size", "x-dimension", "y-dimension", "media-top-margin", "media-source"]),
        some.lists(inner, max_size=2).map(tuple),
        max_size=4,
    ),
    max_leaves=8,
)
KEYS = [one.name for one in says()] + ["media-supported", "media-ready", "media-size-supported", "printer-info"]


@settings(max_examples=80)
@given(some.dictionaries(some.sampled_from(KEYS), some.lists(NESTED, max_size=3).map(tuple), max_size=6))
def test_attributes_of_the_wrong_kind_count_as_not_said(said: dict[str, tuple[object, ...]]) -> None:
    found = printer_facts(said, "x")  # type: ignore[arg-type]
    assert all(paper.width_mm > 0 and paper.height_mm > 0 for paper in (*found.media, *(found.ready or ())))
    assert found.copies >= 1
