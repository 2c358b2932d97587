"""A trial's findings in sentences."""

from __future__ import annotations

from dataclasses import replace

from wrapwright.core.press.trial.values import Found, Known

_TITLES = {"density": "Density", "sharpness": "Sharpness", "yellowing": "Yellowing"}
CLOSED = 0.5  # chance below which the bounds leave no window


def dose_words(minutes: float) -> str:
    """Return a dose as people read it: three figures, "min"; one below a hundredth of a minute, down to 0.001."""
    if 0.0 < minutes < 0.0005:
        return "under 0.001 min"
    places = 3 if minutes < 0.00995 else 2 if minutes < 9.995 else 1 if minutes < 99.95 else 0
    return f"{minutes:.{places}f} min"


def interval_words(interval: tuple[float, float]) -> str:
    """Return an interval of doses: "2.10 to 2.80 min"."""
    return f"{dose_words(interval[0]).removesuffix(' min')} to {dose_words(interval[1])}"


def known_words(known: Known) -> Known:
    """Return the same with what it says in a sentence."""
    return replace(known, words=f"{_TITLES[known.quality]}: {_said(known)}")


def _said(known: Known) -> str:
    if known.tried is None or known.state == "not-scored":
        return "not scored."
    least, most = (dose_words(one) for one in known.tried)
    rising = known.quality == "density"
    if known.state == "known" and known.interval is not None and known.middle is not None:
        way = "from" if rising else "up to"
        return (
            f"accepted {way} {dose_words(known.middle)}{' on' if rising else ''}; nine chances in ten that the bound"
            f" lies from {interval_words(known.interval)}."
        )
    if known.state == "contradictory":
        return f"the scores contradict each other, so no bound is drawn from them.{_clash_words(known)}"
    if known.state == "too-few":
        clash = _clash_words(known) if known.clashes else ""
        return f"too few scores, or too far apart, to place the bound between {least} and {most}.{clash}"
    if (known.state == "all-good") == rising:
        good = "every coupon is accepted" if known.state == "all-good" else "no coupon is accepted"
        return f"{good}, even at the least dose, {least}; the bound lies below it. Heat one shorter or cooler."
    good = "every coupon is accepted" if known.state == "all-good" else "no coupon is accepted"
    return f"{good}, even at the highest dose, {most}; the bound lies above it. Heat one longer or hotter."


def _clash_words(known: Known) -> str:
    if not known.clashes:
        return " Look at them again in daylight, beside each other."
    low, high = known.clashes[0]
    better = "better" if known.quality == "density" else "worse"
    return (
        f" Coupon {low} got less heat than {high} and scores {better}: look at both again in daylight, and heat one of"
        " the two once more."
    )


def found_words(found: Found) -> tuple[str, ...]:
    """Return what there is to say of a window, the weightiest first."""
    window = found.window
    said = []
    if found.chance is not None and found.chance < CLOSED:
        said.append(
            "Blur or yellowing sets in before the transfer is complete: no dose does both. Change paper, ink or"
            " coating, or press more evenly, before you heat a batch."
        )
    if window.low is None and window.high is None:
        said.append("The window is not known yet.")
    elif window.low is None:
        said.append("The lower bound is not known yet.")
    elif window.high is None:
        said.append("The upper bound is not known yet.")
    elif window.low[1] < window.high[0]:
        safe = interval_words((window.low[1], window.high[0]))
        said.append(f"From {safe} it is complete and not yet blurred or yellowed, as surely as these scores tell.")
    said += [one.words for one in found.known]
    for one in found.known:
        if one.clashes and one.state == "known":
            low, high = one.clashes[0]
            said.append(
                f"Coupons {low} and {high} run against each other in {one.quality}; the interval allows for it."
            )
    return tuple(said)
