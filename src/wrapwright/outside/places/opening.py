"""Opening a place by its address."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.outside.places.place import ANSWER_S, Place
from wrapwright.outside.system.installed import extra_missing

STORES = ("s3",)
_SCHEME = re.compile(r"([A-Za-z][A-Za-z0-9+.-]+)://(.*)", re.DOTALL)
_CONNECT_S = 10


def open_place(address: str) -> Place:
    """Return the place at an address: a folder, or "s3://bucket/prefix" of a store that speaks S3.

    Keys, region and endpoint of a store come from the environment of each machine as its library reads them
    (AWS_ACCESS_KEY_ID, AWS_SECRET_ACCESS_KEY, AWS_ENDPOINT_URL ...); none is passed on.

    Raises:
        WrapwrightError: set-up, when the extra `cluster` is not installed; usage, for an address that is none.
    """
    try:
        import fsspec
    except ImportError as error:
        raise extra_missing("A place for many machines", "cluster") from error
    found = _SCHEME.fullmatch(address)
    if found is None:
        return Place(address, fsspec.filesystem("file"), _folder(address), local=True)
    scheme, rest = found[1].lower(), found[2].strip("/")
    if scheme not in STORES:
        message = f"{address} is no place: {scheme}:// is not known."
        raise WrapwrightError(Kind.USAGE, message, remedy="Name a folder that all machines see, or s3://bucket/prefix.")
    if not rest:
        raise WrapwrightError(Kind.USAGE, f"{address} names no bucket.", remedy="Write it as s3://bucket/prefix.")
    return Place(address, _store(scheme), rest, local=False)


def _folder(address: str) -> str:
    if not Path(address).is_absolute():
        remedy = "Workers start elsewhere: write the whole path, the same on all machines."
        raise WrapwrightError(Kind.USAGE, f"the place {address} is a relative path.", remedy=remedy)
    if Path(address).exists() and not Path(address).is_dir():
        raise unusable("this is a file; a folder is needed.", where=address)
    return Path(address).as_posix()


def _store(scheme: str) -> Any:
    import fsspec

    # The place itself tries again: were its libraries to do so too, one that hangs would be waited for 75 times.
    limits = {"connect_timeout": _CONNECT_S, "read_timeout": ANSWER_S, "retries": {"max_attempts": 0}}
    try:
        # What others put there is looked for anew each time: a listing kept from before would hide it. Files come and
        # go in one stream each: several of them do at the same time.
        store = fsspec.filesystem(scheme, use_listings_cache=False, max_concurrency=1, config_kwargs=limits)
    except ImportError as error:
        raise extra_missing(f"A place at {scheme}://", "cluster") from error
    store.retries = 1
    return store
