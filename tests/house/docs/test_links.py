"""Every link and picture of every page leads somewhere, and every page is found from the first one."""

from __future__ import annotations

import re

import pytest
from tests.house.docs.markdown import anchors, links, pages, target_of
from tests.house.tree import ROOT, named

LARGEST_PICTURE = 300_000


def test_there_are_pages_with_links() -> None:
    assert {"README.md", "docs/README.md", "CONTRIBUTING.md", "CHANGELOG.md", "examples/README.md"} <= set(pages())
    assert len(links("README.md")) > 8
    assert len(links("docs/README.md")) > 15


@pytest.mark.parametrize("page", pages())
def test_links_lead_to_a_file_and_a_heading(page: str) -> None:
    for _, words, target in links(page):
        file, anchor = target_of(page, target)
        assert file.exists(), f"{words}: {target}"
        assert file.is_relative_to(ROOT), target
        if anchor:
            assert anchor in anchors(file.read_text(encoding="utf-8")), target


def test_pictures_are_small_pngs_with_words_for_who_cannot_see_them() -> None:
    shown = [(page, words, target) for page in pages() for picture, words, target in links(page) if picture]
    assert len(shown) >= 2
    for page, words, target in shown:
        file, _ = target_of(page, target)
        assert file.read_bytes().startswith(b"\x89PNG\r\n\x1a\n"), target
        assert file.stat().st_size <= LARGEST_PICTURE, target
        assert len(words) > 20, target
    used = {target_of(page, target)[0] for page, _, target in shown}
    assert used == set((ROOT / "docs" / "pictures").iterdir())


def test_every_page_of_the_docs_is_in_the_index() -> None:
    listed = {target_of("docs/README.md", target)[0] for _, _, target in links("docs/README.md")}
    there = {file for file in (ROOT / "docs").iterdir() if file.is_file() and file.name != "README.md"}
    assert listed == there


def test_every_example_is_listed() -> None:
    targets = {target_of("examples/README.md", target)[0] for _, _, target in links("examples/README.md")}
    listed = {file for file in targets if file.suffix == ".toml"}
    assert listed == set((ROOT / "examples").glob("*.toml"))


def test_every_page_is_reached_from_the_first() -> None:
    reached: set[str] = set()
    todo = ["README.md"]
    while todo:
        page = todo.pop()
        reached.add(page)
        targets = [target_of(page, target)[0] for _, _, target in links(page)]
        todo += [named(file) for file in targets if file.suffix == ".md" and named(file) not in reached]
    assert reached == set(pages())


def test_paths_in_code_exist() -> None:
    """A path of the project that a page names in code is there."""
    mentioned = {
        path
        for text in pages().values()
        for path in re.findall(r"`((?:tests|docs|examples|benchmarks|src)/[\w./-]+)`", text)
    }
    assert mentioned
    assert [path for path in mentioned if not (ROOT / path).exists()] == []
