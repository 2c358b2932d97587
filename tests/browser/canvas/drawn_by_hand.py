"""What a screen gets of a design, put together from the core's own geometry: a wrap with its lines and a few copies."""

from __future__ import annotations

import math
from dataclasses import asdict
from typing import Any

import numpy as np

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline, safe_outline, trim_outline
from wrapwright.core.design.path import Path
from wrapwright.core.design.placement import Placement
from wrapwright.jobs.live.values import CopyView, Drawn, FrameView, LineView, Matrix, ShapeView, SolidView

STRAIGHT = FlatWrap(lower_mm=235.3, upper_mm=235.3, height_mm=102.0, overlap_mm=6.0)
TAPERED = FlatWrap(lower_mm=198.5, upper_mm=240.1, height_mm=150.0, overlap_mm=5.0)
INVERTED = FlatWrap(lower_mm=250.0, upper_mm=196.0, height_mm=120.0, overlap_mm=5.0)
HANDLED = FlatWrap(lower_mm=262.0, upper_mm=262.0, height_mm=95.0, gap_mm=26.0, seam_deg=180.0)
BLEED = 2.0
SAFE = 4.0
SIDES = (("Front", 0.0), ("Right", 90.0), ("Back", 180.0), ("Left", 270.0))


def svg_path(path: Path) -> str:
    """Return a path in canvas mm."""
    parts = []
    for sub in path.subpaths:
        (x, y), rest = sub.points[0], sub.points[1:]
        parts.append(f"M{x:.4f} {-y:.4f}")
        parts += ["C" + " ".join(f"{px:.4f} {-py:.4f}" for px, py in rest[i : i + 3]) for i in range(0, len(rest), 3)]
        parts.append("Z" if sub.closed else "")
    return "".join(parts)


def upright(wrap: FlatWrap, turn: float, beyond: float = BLEED) -> str:
    """Return the line of one angle from edge to edge."""
    x, y = wrap.to_flat(np.array([turn, turn]), np.array([-beyond, wrap.height_mm + beyond]))
    return f"M{x[0]:.4f} {-y[0]:.4f}L{x[1]:.4f} {-y[1]:.4f}"


def level(wrap: FlatWrap, up: float) -> str:
    """Return the line of one height, all round."""
    turns = np.linspace(0.0, 360.0, 91)
    x, y = wrap.to_flat(turns, np.full(turns.shape, up))
    return "M" + "L".join(f"{a:.4f} {-b:.4f}" for a, b in zip(x, y, strict=True))


def lines_of(wrap: FlatWrap, keepout: tuple[float, float, float, float] | None = None) -> tuple[LineView, ...]:
    """Return the named lines; `keepout` is at, up, width, height."""
    lines = [
        LineView("bleed", "Bleed", None, svg_path(bleed_outline(wrap, BLEED))),
        LineView("trim", "Trim", None, svg_path(trim_outline(wrap))),
        LineView("safe", "Safe margin", None, svg_path(safe_outline(wrap, SAFE))),
        LineView("middle", "Middle", None, level(wrap, wrap.height_mm / 2)),
    ]
    lines += [LineView(name.lower(), name, at, upright(wrap, wrap.turn_of(at), 0.0)) for name, at in SIDES]
    lines = [LineView("side", one.name, one.at_deg, one.d) if one.at_deg is not None else one for one in lines]
    if wrap.gap_mm:
        for side, way in (("left", 1.0), ("right", -1.0)):
            turn = way * 180.0 * wrap.gap_mm / wrap.turn_length(0.0) + (0.0 if way > 0 else 360.0)
            name = f"Handle, {side} hand"
            lines.append(LineView("handle", name, wrap.at_of(turn), upright(wrap, turn)))
    else:
        both = upright(wrap, 0.0) + upright(wrap, 360.0)
        lines.append(LineView("seam", "Seam", wrap.seam_deg, both))
    if keepout:
        at, up, width, height = keepout
        half = 180.0 * width / wrap.turn_length(up)
        turn = wrap.turn_of(at)
        turns = np.array([turn - half, turn + half, turn + half, turn - half])
        x, y = wrap.to_flat(turns, np.array([up - height / 2] * 2 + [up + height / 2] * 2))
        corners = "L".join(f"{a:.4f} {-b:.4f}" for a, b in zip(x, y, strict=True))
        lines.append(LineView("keepout", "Maker's mark", at, f"M{corners}Z"))
    return tuple(lines)


def box_path(width: float, height: float) -> str:
    """Return a box round the origin."""
    a, b = width / 2, height / 2
    return f"M{-a} {-b}L{a} {-b}L{a} {b}L{-a} {b}Z"


def rigid_matrix(wrap: FlatWrap, at: float, up: float, turn_deg: float) -> Matrix:
    """Return where a rigid copy's own millimetres (y down) lie on the canvas."""
    place = Placement(wrap, wrap.turn_of(at), up, "true", turn_deg)
    origin, right, down = place.to_flat(np.array([[0.0, 0.0], [1.0, 0.0], [0.0, -1.0]]))
    a, b = right - origin
    c, d = down - origin
    return (float(a), float(-b), float(c), float(-d), float(origin[0]), float(-origin[1]))


