"""Names in one clean form, and the form in which two are the same."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.store.naming import folded, named


def test_blanks_between_words_are_single() -> None:
    assert named("  Big \t tumbler\n", what="blank") == "Big tumbler"


@pytest.mark.parametrize(
    ("one", "other"),
    [("Mug", "mUG"), ("Straße", "STRASSE"), ("Cafe\u0301", "CAFÉ"), ("ﬁne", "FINE"), ("a  b", " A b ")],
)
def test_the_same_name_in_two_writings(one: str, other: str) -> None:
    assert folded(one) == folded(other)


def test_other_names_stay_others() -> None:
    assert len({folded(name) for name in ("mug", "mug 2", "mugs", "múg")}) == 4


def test_what_is_no_name_is_said_with_the_thing() -> None:
    with pytest.raises(WrapwrightError, match="the blank's name has 81 characters; the most is 80"):
        named("x" * 81, what="blank")


@pytest.mark.parametrize("name", ["", " \n", "\u200b", "\u202e\u2060", "\u0301", "\ufeff "])
def test_a_name_of_which_nothing_can_be_seen(name: str) -> None:
    with pytest.raises(WrapwrightError, match="the account needs a name"):
        named(name, what="account")


def test_names_in_every_script_and_of_signs_alone() -> None:
    for name in ("می\u200cخواهم", "कप", "コップ", "7", "+", "\U0001f375"):
        assert named(name, what="blank") == name
