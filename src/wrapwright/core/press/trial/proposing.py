"""The next trial that is worth its piece: the heat from which most is to be learned, and why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.heat_words import celsius_words, seconds_words
from wrapwright.core.press.trial.asked import LONGEST_S, SHORTEST_S
from wrapwright.core.press.trial.fit import Belief, beliefs, upper_chances, window_of
from wrapwright.core.press.trial.information import expected_bits, nearer
from wrapwright.core.press.trial.model import RISES, quantiles, score_chances
from wrapwright.core.press.trial.plan import WITHIN, courses_of, rounded
from wrapwright.core.press.trial.reckoning import Bed, Course
from wrapwright.core.press.trial.values import SHARE, Coupon, Found, Mark, Next, Quality, Scores
from wrapwright.core.press.trial.words import dose_words

Array = NDArray[np.float64]

_DOSES = 32  # that are weighed against each other
_FAR = 4.0  # beyond the doses tried so far
_SAID = 0.4  # of what it tells of the one bound, what it tells of the other must be to be named


def next_trial(
    bed: Bed, celsius: Sequence[float], coupons: Sequence[Coupon], scores: Mapping[int, Scores], within: float = WITHIN
) -> Next:  # fmt: skip
    """Return the heat from which most is to be learned about the bounds that are not yet known well enough.

    Every dose is weighed by the information that its scores are expected to give about the lower bound (density) and
    the upper one (sharpness and yellowing, each by the chance that it is the one that sets in first); of a bound that
    is within the wanted ratio already nothing more is asked while the other is not.

    Args:
        bed: where the next coupon is heated.
        celsius: temperatures that may be set.
        coupons: the trial so far.
        scores: by the coupons' numbers.
        within: wanted ratio of the ends of each bound's interval.

    Raises:
        WrapwrightError: unusable: no coupon is scored yet.
    """
    held = beliefs(coupons, scores)
    if not any(one.marks for one in held.values()):
        message = "no coupon of this trial is scored yet, so nothing tells which heat to try next."
        raise unusable(message, remedy="Heat and score the planned coupons first.", where="scores")
    found = window_of(held)
    again = _once_more(coupons, held)
    if again is not None:
        return again
    settings = _settings(courses_of(bed, celsius), held)
    x = np.log10([dose for _, _, dose in settings])
    bits = _bits(held, found, x, within)
    at = int(np.sum(list(bits.values()), axis=0).argmax())
    degrees, seconds, dose = settings[at]
    widths = _widths(held, found, float(x[at]))
    gains = {quality: float(one[at]) for quality, one in bits.items()}
    words = _words(settings[at], held, found, (widths, gains), within)
    return Next(degrees, seconds, dose, sum(gains.values()), widths, words)


def _once_more(coupons: Sequence[Coupon], held: Mapping[Quality, Belief]) -> Next | None:
    """Return the heat of a coupon whose score contradicts another's: until it is settled nothing else helps."""
    for one in held.values():
        if one.known.state == "contradictory" and one.known.clashes:
            low, high = one.known.clashes[0]
            coupon = next(each for each in coupons if each.number == low)
            heat = f"{celsius_words(coupon.celsius)} for {seconds_words(coupon.seconds)}"
            words = (
                f"Heat coupon {low}'s setting once more: {heat}, {dose_words(coupon.dose.mid)}.",
                f"Coupons {low} and {high} contradict each other in {one.known.quality}; until one of them is repeated"
                " no other heat tells much.",
            )
            return Next(coupon.celsius, coupon.seconds, coupon.dose.mid, 0.0, {}, words)
    return None


def _settings(courses: Sequence[Course], held: Mapping[Quality, Belief]) -> list[tuple[float, float, float]]:
    """Return what may be heated: degrees, seconds and dose, one for each of the doses that are weighed."""
    tried = [mark.x for one in held.values() for mark in one.marks]
    ends = (10.0 ** min(tried) / _FAR, 10.0 ** max(tried) * _FAR)
    found: dict[tuple[float, float], float] = {}
    for number, minutes in enumerate(np.geomspace(*ends, _DOSES)):
        for step in range(len(courses)):
            one = courses[(number + step) % len(courses)]
            seconds = one.seconds_for(float(minutes))
            if SHORTEST_S <= seconds <= LONGEST_S:
                kept = rounded(seconds)
                found[one.celsius, kept] = one.at(kept)
                break
    if not found:
        longest = courses[-1]
        found[longest.celsius, LONGEST_S] = longest.at(LONGEST_S)
    return [(*setting, dose) for setting, dose in found.items()]


def _bits(held: Mapping[Quality, Belief], found: Found, x: Array, within: float) -> dict[Quality, Array]:
    """Return for each quality what scores at these doses are expected to tell of its bound, as far as it matters."""
    falls: tuple[Quality, Quality] = ("sharpness", "yellowing")
    upper = [held[quality] for quality in falls]
    shares = nearer(np.stack([one.bound for one in upper])) if all(one.marks for one in upper) else _scored(upper)
    wide_low, wide_high = (_wide(bound, within) for bound in (found.window.low, found.window.high))
    if not (wide_low or wide_high):
        wide_low = wide_high = True
    bits: dict[Quality, Array] = {"density": _quality_bits(held["density"], x) * wide_low}
    for quality, share in zip(falls, shares, strict=True):
        bits[quality] = _quality_bits(held[quality], x) * float(share) * wide_high
    return bits


