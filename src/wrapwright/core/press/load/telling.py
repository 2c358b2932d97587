"""Times of heat in words: minutes as timers are set, with the band that is reckoned."""

from __future__ import annotations

import math

from wrapwright.core.press.load.values import LONGEST_S, Span

_FINE_S = 240.0  # below this a timer is set to five seconds, from here on to half a minute


def rounded_s(seconds: float) -> float:
    """Return a dwell as a timer is set: to 5 s below 4 min, else to half a minute; what lies beyond an hour stays."""
    if not math.isfinite(seconds):
        return seconds
    step = 5.0 if seconds < _FINE_S else 30.0
    return max(step, math.floor(seconds / step + 0.5) * step)


def minutes(seconds: float) -> str:
    """Return a time in minutes without its unit, as a timer is set: `5.5`, or `over 60`."""
    if not math.isfinite(seconds) or seconds > LONGEST_S:
        return f"over {LONGEST_S / 60:.0f}"
    value = rounded_s(seconds) / 60.0
    return f"{value:.1f}".removesuffix(".0")


def minutes_words(seconds: float) -> str:
    """Return a time in minutes, for example `5.5 min`; short ones in seconds too, `155 s (2.6 min)`."""
    if seconds < _FINE_S:
        whole = rounded_s(seconds)
        return f"{whole:.0f} s ({minutes(seconds)} min)" if whole % 60 else f"{whole / 60:.0f} min"
    return f"{minutes(seconds)} min"


def span_words(low_s: float, high_s: float) -> str:
    """Return a span of times, for example `4–7.5 min`, `95–150 s` below four minutes, `35 to over 60 min`."""
    if minutes(low_s) == minutes(high_s):
        return minutes_words(low_s)
    if high_s <= _FINE_S:
        return f"{rounded_s(low_s):.0f}–{rounded_s(high_s):.0f} s"
    between = "–" if math.isfinite(high_s) and high_s <= LONGEST_S else " to "
    return f"{minutes(low_s)}{between}{minutes(high_s)} min"


def dwell_words(span: Span) -> str:
    """Return a dwell with its band, for example `about 5.5 min, band 4–7.5 min`."""
    if not math.isfinite(span.mid):
        return f"over {LONGEST_S / 60:.0f} min"
    return f"about {minutes_words(span.mid)}, band {span_words(span.low, span.high)}"


def pieces_words(count: int) -> str:
    """Return a number of pieces, for example `1 piece`."""
    return "1 piece" if count == 1 else f"{count} pieces"


def count_words(minutes_at: float) -> str:
    """Return equivalent minutes with as many digits as they are worth: `4.2 min`, `0.08 min`."""
    return f"{minutes_at:.0f} min" if minutes_at >= 20 else f"{minutes_at:.2g} min"
