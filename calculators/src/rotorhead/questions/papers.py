"""Which questions a sheet or a round of practice has: chosen by topics and a seed."""

from collections.abc import Sequence

from ..faults import refuse
from .bank import TEMPLATES, TOPICS
from .draws import Draw
from .model import Template

MOST = 40
LONGEST_SEED = 40
ALL_TOPICS = "all"


def checked_seed(seed: str) -> str:
    """A seed as it may stand in a link: letters, digits, hyphens and dots. Raises `Refused` otherwise."""
    text = seed.strip()
    if not 0 < len(text) <= LONGEST_SEED or not all(c.isascii() and (c.isalnum() or c in "-.") for c in text):
        raise refuse("seed", f"Seed: “{text[:40]}” must be 1 to {LONGEST_SEED} letters, digits, hyphens or dots.")
    return text


def choose(topics: Sequence[str], number: int, seed: str) -> list[tuple[Template, str]]:
    """Templates and their seeds for a paper: topics take turns, no template twice before all of them have been; easier
    ones first. The same words give the same paper, always.

    Raises `Refused` for a topic or a number that there isn't.
    """
    seed = checked_seed(seed)
    topics = list(TOPICS) if list(topics) == [ALL_TOPICS] else topics
    unknown = [topic for topic in topics if topic not in TOPICS]
    if unknown:
        raise refuse("topics", f"Topics: “{unknown[0][:40]}” must be one of {', '.join(TOPICS)}.")
    if not topics:
        raise refuse("topics", "Topics: choose at least one.")
    if not 1 <= number <= MOST:
        raise refuse("number", f"Number of questions: {number} is outside what is allowed, between 1 and {MOST}.")
    draw = Draw(seed, "paper")
    piles = [draw.shuffled([t for t in TEMPLATES.values() if t.topic == topic]) for topic in TOPICS if topic in topics]
    # Which topic gives one more than the others is drawn too, where the number doesn't divide.
    piles = draw.shuffled(piles)
    deepest = max(len(pile) for pile in piles)
    dealt = [pile[depth] for depth in range(deepest) for pile in piles if depth < len(pile)]
    # When every template has been, they come once more, each with another seed.
    return _numbered([dealt[i % len(dealt)] for i in range(number)], seed)


def _numbered(chosen: list[Template], seed: str) -> list[tuple[Template, str]]:
    order = list(TOPICS)
    in_order = sorted(enumerate(chosen), key=lambda pair: (pair[1].level, order.index(pair[1].topic), pair[0]))
    return [(template, f"{seed}.{i + 1}") for i, (_, template) in enumerate(in_order)]
