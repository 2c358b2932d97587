"""The one door to the compiler: number-crunching kernels are compiled where it is installed, else run as they stand."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from importlib import import_module
from typing import TypeVar

Kernel = TypeVar("Kernel", bound=Callable[..., object])


def has_compiler() -> bool:
    """Return whether kernels are compiled on this machine (some have no build of the compiler: they run slower)."""
    try:
        import_module("numba")
    except ImportError:
        return False
    return True


def compiled(function: Kernel) -> Kernel:
    """Return the same function in machine code, or as it is where there is no compiler.

    Kernels take and return numpy arrays and scalars only. What is compiled is kept beside the source, or in the
    user's cache folder where the source may not be written; where neither can be, it is compiled in each process.
    Kernels that call each other stand in one file: the kept code is renewed when its own file changes, not another.
    """
    try:
        numba = import_module("numba")
    except ImportError:
        return function
    try:
        made: Kernel = numba.njit(cache=True)(function)
    except RuntimeError:  # no folder in which the compiled code could be kept
        made = numba.njit(function)
    else:
        _survive_a_full_disk(made)
    return made


def _survive_a_full_disk(made: object) -> None:
    """Let a kernel run although its code cannot be kept."""
    kept = getattr(made, "_cache", None)
    save = getattr(kept, "save_overload", None)
    if save is None:
        return

    def save_if_possible(*what: object) -> None:
        with suppress(OSError):
            save(*what)

    kept.save_overload = save_if_possible  # type: ignore[union-attr]


def plain(function: Kernel) -> Kernel:
    """Return the function before compilation, for looking into it."""
    made: Kernel = getattr(function, "py_func", function)
    return made
