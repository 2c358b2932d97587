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
