"""Signing in, and where it goes on."""

from __future__ import annotations

from typing import Any

import pytest

from wrapwright.faces.web.pages.login import own_page


@pytest.mark.parametrize("path", ["/", "/designs/3", "/measure?starter=mug", "/history#made-4"])
def test_a_page_of_ours_is_gone_on_to(path: str) -> None:
    assert own_page(path) == path


@pytest.mark.parametrize(
    "path",
    ["", "//elsewhere.example/", "/\\elsewhere.example", "https://elsewhere.example", "javascript:alert(1)", "/a\nb",
     "/login?next=/login", "shelf"],
)  # fmt: skip
def test_nothing_else_is(path: str) -> None:
    assert own_page(path) == "/"


def test_the_page_asks_for_a_name_and_a_password(client: Any) -> None:
    text = client.get("/login?next=/history").text
    assert 'data-next="/history"' in text
    assert 'autocomplete="username"' in text
    assert 'autocomplete="current-password"' in text
    assert 'data-next="/"' in client.get("/login?next=//elsewhere.example").text
