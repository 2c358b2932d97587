"""CIEDE2000 against the published pairs."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from wrapwright.core.colour.difference import ciede2000

# Sharma, Wu, Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data, and
# mathematical observations", Color Research & Application 30(1), 2005, Table 1 (printed to four decimals).
PAIRS = np.loadtxt(Path(__file__).parents[2] / "data" / "ciede2000_sharma_34.csv", delimiter=",", skiprows=1)


def test_the_34_pairs_agree_to_their_printed_digits() -> None:
    assert PAIRS.shape == (34, 8)
    got = ciede2000(PAIRS[:, 1:4], PAIRS[:, 4:7])
    assert np.abs(got - PAIRS[:, 7]).max() <= 5.1e-5


def test_it_is_the_same_both_ways_and_nothing_for_equal_colours() -> None:
    there, back = ciede2000(PAIRS[:, 1:4], PAIRS[:, 4:7]), ciede2000(PAIRS[:, 4:7], PAIRS[:, 1:4])
    assert np.abs(there - back).max() < 1e-12
    assert ciede2000(PAIRS[:, 1:4], PAIRS[:, 1:4]).max() == 0.0


def test_shapes_broadcast() -> None:
    assert ciede2000(np.zeros((4, 5, 3)), np.array([50.0, 0.0, 0.0])).shape == (4, 5)
