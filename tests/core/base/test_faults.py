"""What nobody expected is told in one place: room that is gone by its name, the rest as ours."""

from __future__ import annotations

import errno

import pytest

from wrapwright.core.base.errors import Kind
from wrapwright.core.base.faults import fault_of


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EDQUOT, errno.EFBIG])
def test_a_full_disk_is_no_fault_of_ours(number: int) -> None:
    error = OSError(number, "No room", "/ada/out.pdf")
    told = fault_of(error)
    assert (told.kind, told.message, told.where) == (Kind.UNUSABLE, "Nothing more can be written: No room.", "")
    assert "room" in told.remedy
    assert fault_of(error, whole=True).where == "/ada/out.pdf"


def test_anything_else_is_and_its_words_are_told_only_where_they_may_be() -> None:
    error = OSError(errno.EIO, "Input/output error", "/ada/out.pdf")
    told = fault_of(error, remedy="Run it again.")
    assert (told.kind, told.message) == (Kind.FAULT, "Something went wrong inside wrapwright (OSError).")
    assert (told.remedy, told.__cause__) == ("Run it again.", error)
    assert "/ada/out.pdf" in fault_of(error, whole=True).message
    assert fault_of(KeyError("a\nb"), whole=True).message.endswith("(KeyError: 'a\\nb').")
