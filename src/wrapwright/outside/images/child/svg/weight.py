"""How many nodes a drawing comes to when every reference is followed."""

from __future__ import annotations

from wrapwright.core.base.errors import unusable

_CEILING = 10**12


class Weights:
    """The tree of nodes and their references, counted without ever building what they repeat."""

    def __init__(self, most: int) -> None:
        self.most = most
        self.parts: list[list[int]] = []
        self.references: list[list[str]] = []
        self.named: dict[str, int] = {}
        self.open: list[int] = []

    def start(self, name: str, references: list[str]) -> None:
        """Enter a node with its id ("" when it has none) and the ids it refers to."""
        if len(self.parts) >= self.most:
            raise unusable(f"The SVG has more than {self.most} nodes.", remedy="Simplify it, or save it as a PNG.")
        number = len(self.parts)
        self.parts.append([])
        self.references.append(references)
        if name:
            self.named.setdefault(name, number)
        if self.open:
            self.parts[self.open[-1]].append(number)
        self.open.append(number)

    def end(self) -> None:
        """Leave the node entered last."""
        self.open.pop()

    def total(self) -> int:
        """Return the root's weight: one a node, plus the weight of what it holds and refers to.

        A reference back to a node that is still being counted adds nothing (SVG 2, 5.6: such a `use` is in error).
        """
        if not self.parts:
            return 0
        weights: dict[int, int] = {}
        entered: set[int] = set()
        stack = [0]
        while stack:
            node = stack[-1]
            needed = self._needed(node)
            if node not in entered:
                entered.add(node)
                stack.extend(other for other in needed if other not in weights and other not in entered)
                continue
            stack.pop()
            if node not in weights:
                weights[node] = min(_CEILING, 1 + sum(weights.get(other, 0) for other in needed))
        return weights[0]

    def _needed(self, node: int) -> list[int]:
        """Return the nodes whose weight a node's own rests on."""
        return self.parts[node] + [self.named[name] for name in self.references[node] if name in self.named]
