"""Pages read back by their operators, as ISO 32000-1:2008 has matrices, paths and strings (7.3.4, 8.3, 8.5, 14.6)."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pikepdf
import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.pdf.listed.reading import ReadPage, SheetsRead

PT = 25.4 / 72.0


def page_of(folder: Path, content: str) -> ReadPage:
    with pikepdf.new() as pdf:
        pdf.add_blank_page(page_size=(144, 72))
        pdf.pages[0].Contents = pikepdf.Array([pikepdf.Stream(pdf, content.encode("latin-1"))])
        pdf.save(folder / "page.pdf")
    with SheetsRead(folder / "page.pdf") as sheets:
        assert sheets.count == 1
        return sheets.page(0)


def test_a_path_is_where_its_matrices_put_it(tmp_path: Path) -> None:
    page = page_of(
        tmp_path,
        "/Piece <</Row 12 /Number 34 /T.who (Ada)>> BDC\nq 2 0 0 3 10 20 cm q 0 1 -1 0 0 0 cm 1 0 0 rg\n"
        "1 2 m 5 2 l 5 2.5 4 6 -1 6 c h f Q Q\nEMC",
    )
    assert (page.width_mm, page.height_mm) == pytest.approx((50.8, 25.4))
    piece = page.pieces[0]
    assert (piece.row, piece.number, piece.words) == (12, 34, {"who": "Ada"})
    shape = piece.shapes[0]
    assert (shape.paint, shape.ink) == ("fill", (1.0, 0.0, 0.0))
    found = shape.outline()
    # (x, y) is turned to (-y, x) first, then doubled across, tripled up and shifted: 8.3.4, the inner matrix first.
    wanted = [(10 - 2 * y, 20 + 3 * x) for x, y in [(1, 2), (5, 2), (-1, 6), (1, 2)]]
    assert found.curves[:, 0].tolist() == pytest.approx(np.array(wanted[:3]) * PT)
    assert found.curves[:, 3].tolist() == pytest.approx(np.array(wanted[1:]) * PT)
    assert found.lines.tolist() == [True, False, True]
    assert found.curves[1, 1].tolist() == pytest.approx(np.array([10 - 2 * 2.5, 20 + 3 * 5]) * PT)


@pytest.mark.parametrize(
    ("written", "text"),
    [
        (r"(a \(b\) \\ c)", r"a (b) \ c"),
        (r"(\101da\n)", "Ada\n"),
        ("<FEFF01410075>", "Łu"),
        ("<FEFF005A006F00EB>", "Zoë"),
        ("<FEFFD83DDE00>", "\N{GRINNING FACE}"),
        ("()", ""),
    ],
)
def test_a_text_string_is_read_as_it_is_meant(tmp_path: Path, written: str, text: str) -> None:
    page = page_of(tmp_path, f"/Piece <</Row 1 /Number 1 /T.first#20name {written}>> BDC EMC")
    assert page.pieces[0].words == {"first name": text}


def test_whole_numbers_signs_and_fractions_are_read_alike(tmp_path: Path) -> None:
    head = "/Piece <</Row 1 /Number 1>> BDC "
    whole = page_of(tmp_path, f"{head}-5 12 m 007 -9 l 0 +3 l f EMC").pieces[0].shapes[0].numbers
    broken = page_of(tmp_path, f"{head}-5.0 12. m 7 -9 l .0 +3 l f EMC").pieces[0].shapes[0].numbers
    assert whole.tolist() == broken.tolist() == [-5.0, 12.0, 7.0, -9.0, 0.0, 3.0]


def test_what_only_limits_is_not_drawn_and_a_rectangle_is_four_lines(tmp_path: Path) -> None:
    page = page_of(tmp_path, "/Piece <</Row 1 /Number 1>> BDC 0 0 m 9 0 l 9 9 l h W n 1 2 3 4 re f* EMC")
    shape = page.pieces[0].shapes[0]
    assert len(page.pieces[0].shapes) == 1
    assert shape.paint == "fill even-odd"
    corners = shape.outline().curves[:, 0] / PT
    assert corners.tolist() == pytest.approx(np.array([(1, 2), (4, 2), (4, 6), (1, 6)], dtype=float))


def test_rectangles_outside_pieces_are_a_code_and_other_paths_are_strange(tmp_path: Path) -> None:
    page = page_of(tmp_path, "0 0 m 9 0 l 9 9 l f q 2 0 0 2 10 10 cm 0.5 g 0 0 2 1 re 0 1 1 1 re 2 2 1 1 re f Q")
    assert page.pieces == ()
    code = page.codes[0]
    assert code.modules.tolist() == [[False, False, True], [True, False, False], [True, True, False]]
    assert code.middle == pytest.approx((13.0 * PT, 13.0 * PT))
    assert (code.module_mm, code.ink) == (pytest.approx(2.0 * PT), (0.5,))
    assert page.strange == ("a path beside the pieces",)


def test_a_piece_that_says_nothing_has_no_number(tmp_path: Path) -> None:
    page = page_of(tmp_path, "/Piece /Props BDC 0 0 m 1 1 l S EMC")
    assert (page.pieces[0].row, page.pieces[0].number, page.pieces[0].words) == (0, 0, {})


def test_a_file_that_is_cut_short_is_refused(tmp_path: Path) -> None:
    page_of(tmp_path, "0 0 m 1 1 l S")
    data = (tmp_path / "page.pdf").read_bytes()
    (tmp_path / "page.pdf").write_bytes(data[: len(data) - 60])
    with pytest.raises(WrapwrightError, match="cut short or damaged"):
        SheetsRead(tmp_path / "page.pdf")
    (tmp_path / "page.pdf").write_bytes(b"nothing of the kind")
    with pytest.raises(WrapwrightError, match="cut short or damaged"):
        SheetsRead(tmp_path / "page.pdf")
