"""Sheets of several jobs, read back from the PDF by other programs."""

from __future__ import annotations

import hashlib
import itertools
import math
import subprocess
from pathlib import Path

import numpy as np
import pikepdf
import pytest
from scipy import ndimage
from tests.jobs.lay.order import MUG, SHEETS, Kitchen, kitchen, rendered, report_in
from tests.outside.documents.reading import spoken
from tests.witness import need

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.jobfile.together.report import TogetherReport

DPI = 600
PITCH = 25.4 / DPI
WITHIN_MM = 0.05


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Kitchen:
    made = kitchen(tmp_path_factory.mktemp("lay"))
    made.make()
    return made


@pytest.fixture(scope="module")
def report(shop: Kitchen) -> dict:
    return report_in(shop.place / "out")


def pieces_of(report: dict) -> list[tuple[dict, dict]]:
    return [(sheet, piece) for sheet in report["sheets"] for piece in sheet["pieces"]]


def test_all_files_are_there_and_named(shop: Kitchen, report: dict):
    names = {one.name for one in (shop.place / "out").iterdir()}
    papers = {f"{job}-{paper}.pdf" for job in ("mug", "cup", "tag") for paper in ("proof", "ticket")}
    assert names == {"sheets.pdf", "cut-list.pdf", "report.json"} | papers
    for one in report["files"]:
        data = (shop.place / "out" / one["path"]).read_bytes()
        assert (hashlib.sha256(data).hexdigest(), len(data)) == (one["sha256"], one["bytes"])
    assert {one["path"] for one in report["files"]} == names - {"report.json"}


def test_a_ticket_says_which_pieces_are_its_own_and_leads_to_the_cut_list(shop: Kitchen, tmp_path: Path):
    said = [spoken((shop.place / "out" / f"{job}-ticket.pdf").read_bytes(), tmp_path) for job in ("mug", "cup", "tag")]
    for words, own in zip(said, ("Pieces 1–2 lie", "Piece 3 lies", "Pieces 4–8 lie"), strict=True):
        assert f"{own} on sheets with others" in words
        assert "the cut list has the strokes" in words


def test_the_report_is_its_own_models(report: dict):
    assert TogetherReport.model_validate(report).model_dump(mode="json") == report
    assert [job["quantity"] for job in report["jobs"]] == [2, 1, 5]
    pieces = [piece for _, piece in pieces_of(report)]
    assert sorted(piece["piece"] for piece in pieces) == list(range(1, 9))
    assert all(piece["mirrored"] for piece in pieces)
    assert {piece["code"][:4] for piece in pieces} == {"A17-", "A18-"}
    assert report["lay"]["strokes"] == len(report["cuts"]) > 0


def centre(job: int, square: str) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where a square's centre lies from the lower left corner of the trim's box as seen, and that box; by hand.

    One whole turn is girth + pi t (t 0.12 mm). The seam lies at the left: the front a quarter turn on, the right side
    half a turn on. On the taper theta = (C1 - C2) / s and places lie at r = lower / theta + up about the apex; the
    overlap of 5 mm is a strip beside the right end.
    """
    up = 20.0 if square == "large" else (45.0 if job == 3 else 50.0)
    if job == 3:
        return (22.5 + (12.0 if square == "large" else 0.0), up), (45.0, 60.0)
    share = 0.5 if square == "large" else 0.25
    if job == 1:
        whole = 180.0 + math.pi * 0.12
        return (whole * share, up), (whole + 5.0, 70.0)
    lower, upper = 190.0 + math.pi * 0.12, 230.0 + math.pi * 0.12
    theta = (upper - lower) / 75.0
    inner, outer = lower / theta, upper / theta

    def at(radius: float, angle: float) -> tuple[float, float]:
        return radius * math.sin(angle), radius * math.cos(angle) - inner

    # Each end of the box: left end on the seam's line; right end 5 mm beside it, parallel.
    left = at(outer, -theta / 2)[0]
    beyond = theta / 2 + math.asin(5.0 / outer)
    right = max(at(outer, beyond)[0], left)
    low = min(at(inner, -theta / 2)[1], at(inner, theta / 2 + math.asin(5.0 / inner))[1])
    x, y = at(inner + up, theta * (share - 0.5))
    return (x - left, y - low), (right - left, outer - inner - low)


def expected(piece: dict, square: str) -> tuple[float, float]:
    """Where a square's centre lies on the page: mirrored left to right, turned anticlockwise, in the reported box."""
    (x, y), (wide, high) = centre(piece["job"], square)
    x = wide - x
    size = {0: (x, y), 90: (high - y, x), 180: (wide - x, high - y), 270: (y, wide - x)}[piece["turn_deg"]]
    return piece["x_mm"] + size[0], piece["y_mm"] + size[1]


