"""The schemas that are printed are valid JSON Schemas of the documents that are named."""

from __future__ import annotations

import jsonschema
import pytest

from wrapwright.jobs.show_schema import Document, show_schema


@pytest.mark.parametrize(("document", "key"), [("job", "blank"), ("report", "sheets"), ("names-report", "names")])
def test_each_schema_is_valid(document: Document, key: str) -> None:
    schema = dict(show_schema(document))
    jsonschema.Draft202012Validator.check_schema(schema)
    assert key in schema["properties"]
    assert key in schema["required"]
