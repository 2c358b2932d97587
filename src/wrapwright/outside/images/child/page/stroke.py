"""Lines made areas: what a pen of a given width, caps, joins and dashes covers."""

from __future__ import annotations

import math

from wrapwright.outside.images.child.page.figure import Curve, Curves, Pen, Point, straight

Chain = list[Point]


def stroked(curves: Curves, pen: Pen, tolerance: float) -> Curves:
    """Return the area a line covers, to be filled with nonzero winding (ISO 32000-1, 8.4.3 and 8.5.3.2).

    Args:
        curves: the line's path.
        pen: its make, in the path's own units.
        tolerance: how far a flattened curve may lie from the true one, same units.
    """
    radius = pen.width / 2
    step = 2 * math.acos(max(-1.0, 1 - tolerance / max(radius, tolerance)))
    out: Curves = []
    for curve in curves:
        for chain, closed in _dashed(_chain(curve, tolerance), pen, closed=curve[1]):
            out += _covered(chain, pen, radius, max(step, 0.05), closed=closed)
    return out


def round_enough(curves: Curves, pen: Pen) -> bool:
    """Return whether round caps and joins would draw the same: no dashes, no square ends, no corners that show."""
    if pen.dashes:
        return False
    caps = pen.cap == 1 or all(closed for _, closed in curves)
    return caps and (pen.join == 1 or all(_smooth(curve) for curve in curves))


def flat(curve: Curve, tolerance: float) -> Chain:
    """Return the corners of a polyline that stays within `tolerance` of the curve."""
    points = curve[0]
    out = [points[0]]
    for at in range(0, len(points) - 1, 3):
        p0, p1, p2, p3 = points[at : at + 4]
        # Wang's bound: a cubic split evenly in n lies within max|second difference| x 6 / (8 n^2) of its chords.
        bend = max(_far(p0, p1, p2), _far(p1, p2, p3))
        parts = min(400, max(1, math.ceil(math.sqrt(0.75 * bend / tolerance))))
        for k in range(1, parts):
            t, u = k / parts, 1 - k / parts
            a, b, c, d = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
            out.append((a * p0[0] + b * p1[0] + c * p2[0] + d * p3[0], a * p0[1] + b * p1[1] + c * p2[1] + d * p3[1]))
        out.append(p3)
    return out


def _far(a: Point, b: Point, c: Point) -> float:
    return math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1])


def _chain(curve: Curve, tolerance: float) -> Chain:
    """Return the flattened line without repeated points; of a closed one the last point is not the first again."""
    out: Chain = []
    for point in flat(curve, tolerance):
        if not out or math.dist(out[-1], point) > tolerance * 1e-3:
            out.append(point)
    if curve[1] and len(out) > 1 and math.dist(out[0], out[-1]) <= tolerance * 1e-3:
        out.pop()
    return out


def _smooth(curve: Curve) -> bool:
    """Return whether the line has no corner sharper than two degrees."""
    points, closed = curve
    ways = []
    for at in range(0, len(points) - 1, 3):
        piece = points[at : at + 4]
        steps = [q for q in piece[1:] if q != piece[0]]
        back = [q for q in piece[:-1] if q != piece[3]]
        if steps and back:
            ways.append((_way(piece[0], steps[0]), _way(back[-1], piece[3])))
    pairs = [(ways[k][1], ways[k + 1][0]) for k in range(len(ways) - 1)]
    if closed and ways:
        last, first = points[-1], points[0]
        if last == first:
            pairs.append((ways[-1][1], ways[0][0]))
        else:
            edge = _way(last, first)
            pairs += [(ways[-1][1], edge), (edge, ways[0][0])]
    return all(a[0] * b[0] + a[1] * b[1] > math.cos(math.radians(2)) for a, b in pairs)


def _way(start: Point, end: Point) -> Point:
    length = math.dist(start, end) or 1.0
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length)


def _dashed(chain: Chain, pen: Pen, *, closed: bool) -> list[tuple[Chain, bool]]:
    """Return the chain cut into its dashes, or whole."""
    if not pen.dashes or len(chain) < 2:
        return [(chain, closed)]
    lengths = pen.dashes * 2 if len(pen.dashes) % 2 else pen.dashes
    least = 1e-6 * sum(lengths)  # a dash of no length is a dot: it keeps a direction for its caps
    lengths = tuple(max(length, least) for length in lengths)
    at, left = 0, pen.phase % sum(lengths)
    while left >= lengths[at]:
        left -= lengths[at]
        at = (at + 1) % len(lengths)
    left = lengths[at] - left
    out: list[tuple[Chain, bool]] = []
    dash: Chain = [chain[0]] if at % 2 == 0 else []
    for start, end in _edges(chain, closed=closed):
        length, done, way = math.dist(start, end), 0.0, _way(start, end)
        while length - done > left:
            done += left
            point = (start[0] + way[0] * done, start[1] + way[1] * done)
            if at % 2 == 0:
                out.append(([*dash, point], False))
            at = (at + 1) % len(lengths)
            left = lengths[at]
            dash = [point] if at % 2 == 0 else []
        left -= length - done
        if at % 2 == 0:
            dash.append(end)
    if len(dash) > 1:
        out.append((dash, False))
    return out


