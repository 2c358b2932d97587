"""A sleeve chosen and told as a document."""

from __future__ import annotations

import json

from wrapwright.core.press.sleeve.values import Girths, Rules, Sleeve
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.press.plan.sleeves import ChooseSleeve, choose_sleeve, sleeve_statement


def test_a_choice_as_a_document(bench):
    sleeves = (Sleeve(120.0), Sleeve(127.0, name="own"))
    chosen = choose_sleeve(ChooseSleeve(Girths(242.0, 194.0, 102.0), sleeves, set_c=200.0), bench, Watch())
    told = json.loads(json.dumps(sleeve_statement(chosen, Rules()), allow_nan=False))
    assert [(one["flat_mm"], one["does"]) for one in told["sleeves"]] == [(127.0, True), (120.0, False)]
    assert told["sleeves"][0]["cut_mm"] == 146.666667
    assert told["sleeves"][0]["limit_f"] == 410.0
    assert told["wanted_flat_mm"] == [125.0, 184.3]
    assert told["rules"] == {"ease_mm": 8.0, "grip": 0.95, "fold_mm": 15.0, "source": "common practice, no source"}
    assert told["words"] == list(chosen.words)


def test_with_none_at_hand_the_widths_are_told(bench):
    chosen = choose_sleeve(ChooseSleeve(Girths(342.0, 144.0, 102.0)), bench, Watch())
    assert chosen.fits == ()
    assert sleeve_statement(chosen, Rules())["wanted_flat_mm"] is None
    assert chosen.words[0].startswith("No sleeve that shrinks by 50 %")
