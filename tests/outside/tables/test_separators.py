"""What stands between cells, told by the first records."""

from __future__ import annotations

import pytest

from wrapwright.outside.tables.separators import announced, separator_of


@pytest.mark.parametrize(
    ("sample", "sign"),
    [
        ("name,team\nAda,Red\n", ","),
        ("name;team\nLovelace, Ada;Red\nHopper, Grace;Blue\n", ";"),
        ("name\tteam\nAda\tRed, blue; green\n", "\t"),
        ("name|team\nAda|Red\n", "|"),
        ('name;price\n"Ada";1,50\n"Eve";2,75\n', ";"),
        ('"name, whole";team\n"Ada;Eve";Red\n', ";"),
        ("name,team,note\nAda,Red,a;b;c\nEve,Blue,d;e;f\n", ","),
        ('name,note\nAda,"two\nlines; here"\n', ","),
        # one column: nothing separates, and a comma in a name stays in it
        ("name\nLovelace, Ada\nHopper, Grace\n", "\t"),
        ("", "\t"),
    ],
)
def test_separator(sample: str, sign: str) -> None:
    assert separator_of(sample) == sign


def test_titles_above_the_header_do_not_decide() -> None:
    sample = "Regatta 2026; the crew\n\nname,team\nAda,Red\nEve,Blue\n"
    assert separator_of(sample, header=3) == ","


@pytest.mark.parametrize(
    ("line", "sign"), [("sep=;\r\n", ";"), ('"sep=|"\n', "|"), ("SEP=\t\n", "\t"), ("name;x\n", None)]
)
def test_a_line_that_says_it(line: str, sign: str | None) -> None:
    assert announced(line) == sign
