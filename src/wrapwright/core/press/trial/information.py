"""How much a coupon of some dose is expected to tell about a bound, before it is heated."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def expected_bits(joint: Array, chances: Array) -> Array:
    """Return the information that a score is expected to give about the bound's place, in bits, shape (..., n).

    The mutual information of score and place: how far the scores to come differ with the place, on average (D. V.
    Lindley, On a measure of the information provided by an experiment, Ann. Math. Stat. 27 (1956) 986-1005).

    Args:
        joint: chances of the grid's points, shape (..., m, h), h all that is not the place.
        chances: of each score at each of n doses, shape (n, 5, m, h).
    """
    doses, scores, places, rest = chances.shape
    # For each place a product of matrices: (..., h) with (h, n * 5).
    by_place = np.moveaxis(chances.reshape(doses * scores, places, rest), 0, -1)
    both = np.einsum("...mh,mhd->...md", joint, by_place, optimize=True)
    both = np.moveaxis(both.reshape(*joint.shape[:-1], doses, scores), -3, -1)  # (..., n, 5, m)
    place = joint.sum(axis=-1)[..., None, None, :]
    score = both.sum(axis=-1, keepdims=True)
    ratio = both / np.maximum(score * place, 1e-300)
    return np.asarray((both * np.log2(np.maximum(ratio, 1e-300))).sum(axis=(-1, -2)))


def nearer(bounds: Array) -> Array:
    """Return the chance of each of two bounds that it is the lower one, shape (..., 2), of chances (..., 2, m)."""
    first, second = bounds[..., 0, :], bounds[..., 1, :]
    above = second[..., ::-1].cumsum(axis=-1)[..., ::-1] - second / 2.0
    share = (first * above).sum(axis=-1)
    return np.stack([share, 1.0 - share], axis=-1)
