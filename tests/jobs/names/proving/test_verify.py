"""A proof finds what was changed, each in one sentence; a code that it reads is what an outside reader reads."""

from __future__ import annotations

import csv
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest
from tests.jobs.names.proving.conftest import OWN, Spoilt, contents, words
from tests.witness import need

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.proving.values import NamesUnprovenError, VerifyNames
from wrapwright.jobs.names.proving.verify import verify_names
from wrapwright.outside.codes.reading import matrix_text
from wrapwright.outside.pdf.listed.reading import SheetsRead


def manifest(folder: Path, change: Callable[[list[list[str]]], None]) -> None:
    with (folder / "manifest.csv").open(encoding="utf-8", newline="") as stream:
        rows = list(csv.reader(stream))
    change(rows)
    with (folder / "manifest.csv").open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream, lineterminator="\r\n").writerows(rows)


def test_what_was_made_is_proved(made: Path, bench: Bench) -> None:
    found = verify_names(VerifyNames(made), bench, Watch())
    assert (found.rows, found.pieces, found.codes, found.shapes, found.pages) == (10, 11, 11, 11, 4)
    assert (found.alone, found.pixels, found.flaw_count) == (1, 0, 0)


def test_the_codes_that_are_proved_are_those_that_an_outside_reader_reads(made: Path, tmp_path: Path) -> None:
    """ISO/IEC 16022: Debian's dmtxread on the first page as poppler renders it at 300 ppi."""
    program = need("dmtxread")
    draw = [
        need("pdftoppm"),
        "-r",
        "300",
        "-f",
        "1",
        "-l",
        "1",
        "-gray",
        str(made / "sheets.pdf"),
        str(tmp_path / "page"),
    ]
    subprocess.run(draw, check=True)
    picture = next(tmp_path.glob("page*.pgm"))
    read = subprocess.run(
        [program, "-n", "-m", "20000", "-N", "3", "-e", "30", "-E", "140", str(picture)],
        capture_output=True, text=True, check=False,
    ).stdout.split()  # fmt: skip
    with SheetsRead(made / "sheets.pdf") as sheets:
        ours = [matrix_text(one.modules) for one in sheets.page(0).codes]
    assert sorted(read) == sorted(ours)
    assert [code.rpartition("-")[2] for code in ours] == ["1", "2", "3"]


def test_two_names_that_changed_places_are_told_as_such(spoilt: Spoilt) -> None:
    def swap(pages: list[bytes]) -> list[bytes]:
        one, other = OWN.search(pages[0]), OWN.search(pages[1])
        assert one is not None
        assert other is not None
        pages[0] = pages[0].replace(one[0], other[0], 1)
        pages[1] = pages[1].replace(other[0], one[0], 1)
        return pages

    found = spoilt(lambda folder: contents(folder, swap))
    assert {one.kind for one in found} == {"outline"}
    assert 'Piece 1 (row 2, "Ada") on page 1 of sheets.pdf is drawn as piece 4 (row 5, "Łukasz").' in words(found)
    assert 'is drawn as piece 1 (row 2, "Ada").' in words(found)


def test_a_page_that_is_missing_is_told_once(spoilt: Spoilt) -> None:
    def cut(folder: Path) -> None:
        with pikepdf.open(folder / "sheets.pdf", allow_overwriting_input=True) as pdf:
            del pdf.pages[2]
            pdf.save(folder / "sheets.pdf")

    found = spoilt(cut)
    said = words(found)
    assert "sheets.pdf has 3 pages, and 4 were made." in said
    assert "Page 3 of sheets.pdf is missing." in said
    assert 'Piece 7 (row 7, "Dora") is on no page; the manifest says page 3 of sheets.pdf.' in said
    assert sorted(one.kind for one in found) == ["missing", "missing", "missing", "page", "page"]


def test_a_piece_that_stands_twice_is_told_with_the_one_that_lacks(spoilt: Spoilt) -> None:
    def twice(pages: list[bytes]) -> list[bytes]:
        return [pages[0], pages[0], *pages[2:]]

    found = spoilt(lambda folder: contents(folder, twice))
    said = words(found)
    assert "Piece 1 stands in the sheets once more than it should: page 2 of sheets.pdf." in said
    assert 'Piece 4 (row 5, "Łukasz") is on no page' in said


def test_one_letter_of_what_a_piece_says_is_enough(spoilt: Spoilt) -> None:
    def letter(pages: list[bytes]) -> list[bytes]:
        return [page.replace(b"(Bob)", b"(Bop)") for page in pages]

    found = spoilt(lambda folder: contents(folder, letter))
    assert words(found) == 'Piece 2 (row 3, "Bob") says "Bop" in who, and its row says "Bob".'


def test_a_point_that_was_moved_by_a_tenth_of_a_millimetre_is_found(spoilt: Spoilt) -> None:
    def move(pages: list[bytes]) -> list[bytes]:
        own = OWN.search(pages[0])
        assert own is not None
        head, curve, rest = re.split(rb"(\d+ \d+ \d+ \d+ \d+ \d+ c\n)", own[0], maxsplit=1)
        numbers = curve.split()
        numbers[0] = b"%d" % (int(numbers[0]) + 19)  # of 0.015 pt each
        pages[0] = pages[0].replace(own[0], head + b" ".join(numbers) + b"\n" + rest)
        return pages

    found = spoilt(lambda folder: contents(folder, move))
    assert [one.kind for one in found] == ["outline"]
    said = re.fullmatch(r"Piece 1 .* 1 of \d+ curves are off, by up to (0\.\d+) mm\.", found[0].words)
    assert said is not None
    assert abs(float(said[1]) - 0.1005) < 0.006


