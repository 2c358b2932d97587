"""The positions along one side of a sheet at which a cut can be of use."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Length = tuple[int, int]  # a length and how many copies have it


def reachable(lengths: Iterable[Length], most: int) -> int:
    """Return, as bits, every sum of the lengths up to `most`, no length used more often than it has copies."""
    mask = (1 << (most + 1)) - 1
    bits = 1
    for length, copies in lengths:
        left = min(copies, most // length)
        step = 1
        while left > 0:
            taken = min(step, left)
            bits |= (bits << (taken * length)) & mask
            left -= taken
            step *= 2
    return bits


def listed(bits: int) -> list[int]:
    """Return the positions of the bits that are set, smallest first."""
    import numpy as np

    raw = np.frombuffer(bits.to_bytes(bits.bit_length() // 8 + 1, "little"), dtype=np.uint8)
    found: list[int] = np.flatnonzero(np.unpackbits(raw, bitorder="little")).tolist()
    return found


def normal(lengths: Sequence[Length], side: int) -> list[int]:
    """Return positions of cuts that lose no pattern, 0 and the largest useful one included, smallest first.

    Either the sums of lengths (normal patterns: Herz, IBM J. Res. Dev. 16 (1972) 462-469; Christofides & Whitlock,
    Oper. Res. 25 (1977) 30-44), with no more copies than ordered, or the fewer of them that are left when every sum
    is widened as far as the most that can still stand beside it (reduced raster points: Terno, Lindemann & Scheithauer
    1987), whichever are fewer.
    """
    import numpy as np

    capped = listed(reachable(lengths, side))
    free = np.array(listed(reachable([(length, side // length) for length, _ in lengths], side)), dtype=np.int64)
    beside = free[np.searchsorted(free, side - free, side="right") - 1]
    raster = np.unique(free[np.searchsorted(free, side - beside, side="right") - 1])
    points = capped if len(capped) <= len(raster) else [int(value) for value in raster]
    return points if points[0] == 0 else [0, *points]


def thinned(points: list[int], lengths: Sequence[Length], side: int, limit: int) -> list[int]:
    """Return at most about `limit` of the points: cuts stay true, only some patterns are no longer met.

    Kept are the multiples of one length, then sums of two, what these leave of the side, and the largest point of
    each of equal stretches.
    """
    if len(points) <= limit:
        return points
    import numpy as np

    known = np.array(points)
    single = [length for length, _ in lengths]
    wanted = [n * length for length, copies in lengths for n in range(1, min(copies, side // length) + 1)]
    wanted += [a + b for k, a in enumerate(single) for b in single[k:]]
    kept = {0, int(known[-1])}
    for value in wanted:
        if value <= side and len(kept) < limit // 2:
            kept.add(int(known[np.searchsorted(known, value, side="right") - 1]))
            kept.add(int(known[np.searchsorted(known, side - value, side="right") - 1]))
    stretch = np.linspace(0, side, max(2, limit - len(kept)))[1:]
    kept.update(known[np.searchsorted(known, stretch, side="right") - 1].tolist())
    return sorted(kept)


def loosened(lengths: Sequence[int], side: int, limit: int) -> tuple[list[int], int]:
    """Return each length and the side in whole steps such that whatever fits still fits: for bounds alone.

    With k steps a length becomes ceil(length (k + 1) / side) - 1 and the side k (the rounding dual feasible function
    of Fekete & Schepers, Math. Program. 91 (2001) 11-31). Of the k up to the limit that one is taken for which the
    longest row that now fits is least too long.
    """
    least = side // min(lengths)
    best: tuple[int, int] | None = None
    for steps in range(max(least, limit // 2), max(limit, least + 1) + 1):
        units = [-(-length * (steps + 1) // side) - 1 for length in lengths]
        if min(units) < 1:
            continue
        over = _longest(lengths, units, steps) - side
        if best is None or over < best[0]:
            best = (over, steps)
        if over <= 0:
            break
    steps = best[1] if best else least
    return [-(-length * (steps + 1) // side) - 1 for length in lengths], steps


def _longest(lengths: Sequence[int], units: Sequence[int], steps: int) -> int:
    """Return the longest true row among those that fit in so many steps."""
    best = [0] * (steps + 1)
    pairs = sorted(set(zip(units, lengths, strict=True)))
    for at in range(1, steps + 1):
        best[at] = max([best[at - 1], *(best[at - unit] + length for unit, length in pairs if unit <= at)])
    return best[steps]