def squares(shop: Kitchen, sheet: dict, piece: dict) -> dict[str, tuple[float, float]]:
    """The centres of the two squares within a piece's box, page mm, by counting ink."""
    high = sheet["height_mm"]
    first = (round(piece["x_mm"] / PITCH), round((high - piece["y_mm"] - piece["height_mm"]) / PITCH))
    size = (round(piece["width_mm"] / PITCH), round(piece["height_mm"] / PITCH))
    page = rendered(shop.place / "out" / "sheets.pdf", sheet["page"], DPI, shop.place, crop=(*first, *size))
    labels, _count = ndimage.label(page < 100)
    found = {}
    for index, box in enumerate(ndimage.find_objects(labels), 1):
        tall, wide = ((one.stop - one.start) * PITCH for one in box)
        inside = labels[box] == index
        for name, side in (("large", 8.0), ("small", 5.0)):
            if abs(wide * tall * inside.mean() - side * side) < 0.1 * side * side:
                row, column = ndimage.center_of_mass(inside)
                x = (first[0] + box[1].start + column + 0.5) * PITCH
                y = high - (first[1] + box[0].start + row + 0.5) * PITCH
                found[name] = (x, y)
    return found


def test_every_piece_is_mirrored_in_its_place_and_true(shop: Kitchen, report: dict):
    turns = set()
    for sheet, piece in pieces_of(report):
        (_, _), (wide, high) = centre(piece["job"], "large")
        box = (wide, high) if piece["turn_deg"] % 180 == 0 else (high, wide)
        assert (piece["width_mm"], piece["height_mm"]) == pytest.approx(box, abs=0.001)
        found = squares(shop, sheet, piece)
        assert set(found) == {"large", "small"}
        for name, at in found.items():
            assert at == pytest.approx(expected(piece, name), abs=WITHIN_MM), (piece["piece"], name)
        turns.add(piece["turn_deg"] % 180)
    assert turns == {0, 90}


def test_trims_keep_the_gutter_and_ink_stays_within_the_margins(shop: Kitchen, report: dict):
    for sheet in report["sheets"]:
        boxes = [
            (one["x_mm"], one["y_mm"], one["x_mm"] + one["width_mm"], one["y_mm"] + one["height_mm"])
            for one in sheet["pieces"]
        ]
        for one, other in itertools.combinations(boxes, 2):
            apart = max(other[0] - one[2], one[0] - other[2], other[1] - one[3], one[1] - other[3])
            assert apart >= 3.0 - 1e-6
        page = rendered(shop.place / "out" / "sheets.pdf", sheet["page"], 100, shop.place)
        edge = int(3.9 / 25.4 * 100)
        bare = np.ones_like(page, dtype=bool)
        bare[edge:-edge, edge:-edge] = False
        assert (page[bare] == 255).all()
        assert (page < 255).any()


def test_every_code_is_read_by_another_decoder(shop: Kitchen, report: dict):
    """ISO/IEC 16022: Debian's dmtxread finds each piece's own code on the page at 300 ppi, as it is printed."""
    program = need("dmtxread")
    for sheet in report["sheets"]:
        rendered(shop.place / "out" / "sheets.pdf", sheet["page"], 300, shop.place)
        picture = shop.place / f"page-{sheet['page']}-300.pgm"
        command = [program, "-n", "-m", "20000", "-N", str(len(sheet["pieces"])), "-e", "30", "-E", "140", str(picture)]
        read = subprocess.run(command, capture_output=True, text=True, check=False).stdout.split()
        assert sorted(read) == sorted(piece["code"] for piece in sheet["pieces"])


