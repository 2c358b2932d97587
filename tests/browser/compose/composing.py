"""A design on the composing screen, and what the bench has kept of it."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

LONGEST_S = 8.0
BLANK = {"kind": "straight", "girth": "234 mm", "wall": "206 mm"}


def job(*elements: dict[str, Any], **more: Any) -> dict[str, Any]:
    """Return a job document of a straight blank."""
    return {"format": 1, "title": "Regatta", "blank": BLANK, "element": list(elements), **more}


def words(name: str, text: str, **more: Any) -> dict[str, Any]:
    """Return an element of text, its capitals 9 mm high."""
    return {"kind": "text", "name": name, "text": text, "size": "9 mm", **more}


@dataclass(frozen=True)
class Composing:
    """A design open on a page."""

    page: Any
    design: int

    def kept(self) -> dict[str, Any]:
        """Return the newest revision as the bench has it."""
        answer = self.page.request.get(f"/api/designs/{self.design}").json()["design"]
        assert isinstance(answer, dict)
        return answer

    def element(self, index: int = 0) -> dict[str, Any]:
        """Return an element as the bench has it."""
        elements = self.kept()["document"]["element"]
        return dict(elements[index]) if index < len(elements) else {}

    def until(self, ready: Callable[[], bool], what: str) -> None:
        """Wait until something holds; the page goes on meanwhile."""
        end = time.monotonic() + LONGEST_S
        while not ready():
            assert time.monotonic() < end, f"{what} did not come"
            self.page.wait_for_timeout(20)

    def becomes(self, path: str, value: Any, index: int = 0) -> None:
        """Wait until the bench has a value of an element."""
        self.until(lambda: self.element(index).get(path) == value, f"{path} = {value}")
        self.settled()

    def settled(self) -> None:
        """Wait until the screen says that everything is saved."""
        self.page.wait_for_selector("#saved[data-state=saved]")

    def choose(self, key: str) -> None:
        """Select a row of the list."""
        self.page.click(f'#elements [data-key="{key}"]')

    def field(self, path: str) -> Any:
        """Return the field of a figure."""
        return self.page.locator(f'#fields [data-path="{path}"]')

    def type(self, path: str, text: str) -> None:
        """Type a figure and leave its field."""
        self.field(path).fill(text)
        self.field(path).press("Enter")

    def reload(self) -> None:
        """Load the screen again and wait for its list."""
        self.page.reload()
        wait(self.page)


def wait(page: Any) -> None:
    """Wait until a design is shown."""
    page.wait_for_function("() => document.querySelector('wrap-canvas')?.drawn")


def composing(page: Any, document: dict[str, Any]) -> Composing:
    """Keep a design and open its screen."""
    answer = page.request.post("/api/designs", data={"title": "Regatta", "document": document})
    assert answer.ok, answer.text()
    design = answer.json()
    design = design.get("design", design)["id"]
    page.goto(f"/designs/{design}")
    wait(page)
    return Composing(page, design)
