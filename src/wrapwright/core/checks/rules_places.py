"""Rules about where things lie: seam, handle, keep-outs, margins, edges, coating, bleed."""

from __future__ import annotations

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.checks.facts import CopyFacts, Facts
from wrapwright.core.checks.telling import apart, worst_copies

SLACK_MM = 0.05  # what we promise of a length on the sheet; nothing smaller is remarked on
STRIPE_SHARE = 0.25  # art that leaves out more of the band than this at an edge is meant as a stripe: our own choice


def crosses_seam(facts: Facts) -> list[Finding]:
    """Return an error for each text or code across the seam, a note for anything else across it."""
    if facts.blank.has_handle or facts.blank.flat:
        return []
    found = []
    for copy, over in worst_copies(facts, _over_the_ends):
        if over > SLACK_MM:
            strict = copy.kind in ("text", "code")
            result = "it would be cut there and has to meet to a hair" if strict else "it is cut there and goes on"
            message = (
                f"{copy.label} reaches {apart(over, 0.0, 1)} mm over the seam (the limit is 0): {result}. "
                f"{'M' if strict else 'If that is not meant, m'}ove it, make it smaller, or move the seam."
            )
            severity = Severity.ERROR if strict else Severity.NOTE
            found.append(Finding("crosses-seam", severity, message, copy.element, over, 0.0, "mm"))
    return found


def over_handle(facts: Facts) -> list[Finding]:
    """Return an error for each element that reaches into the handle's gap."""
    if not facts.blank.has_handle:
        return []
    return [
        Finding(
            "over-handle",
            Severity.ERROR,
            f"{copy.label} reaches {apart(over, 0.0, 1)} mm past the cut beside the handle (the limit is 0): that "
            "part is lost. Move it away from the handle or make it smaller.",
            copy.element,
            over,
            0.0,
            "mm",
        )
        for copy, over in worst_copies(facts, _over_the_ends)
        if over > SLACK_MM
    ]


def over_keepout(facts: Facts) -> list[Finding]:
    """Return an error for each element that prints where nothing may print."""
    found = []
    for copy, area in worst_copies(facts, lambda one: max((hit.area_mm2 for hit in one.keepouts), default=None)):
        whys = ", ".join(dict.fromkeys(hit.why for hit in copy.keepouts))
        message = (
            f"{copy.label} prints on about {area:.0f} mm² of a keep-out ({whys}); the limit is 0. Move it, "
            f"{'' if facts.blank.flat else 'cut the band short of it, '}or leave the keep-out out."
        )
        found.append(Finding("over-keepout", Severity.ERROR, message, copy.element, area, 0.0, "mm2"))
    return found


def outside_safe(facts: Facts) -> list[Finding]:
    """Return a warning for each text, code or picture inside the trim but nearer to it than the safe margin."""
    safe = facts.blank.safe_mm
    found = []
    for copy, away in worst_copies(facts, _nearest):
        if -away < safe - SLACK_MM:
            message = (
                f"{copy.label} comes within {apart(-away, safe, 1)} mm of {_which(copy)}, inside the safe margin of "
                f"{safe:g} mm: a wrap laid a little off shows it. Move it in or make it smaller."
            )
            found.append(Finding("outside-safe", Severity.WARNING, message, copy.element, -away, safe, "mm"))
    return found


def _rooms(copy: CopyFacts) -> dict[str, float]:
    if copy.room_trim_mm is not None:
        return {"the trim": copy.room_trim_mm}
    return {
        "the rim's trim": copy.room_rim_mm,
        "the base's trim": copy.room_base_mm,
        "the left end": copy.room_left_mm,
        "the right end": copy.room_right_mm,
    }


def _inside(copy: CopyFacts) -> dict[str, float]:
    """Return the rooms that are not already overstepped: those have rules of their own."""
    return {where: room for where, room in _rooms(copy).items() if room >= -SLACK_MM}


def _nearest(copy: CopyFacts) -> float | None:
    rooms = {} if copy.wide else _inside(copy)
    return -max(0.0, min(rooms.values())) if rooms else None


def _which(copy: CopyFacts) -> str:
    rooms = _inside(copy)
    return min(rooms, key=lambda where: rooms[where])


