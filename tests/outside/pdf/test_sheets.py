from __future__ import annotations

import io
from dataclasses import replace

import numpy as np
import pikepdf
import pytest
from tests.sheet_on_paper.lettering import set_label
from tests.sheet_on_paper.made import ABOUT, LETTER, SRGB, FlatWrap, make, plain_cmyk, rgb_printer, square

from wrapwright.core.design.drawlist import PlacedOutline
from wrapwright.core.design.path import Path, Subpath, rectangle
from wrapwright.core.sheet.mirror import image_box
from wrapwright.core.sheet.placed import Slip
from wrapwright.outside.pdf.content import number, path_ops
from wrapwright.outside.pdf.metadata import info_entries, xmp_packet

WRAP = FlatWrap(225.4, 225.4, 100.0, 5.0)
POINT = 72 / 25.4


def art(x, y):
    return np.stack([(x * 3) % 256, (y * 5) % 256, x * 0 + 90], -1).astype(np.uint8)


def operators(pdf, index=0):
    return [(str(one.operator), list(one.operands)) for one in pikepdf.parse_content_stream(pdf.pages[index])]


def opened(made):
    return pikepdf.open(io.BytesIO(made.pdf))


def test_the_page_is_exactly_the_paper_as_turned():
    pdf = opened(make(WRAP, sheet=LETTER))
    page = pdf.pages[0].obj
    assert [float(value) for value in page.MediaBox] == [0, 0, 792, 612]
    assert "/Rotate" not in page
    assert "/UserUnit" not in page
    assert pdf.Root.ViewerPreferences.PrintScaling == pikepdf.Name("/None")


def test_the_image_is_placed_to_a_ten_thousandth_of_a_point():
    made = make(WRAP, sheet=LETTER, art=art)
    pdf = opened(made)
    ops = operators(pdf)
    at = next(index for index, one in enumerate(ops) if one[0] == "Do")
    matrix = [float(value) for value in ops[at - 1][1]]
    box = image_box(made.page.bleed_box, LETTER.ppi)
    expected = [(box[2] - box[0]) * POINT, 0, 0, (box[3] - box[1]) * POINT, box[0] * POINT, box[1] * POINT]
    assert matrix == pytest.approx(expected, abs=1e-4)
    image = pdf.pages[0].obj.Resources.XObject.Im0
    assert matrix[0] / int(image.Width) == pytest.approx(72 / LETTER.ppi, abs=1e-7)
    assert matrix[3] / int(image.Height) == pytest.approx(72 / LETTER.ppi, abs=1e-7)


def test_the_image_holds_the_pixels_of_the_mirrored_page_and_no_others():
    made = make(WRAP, sheet=LETTER, art=art)
    pdf = opened(made)
    image = pdf.pages[0].obj.Resources.XObject.Im0
    shape = (int(image.Height), int(image.Width), 3)
    pixels = np.frombuffer(image.read_bytes(), np.uint8).reshape(shape)
    box = image_box(made.page.bleed_box, LETTER.ppi)
    back = np.linalg.inv(made.page.to_page)
    for row, column in ((0, 0), (600, 1000), (shape[0] - 1, shape[1] - 1), (17, 2001)):
        on_page = (box[0] + (column + 0.5) * 25.4 / LETTER.ppi, box[3] - (row + 0.5) * 25.4 / LETTER.ppi, 1.0)
        x, y, _ = back @ on_page
        assert tuple(pixels[row, column]) == tuple(art(np.array(x), np.array(y)))


def test_trim_lies_in_bleed_lies_in_media():
    pdf = opened(make(WRAP, sheet=LETTER))
    page = pdf.pages[0].obj
    trim, bleed, media = ([float(v) for v in page[name]] for name in ("/TrimBox", "/BleedBox", "/MediaBox"))
    assert trim[2] - trim[0] == pytest.approx(230.4 * POINT, abs=2e-4)
    assert trim[3] - trim[1] == pytest.approx(100 * POINT, abs=2e-4)
    assert bleed[3] - bleed[1] == pytest.approx(104 * POINT, abs=2e-4)
    assert media[1] < bleed[1] < trim[1]
    assert trim[3] < bleed[3] < media[3]


