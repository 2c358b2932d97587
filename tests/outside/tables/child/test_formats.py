"""Numbers and dates as a sheet shows them; the cases of ECMA-376 part 1, 18.8.31, from memory."""

# ruff: noqa: DTZ001 - a sheet's times have no zone

from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest

from wrapwright.outside.tables.child.formats import plain, shown


@pytest.mark.parametrize(
    ("value", "code", "text"),
    [
        # ECMA-376 part 1, 18.8.31, "Decimal places, spaces, colours and conditions"
        (1234.59, "####.#", "1234.6"),
        (8.9, "#.000", "8.900"),
        (0.631, "0.#", "0.6"),
        (12, "#.0#", "12.0"),
        (1234.568, "#.0#", "1234.57"),
        (12000, "#,###", "12,000"),
        # what a number typed as 007 in a cell of format 000 shows
        (7, "000", "007"),
        (1234567, "0000000000", "0001234567"),
        (0.285, "0%", "29%"),
        (12.5, '0.00 "EUR"', "12.50 EUR"),
        (-12.5, '0.0;"minus" 0.0', "minus 12.5"),
        (0, '0;-0;"none"', "none"),
        (3, '"Nr." 0', "Nr. 3"),
        (1234.5, "[Red]#,##0.00", "1,234.50"),
        (2.5, "0", "3"),
    ],
)
def test_numbers(value: float, code: str, text: str) -> None:
    assert shown(value, code) == (text, True)


@pytest.mark.parametrize(
    ("value", "code", "text"),
    [
        # ECMA-376 part 1, 18.8.31, "Dates and times": m, mm, mmm, mmmm, mmmmm, d, dd, ddd, dddd, yy, yyyy, h, hh ...
        (date(2026, 5, 2), "m/d/yyyy", "5/2/2026"),
        (date(2026, 5, 2), "dd/mm/yy", "02/05/26"),
        (date(2026, 5, 2), "d mmm yyyy", "2 May 2026"),
        (date(2026, 9, 2), "dddd, d. mmmm yyyy", "Wednesday, 2. September 2026"),
        (date(2026, 9, 2), "ddd mmmmm", "Wed S"),
        (date(2026, 5, 2), "yyyy\\-mm\\-dd", "2026-05-02"),
        (datetime(2026, 5, 2, 16, 5, 9), "h:mm AM/PM", "4:05 PM"),
        (datetime(2026, 5, 2, 0, 5, 9), "h AM/PM", "12 AM"),
        (datetime(2026, 5, 2, 16, 5, 9), "hh:mm:ss", "16:05:09"),
        (datetime(2026, 5, 2, 16, 5, 9), "mm:ss", "05:09"),
        (datetime(2026, 5, 2, 16, 5, 9), "dd/mm/yyyy hh:mm", "02/05/2026 16:05"),
        (time(16, 5), "h:mm", "16:05"),
    ],
)
def test_dates(value: object, code: str, text: str) -> None:
    assert shown(value, code) == (text, True)


@pytest.mark.parametrize(
    ("value", "code", "text"),
    [
        (date(2026, 5, 2), "mm-dd-yy", "2026-05-02"),  # format 14: looks as the machine is set
        (datetime(2026, 5, 2, 16, 5), "[h]:mm", "2026-05-02 16:05:00"),
        (1234.5, "0.00E+00", "1234.5"),
        (0.5, "# ?/?", "0.5"),
        (1_200_000, "0.0,,", "1200000"),
        (timedelta(hours=30), "[h]", "1 day, 6:00:00"),
    ],
)
def test_a_form_that_is_not_known_is_told_and_written_plainly(value: object, code: str, text: str) -> None:
    assert shown(value, code) == (text, False)


def test_general_numbers_have_up_to_15_digits() -> None:
    """IEEE 754 doubles carry 15 decimal digits; 0.1 + 0.2 is typed as 0.3."""
    assert [plain(one) for one in (7, 0.1 + 0.2, 1e21, 123456789012, 2.50)] == [
        "7", "0.3", "1e+21", "123456789012", "2.5",
    ]  # fmt: skip
    assert shown(True, "General") == ("TRUE", True)
    assert shown("007", "General") == ("007", True)
