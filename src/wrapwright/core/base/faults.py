"""What nobody expected, as a problem with a sentence: a full disk by its name, anything else as a fault of ours."""

from __future__ import annotations

import errno

from wrapwright.core.base.errors import Kind, WrapwrightError

# No more room: on the disk, for this user, in one file. Not every system knows all three.
FULL = frozenset(getattr(errno, name) for name in ("ENOSPC", "EDQUOT", "EFBIG") if hasattr(errno, name))


def fault_of(error: Exception, *, remedy: str = "", whole: bool = False) -> WrapwrightError:
    """Return the problem to tell in the place of an error that nobody expected; the error is its cause.

    Args:
        error: what was raised.
        remedy: what to do where it is a fault of ours.
        whole: tell its own words too; they may name folders of this machine.
    """
    if isinstance(error, OSError) and error.errno in FULL:
        where = str(error.filename or "") if whole else ""
        message = f"Nothing more can be written: {error.strerror or 'the disk is full'}."
        problem = WrapwrightError(Kind.UNUSABLE, message, remedy="Free some room and start again.", where=where)
    else:
        said = " ".join(str(error).split()) if whole else ""
        message = f"Something went wrong inside wrapwright ({type(error).__name__}{f': {said}' if said else ''})."
        problem = WrapwrightError(Kind.FAULT, message, remedy=remedy)
    problem.__cause__ = error
    return problem
