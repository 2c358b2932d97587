"""What a score is expected to tell, against channels whose capacity is known."""

from __future__ import annotations

import numpy as np
import pytest

from wrapwright.core.press.trial.information import expected_bits, nearer


def test_two_places_and_a_score_that_is_right_nine_times_in_ten() -> None:
    """A binary symmetric channel with even input: 1 - H(0.1) = 0.531004 bits (Cover and Thomas, 8.1.4; memory)."""
    joint = np.array([[0.5], [0.5]])
    chances = np.zeros((2, 5, 2, 1))
    chances[0, 0, :, 0], chances[0, 1, :, 0] = (0.9, 0.1), (0.1, 0.9)
    chances[1, 4, :, 0] = 1.0  # a dose at which the score is always the same tells nothing
    assert expected_bits(joint, chances) == pytest.approx([0.531004, 0.0], abs=1e-6)


def test_what_is_not_the_place_is_averaged_out() -> None:
    joint = np.full((2, 2), 0.25)
    chances = np.zeros((1, 5, 2, 2))
    chances[0, 0], chances[0, 1] = [[1.0, 0.0], [0.0, 1.0]], [[0.0, 1.0], [1.0, 0.0]]
    assert expected_bits(joint, chances) == pytest.approx([0.0], abs=1e-12)
    assert expected_bits(np.array([[0.5, 0.0], [0.5, 0.0]]), chances) == pytest.approx([1.0])


def test_the_nearer_of_two_bounds() -> None:
    apart = np.array([[0.0, 1.0, 0.0, 0.0], [0.0, 0.0, 0.5, 0.5]])
    assert nearer(apart) == pytest.approx([1.0, 0.0])
    assert nearer(apart[[1, 1]]) == pytest.approx([0.5, 0.5])
