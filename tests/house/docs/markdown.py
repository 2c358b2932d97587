"""The project's pages taken apart: fenced examples, links, headings, tables."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.house.tree import ROOT, committed, named

_FENCE = re.compile(r"^( *)```(\w*)\n(.*?)^\1```$", re.MULTILINE | re.DOTALL)
_LINK = re.compile(r"(!?)\[([^\]]*)\]\(([^)\s]+)\)")


@dataclass(frozen=True)
class Fence:
    """A fenced example: the page it stands on, its language and its text."""

    page: str
    language: str
    text: str


@cache
def pages() -> dict[str, str]:
    """Return every Markdown page of the project by its path from the root."""
    return {named(file): file.read_text(encoding="utf-8") for file in committed() if file.suffix == ".md"}


def fences(language: str) -> list[Fence]:
    """Return the fenced examples of a language, page by page."""
    return [one for page, text in pages().items() for one in _fences(page, text) if one.language == language]


def _fences(page: str, text: str) -> list[Fence]:
    found = []
    for indent, language, body in _FENCE.findall(text):
        lines = [line.removeprefix(indent) for line in body.splitlines(keepends=True)]
        found.append(Fence(page, language, "".join(lines)))
    return found


def without_fences(text: str) -> str:
    """Return a page without its fenced examples."""
    return _FENCE.sub("", text)


def links(page: str) -> list[tuple[bool, str, str]]:
    """Return the links of a page: whether it is a picture, its words, its target."""
    return [(mark == "!", words, target) for mark, words, target in _LINK.findall(without_fences(pages()[page]))]


def anchors(text: str) -> set[str]:
    """Return the anchors of a page's headings: lower case, spaces as hyphens, marks left out."""
    heads = re.findall(r"^#+ (.+)$", without_fences(text), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", head.lower()).replace(" ", "-") for head in heads}


def rows(text: str, first: str) -> list[list[str]]:
    """Return the cells of the table whose heading begins with a word."""
    table = re.search(rf"^\| {first} \|.*\n\|[-| ]+\|\n((?:\|.*\n)+)", text, re.MULTILINE)
    assert table is not None, f"no table of {first}"
    return [[cell.strip() for cell in row.strip("|").split("|")] for row in table[1].strip().splitlines()]


def target_of(page: str, target: str) -> tuple[Path, str]:
    """Return the file that a relative link means, and its anchor."""
    path, _, anchor = target.partition("#")
    return ((ROOT / page).parent / path).resolve() if path else ROOT / page, anchor
