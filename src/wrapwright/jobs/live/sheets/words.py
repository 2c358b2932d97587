"""The marks of a sheet in words: what each is called and what it is for."""

from __future__ import annotations

_TOLD = {
    "corner marks": (
        "Corner marks",
        "Short lines in line with the cuts: lay the trimmer's edge on two of them. Cut them away.",
    ),
    "guide arcs": (
        "Guide arcs",
        "Dashed arcs outside rim and base of a tapered wrap: cut as far inside them as their name says.",
    ),
    "guide line": (
        "Guide line",
        "The dashes round a flat blank's transfer: cut as far inside them as their name says.",
    ),
    "top": ("Top", "The arrow points to the edge that is the top."),
    "check bars": (
        "Check bars",
        "Measure them on the print, along and across. Off by more than 0.5 mm: stop, something rescaled the page.",
    ),
    "rim": ("Rim", "The arrow points to the edge that goes up, to the rim."),
    "base": ("Base", "The edge that goes down, to the base."),
    "lay first": ("Lay first", "This end goes on the blank first."),
    "lay on top": ("Lay on top", "This end comes on top of the first and laps over it, or meets the handle."),
    "meets panel": ("Meets panel", "This edge is laid on the line between the inner marks of that panel."),
    "under panel": ("Under panel", "The strip under the edge of that panel; the inner marks show where it lies."),
    "label": ("Label", "Title and piece number, so that transfers are not taken for each other. Cut it away."),
    "piece number": ("Piece number", "There was no room for the whole label. Cut it away."),
}
_SOME = "some "


def mark_told(name: str) -> tuple[str, str]:
    """Return what a mark is called and what it is for, by its name in the report ("check bars 100 mm")."""
    some = name.startswith(_SOME)
    bare = name.removeprefix(_SOME)
    found = next((key for key in _TOLD if bare.startswith(key)), None)
    if found is None:
        return (name.capitalize(), "")
    title, words = _TOLD[found]
    length = bare.removeprefix(found)
    return (f"{'Some ' + title.lower() if some else title}{length}", words)
