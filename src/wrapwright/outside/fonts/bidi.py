"""The order in which a line's characters are seen when it runs both ways.

Source: Unicode Standard Annex 9, Unicode Bidirectional Algorithm; the rule numbers are its own.
"""

from __future__ import annotations

import unicodedata
from typing import Literal

Direction = Literal["auto", "ltr", "rtl"]
DEEPEST = 125  # BD2
DEEPEST_BRACKETS = 63  # BD16
_OPENING = "([{༺༼᚛⁅⁽₍⌈⌊❨❪❬❮❰❲❴⟅⟦⟨⟪⟬⟮⦃⦅⦇⦉⦋⦑⦓⦕⦗⧘⧚⧼⸢⸤⸦⸨〈《「『【〔〖〘〚﹙﹛﹝（［｛｟｢"
_CLOSING = ")]}༻༽᚜⁆⁾₎⌉⌋❩❫❭❯❱❳❵⟆⟧⟩⟫⟭⟯⦄⦆⦈⦊⦌⦒⦔⦖⦘⧙⧛⧽⸣⸥⸧⸩〉》」』】〕〗〙〛﹚﹜﹞）］｝｠｣"
_PAIR = dict(zip(_OPENING, _CLOSING, strict=True))
_ISOLATES = ("LRI", "RLI", "FSI")
_REMOVED = ("LRE", "RLE", "LRO", "RLO", "PDF", "BN")  # X9
_TURNING = frozenset({"R", "AL", "AN", "RLE", "LRE", "RLO", "LRO", "PDF", *_ISOLATES, "PDI"})
_NEUTRAL = ("B", "S", "WS", "ON", "LRI", "RLI", "FSI", "PDI")


def base_level(text: str, direction: Direction) -> int:
    """Return 0 for a line left to right, 1 for right to left; auto goes by its first strong letter (P2, P3)."""
    if direction != "auto":
        return int(direction == "rtl")
    return _first_strong(_classes(text), 0)


def levels(text: str, base: int) -> list[int]:
    """Return the embedding level of each character of one line; odd levels run right to left."""
    original = _classes(text)
    if base == 0 and _TURNING.isdisjoint(original):
        return [0] * len(text)  # numbers too: they follow a strong L, or the line's own direction (W7)
    classes = list(original)
    out = _explicit(classes, base)
    given = tuple(out)
    for sequence in _sequences(original, out):
        sides = _sides(original, given, sequence, base)
        for at, level in zip(sequence, _resolved(text, classes, sequence, given[sequence[0]], sides), strict=True):
            out[at] = level
    _settle(original, out, base)
    return out


def visual_order(run_levels: list[int]) -> list[int]:
    """Return the indices of runs from left to right as seen (L2)."""
    order = list(range(len(run_levels)))
    for level in range(max(run_levels, default=0), 0, -1):
        at = 0
        while at < len(order):
            end = at
            while end < len(order) and run_levels[order[end]] >= level:
                end += 1
            order[at:end] = reversed(order[at:end])
            at = max(end, at + 1)
    return order


def _classes(text: str) -> list[str]:
    """Return bidirectional classes; an unassigned character counts as left to right."""
    return [unicodedata.bidirectional(char) or "L" for char in text]


def _first_strong(classes: list[str], start: int) -> int:
    """Return the level of the first strong letter outside isolates, up to the end of the enclosing one."""
    depth = 0
    for one in classes[start:]:
        if one in _ISOLATES:
            depth += 1
        elif one == "PDI":
            if depth == 0 and start > 0:
                return 0
            depth = max(0, depth - 1)
        elif depth == 0 and one in ("L", "R", "AL"):
            return int(one != "L")
    return 0


class _Stack:
    """The directional status stack of X1: levels, overrides, isolates, and what overflowed."""

    def __init__(self, base: int) -> None:
        self.entries: list[tuple[int, str, bool]] = [(base, "", False)]
        self.lost_isolates = self.lost_embeddings = self.open_isolates = 0

    def open(self, *, right: bool, override: str = "", isolate: bool = False) -> None:
        """Go one level deeper (X2 to X5c) where that is allowed."""
        level = self.entries[-1][0]
        deeper = level + 1 + int((level % 2 == 1) == right)
        if deeper <= DEEPEST and not self.lost_isolates and not self.lost_embeddings:
            self.open_isolates += int(isolate)
            self.entries.append((deeper, override, isolate))
        elif isolate:
            self.lost_isolates += 1
        elif not self.lost_isolates:
            self.lost_embeddings += 1

    def close_isolate(self) -> None:
        """Come back out of an isolate (X6a)."""
        if self.lost_isolates:
            self.lost_isolates -= 1
        elif self.open_isolates:
            self.lost_embeddings = 0
            while not self.entries[-1][2]:
                self.entries.pop()
            self.entries.pop()
            self.open_isolates -= 1

    def close_embedding(self) -> None:
        """Come back out of an embedding or override (X7)."""
        if self.lost_isolates:
            return
        if self.lost_embeddings:
            self.lost_embeddings -= 1
        elif not self.entries[-1][2] and len(self.entries) > 1:
            self.entries.pop()


