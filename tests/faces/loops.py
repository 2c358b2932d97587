"""Coroutines run to their end, whatever else holds this thread's event loop."""

from __future__ import annotations

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any, TypeVar

Result = TypeVar("Result")


def run_through(work: Coroutine[Any, Any, Result]) -> Result:
    """Return what a coroutine returns; it runs in a thread of its own.

    A browser that other tests keep open has an event loop in the tests' own thread, where no second one may run.
    """
    with ThreadPoolExecutor(max_workers=1) as pool:
        return pool.submit(asyncio.run, work).result()
