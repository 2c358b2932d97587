"""What handlers are handed: the bench, and the parts of a request that several of them read."""

from __future__ import annotations

import math
import re
from typing import Annotated, Any, Literal

from fastapi import Depends, Header, Path, Query
from pydantic import AfterValidator, BaseModel, ConfigDict, Field
from starlette.requests import Request

from wrapwright.core.base.errors import Kind
from wrapwright.faces.api.failing import answer
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.values import FrameKind

QUIET = Watch()
LARGEST = 2**53 - 1  # the largest whole number that JavaScript holds exactly
DEEPEST = 32
# A body that is a file as it is.
RAW: dict[str, Any] = {
    "requestBody": {
        "required": True,
        "content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary", "minLength": 1}}},
    }
}


def _bench(request: Request) -> Bench:
    bench: Bench = request.app.state.bench
    return bench


def _base(if_match: Annotated[str | None, Header(description='The revision you start from, as `"7"`.')] = None) -> int:
    if if_match is None:
        raise answer(
            428,
            Kind.USAGE,
            "The request does not say which revision it starts from.",
            remedy='Send the header If-Match with it, as If-Match: "7".',
        )
    found = re.fullmatch(r'"?([0-9]{1,15})"?', if_match.strip())
    if found is None:
        raise answer(422, Kind.USAGE, f'If-Match must be a revision\'s number in quotes, as "7"; it is {if_match}.')
    return int(found[1])


def plain(value: Any, depth: int = 0) -> Any:
    """Return a JSON value that can be kept and sent back.

    Raises:
        ValueError: for characters that no encoding knows, numbers that are none, and nesting deeper than DEEPEST.
    """
    if depth > DEEPEST:
        raise ValueError(f"it is nested deeper than {DEEPEST} levels")
    if isinstance(value, str):
        try:
            value.encode("utf-8")
        except UnicodeEncodeError as error:
            raise ValueError("a text in it holds half a character (a lone surrogate)") from error
    elif isinstance(value, float) and not math.isfinite(value):
        raise ValueError(f"a number in it is {value}")
    elif isinstance(value, dict):
        for key, one in value.items():
            plain(key, depth + 1)
            plain(one, depth + 1)
    elif isinstance(value, list):
        for one in value:
            plain(one, depth + 1)
    return value


class Body(BaseModel):
    """The body of a request: no keys but its own."""

    model_config = ConfigDict(extra="forbid", frozen=True)


BenchAsked = Annotated[Bench, Depends(_bench)]
Base = Annotated[int, Depends(_base)]
Id = Annotated[int, Path(ge=1, le=LARGEST)]
Whole = Annotated[int, Query(ge=0, le=LARGEST)]
Frame = Annotated[FrameKind, Query(description="`flat`: the true flat shape; `straight`: the wall straightened.")]
UnitWord = Literal["mm", "in"]
Unit = Annotated[UnitWord, Query(description="The unit that is shown, and meant where none is written.")]
Search = Annotated[str, Query(max_length=200)]
Sha256 = Annotated[str, Path(pattern="^[0-9a-f]{64}$")]
Name = Annotated[str, Path(min_length=1, max_length=400)]
Title = Annotated[str, Field(min_length=1, max_length=400)]
Table = Annotated[dict[str, Any], AfterValidator(plain)]
