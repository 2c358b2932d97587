"""Pieces of a list, held against each row's piece composed as a job of its own and laid on the same place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
import pytest
from numpy.typing import NDArray
from tests.jobs.names.making.conftest import TEXT, Written
from tests.outside.icc.press import rgb_printer

from wrapwright.core.names.making.places import Order
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.making.base import base_of, colour_of, composed_for
from wrapwright.jobs.names.making.planning import Planned, Wanted, pieces_of, plan, put_rows
from wrapwright.jobs.names.making.shard import make_shard
from wrapwright.jobs.names.opening import open_list
from wrapwright.jobs.work.painting import device_strips
from wrapwright.outside.pdf.listed.reading import SheetsRead

PPI = 144  # a pixel is half a point: what a renderer reckons with it is exact
# A line that lies 10 micrometres off changes how much of a pixel of 176 it covers by at most that share, both ways.
EDGE = 255.0 * 0.010 * 2**0.5 / (25.4 / PPI) + 2.0


def planned_of(job: Path, bench: Bench, order: Order = "rows") -> Planned:
    names = open_list(job, None, bench)
    count = sum(1 for _ in pieces_of(names))
    planned = plan(names, Wanted(count, count, order, 0.1), bench, Watch())
    list(put_rows(names, planned, None, Watch()))
    return planned


def pages_drawn(file: Path) -> Iterator[NDArray[np.int16]]:
    with pypdfium2.PdfDocument(file) as document:
        for page in document:
            yield np.asarray(page.render(scale=PPI / 72).to_numpy(), dtype=np.int16)[..., :3]


def alone(planned: Planned, job: Path, bench: Bench, file: Path) -> list[tuple[float, float, float, float]]:
    """Write the first sheet with every piece composed and drawn by itself; return the pieces' boxes."""
    from functools import partial

    from wrapwright.core.design.borders import bleed_outline
    from wrapwright.core.design.drawlist import PlacedOutline
    from wrapwright.jobs.lay.printing import painted
    from wrapwright.outside.pdf.laid import ArtOf, laid_pdf
    from wrapwright.outside.pdf.metadata import About

    base, names = base_of(planned.run), open_list(job, None, bench)
    rows = dict(pieces_of(names))
    here = [index + 1 for index in planned.run.places.on(0)]
    page = base.pages.page(0, [(number, "") for number in here])
    arts = []
    for number in here:
        composed = composed_for(names.opened, rows[number], bench)
        raster, vector = composed.parts
        items = tuple(one for index in vector if isinstance(one := composed.draw_list.items[index], PlacedOutline))
        good = base.pages.good
        paint = partial(painted, composed, raster, PPI, 1) if raster else None
        arts.append(
            ArtOf(colour_of(composed), composed.colouring.ink, bleed_outline(good.wrap, good.bleed_mm), items, paint)
        )
    page = replace(page, pieces=tuple(replace(one, good=at) for at, one in enumerate(page.pieces)))
    scratch = file.parent / "scratch"
    scratch.mkdir()
    laid_pdf([page], arts, ppi=PPI, about=About("t", "w", ""), file=file, scratch=scratch, step=lambda _share: None)
    return [one.bleed_box for one in page.pieces]


def edges(pixels: NDArray[np.int16]) -> NDArray[np.bool_]:
    """Return which pixels lie on or beside an edge: one of the eight round them is another colour."""
    around = np.pad(pixels, ((1, 1), (1, 1), (0, 0)), mode="edge")
    high, wide = pixels.shape[:2]
    moved = [around[y : y + high, x : x + wide] for y in range(3) for x in range(3)]
    return np.asarray((np.max(moved, axis=0) - np.min(moved, axis=0)).max(axis=-1) > 8)


