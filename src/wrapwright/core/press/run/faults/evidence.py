"""What is known of one piece's run: its heat, and the making that its transfer came from."""

from __future__ import annotations

from dataclasses import dataclass, field

from wrapwright.core.press.values import Dose, HeaterKind, Window


@dataclass(frozen=True)
class MakingEvidence:
    """What the report of a piece's making says.

    Attributes:
        found: whether the making was found by the piece's code.
        making: its number.
        accepted: rules whose errors were accepted.
        told: rules that warned or noted.
        misfit_mm: largest difference of girth between wrap and blank.
        overlap_mm: width of the overlap.
        drifts: axes along which the printer's scale drifts, in words.
        ppi: the least of its pictures; None where it has none.
    """

    found: bool = False
    making: int = 0
    accepted: frozenset[str] = frozenset()
    told: frozenset[str] = frozenset()
    misfit_mm: float | None = None
    overlap_mm: float | None = None
    drifts: tuple[str, ...] = ()
    ppi: float | None = None

    def says(self, rule: str) -> bool:
        """Return whether a rule spoke of it, accepted or not."""
        return rule in self.accepted or rule in self.told


@dataclass(frozen=True)
class Evidence:
    """What is known of one piece's run.

    Attributes:
        heater_kind: oven, mug-press or flat-press.
        calibrated: whether the heater was.
        off_k: what a thermometer read more than the heater was thought to hold; None: none was read.
        set_c, in_s: what the heater was set to, and how long the piece was in.
        celsius, seconds: the recipe's own ranges.
        dose, planned: reckoned as it was, and as planned; None where not reckoned.
        window: where a dose does its work, as far as it is known.
        early_s, late_s: taken out early or late.
        open_s: how long the door stood open in all.
        pieces, capacity: in the heater, and what it holds.
        turns_missed: how many turns of the recipe were left out.
        cooled_early_s: how much of the cooling was left out.
        hold: sleeve, tape, clamp or none; "" where not known.
        alike: pieces of the same heat that have the same fault, this one left out.
        others: pieces of the same heat that were looked at, this one left out.
        before: earlier pieces of the same heater with the same fault, of the last looked at.
        making: what the report of its making says.
    """

    heater_kind: HeaterKind = "oven"
    calibrated: bool = False
    off_k: float | None = None
    set_c: float = 195.0
    in_s: float = 0.0
    celsius: tuple[float, float] = (0.0, 0.0)
    seconds: tuple[float, float] = (0.0, 0.0)
    dose: Dose | None = None
    planned: Dose | None = None
    window: Window = field(default=Window())
    early_s: float = 0.0
    late_s: float = 0.0
    open_s: float = 0.0
    pieces: int = 1
    capacity: int = 1
    turns_missed: int = 0
    cooled_early_s: float = 0.0
    hold: str = ""
    alike: int = 0
    others: int = 0
    before: tuple[int, int] = (0, 0)
    making: MakingEvidence = field(default=MakingEvidence())