def test_labels_read_the_right_way_beside_art_that_does_not(shop: Kitchen):
    """A mirrored code is read all the same, so a code never proves which way round the art lies: the words do.

    On the page a form is placed by a matrix; one with a determinant below 0 mirrors. Those of the art do, those of the
    labels do not.
    """
    with pikepdf.open(shop.place / "out" / "sheets.pdf") as pdf:
        for page in pdf.pages:
            labels = [place for place, name in forms_placed(page) if name.startswith("S")]
            assert len(labels) > 3
            assert not any(mirrors(place) for place in labels)
            forms = {name: page.Resources.XObject[f"/{name}"] for _, name in forms_placed(page) if name.startswith("P")}
            assert forms
            for form in forms.values():
                inner = [one.operands for one in pikepdf.parse_content_stream(form) if str(one.operator) == "cm"]
                assert mirrors([float(one) for one in inner[-1]])


def mirrors(matrix: list[float]) -> bool:
    a, b, c, d = matrix[:4]
    return a * d - b * c < 0.0


def forms_placed(page: pikepdf.Page) -> list[tuple[list[float], str]]:
    """The matrix and the name of each form that a page draws, where it draws one by itself."""
    found, matrix = [], []
    for one in pikepdf.parse_content_stream(page):
        if str(one.operator) == "cm":
            matrix = [float(value) for value in one.operands]
        elif str(one.operator) == "Do":
            found.append((matrix, str(one.operands[0]).removeprefix("/")))
    return found


