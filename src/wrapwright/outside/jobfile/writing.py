"""A document written as the text of a job file."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import tomli_w


def job_toml(document: Mapping[str, Any]) -> str:
    """Return the job file's text of a document: TOML, LF at the ends of lines, the same text for the same document.

    Raises:
        TypeError, ValueError: for what `plain_document` would have refused.
    """
    return tomli_w.dumps(document)
