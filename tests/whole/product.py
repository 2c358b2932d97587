"""Jobs made by the product for the witnesses, and what is needed to look at them."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

import numpy as np
import pikepdf
from tests.sheet_on_paper.made import RENDERERS
from tests.witness import need

import wrapwright

MM_PER_INCH = 25.4
SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {0} {1}" width="{0}mm" height="{1}mm">{2}</svg>'


def svg(width: float, height: float, body: str) -> str:
    """A drawing whose units are millimetres."""
    return SVG.format(width, height, body)


# Squares of two sizes tell front from back; the ruler's ticks end exactly at its width, the gauge's at its height.
STAMPS = {
    "stamp.svg": svg(10, 10, '<rect width="10" height="10"/>'),
    "ruler.svg": svg(200, 8, '<rect width="1" height="8"/><rect x="199" width="1" height="5"/>'),
    "gauge.svg": svg(4, 80, '<rect width="4" height="0.8"/><rect y="79.2" width="2.5" height="0.8"/>'),
}


@dataclass(frozen=True)
class Product:
    """What one `make` left, in a folder of its own."""

    folder: Path
    report: dict
    _pages: dict = field(default_factory=dict)

    @property
    def pdf(self) -> Path:
        return self.folder / "sheets.pdf"

    @cached_property
    def media_box_mm(self) -> list[float]:
        with pikepdf.open(self.pdf) as pdf:
            return [float(one) / 72 * MM_PER_INCH for one in pdf.pages[0].MediaBox]

    @property
    def sheet(self) -> dict:
        return self.report["sheets"][0]

    @property
    def piece(self) -> dict:
        return self.sheet["pieces"][0]

    def element(self, name: str, copy: int = 0) -> dict:
        return [one for one in self.report["elements"] if one["name"] == name][copy]

    def page(self, program: str, dpi: int) -> np.ndarray:
        """The first page in grey, 0 black to 255 white."""
        if (program, dpi) not in self._pages:
            self._pages[program, dpi] = RENDERERS[program](need(program), self.pdf, dpi)
        return self._pages[program, dpi]

    def crop(self, program: str, dpi: int, margin_mm: float = 0.0) -> tuple[np.ndarray, tuple[float, float]]:
        """The piece's trim box out of the page, and the page mm of the crop's upper left corner."""
        pixels, pitch, piece = self.page(program, dpi), MM_PER_INCH / dpi, self.piece
        high = self.sheet["height_mm"]
        left, right = piece["x_mm"] - margin_mm, piece["x_mm"] + piece["width_mm"] + margin_mm
        bottom, top = piece["y_mm"] - margin_mm, piece["y_mm"] + piece["height_mm"] + margin_mm
        first = (max(0, round((high - top) / pitch)), max(0, round(left / pitch)))
        part = pixels[first[0] : round((high - bottom) / pitch), first[1] : round(right / pitch)]
        return part, (first[1] * pitch, high - first[0] * pitch)


def job_text(
    blank: str, *elements: str, wrap: str = "", sheet: str = "", colour: str = "", title: str = "Witness", **top: str
) -> str:
    """A job file's text; each element is the lines of its table."""
    lines = ["format = 1", f'title = "{title}"', *(f"{key} = {value}" for key, value in top.items())]
    lines += ["[blank]", blank]
    for name, body in (("wrap", wrap), ("sheet", sheet), ("colour", colour)):
        lines += [f"[{name}]", body] if body else []
    for element in elements:
        lines += ["[[element]]", element]
    return "\n".join(lines) + "\n"


class Workshop:
    """Makes jobs in folders of their own on one bench."""

    def __init__(self, place: Path, cache: Path) -> None:
        self.place = place
        self.bench = wrapwright.open_bench(cache=cache, data=place / "data", fonts=place / "fonts", threads=2)
        self.count = 0

    def folder(self, text: str, files: dict | None = None) -> Path:
        """A new folder with job.toml and the files beside it."""
        self.count += 1
        folder = self.place / f"job-{self.count}"
        folder.mkdir()
        (folder / "job.toml").write_text(text, encoding="utf-8", newline="\n")
        for name, content in {**STAMPS, **(files or {})}.items():
            data = content.encode("utf-8") if isinstance(content, str) else content
            (folder / name).write_bytes(data)
        return folder

    def make(self, text: str, files: dict | None = None, **wishes: object) -> Product:
        """What `make` leaves of a job."""
        folder = self.folder(text, files)
        request = wrapwright.MakeRequest(folder / "job.toml", None, folder / "out", **wishes)
        wrapwright.make_sheets(request, self.bench, wrapwright.Watch())
        return Product(folder / "out", json.loads((folder / "out" / "report.json").read_text(encoding="utf-8")))
