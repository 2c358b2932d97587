"""What every drawing on the screen is made of: SVG as text, in CSS pixels, y down, coloured by the page's tokens."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from html import escape

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path

Array = NDArray[np.float64]
Point = tuple[float, float]

# token -> (light, dark): used where the drawing stands alone and no page gives its own.
_TOKENS = {
    "ink": ("#1c2625", "#e4eae8"),
    "ink-2": ("#4d5a57", "#b4c0bc"),
    "ink-3": ("#5f6b68", "#98a5a1"),
    "line": ("#cdd5d1", "#3b4745"),
    "panel": ("#f7f8f7", "#1d2423"),
    "sheet": ("#ffffff", "#262e2d"),
    "accent": ("#0e625b", "#6fc3ba"),
    "accent-soft": ("#d7e7e4", "#1f3f3c"),
    "heat": ("#a4461b", "#e59a72"),
    "warn": ("#7a5600", "#d9b25a"),
    "bad": ("#9d2328", "#f0969a"),
}
_RULES = """
.wd{font-family:system-ui,sans-serif;font-size:12px;font-feature-settings:"tnum";display:block}
.wd text{fill:var(--d-ink-2)}
.wd .wd-strong{font-weight:600}
.wd .wd-small{font-size:11px}
.wd .wd-halo{stroke:var(--d-panel);stroke-width:4px;stroke-linejoin:round;paint-order:stroke}
.wd .wd-none{fill:none}
.wd .wd-hair{fill:none;stroke-width:1}
.wd .wd-thin{fill:none;stroke-width:.75}
.wd .wd-thick{fill:none;stroke-width:1.75}
.wd .wd-dash{stroke-dasharray:4 3}
.wd .wd-dots{stroke-dasharray:1 3;stroke-linecap:round}
@media (forced-colors:active){.wd *{forced-color-adjust:auto}}
"""
_FACES = "'Open Sans',system-ui,sans-serif"  # of a file: the documents' own face where it is there


def _style() -> str:
    light = "".join(f"--d-{name}:var(--{name},{colours[0]});" for name, colours in _TOKENS.items())
    dark = "".join(f"--d-{name}:var(--{name},{colours[1]});" for name, colours in _TOKENS.items())
    paint = "".join(f".wd .s-{name}{{stroke:var(--d-{name})}}.wd .f-{name}{{fill:var(--d-{name})}}" for name in _TOKENS)
    return f".wd{{{light}}}@media (prefers-color-scheme:dark){{.wd{{{dark}}}}}{_RULES.replace(chr(10), '')}{paint}"


STYLE = _style()


def figure(value: float) -> str:
    """Return a number as SVG takes it: two decimals, no trailing noughts, never minus nought."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def drawing(width: float, height: float, parts: Iterable[str], *, spoken: str) -> str:
    """Return the whole SVG; `spoken` says what it shows to those who do not see it."""
    size = f'width="{figure(width)}" height="{figure(height)}" viewBox="0 0 {figure(width)} {figure(height)}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" class="wd" {size} role="img" aria-label="{escape(spoken)}">'
    return f"{head}<style>{STYLE}</style>{''.join(parts)}</svg>"


def shape(d: str, how: str, *, fill: str = "", stroke: str = "", width: float = 0.0, even_odd: bool = False) -> str:
    """Return a path; `how` names classes; `fill` and `stroke` are colours of the work itself (a coating), "" for none.

    `width` is the stroke's in px, 0 for what the classes say.
    """
    own = "".join(
        f"{key}:{escape(value)};"
        for key, value in (("fill", fill), ("stroke", stroke), ("stroke-width", figure(width) if width else ""))
        if value
    )
    rule = ' fill-rule="evenodd"' if even_odd else ""
    style = f' style="{own}"' if own else ""
    return f'<path class="{how}" d="{d}"{style}{rule}/>'


def chain(points: Sequence[Point], *, closed: bool = False) -> str:
    """Return path data through points."""
    (x, y), *rest = points
    return (
        f"M{figure(x)} {figure(y)}"
        + "".join(f"L{figure(px)} {figure(py)}" for px, py in rest)
        + ("Z" if closed else "")
    )


def curves(path: Path, to: Array) -> str:
    """Return path data of a path under a 3x3 matrix of column vectors."""
    out = []
    for sub in path.times(to).subpaths:
        points = [f"{figure(x)} {figure(y)}" for x, y in sub.points.tolist()]
        out.append(f"M{points[0]}" + "".join(f"C{' '.join(points[i : i + 3])}" for i in range(1, len(points), 3)))
        out.append("Z" if sub.closed else "")
    return "".join(out)


def words(text: str, at: Point, how: str = "", *, anchor: str = "middle", turn_deg: float = 0.0) -> str:
    """Return words whose anchor (start, middle, end) lies at a point, centred on it upright; turned clockwise."""
    x, y = figure(at[0]), figure(at[1])
    turn = f' transform="rotate({figure(turn_deg)} {x} {y})"' if abs(turn_deg) > 0.005 else ""
    place = f'x="{x}" y="{y}" dy=".35em" text-anchor="{anchor}"{turn}'
    return f'<text class="{how}" {place}>{escape(text, quote=False)}</text>'


def dot(at: Point, radius: float, how: str) -> str:
    """Return a round dot."""
    return f'<circle class="{how}" cx="{figure(at[0])}" cy="{figure(at[1])}" r="{figure(radius)}"/>'


def arrowed(points: Sequence[Point], colour: str = "ink-3", *, head: float = 6.0) -> str:
    """Return a dimension line along points with a filled head at each end."""
    ends = ((points[0], points[1]), (points[-1], points[-2]))
    heads = "".join(shape(_head(tip, back, head), f"f-{colour}") for tip, back in ends)
    return shape(chain(points), f"wd-thin s-{colour}") + heads


def _head(tip: Point, back: Point, size: float) -> str:
    angle = math.atan2(back[1] - tip[1], back[0] - tip[0])
    sides = [(tip[0] + size * math.cos(angle + lean), tip[1] + size * math.sin(angle + lean)) for lean in (-0.22, 0.22)]
    return chain([tip, *sides], closed=True)


def wide(text: str, *, size: float = 12.0) -> float:
    """Return about how wide words are in px: enough to know what has room (a sans-serif's mean letter)."""
    return 0.56 * size * len(text)


def standing_alone(width: float, height: float, parts: Iterable[str], *, spoken: str) -> str:
    """Return the whole SVG for a file: light colours written out, on its own ground, no rules for screens alone."""
    paint = "".join(f".s-{name}{{stroke:{one}}}.f-{name}{{fill:{one}}}" for name, (one, _) in _TOKENS.items())
    rules = "".join(line for line in _RULES.split("\n") if line and not line.startswith("@")).replace(".wd ", "")
    for name, (one, _) in _TOKENS.items():
        rules = rules.replace(f"var(--d-{name})", one)
    rules = rules.replace(".wd{font-family:system-ui,sans-serif;", f".wd{{font-family:{_FACES};")
    size = f'width="{figure(width)}" height="{figure(height)}" viewBox="0 0 {figure(width)} {figure(height)}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" class="wd" {size} role="img" aria-label="{escape(spoken)}">'
    ground = f'<rect width="{figure(width)}" height="{figure(height)}" fill="{_TOKENS["panel"][0]}"/>'
    return f"{head}<style>{rules}{paint}</style>{ground}{''.join(parts)}</svg>"
