"""The contact sheet shows every row as seen, in both orders; the handling list every piece in the tray's."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Callable
from datetime import date
from itertools import pairwise
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from PIL import Image
from tests.witness import need

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.names.making.places import Places
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.contact.choosing import ALL_UP_TO, LONGEST, SAMPLE, chosen, cut_key
from wrapwright.jobs.names.contact.contact import contact_pdf
from wrapwright.jobs.names.contact.handling import handling_pdf, in_cut_order
from wrapwright.jobs.names.contact.show_contact import ShowContact, show_contact
from wrapwright.jobs.names.deciding import decide_names
from wrapwright.jobs.names.making.planning import Wanted, plan
from wrapwright.jobs.names.opening import open_list
from wrapwright.jobs.names.signing import SignNames, sign_names
from wrapwright.jobs.names.values import DecideNames

Given = Callable[..., Path]
JOB = """format = 1
title = "Regatta"
[blank]
kind = "straight"
girth = 90
wall = 34
coating = "#ffff00"
[wrap]
seam = "left"
overlap = "4 mm"
bleed = "1 mm"
[sheet]
paper = [152.4, 127]
ppi = 150
[[element]]
kind = "text"
name = "name"
text = "{name}"
width = "22 mm"
height = "8 mm"
colour = "#ff0000"
[names]
file = "crew.csv"
quantity = "Pieces"
"""
HEADER = "name,Pieces"
NAMES = ("Ada", "Bob", "Cyd", "Dora", "Eve", "Fay", "Gus", "Hal", "Ida", "Jo B")


def pages(file: Path) -> list[str]:
    done = subprocess.run([need("pdftotext"), "-raw", str(file), "-"], capture_output=True, check=True)
    return done.stdout.decode("utf-8").split("\f")[:-1]


def test_every_row_stands_on_it_in_the_files_order_and_in_that_of_cutting(
    given: Given, bench: Bench, tmp_path: Path
) -> None:
    job = given(*(f"{name},{2 if name == 'Bob' else 1}" for name in NAMES), header=HEADER, job=JOB)
    decide_names(DecideNames(job, "skip", (5,)), bench, Watch())
    sign_names(SignNames(job, "M. Weir", date(2026, 5, 2)), bench, Watch())
    decide_names(DecideNames(job, "edit", (4,), None, {"name": "Cid"}), bench, Watch())
    digest = show_contact(ShowContact(job, tmp_path / "contact.pdf", seconds=0.0), bench, Watch())
    head, *rest = pages(tmp_path / "contact.pdf")
    by_row = "\n".join(one for one in rest if one.startswith("In the order of the file"))
    by_cut = "\n".join(one for one in rest if one.startswith("In the order the sheets are cut"))
    assert "".join(head.split()).find(digest) > 0
    for said in (
        "Name",
        "Date",
        "Signature",
        "Signed off by M. Weir on 2026-05-02, 10 rows.",
        "Left out, no piece is made: row 5.",
    ):
        assert said in " ".join(head.split())
    assert "Cid edited after the sign-off; changed over the table: name" in " ".join(head.split())
    kept = ["Ada", "Bob", "Cid", "Eve", "Fay", "Gus", "Hal", "Ida", "Jo B"]
    rows = {"Ada": 2, "Bob": 3, "Cid": 4, "Eve": 6, "Fay": 7, "Gus": 8, "Hal": 9, "Ida": 10, "Jo B": 11}
    listed = [one for one in by_row.splitlines() if one in kept]
    assert listed == kept
    assert all(re.search(rf"{name}\nrow {rows[name]} · pieces? ", by_row) for name in kept)
    assert "row 3 · pieces 2–3" in by_row
    # Four on a sheet, three sheets in a stack: first the three at the first place, then those at the second.
    cut = ["Ada", "Eve", "Ida", "Bob", "Fay", "Jo B", "Gus", "Cid", "Hal"]
    assert [one for one in by_cut.splitlines() if one in kept] == cut


def test_it_shows_pieces_as_seen_and_on_their_coating(given: Given, bench: Bench, tmp_path: Path) -> None:
    """A red L on yellow: its foot lies to the right of its stem, as a mirrored one's would not."""
    job = given("L,1", header=HEADER, job=JOB)
    show_contact(ShowContact(job, tmp_path / "contact.pdf", seconds=0.0), bench, Watch())
    draw = [
        need("pdftoppm"),
        "-r",
        "300",
        "-f",
        "2",
        "-l",
        "2",
        "-png",
        str(tmp_path / "contact.pdf"),
        str(tmp_path / "page"),
    ]
    subprocess.run(draw, check=True)
    with Image.open(next(tmp_path.glob("page*.png"))) as picture:
        pixels = np.asarray(picture.convert("RGB")).astype(int)
    yellow = (pixels[..., 0] > 240) & (pixels[..., 1] > 240) & (pixels[..., 2] < 30)
    red = (pixels[..., 0] > 200) & (pixels[..., 1] < 60) & (pixels[..., 2] < 60)
    rows, columns = np.nonzero(yellow)
    assert (columns.max() - columns.min()) / 300 * 25.4 > 60.0
    rows, columns = np.nonzero(red[: rows.max()])
    letter = red[rows.min() : rows.max() + 1, columns.min() : columns.max() + 1]
    # The close-up below is an L as well: the uppermost run of rows with red is the piece's own.
    first = letter[: np.flatnonzero(~letter.any(axis=1))[0]]
    first = first[:, np.flatnonzero(first.any(axis=0))[0] : np.flatnonzero(first.any(axis=0))[-1] + 1]
    assert first[: len(first) // 2].any(axis=0).nonzero()[0].max() < first.shape[1] / 2
    assert first[-2].mean() > 0.8


def test_a_long_list_is_shown_by_a_sample_the_longest_and_every_exception(given: Given, bench: Bench) -> None:
    rows = [f"{'N' if number % 97 else 'Wilhelmina the first '}{number},1" for number in range(2, 1202)]
    job = given(*rows, header=HEADER, job=JOB)
    decide_names(DecideNames(job, "skip", (9,)), bench, Watch())
    decide_names(DecideNames(job, "edit", (700,), None, {"name": "M700"}), bench, Watch())
    choice = chosen(open_list(job, None, bench), None, {11: "no font has it"}, frozenset({800}))
    numbers = [one.row.number for one in choice.shown]
    assert len(rows) > ALL_UP_TO
    assert (choice.rows, choice.skipped, choice.exceptions, choice.whole) == (1199, (9,), 3, False)
    assert {11, 700, 800} <= set(numbers)
    assert {number for number in range(2, 1202) if number % 97 == 0} <= set(numbers)
    assert SAMPLE <= len(numbers) <= SAMPLE + LONGEST + 3
    assert numbers == sorted(numbers)
    assert max(b - a for a, b in pairwise(numbers)) < 25
    absent = next(one for one in choice.shown if one.row.number == 11)
    assert absent.absent == "no font has it"
    assert absent.piece == 9  # rows 2 to 8 and 10 come before it


@pytest.mark.parametrize("order", ["rows", "piles"])
@pytest.mark.parametrize(("pieces", "a_sheet", "stack"), [(23, 3, 4), (12, 5, 1), (7, 2, 10), (40, 4, 3)])
def test_the_order_of_cutting_is_that_of_the_sheets(order: str, pieces: int, a_sheet: int, stack: int) -> None:
    places = Places(pieces, a_sheet, order, stack)  # type: ignore[arg-type]
    by_key = sorted(range(pieces), key=lambda index: cut_key(places, index))
    assert [index for index, _ in places.cut_order()] == by_key
    found = list(in_cut_order(places, iter((number, None) for number in range(1, pieces + 1))))  # type: ignore[misc]
    assert [number - 1 for number, _, _ in found] == by_key
    assert all(number - 1 in places.on(sheet - 1) for number, _, sheet in found)


def test_the_handling_list_has_every_piece_in_tray_order(given: Given, bench: Bench, tmp_path: Path) -> None:
    job = given(*(f"{name},{2 if name == 'Bob' else 1}" for name in NAMES), header=HEADER, job=JOB)
    names = open_list(job, None, bench)
    planned = plan(names, Wanted(11, 11, "rows", 0.0), bench, Watch())
    handling_pdf(names, planned, tmp_path / "handling.pdf", bench, Watch(), refused={4: "a broken picture"})
    text = "\n".join(pages(tmp_path / "handling.pdf"))
    found = [
        (int(piece), name, int(row))
        for piece, name, row in re.findall(r"^(\d+) (.+) (\d+) straight, girth 90 mm \d+$", text, re.MULTILINE)
    ]
    should = [index + 1 for index, _ in planned.run.places.cut_order()]
    assert [piece for piece, _, _ in found] == should
    assert (1, "Ada", 2) in found
    assert (3, "Bob", 3) in found
    assert (4, "not made: a broken picture", 4) in found
    again = tmp_path / "again.pdf"
    handling_pdf(names, planned, again, bench, Watch(), refused={4: "a broken picture"})
    assert again.read_bytes() == (tmp_path / "handling.pdf").read_bytes()


def test_the_same_list_gives_the_same_bytes_and_the_shared_art_once(given: Given, bench: Bench, tmp_path: Path) -> None:
    job = given(*(f"{name},1" for name in NAMES[:4]), header=HEADER, job=JOB)
    names = open_list(job, None, bench)
    planned = plan(names, Wanted(4, 4, "rows", 0.0), bench, Watch())
    for name in ("one.pdf", "other.pdf"):
        contact_pdf(names, planned, tmp_path / name, bench, Watch())
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "other.pdf").read_bytes()
    with pikepdf.open(tmp_path / "one.pdf") as pdf:
        forms = [one for one in pdf.objects if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Form"]
        assert len(forms) == 4 + 2  # a form a row, the ground, and the hairline


def test_another_ending_and_a_file_that_stands_are_refused(given: Given, bench: Bench, tmp_path: Path) -> None:
    job = given("Ada,1", header=HEADER, job=JOB)
    with pytest.raises(WrapwrightError, match="is a PDF"):
        show_contact(ShowContact(job, tmp_path / "contact.png"), bench, Watch())
    with pytest.raises(WrapwrightError, match="there is no folder"):
        show_contact(ShowContact(job, tmp_path / "none" / "contact.pdf"), bench, Watch())
    (tmp_path / "contact.pdf").write_bytes(b"mine")
    with pytest.raises(WrapwrightError) as stands:
        show_contact(ShowContact(job, tmp_path / "contact.pdf"), bench, Watch())
    assert stands.value.kind is Kind.REFUSED
    assert (tmp_path / "contact.pdf").read_bytes() == b"mine"


def test_all_that_a_row_writes_can_be_read_below_its_piece(given: Given, bench: Bench, tmp_path: Path) -> None:
    second = '[[element]]\nkind = "text"\ntext = "{Seat}"\nsize = "4 mm"\nup = "5 mm"\n[names]'
    job = given("Ada,1,Bow", "Bob,1,", "Cyd,1,Cyd", header="name,Pieces,Seat", job=JOB.replace("[names]", second))
    job.write_text(
        f'{job.read_text("utf-8")}[names.fields]\nSeat = {{ column = "Seat", otherwise = "Club" }}\n', "utf-8"
    )
    show_contact(ShowContact(job, tmp_path / "contact.pdf", order="piles"), bench, Watch())
    words = pages(tmp_path / "contact.pdf")[1]
    assert re.findall(r"^(Ada|Bob|Cyd)\b *(.*)$", words, re.MULTILINE) == [("Ada", "Bow"), ("Bob", "Club"), ("Cyd", "")]
