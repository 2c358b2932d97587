"""The word that was meant."""

from __future__ import annotations

from wrapwright.core.base.nearest import nearest


def test_a_slip_of_the_pen_finds_its_word_whatever_the_case() -> None:
    assert nearest("leter", ["Letter", "Legal", "A4"]) == "Letter"
    assert nearest(" TABLOD ", ("Letter", "Tabloid")) == "Tabloid"


def test_a_word_of_its_own_finds_none_unless_any_will_do() -> None:
    assert nearest("zzz", ["Letter", "Legal"]) == ""
    assert nearest("thread", ["cache", "threads"], alike=0.0) == "threads"
    assert nearest("zzz", [], alike=0.0) == ""
