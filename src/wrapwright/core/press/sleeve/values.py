"""What is known of sleeves: their own figures, and the rules by which one is chosen."""

from __future__ import annotations

from dataclasses import dataclass

UNSOURCED = "common practice, no source"


@dataclass(frozen=True)
class Sleeve:
    """A tube of film that shrinks round the wrap.

    Attributes:
        flat_mm: its width laid flat, before it is heated: half the way round.
        radial: the share of its girth that it can lose.
        lengthwise: the share of its length that it loses.
        limit_c: what it bears.
        name: what it is called; "" for its width.
    """

    flat_mm: float
    radial: float = 0.5
    lengthwise: float = 0.1
    limit_c: float = 210.0
    name: str = ""


@dataclass(frozen=True)
class Rules:
    """The rules of choosing; each is a setting: common practice, no source.

    Attributes:
        ease_mm: its girth is at least so much more than the largest girth that it must pass.
        grip: shrunk, its girth is at most this share of the smallest girth in the band.
        fold_mm: it stands over at each end of the band by so much, and folds in.
    """

    ease_mm: float = 8.0
    grip: float = 0.95
    fold_mm: float = 15.0


@dataclass(frozen=True)
class Girths:
    """What a sleeve goes round and over, mm.

    Attributes:
        largest: the largest girth that it must pass on its way, a handle included where it must pass one.
        smallest: the smallest girth in the band.
        band: the band's height along the wall.
    """

    largest: float
    smallest: float
    band: float


@dataclass(frozen=True)
class Fit:
    """How one sleeve does.

    Attributes:
        sleeve: which.
        spare_mm: how much its girth exceeds what it must pass; negative: it does not pass.
        shrunk_mm: its girth when it has shrunk as far as it can, with nothing in it.
        cut_mm: how long it is cut.
        passes, grips, bears: over the blank; tight on the band; what it is heated to.
        reasons: why it does not do, in sentences; empty when it does.
    """

    sleeve: Sleeve
    spare_mm: float
    shrunk_mm: float
    cut_mm: float
    passes: bool
    grips: bool
    bears: bool
    reasons: tuple[str, ...] = ()

    @property
    def does(self) -> bool:
        """Whether it can be used."""
        return self.passes and self.grips and self.bears
