"""Named wrong beliefs, by id: what the wrong answers of the questions stand for, and a page of the instructor's."""

from typing import Final

from ..model import by_id
from . import answer, chain, flight, hands, hub, loads, measured, phase, sides

BELIEFS: Final = by_id(
    (
        *chain.BELIEFS,
        *phase.BELIEFS,
        *answer.BELIEFS,
        *hands.BELIEFS,
        *loads.BELIEFS,
        *measured.BELIEFS,
        *flight.BELIEFS,
        *sides.BELIEFS,
        *hub.BELIEFS,
    )
)
