"""Named wrong beliefs, by id: what the wrong answers of the questions stand for, and a page of the instructor's."""

from typing import Final

from ..model import by_id
from . import answer, chain, hands, loads, measured, phase

BELIEFS: Final = by_id(
    (
        *chain.BELIEFS,
        *phase.BELIEFS,
        *answer.BELIEFS,
        *hands.BELIEFS,
        *loads.BELIEFS,
        *measured.BELIEFS,
    )
)
