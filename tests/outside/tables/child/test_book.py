"""The rows of a sheet are counted as they are unpacked, wherever the blocks end."""

from __future__ import annotations

import io

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.tables.child import book

ROWS = b'<sheetData><row r="1"><c><v>a > b</v></c></row><x:row spans="1:2" r="12"/><row r="7"></row></sheetData>'


@pytest.mark.parametrize("block", [*range(35, len(ROWS) + 1, 5), 1 << 20])
def test_a_row_out_of_order_is_seen_wherever_a_block_ends(monkeypatch: pytest.MonkeyPatch, block: int) -> None:
    monkeypatch.setattr(book, "_BLOCK", block)
    with pytest.raises(WrapwrightError, match="row 7 stands after row 12"):
        book._in_order(io.BytesIO(ROWS))
    book._in_order(io.BytesIO(ROWS.replace(b'"7"', b'"70"')))


def test_a_long_text_is_no_open_tag(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is not carried from block to block: 300 MB of blanks in a sheet would take a minute and a half."""
    monkeypatch.setattr(book, "_BLOCK", 64)
    book._in_order(io.BytesIO(b'<row r="1"><t>' + b" " * 10_000 + b'</t></row><row r="2"></row>'))
    with pytest.raises(WrapwrightError, match="a tag of its sheet does not end"):
        book._in_order(io.BytesIO(b'<row r="1"><t' + b" " * 10_000 + b"></t></row>"))
