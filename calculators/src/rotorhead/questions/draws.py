"""Draws from a seed that come out the same on every machine and in every version: links and keys depend on them."""

from collections.abc import Sequence
from typing import Final, TypeVar

T = TypeVar("T")

_MASK: Final = (1 << 64) - 1


def _hashed(text: str) -> int:
    """FNV-1a, 64 bits, of a text: the public constants of that hash."""
    value = 0xCBF29CE484222325
    for byte in text.encode():
        value = ((value ^ byte) * 0x100000001B3) & _MASK
    return value


class Draw:
    """A stream of draws. SplitMix64 (G. Steele and others, 2014; constants from memory, checked in the tests against
    its published first outputs): Python's own `random` doesn't promise its choices for a later version."""

    def __init__(self, *seeds: object) -> None:
        self._state = _hashed("/".join(str(seed) for seed in seeds))

    def _next(self) -> int:
        self._state = (self._state + 0x9E3779B97F4A7C15) & _MASK
        mixed = self._state
        mixed = ((mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9) & _MASK
        mixed = ((mixed ^ (mixed >> 27)) * 0x94D049BB133111EB) & _MASK
        return mixed ^ (mixed >> 31)

    def below(self, count: int) -> int:
        """A whole number from 0 to count − 1."""
        return self._next() % count

    def among(self, things: Sequence[T]) -> T:
        """One of several."""
        return things[self.below(len(things))]

    def step(self, low: float, high: float, step: float) -> float:
        """A number from low to high in whole steps, both ends possible."""
        return round(low + step * self.below(round((high - low) / step) + 1), 9)

    def shuffled(self, things: Sequence[T]) -> list[T]:
        """All of them in another order (Fisher and Yates)."""
        order = list(things)
        for last in range(len(order) - 1, 0, -1):
            other = self.below(last + 1)
            order[last], order[other] = order[other], order[last]
        return order
