"""The whole REST face asked as its own description says: no fault, and no answer that the description does not know."""

from __future__ import annotations

import hashlib
import warnings
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from tests.faces.asked import app_at, asking

from wrapwright.faces.api.rest import ROUTERS
from wrapwright.faces.web.admission import LOOPBACK, Admission, host_of

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import schemathesis
    from schemathesis.checks import not_a_server_error
    from schemathesis.python.asgi import HOST
    from schemathesis.specs.openapi.checks import (
        content_type_conformance,
        response_headers_conformance,
        response_schema_conformance,
        status_code_conformance,
    )

CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
]
EXAMPLES = 5  # a route
CHANGES = ("PUT /api/designs/", "POST /api/designs/{number}/")
MORE = {"PUT /api/designs/{number}": 24}
BLANK = {"kind": "straight", "girth": "230 mm", "wall": "90 mm"}
DOCUMENT = {
    "format": 1,
    "title": "Leaf",
    "blank": BLANK,
    "wrap": {"seam": "left"},
    "sheet": {"ppi": 150},
    "element": [{"kind": "picture", "file": "leaf.svg", "width": "30 mm"}],
    "fields": {},
}
LEAF = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="20mm" viewBox="0 0 10 20">'
    b'<path fill="#224400" d="M5 0 L10 20 L0 20 Z"/></svg>'
)


def filled(client: Any) -> None:
    """Put one of everything into the store."""
    picture = client.put("/api/pictures/leaf.svg", content=LEAF).json()
    assert client.post("/api/blanks", json={"name": "Cup", "table": BLANK}).status_code == 201
    assert client.post("/api/setups", json={"name": "Desk printer", "sheet": {"paper": "A4"}}).status_code == 201
    assert client.post("/api/designs", json={"title": "Leaf", "document": DOCUMENT}).status_code == 201
    file = {"sha256": picture["sha256"], "name": "leaf.svg"}
    assert client.post("/api/designs/1/files", json=file).json() == {"name": "leaf.svg"}
    assert client.post("/api/made", json={"design": 1}).status_code == 201


def plain_function(method: Any) -> Any:
    """Return a method as the plain function that a hook must be."""

    def hook(context: Any, value: Any) -> Any:
        return method(context, value)

    return hook


class Nudges:
    """Turns what was made up into what mostly exists, so that requests get further than the first check."""

    def __init__(self, schema: Any, newest: Callable[[], int]) -> None:
        self._count = 0
        self._newest = newest
        for name in ("map_path_parameters", "map_headers", "map_body"):
            schema.hook(name)(plain_function(getattr(self, name)))

    def _next(self, every: int) -> int:
        self._count += 1
        return self._count % every

    def map_path_parameters(self, _context: Any, path_parameters: Any) -> Any:
        """Ask for the first of everything three times in four."""
        there = {
            "number": 1,
            "revision": 1,
            "sha256": hashlib.sha256(LEAF).hexdigest(),
            "key": "mug",
            "name": "leaf.svg",
        }
        asked = path_parameters or {}
        return {key: there.get(key, value) if self._next(4) else value for key, value in asked.items()}

    def map_headers(self, context: Any, headers: Any) -> Any:
        """Start from the newest revision three times in four."""
        if not context.operation.label.startswith(CHANGES) or not self._next(4):
            return headers
        return {**(headers or {}), "If-Match": f'"{self._newest()}"'}

    def map_body(self, _context: Any, body: Any) -> Any:
        """Put what was made up into one part of a good document."""
        if not isinstance(body, dict) or not isinstance(body.get("document"), dict):
            return body
        part = ("blank", "wrap", "sheet", "element", "fields", "title")[self._next(6)]
        odd: Any = body["document"]
        values = [one for one in odd.values() if isinstance(one, dict)]
        spoilt = {"element": [*DOCUMENT["element"], *values], "title": str(sorted(odd))}.get(part, odd)  # type: ignore[misc]
        if isinstance(DOCUMENT[part], dict) and self._next(2):
            spoilt = {**DOCUMENT[part], **odd}  # type: ignore[dict-item]
        return {**body, "document": {**DOCUMENT, part: spoilt}}


@pytest.fixture(scope="module")
def described(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """Give the description of a bench that holds one of everything and makes nothing by itself."""
    app = app_at(tmp_path_factory.mktemp("rest"), Admission(LOOPBACK | {host_of(HOST)}))
    with asking(app) as client:
        app.state.makings.close()
        filled(client)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            schema = schemathesis.openapi.from_asgi("/api/openapi.json", app)

        Nudges(schema, lambda: int(client.get("/api/designs/1").json()["design"]["newest"]))
        yield schema


def test_every_answer_is_one_that_was_promised(described: Any) -> None:
    wrong: dict[str, str] = {}
    asked = 0
    routes = [found.ok() for found in described.get_all_operations()]
    for route in sorted(routes, key=lambda one: one.method.upper() == "DELETE"):  # what is removed can be asked no more

        @given(case=route.as_strategy())
        @settings(
            max_examples=MORE.get(route.label, EXAMPLES),
            phases=[Phase.generate],
            suppress_health_check=list(HealthCheck),
        )
        def ask(case: Any) -> None:
            nonlocal asked
            asked += 1
            case.call_and_validate(checks=CHECKS)

        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            try:
                ask()
            except Exception as error:
                wrong[route.label] = str(error)
    assert wrong == {}
    assert asked > 4 * len(ROUTERS)