def _explicit(classes: list[str], base: int) -> list[int]:
    """Return levels by X1 to X8; overrides change `classes` in place."""
    out = []
    stack = _Stack(base)
    original = list(classes)
    for at, one in enumerate(original):
        if one == "PDI":
            stack.close_isolate()
        level, override, _ = stack.entries[-1]
        out.append(level)
        if override and one not in _REMOVED:
            classes[at] = override
        if one in ("RLE", "LRE", "RLO", "LRO"):
            stack.open(right=one[0] == "R", override={"RLO": "R", "LRO": "L"}.get(one, ""))
        elif one in _ISOLATES:
            right = one == "RLI" or (one == "FSI" and _first_strong(original, at + 1) == 1)
            stack.open(right=right, isolate=True)
        elif one == "PDF":
            stack.close_embedding()
    return out


def _sequences(classes: list[str], level_of: list[int]) -> list[list[int]]:
    """Return the isolating run sequences (BD13) as lists of character places, removed characters left out (X9)."""
    runs: list[list[int]] = []
    for at, one in enumerate(classes):
        if one in _REMOVED:
            continue
        if runs and level_of[runs[-1][-1]] == level_of[at]:
            runs[-1].append(at)
        else:
            runs.append([at])
    match = _isolate_matches(classes)
    starts_with = {run[0]: run for run in runs}
    after_isolate = set(match.values())
    out = []
    for run in runs:
        if classes[run[0]] == "PDI" and run[0] in after_isolate:
            continue
        sequence = list(run)
        while classes[sequence[-1]] in _ISOLATES and match.get(sequence[-1]) in starts_with:
            sequence += starts_with[match[sequence[-1]]]
        out.append(sequence)
    return out


def _isolate_matches(classes: list[str]) -> dict[int, int]:
    """Return which PDI ends which isolate (BD9)."""
    opened: list[int] = []
    match = {}
    for at, one in enumerate(classes):
        if one in _ISOLATES:
            opened.append(at)
        elif one == "PDI" and opened:
            match[opened.pop()] = at
    return match


def _sides(original: list[str], given: tuple[int, ...], sequence: list[int], base: int) -> tuple[str, str]:
    """Return the directions before and after an isolating run sequence (X10)."""
    level = given[sequence[0]]
    before = next((given[at] for at in range(sequence[0] - 1, -1, -1) if original[at] not in _REMOVED), base)
    after = base
    if original[sequence[-1]] not in _ISOLATES:
        places = range(sequence[-1] + 1, len(given))
        after = next((given[at] for at in places if original[at] not in _REMOVED), base)
    return "LR"[max(level, before) % 2], "LR"[max(level, after) % 2]


def _resolved(text: str, classes: list[str], sequence: list[int], level: int, sides: tuple[str, str]) -> list[int]:
    """Return the levels of one isolating run sequence (W1 to I2)."""
    kinds = [classes[at] for at in sequence]
    own = "LR"[level % 2]
    _weak(kinds, sides[0])
    _brackets([text[at] for at in sequence], [classes[at] for at in sequence], kinds, (own, sides[0]))
    _neutral(kinds, own, sides)
    if level % 2 == 0:
        return [level + {"R": 1, "AN": 2, "EN": 2}.get(kind, 0) for kind in kinds]  # I1
    return [level + int(kind in ("L", "EN", "AN")) for kind in kinds]  # I2


