"""Which of several sleeves does: it passes over the blank, it shrinks tight on the band, it bears the heat."""

from __future__ import annotations

from collections.abc import Sequence

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.base.heat_words import celsius_words
from wrapwright.core.base.units import both_words, mm_words
from wrapwright.core.press.sleeve.values import Fit, Girths, Rules, Sleeve

MOST_MM = 2000.0


def fit_of(sleeve: Sleeve, girths: Girths, rules: Rules, heat_c: float | None = None) -> Fit:
    """Return how a sleeve does; common practice, no source.

    It passes when 2 x its flat width >= the largest girth + ease; it grips when 2 x its flat width x (1 - radial
    shrink) <= grip x the smallest girth in the band; cut = (band + fold at both ends) / (1 - lengthwise shrink).

    Args:
        sleeve: the sleeve.
        girths: what it goes round and over.
        rules: the settings.
        heat_c: what the heater is set to; None: not asked.
    """
    whole = 2.0 * sleeve.flat_mm
    spare = whole - girths.largest
    shrunk = whole * (1.0 - sleeve.radial)
    cut = (girths.band + 2.0 * rules.fold_mm) / (1.0 - sleeve.lengthwise)
    passes = spare >= rules.ease_mm - 1e-9
    grips = shrunk <= rules.grip * girths.smallest + 1e-9
    bears = heat_c is None or heat_c <= sleeve.limit_c + 1e-9
    reasons = []
    if not passes:
        reasons.append(_too_narrow(whole, girths, rules))
    if not grips:
        reasons.append(_too_wide(shrunk, girths, rules))
    if heat_c is not None and not bears:
        reasons.append(f"it bears {celsius_words(sleeve.limit_c)}, and the heat is {celsius_words(heat_c)}")
    return Fit(sleeve, spare, shrunk, cut, passes, grips, bears, tuple(reasons))


def _too_narrow(whole: float, girths: Girths, rules: Rules) -> str:
    needed = girths.largest + rules.ease_mm
    return f"it is {mm_words(whole)} round and must be {mm_words(needed)} to pass over {mm_words(girths.largest)}"


def _too_wide(shrunk: float, girths: Girths, rules: Rules) -> str:
    most = mm_words(rules.grip * girths.smallest)
    return f"it shrinks to {mm_words(shrunk)} round, and must come to {most} to hold {mm_words(girths.smallest)} tight"


def fits_of(
    sleeves: Sequence[Sleeve], girths: Girths, rules: Rules | None = None, heat_c: float | None = None
) -> tuple[Fit, ...]:
    """Return how each sleeve does, the best first.

    Those that do come first, the narrowest of them leading: it has the least way to shrink and creases least. Then come
    the others in their order.

    Raises:
        WrapwrightError: unusable; every figure that no sleeve or blank can have.
    """
    rules = rules or Rules()
    raise_all([*_wrong_girths(girths), *_wrong_rules(rules), *(one for sleeve in sleeves for one in _wrong(sleeve))])
    found = [fit_of(sleeve, girths, rules, heat_c) for sleeve in sleeves]
    doing = sorted((one for one in found if one.does), key=lambda one: one.sleeve.flat_mm)
    return (*doing, *(one for one in found if not one.does))


def wanted_flat_mm(girths: Girths, rules: Rules, *, radial: float) -> tuple[float, float]:
    """Return the narrowest and the widest flat width that does, mm; the first is over the second when none can."""
    return (girths.largest + rules.ease_mm) / 2.0, rules.grip * girths.smallest / (1.0 - radial) / 2.0


def sleeve_words(fits: Sequence[Fit], girths: Girths, rules: Rules) -> tuple[str, ...]:
    """Return what to take and why not the others, in sentences."""
    said = []
    best = next((one for one in fits if one.does), None)
    if best is not None:
        said.append(
            f"Take {named(best.sleeve)}: it passes with {mm_words(best.spare_mm)} to spare and shrinks to "
            f"{mm_words(best.shrunk_mm)} round if nothing holds it. Cut it {both_words(best.cut_mm)} long: the band and"
            f" {mm_words(rules.fold_mm)} to fold at each end, before it shrinks lengthwise."
        )
    others = [one for one in fits if one is not best]
    for one in others:
        if one.does:
            said.append(f"{named(one.sleeve, capital=True)} does too, with more to shrink: creases are likelier.")
        else:
            said.append(f"{named(one.sleeve, capital=True)} does not: {'; '.join(one.reasons)}.")
    if best is None:
        said.append(_none_does(fits, girths, rules))
    return tuple(said)


def _none_does(fits: Sequence[Fit], girths: Girths, rules: Rules) -> str:
    radial = max((one.sleeve.radial for one in fits), default=Sleeve(1.0).radial)
    low, high = wanted_flat_mm(girths, rules, radial=radial)
    if low > high:
        return (
            f"No sleeve that shrinks by {radial * 100:.0f} % goes over {mm_words(girths.largest)} and holds on"
            f" {mm_words(girths.smallest)}: put it on from the other end, or use heat tape."
        )
    return f"A sleeve {mm_words(low)} to {mm_words(high)} wide laid flat would do (at {radial * 100:.0f} % shrink)."


def named(sleeve: Sleeve, *, capital: bool = False) -> str:
    """Return what a sleeve is called in a sentence."""
    if sleeve.name:
        return f'{"The" if capital else "the"} sleeve "{sleeve.name}" ({mm_words(sleeve.flat_mm)} flat)'
    return f"{'The' if capital else 'the'} sleeve {mm_words(sleeve.flat_mm)} wide laid flat"


def _wrong(sleeve: Sleeve) -> list[WrapwrightError]:
    found = []
    where = f"sleeve {sleeve.name or mm_words(sleeve.flat_mm)}"
    if not 0 < sleeve.flat_mm <= MOST_MM:
        found.append(
            unusable(f"its flat width of {sleeve.flat_mm:g} mm is not within 0 to {MOST_MM:g} mm.", where=where)
        )
    for what, share in (("radially", sleeve.radial), ("lengthwise", sleeve.lengthwise)):
        if not 0 <= share < 0.95:
            message = f"a sleeve that shrinks by {share * 100:g} % {what} is not within 0 to 95 %."
            found.append(unusable(message, remedy="Its maker states the shrink.", where=where))
    return found


def _wrong_girths(girths: Girths) -> list[WrapwrightError]:
    found = []
    for what, length in (("largest girth", girths.largest), ("smallest girth", girths.smallest), ("band", girths.band)):
        if not 0 < length <= MOST_MM:
            found.append(unusable(f"the {what} of {length:g} mm is not within 0 to {MOST_MM:g} mm.", where=what))
    if girths.smallest > girths.largest:
        found.append(
            unusable(
                f"the smallest girth ({mm_words(girths.smallest)}) is over the largest ({mm_words(girths.largest)}).",
                remedy="Give them the other way round.",
                where="largest girth",
            )
        )
    return found


def _wrong_rules(rules: Rules) -> list[WrapwrightError]:
    found = []
    if not 0 <= rules.ease_mm <= 200:
        found.append(unusable(f"an ease of {rules.ease_mm:g} mm is not within 0 to 200 mm.", where="ease"))
    if not 0.5 <= rules.grip <= 1:
        found.append(unusable(f"a grip of {rules.grip * 100:g} % is not within 50 to 100 %.", where="grip"))
    if not 0 <= rules.fold_mm <= 200:
        found.append(unusable(f"a fold of {rules.fold_mm:g} mm is not within 0 to 200 mm.", where="fold"))
    return found