def _over_the_ends(copy: CopyFacts) -> float | None:
    return None if copy.wide else -min(copy.room_left_mm, copy.room_right_mm)


def off_wrap(facts: Facts) -> list[Finding]:
    """Return an error for each element that reaches over rim or base, or over the outline of a flat blank.

    A picture may reach into the bleed, or over both edges as a background does.
    """
    bleed = facts.blank.bleed_mm
    found = []
    for copy, over in worst_copies(facts, _over_the_edges):
        limit = bleed if copy.kind == "picture" else 0.0
        if over > limit + SLACK_MM:
            edge = "rim's trim" if copy.room_rim_mm < copy.room_base_mm else "base's trim"
            how = "up counts from the band's lower edge"
            if facts.blank.flat:
                edge, how = "trim", "across counts from the middle, up from the lower edge"
            message = (
                f"{copy.label} reaches {apart(over, limit, 1)} mm over the {edge} (the limit is {limit:g}): "
                f"that part is lost. Move it ({how}), or make it smaller."
            )
            found.append(Finding("off-wrap", Severity.ERROR, message, copy.element, over, limit, "mm"))
    return found


def _over_the_edges(copy: CopyFacts) -> float | None:
    rooms = (copy.room_rim_mm, copy.room_base_mm)
    if copy.room_trim_mm is not None:
        sides = (copy.room_left_mm, copy.room_right_mm)
        behind = copy.kind == "picture" and min(max(rooms), max(sides)) <= SLACK_MM
        return None if copy.wide or behind else -copy.room_trim_mm
    if copy.wide or (copy.kind == "picture" and max(rooms) <= SLACK_MM):
        return None
    return -min(rooms)


def uncoated(facts: Facts) -> list[Finding]:
    """Return an error for each element that lies on wall without coating."""
    return [
        Finding(
            "uncoated",
            Severity.ERROR,
            f"{copy.label} lies for {apart(height, 0.0, 1)} mm of its height on "
            f"{'a part' if facts.blank.flat else 'wall'} that takes no dye (the limit is 0). Move it"
            f"{'' if facts.blank.flat else ', or choose the band inside the coated part'}.",
            copy.element,
            height,
            0.0,
            "mm",
        )
        for copy, height in worst_copies(facts, lambda one: one.uncoated_mm)
        if height > SLACK_MM
    ]


def art_short(facts: Facts) -> list[Finding]:
    """Return an error for art all round that ends short of the trim, a warning where only the bleed is short."""
    found = []
    for copy, missing in worst_copies(facts, lambda one: _missing(one, facts)):
        bleed = facts.blank.bleed_mm
        if missing > bleed + SLACK_MM:
            short = missing - bleed
            message = (
                f"{copy.label} ends {apart(short, 0.0, 1)} mm short of the trim (the limit is 0): bare coating shows "
                "along the edge. Make it higher, move it, or put a fill below it."
            )
            found.append(Finding("art-short", Severity.ERROR, message, copy.element, short, 0.0, "mm"))
        elif missing > SLACK_MM:
            message = (
                f"{copy.label} has {apart(bleed - missing, bleed, 1)} mm of bleed beyond the trim, under {bleed:g} "
                "mm: a cut a little off shows bare coating. Make it higher by what is missing at each edge."
            )
            found.append(Finding("art-short", Severity.WARNING, message, copy.element, bleed - missing, bleed, "mm"))
    return found


def _missing(copy: CopyFacts, facts: Facts) -> float | None:
    """Return how far a picture ends short of trim and bleed where it is meant to reach it, else None."""
    blank = facts.blank
    if copy.kind != "picture" or copy.on_fill:
        return None
    figures = []
    edges = list(zip((copy.room_rim_mm, copy.room_base_mm), blank.cut, strict=True))
    if blank.flat and not copy.wide:
        edges += [(copy.room_left_mm, True), (copy.room_right_mm, True)]
    for room, cut in edges:
        meant = room <= blank.band_mm * STRIPE_SHARE if copy.wide else room <= SLACK_MM
        if meant and (cut or room > SLACK_MM):
            figures.append(room + blank.bleed_mm)
    return max(figures, default=None)
