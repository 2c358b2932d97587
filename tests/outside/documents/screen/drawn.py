"""Blanks to draw, and a drawing read again by the standard library's XML reader."""

from __future__ import annotations

import re
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from wrapwright.core.blank.readings import Blank, Handle, Reading, WrapRequest
from wrapwright.core.blank.wrapped import Setup, Wrapped, wrap_blank

SVG = "{http://www.w3.org/2000/svg}"
PLAIN = Setup(thickness_mm=0.0)


def straight(girth: float = 235.0, wall: float = 165.0, **more: object) -> Blank:
    return Blank("straight", (Reading(None, girth),), wall_mm=wall, **more)  # type: ignore[arg-type]


def tapered(bottom: float, top: float, **more: object) -> Blank:
    return Blank("tapered", (Reading(None, bottom), Reading(None, top)), **more)  # type: ignore[arg-type]


def bulging(*rows: tuple[float, float]) -> Blank:
    return Blank("profile", tuple(Reading(at, girth) for at, girth in rows))


def mug() -> Blank:
    return straight(257.0, 94.0, handle=Handle(180.0, 24.0))


def fitted(blank: Blank, **asked: object) -> tuple[Blank, Wrapped, WrapRequest]:
    """Return a blank with its wrap, no overlap unless asked, paper of no thickness."""
    free = {} if blank.handle else {"overlap_mm": 0.0}
    request = WrapRequest(**(free | asked))  # type: ignore[arg-type]
    return blank, wrap_blank(blank, request, PLAIN), request


@dataclass(frozen=True)
class Read:
    """A drawing as a reader of XML finds it."""

    root: ET.Element

    @property
    def words(self) -> list[str]:
        return ["".join(one.itertext()) for one in self.root.iter(f"{SVG}text")]

    def paths(self, *classes: str) -> list[str]:
        """Return path data of shapes that have all these classes."""
        return [
            str(one.get("d"))
            for one in self.root.iter(f"{SVG}path")
            if set(classes) <= set(str(one.get("class")).split())
        ]


def read(svg: str) -> Read:
    return Read(ET.fromstring(svg))


def points(d: str) -> list[tuple[float, float]]:
    """Return every point that path data names, control points in."""
    numbers = [float(one) for one in re.findall(r"-?[0-9.]+", d)]
    return list(zip(numbers[0::2], numbers[1::2], strict=True))


def box(d: str) -> tuple[float, float, float, float]:
    x, y = zip(*points(d), strict=True)
    return min(x), min(y), max(x), max(y)
