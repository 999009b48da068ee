"""The phase budget: every angle between the stick and the disc in one sum.

H = 0 for a leading horn, 180° for a trailing one. Plate low at azimuth ψ_p -> commanded pitch least
at ψ_p − Δ + H -> disc low at ψ_p − Δ + H + φ. For the disc to go down at the nose the plate must be
low (φ − Δ + H), reduced to ±180°, before the nose. All angles in radians.
"""

import math
from dataclasses import dataclass

from ..conventions import HALF_TURN, azimuth_of, bearing_before_nose, bearing_of, degrees_text, offset_words, wrap
from ..rotor import SEA_LEVEL_DENSITY, Rotor
from .flap import Flapping, flapping_of


@dataclass(frozen=True, slots=True)
class Budget:
    """The chain of angles of one head with the stick forward, radians.

    needed: how far before the nose the plate must be low for the disc to go down at the nose.
    fitted: how far before the nose the machine puts it. error = needed − fitted: the disc goes down
    that far after the nose (in the direction of rotation) when positive.
    """

    rotor: Rotor
    flapping: Flapping
    lead: float
    horn_turn: float
    lag: float
    needed: float
    fitted: float

    @property
    def error(self) -> float:
        """Left over: how far after the nose (+) or before it (−) the disc goes down."""
        return wrap(self.needed - self.fitted)

    @property
    def off_axis(self) -> float | None:
        """Off-axis over on-axis response for the error: tan(error); None where hardly any is on the axis (80° to 100°)."""
        return None if abs(abs(self.error) - HALF_TURN / 2.0) < math.radians(10.0) else math.tan(self.error)

    @property
    def plate_low(self) -> float:
        """Bearing of the plate's low point, stick forward."""
        return bearing_before_nose(self.fitted, self.rotor.rotation)

    @property
    def plate_needed(self) -> float:
        """Bearing at which the plate must be low for the disc to go down at the nose."""
        return bearing_before_nose(self.needed, self.rotor.rotation)

    def _on(self, bearing: float, turn: float) -> float:
        rotation = self.rotor.rotation
        return bearing_of(azimuth_of(bearing, rotation) + turn, rotation)

    @property
    def pitch_least(self) -> float:
        """Bearing at which commanded pitch is least."""
        return self._on(self.plate_low, -self.lead + self.horn_turn)

    @property
    def disc_low(self) -> float:
        """Bearing at which the disc is low."""
        return self._on(self.pitch_least, self.lag)


def sum_lines(budget: Budget) -> tuple[str, str]:
    """The budget as a line of arithmetic, and what it comes to: a sum and its answer."""
    lag, lead = degrees_text(budget.lag), budget.lead
    minus = "\N{MINUS SIGN}"
    terms = f"{lag} lag "
    terms += f"{minus} {degrees_text(lead)} lead" if lead >= 0 else f"+ {degrees_text(-lead)} behind"
    total = budget.lag - lead
    if budget.horn_turn:
        terms += " + 180° horn"
        total += budget.horn_turn
    if abs(total - budget.needed) > 1e-9:
        terms += f" {minus} 360°"
    where = offset_words(budget.needed, budget.rotor.rotation, 1)
    if where[0].isdigit() and budget.needed > 0:
        return terms, f"= {where}"
    return terms, f"= {degrees_text(budget.needed)}: {where}"


def needed_offset(lag: float, lead: float, trailing: bool) -> float:
    """φ − Δ + H reduced to ±180°: how far before the nose the plate must be low (negative: after)."""
    return wrap(lag - lead + (HALF_TURN if trailing else 0.0))


def budget_of(rotor: Rotor, density: float = SEA_LEVEL_DENSITY, turn_rods: float = 0.0) -> Budget:
    """The budget of a head, its rod set turned a further `turn_rods` (rad) before the nose."""
    flapping = flapping_of(rotor, density)
    horn = HALF_TURN if rotor.trailing else 0.0
    return Budget(
        rotor, flapping, rotor.lead, horn, flapping.lag,
        needed_offset(flapping.lag, rotor.lead, rotor.trailing), wrap(rotor.fitted_offset + turn_rods),
    )  # fmt: skip


# What can be built, for "what I was told": bands common practice allows, no source.
LEAD_BAND = (math.radians(15.0), math.radians(120.0))
LAG_BAND = (math.radians(45.0), math.radians(110.0))


@dataclass(frozen=True, slots=True)
class Reconciled:
    """What would make a told rod offset true, for one side of horn.

    lead: lead that closes the budget with this head's lag. lag: lag that closes it with this head's
    lead (for that side of horn). *_ok: inside what can be built.
    """

    trailing: bool
    lead: float
    lead_ok: bool
    lag: float
    lag_ok: bool


def reconcile(offset: float, lag: float, lead: float, trailing: bool) -> Reconciled:
    """Lead or lag for which a rod set `offset` before the nose brings the disc down at the nose.

    lead = φ + H − offset with this lag; lag = offset + Δ − H with this lead (taken to the horn's side).
    """
    horn = HALF_TURN if trailing else 0.0
    sign = -1.0 if trailing else 1.0
    need_lead = wrap(lag + horn - offset)
    own = lead if (lead < 0.0) == trailing else -lead
    need_lag = wrap(offset + own - horn)
    return Reconciled(
        trailing,
        need_lead,
        LEAD_BAND[0] <= sign * need_lead <= LEAD_BAND[1],
        need_lag,
        LAG_BAND[0] <= need_lag <= LAG_BAND[1],
    )


def buildable_offsets(trailing: bool) -> tuple[float, float]:
    """Least and greatest offset before the nose that any buildable lead and lag give, rad."""
    if trailing:
        return LAG_BAND[0] + LEAD_BAND[0] - HALF_TURN, LAG_BAND[1] + LEAD_BAND[1] - HALF_TURN
    return LAG_BAND[0] - LEAD_BAND[1], LAG_BAND[1] - LEAD_BAND[0]
