"""Every screen as it is served: under its own content security policy, silent on the console, and kept as a picture.

The pictures go to build/screens, for people to look at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.browser.running import Running, running

from wrapwright.jobs.bench import Watch
from wrapwright.jobs.kept.example import KeepExample, keep_example
from wrapwright.jobs.kept.exchange import AdoptDesign, adopt_design
from wrapwright.jobs.kept.setups import AddSetup, add_setup
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater
from wrapwright.jobs.tray.keeping import KeepTray, keep_tray
from wrapwright.jobs.tray.values import Tray, TrayPaper, TrayPiece

ROOT = Path(__file__).parents[2]
PICTURES = ROOT / "build" / "screens"
SIZES = {"desk": (1440, 900), "small-desk": (1180, 760), "phone": (390, 844)}
# Name, path, and what stands there once the screen is complete.
SCREENS = (
    ("shelf", "/", ".design-proof img"),
    ("measure", "/measure?starter=bulging-bottle", "#misfit-drawing svg"),
    ("compose", "/designs/1", "#findings li:nth-child(3)"),  # the first comes before the art is looked at
    ("sheet", "/designs/1/sheet", "#checks .finding"),
    ("names", "/designs/2/names", "#names[data-shown]:has(.n-check[data-checked])"),
    ("tray", "/tray", ".t-copy"),
    ("press", "/press", "#plan-figures:not([hidden])"),
    ("recipes", "/press/recipes?like=steel-oven", "#celsius-read:not(:empty)"),
    ("heaters", "/press/heaters", ".heater"),
    ("heater", "/press/heaters/1", "#known-title"),
    ("history", "/history", "main"),
    ("set-ups", "/setups", "main"),
    ("calibrate", "/setups/1/calibrate", "main svg"),
    ("gauge", "/gauge", "main svg"),
    ("login", "/login", "form"),
)
# Chromium says so wherever it draws in space without a graphics card.
NO_CARD = "GPU stall due to ReadPixels"


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory, art_cache: Path) -> Iterator[Running]:
    """Give a bench with nothing but the example and a list of names on it; no screen changes it."""
    with running(tmp_path_factory.mktemp("screens") / "data", art_cache) as started:
        bench = started.app.state.bench
        design = keep_example(KeepExample(), bench, Watch())
        adopt_design(AdoptDesign(ROOT / "examples" / "club-names.toml"), bench, Watch())
        add_setup(AddSetup("Desk printer", {"paper": "Letter"}, {}), bench, Watch())
        keep_heater(KeepHeater("Left oven", "oven", 1500.0, capacity=6), bench, Watch())
        keep_tray(KeepTray(Tray(pieces=(TrayPiece(design, 4),), papers=(TrayPaper("A3", 0.4),)), 0), bench, Watch())
        yield started


@pytest.fixture
def server(example: Running) -> Running:
    """Give the one bench that all screens are shown of."""
    return example


@pytest.mark.parametrize(
    "looks", [(("desk", "light"), ("desk", "dark"), ("small-desk", "light")), (("phone", "light"),)]
)
def test_the_screens(looks: tuple[tuple[str, str], ...], open_page: Callable[..., Any]) -> None:
    """Each screen is opened once on a desk and once on a phone; on the desk it is then darkened and made smaller."""
    (size, scheme), *_ = looks
    width, height = SIZES[size]
    page = open_page(
        in_space=True,
        bypass_csp=False,
        viewport={"width": width, "height": height},
        color_scheme=scheme,
        has_touch=size == "phone",
    )
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    PICTURES.mkdir(parents=True, exist_ok=True)
    for name, path, complete in SCREENS:
        answer = page.goto(path)
        assert "script-src 'self' 'nonce-" in answer.headers["content-security-policy"]
        for look in looks:
            seen(page, name, complete, *look)
        seen_as(page, *looks[0])
    assert [text for text in said if NO_CARD not in text] == []


def seen_as(page: Any, size: str, scheme: str) -> None:
    """Show a page on a screen of a size, light or dark."""
    width, height = SIZES[size]
    if page.viewport_size != {"width": width, "height": height}:
        page.set_viewport_size({"width": width, "height": height})
    page.emulate_media(color_scheme=scheme)


def seen(page: Any, name: str, complete: str, size: str, scheme: str) -> None:
    """Look at a screen that is complete, and keep its picture."""
    seen_as(page, size, scheme)
    page.locator(complete).first.wait_for(timeout=30_000)
    page.evaluate("() => Promise.allSettled([...document.images].map((one) => one.decode()))")
    overflow = page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert overflow <= 0, f"{name} on a {size} runs over its width by {overflow} px"
    page.screenshot(path=PICTURES / f"{name}-{size}-{scheme}.png")
