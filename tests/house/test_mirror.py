"""Tests lie where their source lies, under its name; the exceptions are listed with their subject."""

from __future__ import annotations

from pathlib import Path

from tests.house.tree import ROOT, SOURCE, python_files

# Folders of tests whose subject is the whole.
WHOLE = {
    "browser": "the pages in a real browser",
    "house": "the project itself",
    "sheet_on_paper": "finished sheets, judged by other programs",
    "whole": "whole jobs, judged from outside",
}

# Tests named after what they prove, not after one module.
NAMED_AFTER_A_PROOF = {
    "outside/raster/test_copies.py": "a copy of several shapes as one thing",
    "core/blank/test_folded.py": "flat wraps folded round their blank again",
    "core/blank/test_frustum.py": "wraps of tapered blanks",
    "core/blank/test_refusals.py": "sentences for impossible readings",
    "core/checks/test_rules.py": "every rule, tripped and not",
    "core/colour/test_adjust_coating.py": "adjustments and coatings",
    "core/colour/test_srgb_lab.py": "sRGB and CIELAB",
    "outside/documents/test_drawings.py": "lengths and sides of the line drawings",
    "outside/documents/test_same_bytes.py": "the same data give the same bytes",
    "outside/icc/test_tables_proofing.py": "exact tables and soft proofs",
    "outside/raster/test_against_naive.py": "the fast renderer against the plain one",
    "outside/images/child/test_lines.py": "lines made areas",
    "outside/images/test_drawings.py": "SVG as outlines",
    "outside/images/test_hostile.py": "files made to do harm",
    "outside/images/test_pages.py": "PDF pages as outlines",
    "outside/images/test_formats.py": "every format that is read",
    "outside/jobfile/test_refusals.py": "sentences for job files that cannot be meant",
    "outside/jobfile/test_schema.py": "the published schema against the reader",
    "outside/store/test_losing_power.py": "what is left after a crash, and of two stations at once",
    "outside/pdf/test_x4.py": "PDF/X-4, rule by rule",
    "outside/pages/test_page_files.py": "pages as PNG and TIFF",
}


def mirrors(test: Path) -> bool:
    """Return whether a source module or folder of the test's name lies in the test's folder of the source."""
    folder = SOURCE / test.parent
    name = test.stem.removeprefix("test_")
    return (folder / f"{name}.py").is_file() or (folder / name).is_dir()


def test_every_test_has_its_place() -> None:
    tests = [file.relative_to(ROOT / "tests") for file in python_files() if file.is_relative_to(ROOT / "tests")]
    tests = [test for test in tests if test.name.startswith("test_")]
    assert tests
    lost = [
        test.as_posix()
        for test in tests
        if test.parts[0] not in WHOLE and not mirrors(test) and test.as_posix() not in NAMED_AFTER_A_PROOF
    ]
    assert lost == []


def test_what_is_listed_is_there_and_needs_the_list() -> None:
    stale = [name for name in NAMED_AFTER_A_PROOF if mirrors(Path(name)) or not (ROOT / "tests" / name).is_file()]
    assert stale == []
