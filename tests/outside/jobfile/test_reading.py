"""A job file becomes core values, every key to the letter, and nothing that was not written."""

from __future__ import annotations

import pickle
from dataclasses import fields
from datetime import date
from pathlib import Path

import pytest

from wrapwright.core.blank.readings import Blank, Handle, Keepout, Reading, Tape, WrapRequest
from wrapwright.core.colour.request import ColourRequest
from wrapwright.core.design.elements import Adjust, Code, Fill, Gradient, Mask, Picture, Text, TextOutline, Tile
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.outside.jobfile.job import Job
from wrapwright.outside.jobfile.reading import job_text, read_job

ROOT = Path(__file__).parents[3]
# together.toml is a sheets file.
EXAMPLES = [path for path in sorted((ROOT / "examples").glob("*.toml")) if path.stem != "together"]

SMALLEST = """
format = 1
[blank]
kind = "straight"
girth = "9 1/4 in"
wall = "6 1/2 in"
"""

EVERYTHING = """
format = 1
title = "Weir Street regatta"
quantity = 3
date = "2026-05-02"
accept = ["picture-ppi", "Crosses-Seam"]

[blank]
kind = "Straight"
diameter = "3 in"
wall = 165
coating = "#FFF"
tape = { division = "0.5 mm", thickness = "0.1 mm", kind = "CLASS I" }
handle = { at = "left", gap = "24 mm" }
keepout = [{ at = "front", up = "12 mm", width = "20 mm", height = "8 mm", why = "maker's mark" }]
coated = { from = "4 mm", to = "160 mm" }

[wrap]
band = { from = "10 mm", height = "102 mm" }
bleed = "3 mm"
safe = 5
edge = { rim = "fold", base = "cut" }

[sheet]
paper = { roll = "610 mm" }
margins = [3, "4 mm", 5, 6]
ppi = 600
thickness = "0.1 mm"
grain = "Long"
scale = [1.002, 0.998]

[colour]
route = "convert"
profile = "printer.icc"
intent = "relative"
black_point = false

[[element]]
kind = "fill"
gradient = { from = "#0e3a5a", to = "#88b7c9", along = "45 deg" }

[[element]]
kind = "picture"
name = "crest"
file = "crest.svg"
at = ["front", "112 deg"]
up = "40 mm"
width = "70 mm"
height = "2 in"
fit = "Cover"
lay = "level"
turn = -15
crop = [0.1, 0.0, 0.9, 1.0]
mask = "Rounded 4 mm"
flip = true
adjust = { lightness = -5, chroma = 10 }
opacity = 0.5

[[element]]
kind = "picture"
file = "crest.svg"
width = "Wrap"
join = "blend 12 mm"
mask = "crest.svg"

[[element]]
kind = "tile"
file = "leaf.svg"
width = "30 mm"
gap = "1 mm"
shift = 0.25
turn = 30

[[element]]
kind = "text"
text = "{name}\\n{{crew}}"
font = "Noto Sans"
weight = 700
style = "italic"
width = "90 mm"
height = "16 mm"
align = "start"
leading = 1.5
spacing = "0.2 mm"
direction = "rtl"
language = "ar"
colour = "#ffffff"
outline = { width = "0.6 mm", colour = "#0e3a5a" }
arc = "-30 mm"
around = 3

[[element]]
kind = "code"
text = "regatta 2026"
width = "24 mm"
level = "q"
at = 150

[fields]
name = "Ada"
number = 7

[press]
recipe = "steel-oven"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name in ("crest.svg", "leaf.svg", "printer.icc"):
        (tmp_path / name).write_bytes(b"art")
    return tmp_path


@pytest.fixture
def everything(folder: Path) -> Job:
    return read_job(EVERYTHING, folder=folder, stem="regatta")


def test_left_out_keys_take_the_published_defaults(tmp_path: Path) -> None:
    job = read_job(SMALLEST, folder=tmp_path, stem="bottle")
    assert job == Job(
        title="bottle",
        blank=Blank("straight", (Reading(None, 234.95, "girth", "blank: girth"),), wall_mm=165.1),
        quantity=1,
        date=None,
        accept=frozenset(),
        wrap=WrapRequest(None, None, None, None, 2.0, 4.0, "cut", "cut"),
        sheet=SheetRequest("Letter", 215.9, 279.4, (4.0, 4.0, 4.0, 4.0), 300, 0.12, "unknown", 1.0, 1.0, False),
        colour=ColourRequest("driver", None, "perceptual", True),
    )
    assert job.blank.tape == Tape(1.0, None, "class II")


def test_the_head_of_a_full_job(everything: Job) -> None:
    assert (everything.title, everything.quantity) == ("Weir Street regatta", 3)
    assert everything.date == date(2026, 5, 2)
    assert everything.accept == {"picture-ppi", "crosses-seam"}
    assert everything.fields == {"name": "Ada", "number": "7"}
    assert everything.recipe == "steel-oven"
    assert everything.files == ("printer.icc", "crest.svg", "leaf.svg")


def test_blank_and_wrap_of_a_full_job(everything: Job) -> None:
    assert everything.blank == Blank(
        "straight",
        (Reading(None, pytest.approx(76.2), "diameter", "blank: diameter"),),
        wall_mm=165.0,
        coating="#ffffff",
        tape=Tape(0.5, 0.1, "class I"),
        handle=Handle(270.0, 24.0),
        keepouts=(Keepout(0.0, 12.0, 20.0, 8.0, "maker's mark"),),
        coated=(4.0, 160.0),
    )
    assert everything.wrap == WrapRequest(10.0, 102.0, None, None, 3.0, 5.0, "fold", "cut")


def test_sheet_and_colour_of_a_full_job(everything: Job) -> None:
    assert everything.sheet == SheetRequest(
        "roll 610 mm", 610.0, None, (3.0, 4.0, 5.0, 6.0), 600, 0.1, "long", 1.002, 0.998, True
    )
    assert everything.colour == ColourRequest("convert", "printer.icc", "relative", False)


def test_fill_pictures_and_tile_of_a_full_job(everything: Job) -> None:
    assert everything.elements[0] == Fill(name="fill 1", gradient=Gradient("#0e3a5a", "#88b7c9", 45.0))
    assert everything.elements[1] == Picture(
        name="crest",
        file="crest.svg",
        at_deg=(0.0, 112.0),
        up_mm=40.0,
        width_mm=70.0,
        height_mm=50.8,
        fit="cover",
        lay="level",
        turn_deg=-15.0,
        crop=(0.1, 0.0, 0.9, 1.0),
        mask=Mask("rounded", 4.0),
        flip=True,
        adjust=Adjust(-5.0, 0.0, 10.0),
        opacity=0.5,
    )
    wide = everything.elements[2]
    assert wide == Picture(
        name="picture 2", file="crest.svg", wrap_width=True, join_mm=12.0, mask=Mask("file", file="crest.svg")
    )
    tile = Tile(name="tile 1", file="leaf.svg", width_mm=30.0, gap_mm=1.0, shift=0.25, turn_deg=30.0)
    assert everything.elements[3] == tile


def test_text_and_code_of_a_full_job(everything: Job) -> None:
    text, code = everything.elements[4:]
    assert text == Text(
        name="text 1",
        text="{name}\n{{crew}}",
        font="Noto Sans",
        weight=700,
        style="italic",
        width_mm=90.0,
        height_mm=16.0,
        align="start",
        leading=1.5,
        spacing_mm=0.2,
        direction="rtl",
        language="ar",
        colour="#ffffff",
        outline=TextOutline(0.6, "#0e3a5a"),
        arc_mm=-30.0,
        at_deg=(0.0, 120.0, 240.0),
    )
    assert code == Code(name="code 1", text="regatta 2026", width_mm=24.0, level="Q", at_deg=(150.0,))


@pytest.mark.parametrize(
    ("readings", "expected"),
    [
        ("girth_top = 240\ngirth_bottom = 200\nwall = 150", [("girth", 200.0), ("girth", 240.0)]),
        ("diameter_bottom = 60\ndiameter_top = 80\nheight = 150", [("diameter", 60.0), ("diameter", 80.0)]),
        ("flat_top = 240\nflat_bottom = 200\nwall = 150", [("flat", 200.0), ("flat", 240.0)]),
    ],
)
def test_a_tapered_blank_is_held_bottom_then_top(
    tmp_path: Path, readings: str, expected: list[tuple[str, float]]
) -> None:
    job = read_job(f'format = 1\n[blank]\nkind = "tapered"\n{readings}\n', folder=tmp_path, stem="x")
    assert [(one.how, one.length_mm) for one in job.blank.readings] == expected
    assert (job.blank.wall_mm is None) == ("height" in readings)


def test_a_profile_keeps_its_rows(tmp_path: Path) -> None:
    rows = 'readings = [["0 mm", "226 mm"], ["40 mm", "231 mm"], ["9 cm", 229]]'
    job = read_job(f'format = 1\n[blank]\nkind = "profile"\n{rows}\n', folder=tmp_path, stem="x")
    assert [(one.position_mm, one.length_mm) for one in job.blank.readings] == [(0, 226), (40, 231), (90, 229)]
    assert job.blank.readings[2].where == "blank: readings 3"


def test_a_blank_on_the_shelf_is_found_whatever_its_case(tmp_path: Path) -> None:
    kept = {"kind": "straight", "girth": "255 mm", "wall": "95 mm", "coating": "#f0f0f0"}
    shelf = {"Small cup": ({}, {}), "Mug 11": (kept, {"bleed": "1 mm", "safe": "3 mm"})}
    text = 'format = 1\nblank = { use = "mug 11", coating = "#223344" }\nwrap = { safe = "6 mm" }'
    job = read_job(text, folder=tmp_path, stem="x", shelf=lambda: shelf)
    assert [one.length_mm for one in job.blank.readings] == [255.0]
    assert (job.blank.name, job.blank.wall_mm, job.blank.coating) == ("Mug 11", 95.0, "#223344")
    assert (job.wrap.bleed_mm, job.wrap.safe_mm) == (1.0, 6.0)


@pytest.mark.parametrize(
    ("written", "name", "width", "height"),
    [
        ('"a3"', "A3", 297.0, 420.0),
        ('"13x19 in"', "330.2 x 482.6 mm", 330.2, 482.6),
        ('["19 in", "13 in"]', "330.2 x 482.6 mm", 330.2, 482.6),
    ],
)
def test_papers(tmp_path: Path, written: str, name: str, width: float, height: float) -> None:
    sheet = read_job(f"{SMALLEST}\n[sheet]\npaper = {written}", folder=tmp_path, stem="x").sheet
    assert (sheet.paper, sheet.width_mm, sheet.height_mm) == (name, pytest.approx(width), pytest.approx(height))


def test_a_toml_date_is_a_date(tmp_path: Path) -> None:
    job = read_job(SMALLEST.replace("format = 1", "format = 1\ndate = 2026-05-02"), folder=tmp_path, stem="x")
    assert job.date == date(2026, 5, 2)


def test_a_byte_order_mark_and_crlf_do_no_harm(tmp_path: Path) -> None:
    data = b"\xef\xbb\xbf" + SMALLEST.replace("\n", "\r\n").encode()
    assert read_job(job_text(data), folder=tmp_path, stem="x").quantity == 1


def test_the_shipped_jobs_are_read() -> None:
    jobs = [ROOT / "src/wrapwright/data/demo/job.toml", *EXAMPLES]
    for path in jobs:
        job = read_job(path.read_text(encoding="utf-8"), folder=path.parent, stem=path.stem)
        assert job.elements, path.name


def test_a_job_can_cross_to_another_process(everything: Job) -> None:
    again = pickle.loads(pickle.dumps(everything))
    assert all(getattr(again, one.name) == getattr(everything, one.name) for one in fields(Job))


def test_a_band_without_its_lower_edge_starts_where_the_wall_does(tmp_path: Path) -> None:
    job = read_job(f"{SMALLEST}\n[wrap]\nband = {{ height = 50 }}", folder=tmp_path, stem="x")
    assert (job.wrap.band_from_mm, job.wrap.band_height_mm) == (None, 50.0)


@pytest.mark.parametrize("seam", ['"back"', "180", '"180.0 deg"', '"180°"', "-180.0"])
def test_a_seam_that_is_the_handles_own_place_is_no_conflict(seam: str, tmp_path: Path) -> None:
    mug = 'format = 1\n[blank]\nkind = "straight"\ngirth = 255\nwall = 95\nhandle = { gap = 20 }\n'
    text = f"{mug}[wrap]\nseam = {seam}"
    job = read_job(text, folder=tmp_path, stem="mug")
    assert job.wrap.seam_deg == 180.0