def agree(job: Path, bench: Bench, folder: Path) -> None:
    """Hold each piece of the first sheet against the piece by itself.

    Inside and outside of shapes the ink is the same within 1; along their edges as the outlines' error allows.
    """
    planned = planned_of(job, bench)
    made = make_shard(planned.shards[0])
    assert not made.refused
    boxes = alone(planned, job, bench, folder / "alone.pdf")
    ours, theirs = next(pages_drawn(planned.run.folder / made.file)), next(pages_drawn(folder / "alone.pdf"))
    for box in boxes:
        left, right = (round(value * PPI / 25.4) for value in (box[0], box[2]))
        top, bottom = (theirs.shape[0] - round(value * PPI / 25.4) for value in (box[3], box[1]))
        there = theirs[top:bottom, left:right]
        assert (there < 250).any()  # something is there
        off = np.abs(ours[top:bottom, left:right] - there).max(axis=-1)
        assert off.max() <= EDGE
        assert off[~edges(there)].max() <= 1


def picture(name: str, file: str, more: str = "") -> str:
    return f'[[element]]\nkind = "picture"\nname = "{name}"\nfile = "{file}"\nwidth = "16 mm"\n{more}\n'


VEIL = picture("veil", "photo.png", "opacity = 0.5")
OVER = 'text = "{name}"\nwidth = "30 mm"'
SEAM = TEXT.replace('height = "8 mm"', 'height = "8 mm"\nat = "left"')
LAPPED = TEXT.replace('width = "30 mm"\nheight = "8 mm"', 'size = "2 mm"\nat = "281 deg"')
PICTURED = '[names.pictures]\ncrest = "picture"\n'
COLOURED = '[names.colours]\nwho = "colour"\n'
SHOWN = '[names.shown]\ncrest = "crest"\nwho = "shown"\n'
QR = '[[element]]\nkind = "code"\nname = "code"\ntext = "{name}"\nwidth = "16 mm"\nup = "17 mm"\nat = "back"\n'

PAINTED = {"Ada": "#7a2e1d", "Bea": "#1f7a4d", "Cid": "#101010"}

CASES = {
    "names alone": (TEXT, "name\nZoë Müller\nŁukasz\n", ""),
    "a name under a translucent picture": (TEXT + VEIL, "name\nZoë\nŁukasz Żak\n", ""),
    "a name under a shared picture that covers part": (
        TEXT + picture("crest", "photo.png", 'at = "100 deg"'),
        "name\nZoë Müller-Lüdenscheid\nA\n",
        "",
    ),
    "own picture over shared outlines": (
        picture("ring", "blue.svg") + picture("crest", "photo.png", "turn = 20"),
        "name,picture\nAda,other.png\nBea,\n",
        PICTURED,
    ),
    "own picture under shared outlines": (
        picture("crest", "photo.png") + picture("ring", "blue.svg", 'up = "22 mm"'),
        "name,picture\nAda,other.png\nBea,\n",
        PICTURED,
    ),
    "own outlines for a picture, and a picture for outlines": (
        picture("crest", "red.svg") + TEXT,
        "name,picture\nAda,photo.png\nBea,blue.svg\n",
        PICTURED,
    ),
    "elements left out": (
        TEXT + picture("crest", "photo.png", 'at = "right"'),
        "name,crest,shown\nAda,no,yes\nBea,yes,no\nCid,yes,yes\n",
        SHOWN,
    ),
    "colours": (TEXT, "name,colour\nAda,#00ff00\nBea,\n", COLOURED),
    "three of one": (TEXT, "name,pieces\nAda,3\nBea,1\n", 'quantity = "pieces"\n'),
    "a name across the seam": (SEAM, "name\nLudmilla Å\n", ""),
    "a name that the overlap repeats": (LAPPED, "name\nI\n", ""),
    "from the right": (TEXT, "name\nשלום עולם\n", ""),
    "a code of its own": (QR + TEXT, "name\nAda\nBea\n", ""),
    "a line round the letters": (
        TEXT + 'outline = { width = "0.4 mm", colour = "#0e3a5a" }\n',
        "name\nAda\nBea\n",
        "",
    ),
    "on an arc": (TEXT.replace('height = "8 mm"', 'height = "8 mm"\narc = "30 mm"'), "name\nAda Reid\n", ""),
    "turned, in two lines": (
        TEXT.replace('height = "8 mm"', 'height = "14 mm"\nturn = 15').replace("{name}", "{name}\\\\nof Ayr"),
        "name\nAda\n",
        "",
    ),
}