def _weak(kinds: list[str], start: str) -> None:
    """Resolve marks, numbers, separators and terminators in place (W1 to W7)."""
    _marks(kinds, start)
    strong = start
    for at, kind in enumerate(kinds):  # W2, W3
        if kind in ("L", "R", "AL"):
            strong = kind
        if kind == "EN" and strong == "AL":
            kinds[at] = "AN"
    kinds[:] = ["R" if kind == "AL" else kind for kind in kinds]
    for at in range(1, len(kinds) - 1):  # W4
        around = (kinds[at - 1], kinds[at + 1])
        if (kinds[at] in ("ES", "CS") and around == ("EN", "EN")) or (kinds[at] == "CS" and around == ("AN", "AN")):
            kinds[at] = around[0]
    _terminators(kinds)
    strong = start
    for at, kind in enumerate(kinds):  # W7
        if kind in ("L", "R"):
            strong = kind
        if kind == "EN" and strong == "L":
            kinds[at] = "L"


def _marks(kinds: list[str], start: str) -> None:
    """Give marks the class of what they stand on (W1)."""
    before = start
    for at, kind in enumerate(kinds):
        if kind == "NSM":
            kinds[at] = "ON" if before in (*_ISOLATES, "PDI") else before
        before = kinds[at]


def _terminators(kinds: list[str]) -> None:
    """Terminators beside European numbers become numbers, all other separators neutral (W5, W6)."""
    for start, end in _stretches(kinds, ("ET",)):
        beside = (start > 0 and kinds[start - 1] == "EN") or (end < len(kinds) and kinds[end] == "EN")
        kinds[start:end] = ["EN" if beside else "ON"] * (end - start)
    kinds[:] = ["ON" if kind in ("ES", "CS") else kind for kind in kinds]


def _stretches(kinds: list[str], wanted: tuple[str, ...]) -> list[tuple[int, int]]:
    """Return (start, end) of each longest stretch of the wanted kinds."""
    out = []
    at = 0
    while at < len(kinds):
        end = at
        while end < len(kinds) and kinds[end] in wanted:
            end += 1
        if end > at:
            out.append((at, end))
        at = max(end, at + 1)
    return out


def _brackets(chars: list[str], classes: list[str], kinds: list[str], about: tuple[str, str]) -> None:
    """Resolve paired brackets in place (N0); `about` is the embedding's own direction and the start's."""
    own, start = about
    for opening, closing in _bracket_pairs(chars, kinds):
        inside = {_strong(kind) for kind in kinds[opening + 1 : closing]} - {""}
        if own in inside:
            found = own
        elif inside:
            context = next((side for side in map(_strong, reversed(kinds[:opening])) if side), start)
            found = context if context != own else own
        else:
            continue
        for at in (opening, closing):
            kinds[at] = found
            follow = at + 1
            while follow < len(kinds) and classes[follow] == "NSM":
                kinds[follow] = found
                follow += 1


def _bracket_pairs(chars: list[str], kinds: list[str]) -> list[tuple[int, int]]:
    """Return pairs of places of brackets that belong together (BD16), by their opening."""
    opened: list[tuple[str, int]] = []
    pairs = []
    for at, (char, kind) in enumerate(zip(chars, kinds, strict=True)):
        if kind != "ON":
            continue
        if char in _PAIR:
            if len(opened) == DEEPEST_BRACKETS:
                return []
            opened.append((_PAIR[char], at))
        else:
            back = next((n for n in range(len(opened) - 1, -1, -1) if opened[n][0] == char), -1)
            if back >= 0:
                pairs.append((opened[back][1], at))
                del opened[back:]
    return sorted(pairs)


def _strong(kind: str) -> str:
    """Return the direction a kind counts as among neutrals: numbers count as right to left."""
    return {"L": "L", "R": "R", "EN": "R", "AN": "R"}.get(kind, "")


def _neutral(kinds: list[str], own: str, sides: tuple[str, ...]) -> None:
    """Give neutrals the direction of both their neighbours, else the embedding's (N1, N2)."""
    for start, end in _stretches(kinds, _NEUTRAL):
        left = _strong(kinds[start - 1]) if start > 0 else sides[0]
        right = _strong(kinds[end]) if end < len(kinds) else sides[1]
        kinds[start:end] = [left if left == right else own] * (end - start)


def _settle(original: list[str], out: list[int], base: int) -> None:
    """Put separators and white space at the end of the line back to its own level (L1); removed characters follow."""
    blank = ("WS", *_ISOLATES, "PDI", *_REMOVED)
    trailing = True
    for at in range(len(out) - 1, -1, -1):
        if original[at] in ("S", "B"):
            trailing = True
            out[at] = base
        elif trailing and original[at] in blank:
            out[at] = base
        else:
            trailing = False
    for at, one in enumerate(original):
        if one in _REMOVED:
            out[at] = out[at - 1] if at else base