def _edges(chain: Chain, *, closed: bool) -> list[tuple[Point, Point]]:
    ends = [*chain[1:], chain[0]] if closed else chain[1:]
    return list(zip(chain, ends, strict=False))


def _covered(chain: Chain, pen: Pen, radius: float, step: float, *, closed: bool) -> Curves:
    """Return the area covered by one chain."""
    chain = [point for at, point in enumerate(chain) if at == 0 or point != chain[at - 1]]
    if len(chain) < 2:
        return _dot(chain, pen, radius, step)
    if closed and len(chain) > 2:
        return [
            _ring(_side(chain, pen, radius, step, closed=True)),
            _ring(_side(chain[::-1], pen, radius, step, closed=True)),
        ]
    there = _side(chain, pen, radius, step, closed=False)
    back = _side(chain[::-1], pen, radius, step, closed=False)
    first, last = _way(chain[0], chain[1]), _way(chain[-2], chain[-1])
    far = _cap(chain[-1], last, pen.cap, radius, step)
    near = _cap(chain[0], (-first[0], -first[1]), pen.cap, radius, step)
    return [_ring([*there, *far, *back, *near])]


def _dot(chain: Chain, pen: Pen, radius: float, step: float) -> Curves:
    """Return what a line of no length covers: a disc or a square, or nothing (ISO 32000-1, 8.5.3.2)."""
    if not chain or pen.cap == 0:
        return []
    x, y = chain[0]
    if pen.cap == 1:
        return [_ring(_arc(chain[0], 0.0, 2 * math.pi, radius, step))]
    return [
        _ring([(x - radius, y - radius), (x + radius, y - radius), (x + radius, y + radius), (x - radius, y + radius)])
    ]


def _ring(corners: Chain) -> Curve:
    return (straight([*corners, corners[0]]), True)


def _side(chain: Chain, pen: Pen, radius: float, step: float, *, closed: bool) -> Chain:
    """Return the border to the right of the chain, joins included."""
    edges = _edges(chain, closed=closed)
    out: Chain = []
    for at, (start, end) in enumerate(edges):
        way = _way(start, end)
        across = (way[1] * radius, -way[0] * radius)
        out += [(start[0] + across[0], start[1] + across[1]), (end[0] + across[0], end[1] + across[1])]
        if at + 1 < len(edges) or closed:
            following = edges[(at + 1) % len(edges)]
            room = min(math.dist(start, end), math.dist(*following))
            out += _join(end, (way, _way(*following)), pen, radius, step, room)
    return out


def _join(corner: Point, ways: tuple[Point, Point], pen: Pen, radius: float, step: float, room: float) -> Chain:
    """Return the border's points at a corner, between the ends of its two edges; `room` is the shorter edge."""
    way, onward = ways
    turn = way[0] * onward[1] - way[1] * onward[0]
    along = way[0] * onward[0] + way[1] * onward[1]
    if turn < 0 and radius * -turn > room * (1 + along):
        return [corner]  # by way of the corner the winding stays right on the inner side however short the edges
    if turn < 0 or along > math.cos(0.02):
        return []
    start = math.atan2(-way[0], way[1])
    sweep = math.atan2(turn, along) % (2 * math.pi)
    if pen.join == 1:
        return _arc(corner, start, sweep, radius, step)
    half = math.cos(sweep / 2)
    if pen.join == 0 and half > 1e-9 and 1 / half <= pen.miter:
        middle = start + sweep / 2
        return [(corner[0] + math.cos(middle) * radius / half, corner[1] + math.sin(middle) * radius / half)]
    return []


def _cap(end: Point, way: Point, cap: int, radius: float, step: float) -> Chain:
    """Return the points beyond an open end, from its right side to its left."""
    if cap == 1:
        return _arc(end, math.atan2(-way[0], way[1]), math.pi, radius, step)
    if cap == 2:
        x, y = end[0] + way[0] * radius, end[1] + way[1] * radius
        return [(x + way[1] * radius, y - way[0] * radius), (x - way[1] * radius, y + way[0] * radius)]
    return []


def _arc(centre: Point, start: float, sweep: float, radius: float, step: float) -> Chain:
    """Return points of an arc of the radius, both ends left out of a part circle."""
    count = max(2, math.ceil(sweep / step))
    return [
        (
            centre[0] + radius * math.cos(start + sweep * k / count),
            centre[1] + radius * math.sin(start + sweep * k / count),
        )
        for k in range(1, count)
    ]
