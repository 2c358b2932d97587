"""The published schema says what the reader takes; nothing makes the reader fall over."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.jobfile import reading
from wrapwright.outside.jobfile.job import Job
from wrapwright.outside.jobfile.model import JobFile, job_schema

ROOT = Path(__file__).parents[3]
# together.toml is a sheets file.
EXAMPLES = [path for path in sorted((ROOT / "examples").glob("*.toml")) if path.stem != "together"]
SHIPPED = [ROOT / "src/wrapwright/data/demo/job.toml", *EXAMPLES]


@pytest.fixture(scope="module")
def judge() -> jsonschema.Draft202012Validator:
    schema = job_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_shipped_jobs_agree_with_the_schema(judge: jsonschema.Draft202012Validator, path: Path) -> None:
    judge.validate(tomllib.loads(path.read_text(encoding="utf-8")))


GOOD: dict[str, Any] = {"format": 1, "blank": {"kind": "straight", "girth": 235, "wall": "6 1/2 in"}}


@pytest.mark.parametrize(
    "wrong",
    [
        {"format": 2},
        {"quantity": 0},
        {"sheet": {"ppi": 50}},
        {"wrap": {"bled": 2}},
        {"element": [{"kind": "blob"}]},
        {"element": [{"kind": "picture", "width": 9}]},
        {"element": [{"kind": "picture", "file": "a", "width": 9, "fit": "outside"}]},
        {"element": [{"kind": "picture", "file": "a", "width": 9, "crop": [0, 0, 1]}]},
        {"blank": {"kind": "round"}},
    ],
)
def test_what_the_reader_refuses_by_form_the_schema_refuses(
    judge: jsonschema.Draft202012Validator, wrong: dict[str, Any]
) -> None:
    judge.validate(GOOD)
    assert list(judge.iter_errors(GOOD | wrong))


def test_the_schema_has_no_null_and_every_key_of_the_model() -> None:
    schema = job_schema()
    assert "null" not in str(schema)
    assert set(schema["properties"]) == set(JobFile.model_fields)


# A small grammar: right keys and wrong ones, right values and every sort of wrong one.
_values = st.one_of(
    st.sampled_from(
        ["9 1/4 in", "front", "auto", "wrap", "tapered", "picture", "circle", "rounded 4 mm", "blend 1 mm", "#fff", ""]
    ),
    st.sampled_from([0, 1, -1, 300, 10**30, 0.5, float("nan"), float("inf"), True, 235]),
    st.text(max_size=6),
)
_KNOWN = "kind girth wall at width height file text size colour mask crop from gap readings tape handle gradient"
_MORE = "adjust paper margins scale around join use x"
_keys = st.sampled_from(f"{_KNOWN} {_MORE}".split())
_tables = st.dictionaries(
    _keys, st.one_of(_values, st.lists(_values, max_size=4), st.dictionaries(_keys, _values, max_size=2)), max_size=5
)
_tops = st.sampled_from(["format", "title", "quantity", "date", "accept", "fields", "names", "press", "keepout"])
_sections = st.sampled_from(["blank", "wrap", "sheet", "colour", "press", "fields"])
_documents = st.builds(
    lambda tops, sections, elements: {"format": 1, **tops, **sections, "element": elements},
    st.dictionaries(_tops, st.one_of(_values, st.lists(_values, max_size=3)), max_size=3),
    st.one_of(
        st.just({"blank": {"kind": "straight", "girth": 235, "wall": "6 1/2 in"}}),
        st.dictionaries(_sections, st.one_of(_tables, _values), max_size=4),
    ),
    st.one_of(st.lists(st.one_of(_tables, _values), max_size=4), _values),
)


@settings(derandomize=True, max_examples=300, deadline=None)
@given(_documents)
def test_any_document_is_a_job_or_a_sentence(document: dict[str, Any]) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(reading, "toml_document", lambda _text, _where: document)
        try:
            found: object = reading.read_job("", folder=Path("nowhere"), stem="x")
        except WrapwrightError as problem:
            found = problem
    assert isinstance(found, Job | WrapwrightError)
    assert str(found).strip()


@settings(derandomize=True, max_examples=100, deadline=None)
@given(st.text(alphabet='abc=[]{}"\n1.,#\\ ', max_size=40))
def test_any_text_is_a_job_or_a_sentence(text: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        reading.read_job(text, folder=Path("nowhere"), stem="x")
    assert str(caught.value).strip()
