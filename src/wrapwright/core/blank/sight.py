"""How far round a blank one can see, and how far one can read."""

from __future__ import annotations

import math

# Foreshortening to a half: what stands 60 degrees aside looks half as wide.
READ_HALF_DEG = 60.0
# A blank held to be read.
HAND_MM = 500.0


def seen_round_deg(girth_mm: float, eye_mm: float = math.inf) -> float:
    """Return the half-angle that an eye sees at all: acos(r / L) at the distance L from the blank's middle."""
    return math.degrees(math.acos(min(1.0, girth_mm / (2.0 * math.pi) / eye_mm)))


def read_round_deg(girth_mm: float, eye_mm: float = math.inf) -> float:
    """Return the half-angle that can be read: surface turned at most 60 degrees away from the line of sight.

    A far eye reads 60 degrees each side, a third of the girth. At the distance L from the middle of radius r the line
    of sight leans over by asin(r sin 60 / L) at that place (rule of sines), so that a little less is read.
    """
    share = girth_mm / (2.0 * math.pi) * math.sin(math.radians(READ_HALF_DEG)) / eye_mm
    return READ_HALF_DEG - math.degrees(math.asin(min(1.0, share)))


def read_window_mm(girth_mm: float, eye_mm: float = math.inf) -> float:
    """Return the length round the blank that is read in one view; girth / 3 for a far eye."""
    return girth_mm * 2.0 * read_round_deg(girth_mm, eye_mm) / 360.0
