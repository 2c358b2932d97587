"""Our own scripts and styles without what only people read: comments, indentation, empty lines."""

from __future__ import annotations

import re
from itertools import groupby

FORM = 1  # grows when what is made of a file changes, since browsers keep it for a year

# What a script may hold in which a slash or a bracket is not what it seems; templates and regular expressions are
# found by hand, since neither can be told apart by its own characters alone.
_POINT = re.compile(
    r"""(?P<text>"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*')|(?P<line>//[^\n]*)|(?P<block>/\*.*?\*/)"""
    r"""|(?P<slash>/)|(?P<tick>`)|(?P<open>\{)|(?P<shut>\})""",
    re.DOTALL,
)
_TEMPLATE = re.compile(r"(?:\\.|\$(?!\{)|[^`\\$])*", re.DOTALL)
_PATTERN = re.compile(r"/(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\\[\n])+/")
_ENDS = re.compile(r"\s*\n\s*")
_WORD = re.compile(r"[\w$]+\Z")
# After these a slash begins a regular expression, though they look like names.
_BEFORE_PATTERN = frozenset({"return", "typeof", "case", "in", "of", "delete", "void", "throw", "new", "else", "do"})
_CSS = re.compile(r"""("(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'|url\([^)]*\))|/\*.*?\*/""", re.DOTALL)


def trimmed(content: bytes, suffix: str) -> bytes:
    """Return a script or style sheet that means the same and is shorter; any other file as it is.

    Args:
        content: of the file, UTF-8.
        suffix: of its name, ".js" or ".css".
    """
    if suffix == ".css":
        text = _CSS.sub(lambda found: found[1] or " ", content.decode())
        return _close([(text, False)]).encode()
    if suffix == ".js":
        return _close(_pieces(content.decode())).encode()
    return content


def _pieces(text: str) -> list[tuple[str, bool]]:
    """Return a script in pieces without its comments, each with whether it must stay as it stands."""
    pieces: list[tuple[str, bool]] = []
    depths: list[int] = []  # open brackets in each template's part that is code again
    done = 0
    while (found := _POINT.search(text, done)) is not None:
        pieces.append((text[done : found.start()], False))
        done = found.end()
        kind = found.lastgroup
        if kind in {"line", "block"}:
            pieces.append(("\n" if "\n" in found[0] else " ", False))
            continue
        if kind == "slash" and _begins_pattern(pieces) and (pattern := _PATTERN.match(text, found.start())):
            done = pattern.end()
            pieces.append((pattern[0], True))
            continue
        if kind == "open" and depths:
            depths[-1] += 1
        back = kind == "shut" and bool(depths)
        if back:
            depths[-1] -= 1
            back = depths[-1] == 0
        if kind == "tick" or back:
            if back:
                depths.pop()
            done = _template(text, found.start() + 1, depths)
            pieces.append((text[found.start() : done], True))
            continue
        pieces.append((found[0], kind == "text"))
    pieces.append((text[done:], False))
    return pieces


def _template(text: str, start: int, depths: list[int]) -> int:
    """Return where a template's text ends: behind its closing tick, or behind the "${" of a part that is code."""
    match = _TEMPLATE.match(text, start)
    end = match.end() if match else start
    if text.startswith("${", end):
        depths.append(1)
        return end + 2
    return end + 1


def _begins_pattern(pieces: list[tuple[str, bool]]) -> bool:
    """Return whether a slash after these pieces begins a regular expression; else it divides."""
    before = next((piece.rstrip() for piece, _ in reversed(pieces) if piece.strip()), "")
    word = _WORD.search(before)
    if word:
        return word[0] in _BEFORE_PATTERN
    return before[-1:] not in {")", "]", "}", '"', "'", "`"}


def _close(pieces: list[tuple[str, bool]]) -> str:
    """Return the pieces joined, spaces round the ends of lines and empty lines gone from those that may change."""
    parts: list[str] = []
    for stays, run in groupby(pieces, key=lambda piece: piece[1]):
        text = "".join(piece for piece, _ in run)
        parts.append(text if stays else _ENDS.sub("\n", text))
    return "".join(parts).lstrip()
