"""What goes wrong with a place: whether trying again can help, and the words for it."""

from __future__ import annotations

import errno

_FINAL = {errno.EACCES, errno.EPERM, errno.EROFS, errno.ENOSPC, errno.ENOTDIR, errno.EISDIR, errno.EFBIG}
_FINAL |= {getattr(errno, name) for name in ("EDQUOT",) if hasattr(errno, name)}  # Windows has no quota of that name
# Names of botocore's problems for which no second try helps.
_FINAL_NAMES = {"NoCredentialsError", "PartialCredentialsError", "ParamValidationError", "InvalidRegionError"}
_WORDS = {
    "NoCredentialsError": "no key for the store is set on this machine",
    "PartialCredentialsError": "only half of the key for the store is set on this machine",
    "EndpointConnectionError": "the store does not answer",
    "ConnectTimeoutError": "the store does not answer",
    "ReadTimeoutError": "the store does not answer",
    "FSTimeoutError": "the store does not answer",
}


def is_final(error: BaseException) -> bool:
    """Return whether the same would fail again: no right, no room, no key."""
    if isinstance(error, OSError) and error.errno in _FINAL:
        return True
    return isinstance(error, PermissionError) or any(name in _FINAL_NAMES for name in _names(error))


def reason_of(error: BaseException) -> str:
    """Return what went wrong in a few words, without a full stop."""
    for name in _names(error):
        if name in _WORDS:
            return _WORDS[name]
    said = (error.strerror if isinstance(error, OSError) and error.strerror else str(error)) or type(error).__name__
    return " ".join(said.split())[:200].rstrip(".")


def _names(error: BaseException) -> list[str]:
    """Return the names of an error's class and of its cause's: stores wrap what their libraries raise."""
    found: list[str] = []
    one: BaseException | None = error
    while one is not None and len(found) < 12:
        found += [kind.__name__ for kind in type(one).__mro__[:3]]
        one = one.__cause__ or one.__context__
    return found
