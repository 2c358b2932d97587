"""Results on one stream, talk on the other, progress only where somebody looks."""

from __future__ import annotations

import io
import sys

import pytest

from wrapwright.core.base.findings import Finding, Severity, accept
from wrapwright.faces.cli.talk import Talk, lines, show

FINDINGS = [
    Finding("never-calibrated", Severity.NOTE, "Never measured."),
    Finding("picture-ppi", Severity.ERROR, "80 ppi, at least 100.", "crest"),
    Finding("does-not-fit", Severity.ERROR, "3 mm too tall."),
    Finding("text-small", Severity.WARNING, "1.5 mm.", "name"),
]


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_findings_are_grouped_by_how_much_they_matter() -> None:
    assert lines(accept(FINDINGS, frozenset({"all"}))) == [
        "Errors (1)",
        "  3 mm too tall. [does-not-fit]",
        "Errors, accepted (1)",
        "  crest: 80 ppi, at least 100. [picture-ppi]",
        "Warnings (1)",
        "  name: 1.5 mm. [text-small]",
        "Notes (1)",
        "  Never measured. [never-calibrated]",
    ]
    assert lines([]) == []
    named = Finding("crosses-seam", Severity.NOTE, "crest at 90 deg goes on at the other end.", "crest")
    assert lines([named])[1] == "  crest at 90 deg goes on at the other end. [crosses-seam]"


def test_streams_are_kept_apart(capsys: pytest.CaptureFixture[str]) -> None:
    Talk().say("talk")
    Talk(quiet=True).say("nothing")
    show("result")
    assert capsys.readouterr() == ("result\n", "talk\n")


@pytest.mark.parametrize(
    ("talk", "terminal", "shown"), [(Talk(), True, True), (Talk(quiet=True), True, False), (Talk(), False, False)]
)
def test_progress_is_shown_on_a_terminal_only(
    talk: Talk, terminal: bool, shown: bool, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    screen = Terminal() if terminal else io.StringIO()
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setenv("TERM", "xterm")
    with talk.watching() as watch:
        watch.step("drawing [the] proof", 0.5)
    assert ("drawing [the] proof" in screen.getvalue()) is shown
    assert capsys.readouterr().out == ""


def test_no_color_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """NO_COLOR, set and not empty: no escape sequence sets a colour (no-color convention; SGR 30-49, ECMA-48)."""
    screen = Terminal()
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.setenv("NO_COLOR", "1")
    with Talk().watching() as watch:
        watch.step("drawing", 0.5)
    assert "drawing" in screen.getvalue()
    assert "\x1b[3" not in screen.getvalue()
    assert "\x1b[4" not in screen.getvalue()
