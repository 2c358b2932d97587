"""The label beside a piece: its Data Matrix, its number, and its title and name, in a strip along one side.

The label is drawn as a few shapes that other labels share: the digits, the title, the name. It always reads the
right way; the art beside it is mirrored. A mirrored Data Matrix is read all the same, so the code never proves which
way round the art lies.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from wrapwright.core.design.path import Path, joined
from wrapwright.core.sheet.lay.printed.values import Array, Bars, Level, Modules, SetLabel, Slip, Stamp
from wrapwright.core.sheet.marks import check_bar
from wrapwright.core.sheet.placed import Box
from wrapwright.core.sheet.room import exact_box

# At 300 ppi 5.3 pixels. ISO/IEC 16022 leaves the size of a module to the use.
MODULE_MM = 0.45
NUMBER_MM = 3.0  # cap heights
SMALL_NUMBER_MM = 2.0
LINE_MM = 1.6
BETWEEN_MM = 1.4  # between the code, the number and the words, and between the two lines
_LEAST_WORDS_MM = 10.0  # a shorter title says nothing
_SPACE = 0.5  # between words, of the cap height


@dataclass
class Lettering:
    """Sets words and codes, each once."""

    set_label: SetLabel
    words: dict[tuple[str, float], Path] = field(default_factory=dict)
    widths: dict[tuple[str, float], float] = field(default_factory=dict)
    digits: dict[float, float] = field(default_factory=dict)
    codes: dict[bytes, Bars] = field(default_factory=dict)
    bars: dict[float, tuple[Path, Box]] = field(default_factory=dict)

    def path(self, text: str, height_mm: float) -> Path:
        """Return the outlines of words."""
        if (text, height_mm) not in self.words:
            self.words[text, height_mm] = self.set_label(text, height_mm)
        return self.words[text, height_mm]

    def wide(self, text: str, height_mm: float) -> float:
        """Return how far the words reach to the right."""
        if (text, height_mm) not in self.widths:
            self.widths[text, height_mm] = exact_box(self.path(text, height_mm))[2] if text else 0.0
        return self.widths[text, height_mm]

    def pitch(self, height_mm: float) -> float:
        """Return the distance from digit to digit: all digits are as wide as each other."""
        if height_mm not in self.digits:
            self.digits[height_mm] = self.wide("00", height_mm) - self.wide("0", height_mm)
        return self.digits[height_mm]

    def bar(self, length_mm: float) -> tuple[Path, Box]:
        """Return a check bar along x with its caption, and the box round it."""
        if length_mm not in self.bars:
            one = check_bar(length_mm, set_label=self.path)
            self.bars[length_mm] = (joined([one.lines, *(text.path for text in one.words)]), one.box)
        return self.bars[length_mm]

    def code(self, modules: Modules) -> Bars:
        """Return a code's dark modules as rectangles, row by row, from its lower left corner."""
        key = modules.shape[0].to_bytes(2, "big") + np.packbits(modules).tobytes()
        if key not in self.codes:
            self.codes[key] = _bars(modules)
        return self.codes[key]


def _bars(modules: Modules) -> Bars:
    """Return one rectangle for each run of dark modules in a row."""
    lines = np.pad(modules[::-1].astype(np.int8), ((0, 0), (1, 1)))
    edges = np.diff(lines, axis=1)
    rows, starts = np.nonzero(edges == 1)
    ends = np.nonzero(edges == -1)[1]
    boxes = np.stack([starts, rows, ends - starts, np.ones_like(rows)], axis=1) * MODULE_MM
    return Bars(boxes)


@dataclass(frozen=True)
class Need:
    """How long and deep a label is in mm: at least this long, and no longer use."""

    level: Level
    least_mm: float
    most_mm: float
    depth_mm: float


def needs(slips: tuple[Slip, ...], codes: dict[str, Modules], words: tuple[str, ...], pen: Lettering) -> list[Need]:
    """Return what the labels of a job's copies need, the fullest first.

    Args:
        slips: one a copy.
        codes: the modules of each code.
        words: the two lines.
        pen: sets words.
    """
    longest = max(str(slip.piece) for slip in slips) if slips else "0"
    count = max(len(str(slip.piece)) for slip in slips) if slips else len(longest)
    sizes = [codes[slip.code].shape for slip in slips if slip.code in codes]
    found = []
    small = count * pen.pitch(SMALL_NUMBER_MM)
    if sizes:
        deep, wide = max(size[0] for size in sizes) * MODULE_MM, max(size[1] for size in sizes) * MODULE_MM
        short = wide + BETWEEN_MM + count * pen.pitch(NUMBER_MM)
        depth = max(deep, NUMBER_MM)
        line = max((pen.wide(word, LINE_MM) for word in words), default=0.0)
        if line > 0.0:
            least = short + BETWEEN_MM + min(line, _LEAST_WORDS_MM)
            full = max(depth, 2 * LINE_MM + BETWEEN_MM)
            found.append(Need("label", least, short + BETWEEN_MM + line, full))
        found.append(Need("code", short, short, depth))
    found.append(Need("piece number", small, small, SMALL_NUMBER_MM))
    return found


