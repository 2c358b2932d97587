"""How a value stands in a sentence."""

from __future__ import annotations

from wrapwright.core.names.rules.doubts import shown


def test_shown_is_short_and_hides_nothing() -> None:
    assert shown("Ada") == '"Ada"'
    assert shown("A\u200bda\n") == '"A<U+200B>da<U+000A>"'
    assert shown("a" * 300) == f'"{"a" * 39}…"'
