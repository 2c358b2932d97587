"""A new user's first piece, from the empty shelf to the PDF, by mouse, by keyboard and by touch.

What is typed in the browser is read back from the PDF with poppler: the crest's width, its place above the wrap's
lower edge, and the distance of its two copies, half of (girth + pi t) on a straight wall (the development of a
cylinder; any handbook of descriptive geometry).
"""

from __future__ import annotations

import io
import json
import math
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image
from tests.witness import need

GIRTH_MM = 9.25 * 25.4
PAPER_MM = 0.12
CREST_MM, UP_MM = 40.0, 30.0
PPI = 300


class Mouse:
    """Works the page with a mouse."""

    def __init__(self, page: Any) -> None:
        self.page = page

    def press(self, target: Any) -> None:
        target.click()

    def choose(self, target: Any) -> None:
        self.press(target)

    def choose_file(self, dialog: Any) -> None:
        self.press(dialog.get_by_text("Choose a file"))

    def type_in(self, target: Any, text: str) -> None:
        target.click()
        target.fill(text)


class Touch(Mouse):
    """Works the page with a finger."""

    def press(self, target: Any) -> None:
        target.tap()

    def type_in(self, target: Any, text: str) -> None:
        target.tap()
        target.fill(text)


class Keys(Mouse):
    """Works the page with Tab, Enter and letters alone."""

    def reach(self, target: Any) -> None:
        target.wait_for()
        wanted = target.element_handle()
        for _ in range(150):
            if self.page.evaluate("one => document.activeElement === one", wanted):
                return
            self.page.keyboard.press("Tab")
        raise AssertionError(f"{target} cannot be reached with Tab")

    def press(self, target: Any) -> None:
        self.reach(target)
        self.page.keyboard.press("Enter")

    def choose(self, target: Any) -> None:
        self.reach(target)
        self.page.keyboard.press("Space")

    def choose_file(self, dialog: Any) -> None:
        self.press(dialog.get_by_role("button", name="Choose a file"))

    def type_in(self, target: Any, text: str) -> None:
        self.reach(target)
        self.page.keyboard.press("ControlOrMeta+A")
        self.page.keyboard.type(text)


HANDS: dict[str, tuple[type[Mouse], dict[str, Any]]] = {
    "mouse": (Mouse, {"in_space": True}),
    "keys": (Keys, {}),
    "touch": (Touch, {"viewport": {"width": 768, "height": 1024}, "has_touch": True}),
}


@pytest.fixture
def crest(tmp_path: Path) -> Path:
    """Give a picture that is one plain red square, large enough in pixels."""
    file = tmp_path / "crest.png"
    Image.new("RGB", (600, 600), (200, 20, 30)).save(file)
    return file


@pytest.mark.parametrize("kind", HANDS)
def test_the_first_piece(kind: str, open_page: Callable[..., Any], crest: Path, tmp_path: Path) -> None:
    hand_of, words = HANDS[kind]
    page = open_page(**words)
    hand = hand_of(page)
    page.goto("/")
    measure_it(page, hand)
    compose_it(page, hand, crest)
    files = make_it(page, hand, tmp_path)
    report = json.loads(files["report.json"].read_text(encoding="utf-8"))
    assert [row["at_deg"] for row in report["elements"]] == [0.0, 180.0]
    check_paper(files["sheets.pdf"], report)


def measure_it(page: Any, hand: Mouse) -> None:
    hand.press(page.get_by_role("link", name="Measure your first blank"))
    page.wait_for_url("**/measure")
    hand.type_in(page.get_by_label("Name"), "Blue bottle")
    hand.choose(page.get_by_role("radio", name="Straight as wide"))
    hand.type_in(page.locator("#blank-girth"), "9 1/4 in")
    hand.type_in(page.locator("#blank-wall"), "60 mm")
    page.locator("#flat-drawing svg").wait_for()
    hand.press(page.get_by_role("button", name="Compose on it"))
    page.wait_for_url("**/designs/1")


def compose_it(page: Any, hand: Mouse, crest: Path) -> None:
    hand.press(page.get_by_role("button", name="Picture", exact=True))
    with page.expect_file_chooser() as choosing:
        hand.choose_file(page.get_by_role("dialog"))
    choosing.value.set_files(crest)
    width = page.get_by_label("Width", exact=True)
    width.wait_for()
    for field, figure in ((width, CREST_MM), (page.get_by_label("Up from lower edge"), UP_MM)):
        hand.type_in(field, f"{figure:g} mm")
        page.keyboard.press("Enter")
    hand.press(page.get_by_role("button", name="Opposite copy"))
    canvas = "() => document.querySelector('wrap-canvas').drawn?.copies.map(c => [c.at_deg, c.up_mm, c.width_mm])"
    page.wait_for_function(f"() => JSON.stringify(({canvas})()) === '[[0,30,40],[180,30,40]]'")
    page.locator("#saved[data-state=saved]").wait_for()


def make_it(page: Any, hand: Mouse, folder: Path) -> dict[str, Path]:
    hand.press(page.get_by_role("link", name="To the sheet"))
    page.wait_for_url("**/designs/1/sheet")
    hand.press(page.get_by_role("button", name="Make the sheets"))
    links = page.locator("#files a")
    links.first.wait_for(timeout=60_000)
    files = {}
    for link in links.all():
        with page.expect_download() as loading:
            link.click()
        name = loading.value.suggested_filename
        files[name.split(" ")[-1]] = folder / name
        loading.value.save_as(folder / name)
    return files


def check_paper(pdf: Path, report: dict[str, Any]) -> None:
    words = [need("pdftoppm"), "-r", str(PPI), "-png", "-singlefile", str(pdf)]
    page = np.asarray(
        Image.open(io.BytesIO(subprocess.run(words, capture_output=True, check=True).stdout)).convert("RGB")
    )
    red = (page[..., 0] > 150) & (page[..., 1] < 80) & (page[..., 2] < 80)
    rows, columns = np.nonzero(red.any(axis=1))[0], np.nonzero(red.any(axis=0))[0]
    pitch = 25.4 / PPI
    piece = report["sheets"][0]["pieces"][0]
    groups = np.split(columns, np.nonzero(np.diff(columns) > 1)[0] + 1)
    assert len(groups) == 2
    for group in groups:
        assert (group[-1] - group[0] + 1) * pitch == pytest.approx(CREST_MM, abs=2 * pitch)
    apart = (groups[1][0] - groups[0][0]) * pitch
    assert apart == pytest.approx((GIRTH_MM + math.pi * PAPER_MM) / 2, abs=2 * pitch)
    middle = (page.shape[0] - (rows[0] + rows[-1] + 1) / 2) * pitch
    assert middle - piece["y_mm"] == pytest.approx(UP_MM, abs=2 * pitch)
