"""What a real linkage does, from four fits: lever low and high, stick forward, stick left.

Lever low and high, stick centred: pitch per height of the plate, and the wave that raising the plate makes.
Stick forward and stick left, lever where it was for `low`: lead of the links, and whether the two act a quarter turn
apart. Plate low at azimuth ψ_p -> pitch least at ψ_p − Δ + H, so Δ = ψ_p − ψ_least + H (H = 0 leading, 180° trailing
horn). SI and radians: pitch per height in rad/m (1 rad/m = 0.0573°/mm). The fits are taken as independent of each
other; errors are standard errors, to first order. Re-derived; checked against readings made from the exact linkage.
"""

import math
from dataclasses import dataclass

from ..conventions import HALF_TURN, Rotation, azimuth_of, sense, wrap
from ..faults import Fault, Refused
from .agree import Agreement, agreement
from .fit import Fit

_QUARTER = 0.5 * math.pi
LEAST_RISE = 0.0001


@dataclass(frozen=True, slots=True)
class Known:
    """A figure and its standard error."""

    value: float
    error: float


@dataclass(frozen=True, slots=True)
class TwoSetups:
    """Result of `two_setups`.

    per_height: mean pitch per height of the plate, rad/m; negative on a trailing horn.
    wave_per_height: amplitude of the wave that raising the plate makes, rad/m; hardly more than its error on a linkage
    without cross-coupling.
    matrix: rows mean, cosine, sine; columns lever (rad/m), stick forward, stick left (rad, change from stick centred).
    quarter: how far pitch least moves round the rotor from stick forward to stick left; beyond_quarter: how much that
    is more than 90° (+) or less (−): other than 0 means unequal or cross-coupled.
    lead_forward, lead_left: lead from each set-up; lead: their mean, weighted; same_lead: whether the two agree.
    """

    per_height: Known
    wave_per_height: Known
    matrix: tuple[tuple[Known, Known, Known], ...]
    quarter: Known
    beyond_quarter: Known
    lead_forward: Known
    lead_left: Known
    lead: Known
    same_lead: Agreement | None


def _change(to: Fit, origin: Fit, row: int, over: float, over_error: float) -> Known:
    """(to − origin)/over with the errors of all three."""
    a, b = to.coefficient(row), origin.coefficient(row)
    value = (a.value - b.value) / over
    return Known(value, math.hypot(a.error, b.error, value * over_error) / abs(over))


def _lead(fit: Fit, plate_low: float, plate_low_error: float, rotation: Rotation, trailing: bool) -> Known:
    """Δ = ψ_p − ψ_least + H from one set-up, in (−180°, 180°]."""
    place = fit.greatest
    assert place is not None  # refused before
    lead = wrap(azimuth_of(plate_low, rotation) - fit.least_azimuth + (HALF_TURN if trailing else 0.0))
    return Known(lead, math.hypot(place.error, plate_low_error))


def _together(a: Known, b: Known) -> Known:
    """Mean of two angles, weighted by 1/error²."""
    if a.error == 0.0 or b.error == 0.0:
        share = 0.5 if a.error == b.error else float(b.error == 0.0)
        return Known(wrap(a.value + share * wrap(b.value - a.value)), 0.0)
    wa, wb = 1.0 / a.error**2, 1.0 / b.error**2
    return Known(wrap(a.value + wb / (wa + wb) * wrap(b.value - a.value)), 1.0 / math.sqrt(wa + wb))


def two_setups(
    forward: Fit,
    left: Fit,
    low: Fit,
    high: Fit,
    *,
    rise: float,
    rise_error: float = 0.0,
    plate_low_forward: float,
    plate_low_left: float,
    plate_low_error: float = 0.0,
    rotation: Rotation,
    trailing: bool,
) -> TwoSetups:
    """Four fits -> pitch per height, cross-coupling and lead.

    rise: how much higher the plate stands for `high` than for `low`, m (negative: lower). plate_low_*: bearing at
    which the plate is lowest with the stick there, rad clockwise from the nose, each measured to `plate_low_error`.
    Refuses a rise of less than 0.1 mm, negative errors and a stick set-up without a clear wave.
    """
    faults = []
    if not math.isfinite(rise) or abs(rise) < LEAST_RISE:
        faults.append(
            Fault("rise", "Rise of the plate: less than 0.1 mm shows nothing; the two lever positions must differ.")
        )
    for field, label, error in (
        ("rise_error", "Error of the rise", rise_error),
        ("plate_low_error", "Error of the plate's low bearing", plate_low_error),
    ):
        if not error >= 0.0:
            faults.append(Fault(field, f"{label}: a standard error can't be negative; enter 0 or more."))
    for field, label, fit in (("forward", "Stick forward", forward), ("left", "Stick left", left)):
        if not fit.phase_known:
            faults.append(
                Fault(
                    field,
                    f"{label}: the readings show no clear wave, so pitch is least nowhere; move the stick further.",
                )
            )
    if faults:
        raise Refused(faults)
    matrix = tuple(
        (
            _change(high, low, row, rise, rise_error),
            _change(forward, low, row, 1.0, 0.0),
            _change(left, low, row, 1.0, 0.0),
        )
        for row in range(3)
    )
    cosine, sine = matrix[1][0], matrix[2][0]
    size = math.hypot(cosine.value, sine.value)
    error = (
        math.hypot(cosine.value * cosine.error, sine.value * sine.error) / size
        if size
        else math.hypot(cosine.error, sine.error) / math.sqrt(2.0)
    )
    # From the nose to the left is a quarter turn with the rotor's azimuth, or against it.
    moved = wrap(left.least_azimuth - forward.least_azimuth) * -sense(rotation)
    places = [fit.greatest for fit in (forward, left)]
    moved_error = math.hypot(*(place.error for place in places if place))
    leads = (
        _lead(forward, plate_low_forward, plate_low_error, rotation, trailing),
        _lead(left, plate_low_left, plate_low_error, rotation, trailing),
    )
    known = leads[0].error > 0.0 or leads[1].error > 0.0
    return TwoSetups(
        per_height=matrix[0][0],
        wave_per_height=Known(size, error),
        matrix=matrix,
        quarter=Known(moved, moved_error),
        beyond_quarter=Known(wrap(moved - _QUARTER), moved_error),
        lead_forward=leads[0],
        lead_left=leads[1],
        lead=_together(*leads),
        same_lead=agreement(leads[0].value, leads[0].error, leads[1].value, leads[1].error, round_turn=True)
        if known
        else None,
    )