def copy_of(
    wrap: FlatWrap,
    element: int,
    name: str,
    *,
    kind: str = "picture",
    at: float = 0.0,
    up: float = 50.0,
    size: tuple[float, float] = (40.0, 30.0),
    turn: float = 0.0,
    lay: str = "true",
    copy: int = 0,
    colour: str = "#b4532a",
) -> CopyView:
    """Return one copy: a box of one colour with a round hole, rigid or bent."""
    width, height = size
    corner = box_path(width, height)
    shapes, matrix = corner, rigid_matrix(wrap, at, up, turn)
    if lay == "level":
        edge = np.concatenate([_edge(width, height, side) for side in range(4)])
        flat = Placement(wrap, wrap.turn_of(at), up, "level", turn).to_flat(edge)
        corner = "M" + "L".join(f"{x:.4f} {-y:.4f}" for x, y in flat) + "Z"
        shapes, matrix = corner, (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    else:
        r = min(width, height) * 0.3
        shapes += f"M{-r} 0A{r} {r} 0 1 0 {r} 0A{r} {r} 0 1 0 {-r} 0Z"
    way = wrap.turn_of(at)
    half = 180.0 * math.hypot(width, height) / wrap.turn_length(up)
    laps = (0,) + ((1,) if way - half < 10.0 else ()) + ((-1,) if way + half > 360.0 else ())
    art = (ShapeView(shapes, colour, "", 0.0, True, 1.0),)
    spoken = f"{name}, {at:g} degrees round, {up:g} millimetres up"
    key = f"{element}.{copy}"
    return CopyView(
        key, element, copy, name, kind, at, up, turn, width, height, lay, False, matrix, lay != "level", corner, art,
        None, laps, None, spoken,
    )  # fmt: skip


def _edge(width: float, height: float, side: int) -> Any:
    share = np.linspace(0.0, 1.0, 12, endpoint=False)
    a, b = width / 2, height / 2
    corners = np.array([(-a, b), (a, b), (a, -b), (-a, -b), (-a, b)])
    return corners[side] + share[:, None] * (corners[side + 1] - corners[side])


def ground_of(wrap: FlatWrap, element: int, colour: str = "#f3ead9") -> CopyView:
    """Return a fill that goes all round."""
    border = svg_path(bleed_outline(wrap, BLEED))
    art = (ShapeView(border, colour, "", 0.0, False, 1.0),)
    return CopyView(
        f"{element}.0", element, 0, "Ground", "fill", 0.0, wrap.height_mm / 2, 0.0, wrap.trim_width_mm, wrap.height_mm,
        "level", True, (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), False, border, art, None, (0,), None, "Ground, all round",
    )  # fmt: skip


def drawn_of(wrap: FlatWrap, copies: list[CopyView], keepout: tuple[float, float, float, float] | None = None) -> Drawn:
    """Return the whole as a screen gets it."""
    left, bottom, right, top = bleed_outline(wrap, BLEED).box()
    frame = FrameView(
        "flat", wrap.is_sector, wrap.lower_mm, wrap.upper_mm, wrap.height_mm, wrap.seam_deg, wrap.overlap_mm,
        wrap.gap_mm, (left, -top, right - left, top - bottom),
    )  # fmt: skip
    solid = SolidView(
        ((0.0, 37.0, 0.0), (wrap.height_mm, 37.0, wrap.height_mm)), 0.0, wrap.height_mm, None, "#ffffff", 120
    )
    return Drawn(frame, None, solid, None, lines_of(wrap, keepout), tuple(copies), (), ())


def sample(wrap: FlatWrap) -> dict[str, Any]:
    """Return a wrap with a fill, a crest on the front and back, a leaf over the seam and a bent line of text."""
    middle = wrap.height_mm / 2
    copies = [
        ground_of(wrap, 0),
        copy_of(wrap, 1, "Crest", at=0.0, up=middle, size=(50.0, 40.0)),
        copy_of(wrap, 1, "Crest", at=180.0, up=middle, size=(50.0, 40.0), copy=1),
        copy_of(wrap, 2, "Leaf", at=wrap.seam_deg + 3.0, up=30.0, size=(30.0, 20.0), colour="#3c6e4f"),
        copy_of(wrap, 3, "Name", kind="text", at=95.0, up=70.0, size=(46.0, 9.0), lay="level", colour="#22313f"),
        copy_of(wrap, 4, "Stamp", at=60.0, up=24.0, size=(16.0, 16.0), turn=30.0, colour="#1f5f8b"),
    ]
    return asdict(drawn_of(wrap, copies, keepout=(130.0, 20.0, 20.0, 9.0)))


def moved_up(drawn: dict[str, Any], wrap: FlatWrap, key: str, change: dict[str, Any]) -> dict[str, Any]:
    """Return what a server would draw after a move."""
    copies = []
    for copy in drawn["copies"]:
        if copy["key"] == key:
            moved = {**copy, **change}
            moved["matrix"] = rigid_matrix(wrap, moved["at_deg"], moved["up_mm"], moved["turn_deg"])
            copies.append(moved)
        else:
            copies.append(copy)
    return {**drawn, "copies": copies}