def stamps_of(
    slip: Slip, level: Level, words: tuple[str, ...], modules: Modules | None, box: Box, pen: Lettering,
    scale: tuple[float, float],
) -> tuple[Stamp, ...]:  # fmt: skip
    """Return the shapes of a label in its box (true mm on the sheet): level when the box is, else from below upwards.

    Args:
        slip: the copy's.
        level: how much is said.
        words: one or two lines, upper first.
        modules: of its code.
        box: where it may stand.
        pen: sets words.
        scale: the printer's, across and along.
    """
    if not level:
        return ()
    upright = box[3] - box[1] > box[2] - box[0]
    length = max(box[2] - box[0], box[3] - box[1])
    depth = min(box[2] - box[0], box[3] - box[1])
    frame = _frame(box, upright=upright, scale=scale)
    shapes: list[tuple[Path | Bars, float, float]] = []
    at, cap = 0.0, NUMBER_MM
    if level == "piece number":
        cap = SMALL_NUMBER_MM
    elif modules is not None:
        code = pen.code(modules)
        shapes.append((code, 0.0, (depth - modules.shape[0] * MODULE_MM) / 2.0))
        at = modules.shape[1] * MODULE_MM + BETWEEN_MM
    for digit in str(slip.piece):
        shapes.append((pen.path(digit, cap), at, (depth - cap) / 2.0))
        at += pen.pitch(cap)
    if level == "label":
        at += BETWEEN_MM
        lines = [cut for word in words if (cut := shortened(word, length - at, pen))]
        rise = LINE_MM + BETWEEN_MM
        low = (depth - LINE_MM - rise * (len(lines) - 1)) / 2.0
        shapes += [(pen.path(line, LINE_MM), at, low + rise * up) for up, line in enumerate(reversed(lines))]
    return tuple(Stamp(path, frame @ _shift(x, y)) for path, x, y in shapes)


def row_of(words: Sequence[str], height_mm: float, pen: Lettering) -> tuple[list[tuple[Path, float]], float]:
    """Return words and numbers in a row, each shape with its distance from the start, and the row's length.

    Numbers are set digit by digit, so that rows which differ in them alone share all their shapes.
    """
    found: list[tuple[Path, float]] = []
    at = 0.0
    for word in words:
        if word.isdigit() and word.isascii():
            for digit in word:
                found.append((pen.path(digit, height_mm), at))
                at += pen.pitch(height_mm)
            at += height_mm * _SPACE - (pen.pitch(height_mm) - pen.wide(word[-1], height_mm))
        else:
            found.append((pen.path(word, height_mm), at))
            at += pen.wide(word, height_mm) + height_mm * _SPACE
    return found, at - height_mm * _SPACE


def shortened(text: str, room_mm: float, pen: Lettering) -> str:
    """Return the words cut to the room there is, empty when not even a few letters go in."""
    cut = text
    while cut and pen.wide(cut, LINE_MM) > room_mm + 1e-6:
        whole = cut.rstrip("…")
        over = (pen.wide(cut, LINE_MM) - room_mm) / pen.wide(cut, LINE_MM) * len(cut)
        keep = whole[: max(0, len(whole) - max(1, int(over)))].rstrip()
        cut = f"{keep}…" if keep else ""
    return cut


def _frame(box: Box, *, upright: bool, scale: tuple[float, float]) -> Array:
    """Return the matrix from the label's own mm to the page: along x, or upwards along the box's right side."""
    turn = np.array([[0.0, -1.0, box[2]], [1.0, 0.0, box[1]], [0.0, 0.0, 1.0]])
    level = np.array([[1.0, 0.0, box[0]], [0.0, 1.0, box[1]], [0.0, 0.0, 1.0]])
    return np.asarray(np.diag([1.0 / scale[0], 1.0 / scale[1], 1.0]) @ (turn if upright else level))


def _shift(x: float, y: float) -> Array:
    return np.array([[1.0, 0.0, x], [0.0, 1.0, y], [0.0, 0.0, 1.0]])
