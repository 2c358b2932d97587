"""The schemas that are printed are valid JSON Schemas of the documents that are named."""

from __future__ import annotations

from typing import Literal

import jsonschema
import pytest

from wrapwright.jobs.show_schema import show_schema


@pytest.mark.parametrize(("document", "key"), [("job", "blank"), ("report", "sheets")])
def test_each_schema_is_valid(document: Literal["job", "report"], key: str) -> None:
    schema = dict(show_schema(document))
    jsonschema.Draft202012Validator.check_schema(schema)
    assert key in schema["properties"]
    assert key in schema["required"]
