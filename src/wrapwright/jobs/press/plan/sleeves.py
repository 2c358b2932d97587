"""Choosing a sleeve: which of those at hand does for a blank, and how long it is cut."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from wrapwright.core.press.sleeve.values import Fit, Girths, Rules, Sleeve
from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True)
class ChooseSleeve:
    """What a sleeve goes round, and the sleeves at hand.

    Attributes:
        girths: of the blank and its band.
        sleeves: at hand; none: what would do is told.
        rules: the settings, all of common practice.
        set_c: what the heater is set to; None: not looked at.
    """

    girths: Girths
    sleeves: tuple[Sleeve, ...] = ()
    rules: Rules = field(default_factory=Rules)
    set_c: float | None = None


@dataclass(frozen=True)
class SleeveChosen:
    """How each sleeve does, the best first, what to take and why not the others, and the widths that would do."""

    fits: tuple[Fit, ...]
    words: tuple[str, ...]
    wanted_mm: tuple[float, float]


def choose_sleeve(request: ChooseSleeve, bench: Bench, watch: Watch) -> SleeveChosen:
    """Return how each sleeve does for a blank.

    Raises:
        WrapwrightError: unusable, with every figure that no sleeve or blank can have.
    """
    del bench, watch
    from wrapwright.core.press.sleeve.fit import fits_of, sleeve_words, wanted_flat_mm

    fits = fits_of(request.sleeves, request.girths, request.rules, request.set_c)
    radial = max((one.radial for one in request.sleeves), default=Sleeve(1.0).radial)
    wanted = wanted_flat_mm(request.girths, request.rules, radial=radial)
    return SleeveChosen(fits, sleeve_words(fits, request.girths, request.rules), wanted)


def sleeve_statement(chosen: SleeveChosen, rules: Rules) -> dict[str, Any]:
    """Return the choice as plain values."""
    from wrapwright.core.base.units import stated
    from wrapwright.core.press.sleeve.values import UNSOURCED

    low, high = (stated(one) for one in chosen.wanted_mm)
    return {
        "sleeves": _rows(chosen.fits),
        "wanted_flat_mm": [low, high] if low <= high else None,
        "rules": {"ease_mm": rules.ease_mm, "grip": rules.grip, "fold_mm": rules.fold_mm, "source": UNSOURCED},
        "words": list(chosen.words),
    }


def _rows(fits: Sequence[Fit]) -> list[dict[str, Any]]:
    from wrapwright.core.base.units import stated, to_fahrenheit

    return [
        {
            "name": one.sleeve.name,
            "flat_mm": stated(one.sleeve.flat_mm),
            "radial": one.sleeve.radial,
            "lengthwise": one.sleeve.lengthwise,
            "limit_c": one.sleeve.limit_c,
            "limit_f": stated(to_fahrenheit(one.sleeve.limit_c)),
            "does": one.does,
            "passes": one.passes,
            "grips": one.grips,
            "bears": one.bears,
            "spare_mm": stated(one.spare_mm),
            "shrunk_mm": stated(one.shrunk_mm),
            "cut_mm": stated(one.cut_mm),
            "reasons": list(one.reasons),
        }
        for one in fits
    ]
