"""Does what was measured agree with what was computed? A verdict, the figures behind it, and a sentence.

d = measured − computed, u = √(u_m² + u_c²), both as standard errors; |d| <= 2u agree, <= 3u doubtful, else disagree.
The limits are common practice, no source; with normal scatter chance alone goes beyond 2u once in 22 times, beyond 3u
once in 370. Two figures that share a fault agree all the same.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

from ..conventions import degrees_text, wrap
from ..faults import Fault, Refused, refuse

Verdict = Literal["agree", "doubtful", "disagree"]
DOUBTFUL_BEYOND: Final = 2.0
DISAGREE_BEYOND: Final = 3.0


@dataclass(frozen=True, slots=True)
class Agreement:
    """Verdict; difference measured − computed; its standard error; |difference| in standard errors."""

    verdict: Verdict
    difference: float
    combined: float
    ratio: float


def agreement(
    measured: float, measured_error: float, computed: float, computed_error: float, *, round_turn: bool = False
) -> Agreement:
    """Compare two figures in one unit, each with its standard error.

    round_turn: both are places round the turn in radians, so that 359° and 1° differ by −2°. Refuses negative errors,
    and none at all: without an uncertainty no two measured figures agree.
    """
    faults = [
        Fault(field, f"{label}: a standard error can't be negative; enter 0 or more.")
        for field, label, error in (
            ("measured_error", "Error of the measured figure", measured_error),
            ("computed_error", "Error of the computed figure", computed_error),
        )
        if not error >= 0.0
    ]
    if faults:
        raise Refused(faults)
    combined = math.hypot(measured_error, computed_error)
    if combined == 0.0:
        raise refuse(
            "measured_error",
            "Error of the measured figure: enter more than 0; with no error at all nothing can be judged.",
        )
    difference = wrap(measured - computed) if round_turn else measured - computed
    ratio = abs(difference) / combined
    verdict: Verdict = "agree" if ratio <= DOUBTFUL_BEYOND else "doubtful" if ratio <= DISAGREE_BEYOND else "disagree"
    return Agreement(verdict, difference, combined, ratio)


_REASONS: Final[dict[Verdict, str]] = {
    "agree": "They agree: scatter alone can well make a difference as large",
    "doubtful": "Doubtful: scatter alone seldom makes a difference as large; measure again before believing either",
    "disagree": "They disagree: scatter alone hardly ever makes a difference as large; look for a slip in reading, "
    "bearing or head figures first",
}


def sentence(found: Agreement, show: Callable[[float], str] = degrees_text) -> str:
    """The verdict in words; `show` writes a figure with its unit, degrees from radians by default."""
    if found.difference == 0.0:
        return f"Measured and computed are the same, with a standard error of {show(found.combined)}. They agree."
    more = "more" if found.difference > 0.0 else "less"
    size = f"{found.ratio:.1f}" if found.ratio < 100.0 else "over 100"
    return (
        f"Measured is {show(abs(found.difference))} {more} than computed, {size} times the standard error of "
        f"{show(found.combined)}. {_REASONS[found.verdict]}."
    )