def test_lines_are_written_as_lines_and_curves_as_curves():
    assert path_ops(rectangle(0, 0, 10, 5), np.eye(3)).split("\n") == ["0 0 m", "10 0 l", "10 5 l", "0 5 l", "h"]
    arch = Path((Subpath(np.array([[0.0, 0.0], [0.0, 4.0], [6.0, 4.0], [6.0, 0.0]]), closed=False),))
    assert path_ops(arch, np.eye(3)) == "0 0 m\n0 4 6 4 6 0 c"
    # Control points on the chord's line but beyond its ends are no line: the pen goes out and back.
    beyond = Path((Subpath(np.array([[0.0, 0.0], [-5.0, 0.0], [2.0, 0.0], [3.0, 0.0]]), closed=False),))
    assert path_ops(beyond, np.eye(3)).endswith(" c")


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0, "0"), (-0.0, "0"), (-0.00001, "0"), (1.5, "1.5"), (612.0, "612"), (1e-4, "0.0001"), (841.88976, "841.8898")],
)
def test_numbers_have_no_exponent_and_no_needless_digits(value, text):
    assert number(value) == text


def test_fills_strokes_rules_and_clips_become_operators():
    base = square(WRAP, 0, 20, up_mm=50)
    clip = rectangle(-70, 40, -50, 60)
    items = [replace(base, even_odd=True), replace(base, stroke_mm=0.5, clips=(clip,)), base]
    ops = operators(opened(make(WRAP, items, sheet=LETTER, colour=SRGB)))
    names = [name for name, _ in ops]
    assert names.count("f*") == 1
    assert names.count("S") == 1
    assert names.count("W") == 2  # the bleed's and the item's own
    assert names.count("q") == names.count("Q") == 4  # bleed, clipped item, two kinds of words
    width = next(values for name, values in ops if name == "w")
    assert float(width[0]) == pytest.approx(0.5 * POINT, abs=1e-4)
    assert [values for name, values in ops if name in ("j", "J")] == [[1], [1]]
    assert {str(values[0]) for name, values in ops if name in ("cs", "CS")} == {"/CS0"}


def test_ink_is_device_colour_of_the_printer_when_we_convert():
    red = PlacedOutline(element=0, copy=0, path=rectangle(0, 10, 10, 20), colour=(1.0, 0.25, 0.0))
    names = [name for name, _ in operators(opened(make(WRAP, [red], sheet=LETTER, colour=rgb_printer())))]
    assert "rg" in names
    assert not {"cs", "k", "g", "scn"} & set(names)
    four = replace(rgb_printer(), channels=4)
    values = [v for n, v in operators(opened(make(WRAP, [red], sheet=LETTER, colour=four, ink=plain_cmyk))) if n == "k"]
    assert [float(v) for v in values[0]] == pytest.approx([0, 0.75, 1, 0])


def test_the_driver_route_names_srgb_and_claims_no_standard():
    pdf = opened(make(WRAP, [square(WRAP, 0, 20, up_mm=50)], sheet=LETTER, art=art))
    assert "/OutputIntents" not in pdf.Root
    assert b"GTS_PDFX" not in pdf.Root.Metadata.read_bytes()
    space = pdf.pages[0].obj.Resources.XObject.Im0.ColorSpace
    assert space[0] == pikepdf.Name.ICCBased
    assert space[1].read_bytes() == SRGB.profile


def test_many_pieces_share_the_image_and_all_that_is_alike():
    count = 40
    slips = [Slip("Crew", k, count, f"Name {k}") for k in range(1, count + 1)]
    shared = [replace(square(WRAP, at, 3, up_mm=50), path=set_label("SHARED" * 6, 4.0)) for at in (0, 180)]
    one = make(WRAP, shared, sheet=LETTER, art=art, slips=slips[:1]).pdf
    made = make(WRAP, shared, sheet=LETTER, art=art, slips=slips)
    pdf = opened(made)
    assert len(pdf.pages) == count
    assert len({page.obj.Resources.XObject.Im0.objgen for page in pdf.pages}) == 1
    assert (len(made.pdf) - len(one)) / (count - 1) < 6000
    contents = [tuple(stream.objgen for stream in page.obj.Contents) for page in pdf.pages]
    assert len({streams[0] for streams in contents}) == 1
    assert len(set(contents)) == count


def test_the_date_given_is_the_date_written_and_none_is_invented():
    dated = replace(ABOUT, date="2026-05-02")
    assert info_entries(dated)["/CreationDate"] == "D:20260502000000Z"
    assert b"<xmp:CreateDate>2026-05-02T00:00:00Z<" in xmp_packet(dated, digest="0" * 64, standard=True)
    assert info_entries(ABOUT)["/ModDate"] == "D:20000101000000Z"
