"""Every public rule exists, once, and runs in one of the two stages."""

from __future__ import annotations

import pytest

from wrapwright.core.base.findings import Finding, Severity, accept, stopping
from wrapwright.core.checks.facts import BlankFacts, CopyFacts, Facts
from wrapwright.core.checks.names import RULE_NAMES
from wrapwright.core.checks.run import ALL_RULES, RULES_WITH_PIXELS, RULES_WITHOUT_PIXELS, run_rules

PUBLIC = """
picture-ppi picture-stretched picture-profile picture-bare picture-white frame-tint glyph-missing text-does-not-fit
text-small stroke-thin text-contrast text-too-long crosses-seam over-handle over-keepout outside-safe off-wrap uncoated
art-short seam-colour white-not-white coating-dark out-of-gamut ink-limit overlap-short profile-misfit too-few-readings
code-module code-wide code-unreadable does-not-fit bleed-cut never-calibrated
"""


def test_the_published_names_are_all_there_and_no_other() -> None:
    assert sorted(RULE_NAMES) == sorted(PUBLIC.split())
    assert sorted(name for name, _ in ALL_RULES) == sorted(PUBLIC.split())


def test_every_rule_has_its_own_function_named_like_it() -> None:
    assert len({rule for _, rule in ALL_RULES}) == len(PUBLIC.split())
    assert all(rule.__name__ == name.replace("-", "_") for name, rule in ALL_RULES)


def test_facts_without_pixels_leave_the_second_stage_silent() -> None:
    assert run_rules(Facts(BlankFacts()), RULES_WITH_PIXELS) == []


def test_a_clean_job_has_no_finding_but_never_calibrated() -> None:
    rules = [one.rule for one in run_rules(Facts(BlankFacts()), ALL_RULES)]
    assert rules == ["never-calibrated"]
    assert run_rules(Facts(BlankFacts(calibrated=True)), ALL_RULES) == []


def test_findings_come_in_the_tables_order() -> None:
    poor = CopyFacts("crest", "picture", ppi=50.0, room_rim_mm=-9.0, room_base_mm=9.0)
    found = run_rules(Facts(BlankFacts(), copies=(poor,)), RULES_WITHOUT_PIXELS)
    names = [name for name, _ in RULES_WITHOUT_PIXELS]
    places = [names.index(one.rule) for one in found]
    assert places == sorted(places)
    assert {"off-wrap", "picture-ppi"} <= {one.rule for one in found}


@pytest.mark.parametrize("rule", ["does-not-fit", "bleed-cut", "overlap-short", "profile-misfit", "too-few-readings"])
def test_what_other_parts_found_is_passed_on_once_and_unchanged(rule: str) -> None:
    one = Finding(rule, Severity.ERROR, "said elsewhere", None, 2.0, 1.0, "mm")
    other = Finding("art-short", Severity.ERROR, "not of these rules")
    found = run_rules(Facts(BlankFacts(calibrated=True), raised=(one, other)), ALL_RULES)
    assert found == [one]
    assert run_rules(Facts(BlankFacts(calibrated=True)), ALL_RULES) == []


def test_does_not_fit_cannot_be_accepted() -> None:
    found = [Finding("does-not-fit", Severity.ERROR, "too large"), Finding("off-wrap", Severity.ERROR, "over the rim")]
    assert [one.rule for one in stopping(accept(found, frozenset({"all"})))] == ["does-not-fit"]
