"""The one door to the compiler: number-crunching kernels are compiled where it is installed, else run as they stand."""

from __future__ import annotations

from collections.abc import Callable
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
    return made


def plain(function: Kernel) -> Kernel:
    """Return the function before compilation, for looking into it."""
    made: Kernel = getattr(function, "py_func", function)
    return made
