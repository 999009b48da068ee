"""Named wrong beliefs, by id: what the wrong answers of the questions stand for, and a page of the instructor's."""

from collections.abc import Iterable
from typing import Final

from ..model import Belief
from . import answer, chain, hands, loads, measured, phase


def _by_id(beliefs: Iterable[Belief]) -> dict[str, Belief]:
    found: dict[str, Belief] = {}
    for one in beliefs:
        if one.id in found:
            raise ValueError(f"two beliefs are called {one.id}")
        found[one.id] = one
    return found


BELIEFS: Final = _by_id(
    (
        *chain.BELIEFS,
        *phase.BELIEFS,
        *answer.BELIEFS,
        *hands.BELIEFS,
        *loads.BELIEFS,
        *measured.BELIEFS,
    )
)
