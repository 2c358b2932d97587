"""What the rules about a value as typed say, and that ordinary names of many languages pass."""

from __future__ import annotations

import pytest

from wrapwright.core.base.findings import Severity
from wrapwright.core.names.rules.typed import value_doubts

ORDINARY = [
    "Ada Lovelace", "Zoë", "O'Brien", "O’Brien", "Jean-Luc", "Anne Marie", "Łukasz Żak", "Nguyễn Thị Hoa", "Σοφία",
    "Ярослав", "김민준", "山田太郎", "サクラ", "अनिता", "Ólafur Þór", "d'Arc", "St. John", "R2D2", "2Pac", "Class 5B",
    "10", "“Bea”", "Anna & Øyvind", "Ada 😀", "¡Olé!",
]  # fmt: skip


@pytest.mark.parametrize("name", ORDINARY)
def test_ordinary_names_pass(name: str) -> None:
    assert value_doubts(name) == ()


@pytest.mark.parametrize(
    ("text", "rule", "said"),
    [
        (" Ada", "spaces", "white space at its start"),
        ("Ada\t", "spaces", "white space at its end"),
        ("Ada  Byron", "spaces", "more than one blank together"),
        ("Ada\u00a0Byron", "spaces", "U+00A0 NO-BREAK SPACE"),
        ("Ada\nByron", "lines", "runs over 2 lines"),
        ("Ada\u200b", "hidden-signs", "U+200B ZERO WIDTH SPACE"),
        ("\u202eAda", "hidden-signs", "turn its direction: U+202E RIGHT-TO-LEFT OVERRIDE"),
        ("\u0410da", "look-alikes", "also А (U+0410 CYRILLIC CAPITAL LETTER A), drawn like A (U+0041"),
        ("Анnа", "look-alikes", "n (U+006E LATIN SMALL LETTER N)"),
        ("J0hn", "digit-in-word", "the digit 0 among letters"),
        ("1sabel", "digit-in-word", "the digit 1 among letters"),
        ("A" + "\u0301" * 5, "marks-stacked", "5 marks on one letter"),
        ("a" * 101, "long", "101 characters, over 100"),
        ("a" * 300, "long", "300 characters, over 100"),
    ],
)
def test_warnings(text: str, rule: str, said: str) -> None:
    (doubt,) = value_doubts(text)
    assert (doubt.rule, doubt.severity, doubt.acceptable) == (rule, Severity.WARNING, True)
    assert said in doubt.problem
    assert doubt.remedy


@pytest.mark.parametrize(
    ("text", "rule", "acceptable"),
    [
        ("MÃ¼ller", "letters-misread", True),
        ("M\ufffdller", "letters-lost", True),
        ("Ada\x07", "control-character", False),
        ("a" * 2001, "long", False),
    ],
)
def test_errors(text: str, rule: str, *, acceptable: bool) -> None:
    (doubt,) = value_doubts(text)
    assert (doubt.rule, doubt.severity, doubt.acceptable) == (rule, Severity.ERROR, acceptable)


def test_right_to_left_is_a_note() -> None:
    (doubt,) = value_doubts("שרה לוי")
    assert (doubt.rule, doubt.severity) == ("right-to-left", Severity.NOTE)


def test_several_doubts_stand_beside_each_other() -> None:
    assert [one.rule for one in value_doubts(" J0hn \u200b")] == ["spaces", "hidden-signs", "digit-in-word"]
