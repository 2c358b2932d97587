"""The map of the code is the one that the code makes; WRAPWRIGHT_WRITE_DOCS=1 writes it anew."""

from __future__ import annotations

import os
import re

import pytest
from tests.house.docs import flow_map
from tests.house.tree import ROOT, SOURCE

PAGE = ROOT / "docs" / "flow.md"


@pytest.fixture(scope="module")
def made() -> str:
    page = flow_map.page()
    if os.environ.get("WRAPWRIGHT_WRITE_DOCS") == "1":
        PAGE.write_text(page, encoding="utf-8", newline="\n")
    return page


def test_the_map_in_docs_is_the_one_the_code_makes(made: str) -> None:
    assert PAGE.read_text(encoding="utf-8") == made, "run this test with WRAPWRIGHT_WRITE_DOCS=1"


def test_every_module_is_on_the_map_with_a_word(made: str) -> None:
    rows = re.findall(r"^\| `(\w+\.py)` \| (.+) \|$", made, re.MULTILINE)
    modules = [file for file in SOURCE.rglob("*.py") if file.name != "__init__.py" and file.parent != SOURCE]
    assert sorted(name for name, _ in rows) == sorted(file.name for file in modules)
    assert all(len(words) > 10 for _, words in rows)


def test_the_way_of_one_job_names_modules_that_exist() -> None:
    named = re.findall(r"`([\w/]+\.py)`", flow_map.HEAD)
    assert len(named) > 15
    assert [name for name in named if not (SOURCE / name).is_file()] == []


def test_the_map_follows_the_contract(made: str) -> None:
    """What the map shows as used is allowed: no folder of core uses a later one, none of outside a stranger."""
    used = dict(re.findall(r"^\| `([\w/]+)` \| (.+) \|$", made.split("## Who uses whom")[1], re.MULTILINE))
    core = ["base", "blank", "design", "colour", "sheet", "press", "checks", "names"]
    for folder, words in used.items():
        targets = re.findall(r"`([\w/]+)`", words)
        floor, *inner = folder.split("/")
        for target in targets:
            there, *part = target.split("/")
            if floor == "core" and there != "data":
                assert there == "core"
                assert core.index(part[0]) <= core.index(inner[0])
            if floor == "outside" and there == "outside":
                assert part[0] in {inner[0], "system"}
            assert there != "faces" or floor == "faces"
    assert "`core/base`" in used["core/blank"]


def test_only_described_folders_without_words_of_their_own_stand_in_the_list() -> None:
    silent = {name for name in flow_map.ABOUT if not flow_map.first_line(SOURCE / name / "__init__.py")}
    assert silent == set(flow_map.ABOUT), "its __init__.py speaks for itself: take the folder out of ABOUT"
