"""Fields in texts."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.design.fields import field_names, filled


def test_fields_are_filled_and_doubled_braces_are_braces():
    assert filled("{name} of {{{club}}}", {"name": "Ada", "club": "Weir"}) == "Ada of {Weir}"
    assert field_names("{name} of {{{club}}}, {name}") == {"name", "club"}
    assert filled("{{plain}}", {}) == "{plain}"
    assert field_names("") == frozenset()


def test_braces_in_a_value_mean_nothing():
    assert filled("{name}", {"name": "{club} }} {{"}) == "{club} }} {{"


def test_a_field_without_value_says_which_there_are():
    with pytest.raises(WrapwrightError, match=r"text 1: the field \{nmae\} has no value \(there are club, name\)"):
        filled("{nmae}", {"name": "Ada", "club": "Weir"}, where="text 1")
    with pytest.raises(WrapwrightError, match="no fields are given"):
        filled("{name}", {})


@pytest.mark.parametrize("text", ["{name", "name}", "{}", "{ }", "{a{b}}", "a } b", "{{{name}}"])
def test_a_brace_alone_is_refused(text):
    with pytest.raises(WrapwrightError, match="stands alone"):
        field_names(text)
