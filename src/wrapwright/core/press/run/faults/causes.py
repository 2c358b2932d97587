"""What causes which fault: how likely before anything is known, what speaks for it, what to change first.

The weights are judgement (common practice, no source): about how often the cause is behind the fault, in tenths.
"""

from __future__ import annotations

from dataclasses import dataclass

from wrapwright.core.press.run.faults import clues
from wrapwright.core.press.run.faults.clues import Reader
from wrapwright.core.press.run.faults.values import Fault


@dataclass(frozen=True)
class Cause:
    """A cause.

    Attributes:
        name: its own.
        words: what it is.
        change: what to change first.
        weights: for each fault it can be behind.
        readers: what speaks for it or against it.
    """

    name: str
    words: str
    change: str
    weights: dict[Fault, float]
    readers: tuple[Reader, ...]


CAUSES: tuple[Cause, ...] = (
    Cause(
        "too-little-heat",
        "Too little heat in the coating",
        "Leave the next one in a minute longer, at the same temperature.",
        {"faded": 4.0, "cold-patch": 1.0},
        (clues.dose_low, clues.short, clues.set_low, clues.of_all),
    ),
    Cause(
        "too-much-heat",
        "Too much heat in the coating",
        "Take the next one out a minute sooner, at the same temperature.",
        {"yellowed": 5.0, "blurred": 3.0, "ghosted": 0.5, "faded": 0.5},
        (clues.dose_high, clues.long, clues.set_high, clues.of_all),
    ),
    Cause(
        "heater-cooler",
        "The heater is cooler than it says",
        "Read a second thermometer in it, three times, before anything else is changed.",
        {"faded": 3.0, "cold-patch": 1.0},
        (clues.cooler, clues.again, clues.of_all),
    ),
    Cause(
        "heater-hotter",
        "The heater is hotter than it says",
        "Read a second thermometer in it, three times, before anything else is changed.",
        {"yellowed": 3.0, "blurred": 2.0},
        (clues.hotter, clues.again, clues.of_all),
    ),
    Cause(
        "door-opened",
        "The opened door let the heat out",
        "Keep it shut, or add what is offered after each opening.",
        {"faded": 2.0, "cold-patch": 1.5},
        (clues.door, clues.of_all),
    ),
    Cause(
        "shared-power",
        "More pieces than the heater's power brings up in time",
        "Heat one piece fewer, or give the load the time that is recommended for so many.",
        {"faded": 1.5, "cold-patch": 1.5},
        (clues.shared, clues.dose_low, clues.of_all),
    ),
    Cause(
        "uneven-heat",
        "One side of it gets less heat",
        "Turn it half-way, or put it on the shelf that the map shows as even.",
        {"cold-patch": 3.5, "faded": 0.5},
        (clues.not_turned, clues.again),
    ),
    Cause(
        "loose-paper",
        "The paper did not lie tight against the wall",
        "Tighten it: a better sleeve, more tape, more pressure; nothing else.",
        {"cold-patch": 3.0, "blurred": 2.0, "ghosted": 1.5, "faded": 0.5},
        (clues.misfit, clues.taped, clues.of_one),
    ),
    Cause(
        "paper-moved",
        "The paper moved while it was hot",
        "Hold its ends with more tape, and do not handle it until it has cooled.",
        {"ghosted": 5.0, "blurred": 1.5},
        (clues.taped, clues.hurried, clues.door, clues.of_one),
    ),
    Cause(
        "unwrapped-late",
        "Dye went on moving after the heat: unwrapped too late, or lifted and laid back",
        "Take the paper off in one pull while it is warm, with gloves.",
        {"ghosted": 2.5, "blurred": 1.0},
        (clues.of_one,),
    ),
    Cause(
        "misfit",
        "The wrap does not follow the blank",
        "Take more readings of the blank up its wall, and make its wrap anew.",
        {"crease": 4.0, "seam-gap": 2.0, "cold-patch": 1.0, "wrong-place": 0.5},
        (clues.misfit, clues.readings),
    ),
    Cause(
        "overlap-short",
        "The overlap is short",
        "Make the wrap anew with the overlap that the budget of doubts asks for.",
        {"seam-gap": 4.0},
        (clues.overlap,),
    ),
    Cause(
        "girth-doubt",
        "The blank is larger than was measured",
        "Measure its girth again with a printed gauge.",
        {"seam-gap": 2.5, "wrong-place": 0.5},
        (clues.readings, clues.of_one),
    ),
    Cause(
        "printer-scale",
        "The printer prints shorter or longer than asked",
        "Print the target and measure its two lines again.",
        {"seam-gap": 2.5, "wrong-place": 1.5, "crease": 0.5},
        (clues.scale, clues.of_all),
    ),
    Cause(
        "pulled-by-sleeve",
        "The shrinking sleeve pulled the paper",
        "Shrink it from the middle to the ends, slower, with the paper taped first.",
        {"crease": 2.5, "wrong-place": 2.0, "ghosted": 1.0},
        (clues.sleeved, clues.of_one),
    ),
    Cause(
        "folded",
        "The paper was folded or laid askew",
        "Lay it again from the seam round, smoothing as you go.",
        {"crease": 4.0, "seam-gap": 1.0},
        (clues.of_one,),
    ),
    Cause(
        "laid-askew",
        "It was laid in the wrong place, or on the wrong piece",
        "Lay its marks on the marks of the blank; compare the number beside it with the ticket's.",
        {"wrong-place": 6.0, "seam-gap": 0.5},
        (clues.of_one,),
    ),
    Cause(
        "art-placed",
        "The design itself places it there",
        "Look at the proof, move it in the design, and make it anew.",
        {"wrong-place": 1.5},
        (clues.art_places, clues.of_all),
    ),
    Cause(
        "damp",
        "Damp paper or a damp blank: steam under the paper",
        "Let paper and blank lie dry and warm for a while before the next one.",
        {"spots": 4.0, "blurred": 1.0, "ghosted": 0.5},
        (clues.of_all,),
    ),
    Cause(
        "dust",
        "Dust, lint or a greasy finger under the paper",
        "Wipe the blank with a cloth that leaves no lint, and let the cleaner dry away from heat.",
        {"spots": 5.0, "blank-flaw": 1.0},
        (clues.of_one,),
    ),
    Cause(
        "weak-print",
        "The print on the paper was weak, banded or specked",
        "Print the printer's own test page, clean its nozzles, and look at the paper before it is laid.",
        {"faded": 1.5, "spots": 1.5},
        (clues.colours, clues.of_one),
    ),
    Cause(
        "few-pixels",
        "The picture has too few pixels",
        "Use a larger picture, or make it smaller on the piece.",
        {"blurred": 2.0},
        (clues.pixels, clues.of_all),
    ),
    Cause(
        "coating",
        "The blank's coating is thin, old or damaged",
        "Heat a piece of another lot by the same recipe.",
        {"blank-flaw": 7.0, "faded": 1.0, "yellowed": 1.0, "spots": 1.0},
        (clues.of_one,),
    ),
    Cause(
        "mirrored-again",
        "The printer's own software mirrored it once more",
        "Switch every mirroring off in the printer's software: the sheets come mirrored already.",
        {"mirrored": 6.0},
        (clues.mirrored_once, clues.of_all),
    ),
    Cause(
        "other-file",
        "It was printed from another file than the sheets",
        "Print the sheets file itself, at actual size.",
        {"mirrored": 2.0, "wrong-place": 0.5},
        (clues.of_one,),
    ),
)