def test_each_art_is_in_the_file_once(shop: Kitchen, report: dict):
    """Five tags in one or two turns: as many images as there are turns and places on the grid, not five."""
    with pikepdf.open(shop.place / "out" / "sheets.pdf") as pdf:
        images = [one for one in pdf.objects if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Image"]
    ways = {(piece["job"], piece["turn_deg"]) for _, piece in pieces_of(report) if piece["pixels_sha256"]}
    assert len(images) == len(ways)


def test_the_same_jobs_give_the_same_bytes(shop: Kitchen):
    shop.make("again")
    for name in ("sheets.pdf", "report.json", "cut-list.pdf", "mug-ticket.pdf"):
        assert (shop.place / "again" / name).read_bytes() == (shop.place / "out" / name).read_bytes()


BAD = {
    "no pieces": ("quantity = 2", "quantity = 0", "piece 1: quantity", "0 is less than the limit of 1"),
    "too many": ("quantity = 2", "quantity = 100000", "quantity", "100006 in all; the limit is 100000"),
    "far too many": ("quantity = 2", "quantity = 100001", "piece 1: quantity", "more than the limit of 100000"),
    "negative gutter": ("[sheet]", '[lay]\ngutter = "-3 mm"\n[sheet]', "lay: gutter", "-3 mm is less than 0"),
    "a roll of no width": ('paper = "Letter"', "paper = { roll = 0 }", "sheet: paper", "0 mm wide"),
    "no such job": ('"mug.toml"', '"mugg.toml"', "mugg.toml", "no such job file"),
    "papers twice": ('paper = "Letter"', 'paper = "A4"\npapers = [{ paper = "A3" }]', "sheet", "both given"),
    "unknown key": ("[sheet]", "[lay]\ngap = 3\n[sheet]", "lay", 'the key "gap" is not known'),
}


@pytest.mark.parametrize("case", BAD)
def test_what_cannot_be_meant_is_refused_in_a_sentence(shop: Kitchen, case: str):
    old, new, where, said = BAD[case]
    shop.write(bad__toml=SHEETS.replace(old, new, 1))
    with pytest.raises(WrapwrightError) as caught:
        shop.make("bad", "bad.toml")
    assert caught.value.kind is Kind.UNUSABLE
    assert where in caught.value.where
    assert said in caught.value.message
    assert not (shop.place / "bad").exists()


def test_a_piece_larger_than_any_paper_is_refused_with_what_would_do(shop: Kitchen):
    shop.write(bad__toml=SHEETS.replace('paper = "Letter"', 'paper = "100 x 150 mm"'))
    with pytest.raises(WrapwrightError, match="does-not-fit") as caught:
        shop.make("bad", "bad.toml", accept=frozenset({"all"}))
    assert caught.value.kind is Kind.CHECKS
    said = [one.message for one in caught.value.findings if one.rule == "does-not-fit"]  # type: ignore[attr-defined]
    assert len(said) == 2  # the mug and the cup; the tags fit
    start = "Regatta mug: The wrap is 185.4 x 70.0 mm and 100 x 150 mm can print 142.0 mm x 92.0 mm"
    assert said[0].startswith(start)
    assert not (shop.place / "bad").exists()


def test_problems_of_several_jobs_are_listed_together(shop: Kitchen):
    broken = "format = 1\n[blank]\nkind = 'straight'\ngirth = '1 km'\nwall = '70 mm'\n"
    shop.write(one__toml=broken, two__toml=broken)
    shop.write(bad__toml=SHEETS.replace('"mug.toml"', '"one.toml"').replace('"cup.toml"', '"two.toml"'))
    with pytest.raises(WrapwrightError, match="girth") as caught:
        shop.make("bad", "bad.toml")
    assert {one.where.split(":")[0] for one in caught.value.problems} == {"one.toml", "two.toml"}  # type: ignore[attr-defined]


def test_nothing_is_overwritten_without_force(shop: Kitchen, report: dict):
    assert report["format"] == 1
    with pytest.raises(WrapwrightError, match="already holds") as caught:
        shop.make()
    assert caught.value.kind is Kind.REFUSED


def test_too_few_sheets_at_hand_are_refused(shop: Kitchen):
    paper = 'papers = [{ paper = "Letter", at_hand = 1 }]'
    shop.write(bad__toml=SHEETS.replace('paper = "Letter"', paper).replace("quantity = 5", "quantity = 60"))
    with pytest.raises(
        WrapwrightError, match=r"the sheets at hand \(1 of Letter\) hold \d+ of the 63 pieces"
    ) as caught:
        shop.make("bad", "bad.toml")
    assert caught.value.kind is Kind.UNUSABLE


def test_a_job_gives_way_to_the_sheets_with_a_note(shop: Kitchen, report: dict):
    assert any("gives way to that of the sheets" in note for note in report["jobs"][0]["notes"])


def test_a_folder_that_may_not_be_written(shop: Kitchen):
    file = Path(shop.place / "square.svg")
    with pytest.raises(WrapwrightError, match="a folder is needed"):
        shop.make(f"{file.name}")


def test_a_wrap_in_panels_is_laid_panel_by_panel(shop: Kitchen):
    """420 mm round does not go on Letter; in two panels it does, and each says which panel it meets."""
    big = MUG.replace('girth = "180 mm"', 'girth = "420 mm"').replace(
        'bleed = "1 mm"', 'bleed = "1 mm"\npanels = "auto"'
    )
    shop.write(big__toml=big, panels__toml=SHEETS[: SHEETS.index("[[piece]]")] + '[[piece]]\njob = "big.toml"\n')
    made = shop.make("panels", "panels.toml")
    pieces = [piece for sheet in made.report["sheets"] for piece in sheet["pieces"]]
    assert sorted((piece["piece"], piece["panel"]) for piece in pieces) == [(1, 1), (1, 2)]
    whole = 420.0 + math.pi * 0.12
    overlaps = sum(max(piece["width_mm"], piece["height_mm"]) for piece in pieces) - whole
    assert 5.0 < overlaps < 15.0  # the seam's own 5 mm, and that of the join
    assert any("2 panels" in note for note in made.report["jobs"][0]["notes"])
