"""A document as plain values: what JSON holds and TOML holds is the same, and the reader reads both alike."""

from __future__ import annotations

import datetime as dt
import json
import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.jobfile.reading import read_document, read_job
from wrapwright.outside.jobfile.writing import DEEPEST, job_toml, plain_document

TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
WHOLE = st.integers(-(2**63), 2**63 - 1)
PLAIN = st.recursive(
    TEXTS | WHOLE | st.booleans() | st.floats(allow_nan=False, allow_infinity=False),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXTS, inner, max_size=3),
    max_leaves=20,
)
DEMO = Path(__file__).parents[3] / "src" / "wrapwright" / "data" / "demo" / "job.toml"


def depth(value: object) -> int:
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else None
    return 0 if inner is None else 1 + max(map(depth, inner), default=0)


@given(st.dictionaries(TEXTS, PLAIN, max_size=5).filter(lambda one: depth(one) <= DEEPEST))
def test_what_is_written_is_read_again(document: dict) -> None:
    """The reader is the standard library's, of TOML 1.0; the other way goes through JSON (RFC 8259)."""
    plain = plain_document({**document, "format": 1})
    text = job_toml(plain)
    assert tomllib.loads(text) == plain
    assert json.loads(json.dumps(plain)) == plain
    assert text.encode("utf-8") == job_toml(json.loads(json.dumps(plain))).encode("utf-8")


def test_the_text_and_the_document_are_the_same_job(tmp_path: Path) -> None:
    text = DEMO.read_text(encoding="utf-8").replace("format = 1", "format = 1\ndate = 2026-05-02")
    document = json.loads(json.dumps(plain_document(tomllib.loads(text))))
    from_text = read_job(text, folder=DEMO.parent, stem="x")
    assert document["date"] == "2026-05-02"
    assert read_document(document, folder=DEMO.parent, stem="x") == from_text
    assert read_job(job_toml(document), folder=DEMO.parent, stem="x") == from_text


def test_lengths_to_six_decimals_come_back(tmp_path: Path) -> None:
    blank = {"kind": "straight", "girth": "234.123457 mm", "wall": "100.000001 mm"}
    document = {"format": 1, "blank": blank, "element": [{"kind": "code", "text": "x", "width": "24.654321 mm"}]}
    for job in (
        read_document(document, folder=tmp_path, stem="x"),
        read_job(job_toml(document), folder=tmp_path, stem="x"),
    ):
        assert job.blank.readings[0].length_mm == 234.123457
        assert (job.blank.wall_mm, job.elements[0].width_mm) == (100.000001, 24.654321)


def test_dates_become_text() -> None:
    document = {"format": 1, "date": dt.date(2026, 5, 2), "x": [dt.datetime(2026, 5, 2, 9, 0)]}  # noqa: DTZ001
    assert plain_document(document) == {"format": 1, "date": "2026-05-02", "x": ["2026-05-02T09:00:00"]}


@pytest.mark.parametrize(
    ("document", "where"),
    [
        ({"format": 1, "element": [{"kind": "fill"}, {"kind": "text", "size": None}]}, "element 2: size"),
        ({"format": 1, "sheet": {"scale": [1.0, float("nan")]}}, "sheet: scale 2"),
        ({"format": 1, "title": b"x"}, "title"),
        ({"title": "x"}, "format"),
        ({"format": True}, "format"),
        ("format = 1", ""),
    ],
)
def test_what_no_job_file_can_hold(document: object, where: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        plain_document(document)
    assert (caught.value.kind, caught.value.where) == (Kind.UNUSABLE, where)


@pytest.mark.parametrize("file", ["/etc/passwd", "../x.svg", "a/../../x.svg", "C:\\x.svg", "\\\\host\\x.svg"])
@pytest.mark.parametrize("key", ["file", "mask", "font"])
def test_a_document_names_no_file_outside_its_folder(tmp_path: Path, key: str, file: str) -> None:
    kind = "text" if key == "font" else "picture"
    file = f"{file}.ttf" if key == "font" else file if "." in file else f"{file}.svg"
    own = {"text": "x", "size": "9 mm"} if kind == "text" else {"file": "x.svg", "width": "9 mm"}
    (tmp_path / "job").mkdir()
    (tmp_path / "x.svg").write_text("", encoding="utf-8")
    (tmp_path / "job" / "x.svg").write_text("", encoding="utf-8")
    blank = {"kind": "straight", "girth": "230 mm", "wall": "100 mm"}
    document = {"format": 1, "blank": blank, "element": [{"kind": kind, **own, key: file}]}
    absent: dict[str, WrapwrightError] = {}
    read_document(document, folder=tmp_path / "job", stem="x", absent=absent)
    assert "lies outside the design's folder" in absent[file].message