def test_a_piece_that_was_moved_and_one_in_another_colour_are_told_as_such(spoilt: Spoilt) -> None:
    def move(pages: list[bytes]) -> list[bytes]:
        own = re.search(rb"1 0 0 1 ([\d.]+) [\d.]+ cm 0.015 0 0 0.015 0 0 cm", pages[0])
        assert own is not None
        away = own[0].replace(own[1], b"%.4f" % (float(own[1]) + 2.0), 1)
        pages[0] = pages[0].replace(own[0], away, 1)
        pages[1] = pages[1].replace(b"0.478431 0.180392 0.113725 scn", b"0.478431 0.180392 0.213725 scn", 1)
        return pages

    found = spoilt(lambda folder: contents(folder, move))
    assert sorted(one.kind for one in found) == ["colour", "place"]
    assert "lies 0.71 mm from where the manifest says" in words(found)


def test_a_code_that_says_another_piece_is_found(spoilt: Spoilt) -> None:
    code = re.compile(rb"(?<=cm\n)(?:\d+ \d+ \d+ \d+ re\n)+f")

    def swap(pages: list[bytes]) -> list[bytes]:
        one, other = code.findall(pages[0])[0], code.findall(pages[1])[0]
        pages[0] = pages[0].replace(one, other, 1)
        return pages

    found = spoilt(lambda folder: contents(folder, swap))
    said = re.fullmatch(
        r'The code beside piece 1 \(.*\) on page 1 .* says "(\w+)-4", and should say "(\w+)-1"\.', words(found)
    )
    assert said is not None
    assert said[1] == said[2]


def test_art_that_all_share_and_that_a_piece_lacks_is_found(spoilt: Spoilt) -> None:
    def bare(pages: list[bytes]) -> list[bytes]:
        pages[3] = re.sub(rb"q [^\n]*/V\w+ Do Q Q\n", b"", pages[3], count=1)
        return pages

    found = spoilt(lambda folder: contents(folder, bare))
    assert [one.kind for one in found] == ["outline"]
    assert "lacks art that all pieces share" in found[0].words


def test_a_file_that_is_cut_short_or_gone_is_told(spoilt: Spoilt) -> None:
    def cut(folder: Path) -> None:
        data = (folder / "sheets.pdf").read_bytes()
        (folder / "sheets.pdf").write_bytes(data[: len(data) // 2])
        (folder / "cut-list.pdf").unlink()

    found = spoilt(cut)
    said = words(found)
    assert re.search(r"sheets\.pdf is cut short: it has \d+ of \d+ bytes\.", said)
    assert "Sheets.pdf cannot be read: the file is cut short or damaged." in said
    assert "cut-list.pdf is not there." in said
    assert sum(one.kind == "missing" for one in found) == 11


def test_a_line_of_the_manifest_that_is_gone_is_found_on_both_sides(spoilt: Spoilt) -> None:
    found = spoilt(lambda folder: manifest(folder, lambda rows: rows.pop(2)))
    said = words(found)
    assert 'Row 3 ("Bob") of the list stands nowhere in manifest.csv.' in said
    assert "Page 1 of sheets.pdf has piece 2, of which manifest.csv does not tell." in said


def test_a_sheet_and_an_end_that_the_manifest_says_wrongly_are_found(spoilt: Spoilt) -> None:
    def change(rows: list[list[str]]) -> None:
        rows[2][6] = "3"
        rows[3][3] = "refused"

    said = words(spoilt(lambda folder: manifest(folder, change)))
    assert 'manifest.csv says piece 2 (row 3, "Bob") is on sheet 3, and its page is sheet 1.' in said
    assert "Page 1 of sheets.pdf has piece 3, of which manifest.csv does not tell." in said
    assert "manifest.csv has 9 of its rows as made, and the report 10." in said
    assert "manifest.csv has 1 of its rows as refused, and the report 0." in said


def test_a_name_in_the_manifest_and_a_row_that_changed_since_are_found(
    spoilt: Spoilt, made: Path, bench: Bench, job: Path, tmp_path: Path
) -> None:
    def rename(rows: list[list[str]]) -> None:
        rows[2][5] = "Rob"

    found = spoilt(lambda folder: manifest(folder, rename))
    assert words(found) == 'manifest.csv calls row 3 "Rob", and the list calls it "Bob".'
    for file in job.parent.iterdir():
        if file.is_file():
            (tmp_path / file.name).write_bytes(file.read_bytes())
    table = tmp_path / "crew.csv"
    table.write_text(table.read_text(encoding="utf-8").replace("Dora", "Nora"), encoding="utf-8", newline="\n")
    with pytest.raises(NamesUnprovenError) as stop:
        verify_names(VerifyNames(made, tmp_path / job.name), bench, Watch())
    assert stop.value.kind is Kind.CHECKS
    said = [one.words for one in stop.value.verified.flaws]
    assert said[0] == 'Row 7 is "Nora" now, and was another when its pieces were made ("Dora").'
    assert any('says "Dora" in who, and its row says "Nora"' in one for one in said)


def test_a_folder_that_names_did_not_leave_is_refused(tmp_path: Path, bench: Bench, made: Path) -> None:
    with pytest.raises(WrapwrightError, match=r"has no report\.json"):
        verify_names(VerifyNames(tmp_path), bench, Watch())
    with pytest.raises(WrapwrightError) as gone:
        verify_names(VerifyNames(tmp_path / "none"), bench, Watch())
    assert gone.value.kind is Kind.MISSING
    for name in ("report.json", "manifest.csv"):
        (tmp_path / name).write_bytes((made / name).read_bytes())
    with pytest.raises(WrapwrightError, match=r"regatta\.toml that these sheets were made of does not lie beside"):
        verify_names(VerifyNames(tmp_path), bench, Watch())
