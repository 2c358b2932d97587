"""How often an address may try."""

from __future__ import annotations

from wrapwright.faces.api.tries import Tries


def test_five_wrong_ones_in_five_minutes() -> None:
    now = [1000.0]
    tries = Tries(lambda: now[0])
    for _ in range(5):
        assert tries.begin("192.0.2.1") == 0
        now[0] += 10
    assert tries.begin("192.0.2.1") == 250  # until the first is five minutes old
    assert tries.begin("192.0.2.2") == 0
    now[0] += 249.5
    assert tries.begin("192.0.2.1") == 1
    now[0] += 0.5
    assert tries.begin("192.0.2.1") == 0
    assert tries.begin("192.0.2.1") == 10


def test_a_right_one_does_not_count_and_forgives_no_other() -> None:
    tries = Tries(lambda: 0.0)
    for _ in range(20):
        assert tries.begin("192.0.2.1") == 0
        tries.forgive("192.0.2.1")
    for _ in range(5):
        assert tries.begin("192.0.2.1") == 0
    assert tries.begin("192.0.2.1") > 0
    tries.forgive("192.0.2.9")


def test_what_no_longer_counts_is_forgotten() -> None:
    now = [0.0]
    tries = Tries(lambda: now[0])
    for number in range(20_000):
        tries.begin(f"address {number}")
    assert len(tries._tries) <= 10_000
    now[0] = 300.0
    tries.begin("192.0.2.1")
    assert list(tries._tries) == ["192.0.2.1"]
