"""What coupons, a strip put on part by part, and the positions of one heat can tell, and what they cannot."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from statistics import median

from wrapwright.core.press.trial.values import BEST, Kind, Quality, Scores

_NAMED: dict[Quality, str] = {
    "density": "less colour",
    "sharpness": "more blur",
    "yellowing": "more yellowing",
}


def kind_words(kind: Kind, *, free: bool = False) -> tuple[str, ...]:
    """Return what a kind of trial tells and how it is done, in sentences.

    Args:
        kind: of the trial.
        free: whether coupons are reckoned as heated from both sides.
    """
    if kind == "strip":
        return (
            "One blank, heated once for every part: a strip round it in one heat would see one dose only, so its parts"
            " are put on in turn. Put part 1 on, heat it, let the blank cool to the room; leave part 1 on, put part 2"
            " beside it and heat again, and so on. Take all off after the last heat.",
            "A part put on early gets that heat and all later ones, so its dose is their sum; part 1 gets most.",
            "Density and sharpness are told part by part. The coating between them went through every heat, so"
            " yellowing is judged once, at part 1, and stands for the sum of all.",
        )
    if kind == "positions":
        return (
            "One blank, one heat: every position gets the same time and temperature. It tells where the wrap was colder"
            " or hotter than elsewhere, and nothing about how long or how hot: for those take coupons.",
        )
    return (
        "Every coupon has a heat of its own, so each tells one dose. Take coupons with the coating of your ware.",
        "They are reckoned as lying on a rack, heated from both sides."
        if free
        else "They are reckoned as heated from one side, their back against something that takes no heat.",
    )


def uneven_words(scores: Mapping[int, Scores]) -> tuple[str, ...]:
    """Return which positions of one heat differ from the rest, quality by quality; a step of score is the eye's.

    A position stands out that scores a whole step or more under the middle of all.
    """
    said = []
    for quality, words in _NAMED.items():
        judged = {number: score for number, one in scores.items() if (score := one.of(quality)) is not None}
        if len(judged) < 3:
            continue
        middle = median(judged.values())
        under = sorted(number for number, score in judged.items() if score <= middle - 1)
        if under:
            places = _listed(under)
            said.append(
                f"{words.capitalize()} at {places} than elsewhere ({_scores(judged, under)} against {middle:g})."
            )
    if said:
        cold = "Little colour means colder, or the wrap stood off; blur or yellowing means hotter, or it moved."
        return (*said, f"{cold} Turn the blank in the heater and repeat: what stays with the heater is the heater's.")
    if any(one.density for one in scores.values()):
        return (f"Even, as far as scores from 1 to {BEST} show it.",)
    return ("No position is scored yet.",)


def _listed(numbers: Sequence[int]) -> str:
    if len(numbers) == 1:
        return f"position {numbers[0]}"
    return f"positions {', '.join(str(one) for one in numbers[:-1])} and {numbers[-1]}"


def _scores(judged: Mapping[int, int], numbers: Sequence[int]) -> str:
    found = sorted({judged[one] for one in numbers})
    return str(found[0]) if len(found) == 1 else f"{found[0]} to {found[-1]}"
