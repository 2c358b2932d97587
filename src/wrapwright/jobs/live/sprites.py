"""Sprites by their keys: drawn when they are first asked for, and kept while there is room."""

from __future__ import annotations

from dataclasses import dataclass

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch


@dataclass(frozen=True)
class SpriteRequest:
    """The sprite of a key, as it stands in a copy's address."""

    key: str


def sprite(request: SpriteRequest, bench: Bench, watch: Watch) -> bytes:
    """Return a PNG with alpha.

    Raises:
        WrapwrightError: missing, when no design drawn lately has a sprite of this key.
    """
    from wrapwright.jobs.live.art.sprites import Sprite
    from wrapwright.outside.pages.picture import picture_png

    watch.step("drawing", 0.0)
    found = bench.recent.sprites.find(request.key)
    if not isinstance(found, Sprite):
        message = "This picture of an element is no longer known."
        raise WrapwrightError(Kind.MISSING, message, remedy="Draw the design again.", where="sprite")
    packed: bytes = bench.recent.packed.get(("sprite", found.key), lambda: picture_png(found.pixels()), len)
    return packed