def _scored(falls: Sequence[Belief]) -> Array:
    """Return weights where one of the two was not judged: the one that was counts whole."""
    weights = np.array([1.0 if one.marks else 0.0 for one in falls])
    return weights if weights.any() else np.array([0.5, 0.5])


def _wide(bound: tuple[float, float] | None, within: float) -> bool:
    return bound is None or bound[1] / bound[0] > within


def _quality_bits(one: Belief, x: Array) -> Array:
    places, gaps, sigmas = one.joint.shape
    table = score_chances(x, one.over, rising=RISES[one.known.quality])
    return expected_bits(one.joint.reshape(places, -1), table.reshape(*table.shape[:3], gaps * sigmas))


def _widths(held: Mapping[Quality, Belief], found: Found, x: float) -> dict[str, tuple[float | None, float]]:
    """Return for both bounds the ratio of the interval's ends now, and as expected after a coupon of this dose."""
    window = found.window
    now_low, now_high = (None if bound is None else bound[1] / bound[0] for bound in (window.low, window.high))
    low = _after(held["density"], x)
    expected_low = _mean_ratio(held["density"].over.places, low)
    blur, yellow = (_after(held[quality], x) for quality in ("sharpness", "yellowing"))
    both = [(one * other, _lower_of(a, b)) for one, a in blur for other, b in yellow]
    if upper_chances(held) is not None and not (held["sharpness"].marks and held["yellowing"].marks):
        both = blur if held["sharpness"].marks else yellow
    expected_high = _mean_ratio(held["density"].over.places, both)
    return {"low": (now_low, expected_low), "high": (now_high, expected_high)}


def _after(one: Belief, x: float) -> list[tuple[float, Array]]:
    """Return for each score that may come its chance and the bound's chances after it."""
    table = score_chances(np.array([x]), one.over, rising=RISES[one.known.quality])[0]
    both = table * one.joint
    found = []
    for after in both:
        share = float(after.sum())
        found.append((share, np.asarray(after.sum(axis=(1, 2)) / max(share, 1e-300))))
    return found


def _lower_of(a: Array, b: Array) -> Array:
    beyond = (1.0 - np.concatenate([[0.0], np.cumsum(a)])) * (1.0 - np.concatenate([[0.0], np.cumsum(b)]))
    return np.asarray(np.maximum(-np.diff(beyond), 0.0))


def _mean_ratio(places: Array, outcomes: Sequence[tuple[float, Array]]) -> float:
    """Return the geometric mean of the ratios of the interval's ends over what may come."""
    tails = ((1.0 - SHARE) / 2.0, (1.0 + SHARE) / 2.0)
    width = 0.0
    for chance, bound in outcomes:
        low, high = quantiles(places, bound, tails)
        width += chance * (high - low)
    return float(10.0**width)


def _words(
    setting: tuple[float, float, float],
    held: Mapping[Quality, Belief],
    found: Found,
    gain: tuple[Mapping[str, tuple[float | None, float]], Mapping[Quality, float]],
    within: float,
) -> tuple[str, ...]:
    """Return what to heat and why: of each bound that it tells of, between which coupons, and how near it brings it."""
    celsius, seconds, dose = setting
    widths, gains = gain
    said = [f"Heat one at {celsius_words(celsius)} for {seconds_words(seconds)}: {dose_words(dose)}."]
    if not any(_wide(bound, within) for bound in (found.window.low, found.window.high)):
        said.insert(0, f"Both bounds are known within the ratio of {within:g} that was wanted: no more is needed.")
    upper: Quality = max(("sharpness", "yellowing"), key=lambda quality: gains[quality])
    whole = {"low": gains["density"], "high": gains["sharpness"] + gains["yellowing"]}
    bounds: tuple[tuple[str, Quality, str], ...] = (("low", "density", "lower"), ("high", upper, "upper"))
    for name, quality, end in bounds:
        if whole[name] < _SAID * max(whole.values()):
            continue
        now, after = widths[name]
        place = _between(held[quality], dose)
        if now is None:
            said.append(f"{place} It is to find the {end} bound.")
        elif after < now * 0.99:
            said.append(
                f"{place} The {end} bound, known within a ratio of {now:.2f}, is then expected within {after:.2f}."
            )
    return tuple(said)


def _between(one: Belief, dose: float) -> str:
    """Return between which scored coupons a dose lies."""
    marks = sorted(one.marks, key=lambda mark: mark.x)
    if not marks:
        return f"No coupon is scored for {one.known.quality} yet."
    x = float(np.log10(dose))
    under: list[Mark] = [mark for mark in marks if mark.x <= x]
    over: list[Mark] = [mark for mark in marks if mark.x > x]
    told = [f"coupon {mark.number} ({one.known.quality} {mark.low}, {dose_words(10.0**mark.x)})" for mark in marks]
    if not under:
        return f"It gets less than any so far: below {told[0]}."
    if not over:
        return f"It gets more than any so far: above {told[-1]}."
    return f"It lies between {told[len(under) - 1]} and {told[len(under)]}."
