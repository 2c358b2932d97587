"""What may happen to a heat, what is known already, what is refused."""

from __future__ import annotations

import pytest
from tests.core.press.run.heats_told import at, plan, told

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.run.happening import judged, may_happen
from wrapwright.core.press.run.state import state_of
from wrapwright.core.press.run.values import EventKind, HeatState

IN = ((0, "ready"), (60, "loaded"))


def state(*events: tuple[float, EventKind], now: float = 100.0) -> HeatState:
    return state_of(plan(preheat=events[0][1] == "preheat", preheat_s=500.0), told(*events), at(now))


@pytest.mark.parametrize(
    ("events", "kind"),
    [
        (((0, "preheat"), (50, "ready")), "ready"),
        (IN, "loaded"),
        (IN, "ready"),
        ((*IN, (70, "door-opened")), "door-opened"),
        (IN, "door-closed"),
        ((*IN, (70, "taken-out")), "taken-out"),
        ((*IN, (70, "taken-out"), (80, "cooled")), "cooled"),
        ((*IN, (70, "taken-out"), (80, "ended")), "ended"),
        ((*IN, (70, "stopped")), "stopped"),
    ],
)
def test_the_same_told_by_two_people_changes_nothing(
    events: tuple[tuple[float, EventKind], ...], kind: EventKind
) -> None:
    assert judged(state(*events), kind) == "known"


@pytest.mark.parametrize(
    ("events", "kind", "words"),
    [
        (((0, "preheat"),), "taken-out", "is still warming up empty: nothing is in it to be taken out."),
        (((0, "ready"),), "turned", "waits for its pieces: nothing is in it to be turned."),
        (IN, "ended", "is in its dwell: pieces are in it."),
        (IN, "cooled", "is in its dwell: nothing is cooling."),
        ((*IN, (70, "taken-out")), "longer", "is cooling: there is no dwell to make longer."),
        ((*IN, (70, "taken-out"), (75, "ended")), "measured", "has ended: no temperature is kept of it any more."),
        (IN, "preheat", "is in its dwell: it does not begin again."),
        (((0, "ready"), (5, "ended")), "taken-out", "has ended: nothing is in it to be taken out."),
    ],
)
def test_what_cannot_be_is_refused(events: tuple[tuple[float, EventKind], ...], kind: EventKind, words: str) -> None:
    with pytest.raises(WrapwrightError) as refused:
        judged(state(*events), kind)
    assert refused.value.kind is Kind.REFUSED
    assert words in refused.value.message


@pytest.mark.parametrize(
    ("kind", "figures", "words"),
    [
        ("longer", {}, "nothing cannot be added"),
        ("longer", {"seconds": -40.0}, "-40 s cannot be added"),
        ("longer", {"seconds": 36000.0}, "36000 s cannot be added"),
        ("door-closed", {"seconds": 0.0}, "open for 0 s cannot be meant"),
        ("door-closed", {"seconds": 4000.0}, "it runs to 15 min"),
        ("measured", {}, "needs its temperature"),
        ("measured", {"celsius": float("nan")}, "needs its temperature"),
        ("measured", {"celsius": 383.0}, "Is 383 °F meant, 195 °C?"),
        ("measured", {"celsius": 900.0}, "from -30 °C (-22 °F) to 300 °C (572 °F)."),
    ],
)
def test_figures_that_cannot_be_meant(kind: EventKind, figures: dict[str, float], words: str) -> None:
    with pytest.raises(WrapwrightError) as refused:
        judged(state(*IN), kind, **figures)
    assert refused.value.kind is Kind.UNUSABLE
    assert words in refused.value.message


def test_a_dwell_is_not_made_longer_than_an_hour() -> None:
    hour = state_of(plan(dwell_s=3590.0), told(*IN), at(100))
    assert judged(hour, "longer", seconds=10.0) == "new"
    with pytest.raises(WrapwrightError, match=r"60\.2 min; the limit is 60 min"):
        judged(hour, "longer", seconds=20.0)


def test_what_may_happen_is_what_is_not_refused() -> None:
    for events in (((0, "preheat"),), ((0, "ready"),), IN, (*IN, (70, "taken-out")), (*IN, (70, "stopped"))):
        now = state(*events)  # type: ignore[arg-type]
        figures = {"longer": {"seconds": 20.0}, "measured": {"celsius": 190.0}}
        for kind in may_happen(now):
            assert judged(now, kind, **figures.get(kind, {})) == "new"
    assert "door-closed" not in may_happen(state(*IN))
    assert "door-opened" not in may_happen(state(*IN, (70, "door-opened")))