def test_a_picture_of_the_design_that_all_rows_exchange_need_not_be_there(written: Written, bench: Bench) -> None:
    job = written(picture("crest", "gone.png"), "name,picture\nAda,photo.png\nBea,other.png\n", PICTURED)
    made = [make_shard(one) for one in planned_of(job, bench).shards]
    assert sum(one.pieces for one in made) == 2
    assert [one.refused for one in made] == [0] * len(made)


@pytest.mark.parametrize("case", CASES)
def test_pieces_are_what_each_is_alone(case: str, written: Written, bench: Bench, tmp_path: Path) -> None:
    elements, rows, names = CASES[case]
    agree(written(elements, rows, names), bench, tmp_path)


def test_pieces_on_a_tapered_wrap(written: Written, bench: Bench, tmp_path: Path) -> None:
    elements = TEXT + QR + TEXT.replace('"who"', '"true"').replace('"8 mm"', '"8 mm"\nat = "right"\nlay = "true"')
    agree(written(elements, "name\nZoë Müller\nElla EFT\n", kind="tapered"), bench, tmp_path)


def test_only_a_patch_is_stored_of_a_piece_with_its_own_picture(written: Written, bench: Bench) -> None:
    elements = picture("crest", "photo.png") + TEXT.replace('height = "8 mm"', 'height = "8 mm"\nat = "right"')
    job = written(elements, "name,picture\nAda,other.png\nBea,photo.png\n", PICTURED)
    planned = planned_of(job, bench)
    made = make_shard(planned.shards[0])
    with pikepdf.open(planned.run.folder / made.file) as pdf:
        sizes = {
            int(one.Width) * int(one.Height)
            for page in pdf.pages
            for name, one in page.Resources.XObject.items()
            if one.Subtype == "/Image"
        }
    whole = (90 + 4 + 2) * 36 * (PPI / 25.4) ** 2
    assert sizes
    assert max(sizes) < 0.15 * whole


def test_own_names_have_the_printers_codes_that_pixels_of_their_colour_get(written: Written, bench: Bench) -> None:
    """On the convert route; this printer's black is weak, so that codes left as they are would be far off."""
    rows = "name,colour\n" + "".join(f"{name},{colour}\n" for name, colour in PAINTED.items())
    job = written(TEXT, rows, COLOURED)
    (job.parent / "dull.icc").write_bytes(rgb_printer())
    head, _, rest = job.read_text(encoding="utf-8").split("[[element]]", 2)  # without the sky: pixels take long
    converted = f'{head}[colour]\nroute = "convert"\nprofile = "dull.icc"\n[[element]]{rest}'
    job.write_text(converted, encoding="utf-8", newline="\n")
    planned = planned_of(job, bench)
    colours = np.array([[[int(one[at : at + 2], 16) for at in (1, 3, 5)] for one in PAINTED.values()]], dtype=np.uint8)
    with device_strips(planned.composed.colouring, lambda _first, _last: colours) as strip:
        pixels = strip(0, 1)[0].astype(float)
    assert np.abs(pixels - colours[0]).max() > 20
    found = {}
    for shard in planned.shards:
        with SheetsRead(planned.run.folder / make_shard(shard).file) as sheets:
            for piece in (one for number in range(sheets.count) for one in sheets.page(number).pieces):
                found[piece.words["who"]] = np.array([shape.ink for shape in piece.shapes]) * 255.0
    assert set(found) == set(PAINTED)
    for name, codes in zip(PAINTED, pixels, strict=True):
        assert found[name].shape[0] > 0
        assert np.abs(found[name] - codes).max() <= 1.0
