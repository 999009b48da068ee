"""Hub moments, low g, rate response and damping.

Sources: W. Johnson, Helicopter Theory, ch. 5; J.G. Leishman, ch. 4 (from memory); FAA-H-8083-21B, p. 11-14 (read);
K.B. Amer, NACA TN 2136 (from memory; re-derived).
"""

import math

import numpy as np
import pytest
from rotorhead.blade.flap import (
    Flapping,
    flap_damping,
    flap_frequency_squared,
    flapping_of,
    hub_moment_slope,
    pitch_moment,
)
from rotorhead.faults import Refused
from rotorhead.flight.hover import thrust_coefficient, uniform_inflow
from rotorhead.flight.hub import (
    control_power,
    damping,
    moment_slope,
    offset_hub_moment,
    rate_response,
    tilt_moment,
    with_moment_inflow,
)
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.rotor import of_head
from scipy.integrate import quad, solve_ivp

DEGREE = math.pi / 180.0
heads = pytest.mark.parametrize("head_id", DEMONSTRATION)


@pytest.mark.parametrize(
    ("nu", "per_radian", "per_degree"), [(1.0, 0.0, 0.0), (1.03, 133_188.3, 2324.57), (1.10, 459_270.0, 8015.77)]
)
def test_hub_moment(nu: float, per_radian: float, per_degree: float) -> None:
    """B6: N 4, I 1500 kg·m², 27 rad/s; to the last digit printed."""
    found = moment_slope(4, 1500.0, 27.0, nu * nu)
    assert found == pytest.approx(per_radian, abs=0.05)
    assert found * DEGREE == pytest.approx(per_degree, abs=5e-3)


def test_offset_identity() -> None:
    """B15: 100 kg of even blade outboard of a hinge at 0.05 × 7 m, 30 rad/s, four blades: both forms 209 475.0 N·m/rad."""
    radius, e, mass, speed = 7.0, 0.05, 100.0, 30.0
    inertia, static = mass * (radius * (1 - e)) ** 2 / 3.0, mass * radius * (1 - e) / 2.0
    assert inertia == pytest.approx(1474.0833, abs=5e-5)
    assert static == pytest.approx(332.5, rel=1e-12)
    by_pull = offset_hub_moment(4, e * radius, static, speed)
    by_frequency = moment_slope(4, inertia, speed, flap_frequency_squared(e))
    assert by_pull == pytest.approx(209_475.0, rel=1e-9)
    assert by_frequency == pytest.approx(209_475.0, rel=1e-9)
    assert by_pull * DEGREE == pytest.approx(3656.03, abs=5e-3)


def test_thrust_moment() -> None:
    """A11: T 20 000 N at h 1.5 m: 523.599 N·m per degree of tilt."""
    head = of_head(demonstration("alder3"))
    found = tilt_moment(head).thrust * (20_000.0 / head.weight) * (1.5 / head.mast_above_cg)
    assert found * DEGREE == pytest.approx(523.599, abs=5e-4)


@heads
def test_low_g(head_id: str) -> None:
    """A11: p. 11-14 (read): offset hinges give moment without thrust, teetering heads nothing."""
    rotor = of_head(demonstration(head_id))
    one, half, none = (tilt_moment(rotor, n) for n in (1.0, 0.5, 0.0))
    assert none.thrust == 0.0
    assert half.thrust == pytest.approx(one.thrust / 2.0, rel=1e-12)
    assert one.hub == none.hub == hub_moment_slope(rotor)
    if rotor.head.option("type") == "teetering":
        assert none.total == 0.0
        assert none.hub_share is None
        assert control_power(rotor, 0.0) == 0.0
        with pytest.raises(Refused, match="Moment"):
            damping(rotor, 0.0)
    else:
        assert none.total > 0.0
        assert none.hub_share == 1.0
        assert damping(rotor, 0.0).opposing > 0.0
    with pytest.raises(Refused, match="Load factor"):
        tilt_moment(rotor, -1.0)


def test_stiffer_heads_keep_more() -> None:
    """A10, A11: hub's share of the moment at 1 g: teetering 0, hingeless more than articulated (FAA-H-8083-21B, read)."""
    share = {i: tilt_moment(of_head(demonstration(i))).hub_share for i in DEMONSTRATION}
    assert share["birch2"] == 0.0
    assert share["cedar4"] == max(s for s in share.values() if s is not None)


def plain(gamma: float) -> Flapping:
    """A blade on a central hinge without spring or δ3."""
    lift, damp = pitch_moment(gamma, 0.0), flap_damping(gamma, 0.0)
    return Flapping(gamma, gamma, 0.0, 1.0, 0.0, lift, damp, math.pi / 2, math.pi / 2, math.pi / 2, 1.0)


def test_rate_response() -> None:
    """D7: q 0.2 rad/s nose-up, γ 8, 40 rad/s: the disc lags 0.572958° (tilted forward) and 0.286479° comes across."""
    found = rate_response(plain(8.0), 1.0, 40.0, 0.2)
    assert math.degrees(found.cosine) == pytest.approx(0.572958, abs=5e-7)
    assert math.degrees(found.sine) == pytest.approx(0.286479, abs=5e-7)
    assert found.cosine == pytest.approx(16.0 * 0.2 / (8.0 * 40.0), rel=1e-12)
    assert found.sine == pytest.approx(0.2 / 40.0, rel=1e-12)


def test_roll_is_the_same_a_quarter_turn_on() -> None:
    """D7 turned: advancing side going down; the disc lags with its advancing side high (β1s > 0)."""
    pitch, roll = rate_response(plain(8.0), 1.0, 40.0, 0.2), rate_response(plain(8.0), 1.0, 40.0, 0.0, 0.2)
    assert (roll.cosine, roll.sine) == pytest.approx((-pitch.sine, pitch.cosine), rel=1e-12)
    both = rate_response(plain(8.0), 1.0, 40.0, 0.2, 0.2)
    assert both.cosine == pytest.approx(pitch.cosine + roll.cosine, rel=1e-12)


@heads
def test_rate_response_in_time(head_id: str) -> None:
    """Strip integrals by quadrature and solve_ivp (independent of the closed forms): hinge offset, spring and δ3 included.

    Mast turning nose-up at q: the plane a blade flaps from falls by q̂ x cos ψ (that much more lift where it falls), and the
    blade's mass is carried round by 2 q̂ sin ψ."""
    rotor = of_head(demonstration(head_id))
    f = flapping_of(rotor)
    hat, e, half = 1e-3, rotor.hinge_offset, f.gamma / 2.0
    lift = half * quad(lambda x: (x - e) * x * x, e, 1.0)[0]
    damp = half * quad(lambda x: (x - e) ** 2 * x, e, 1.0)[0]
    carried = quad(lambda x: (x - e) * x, e, 1.0)[0] / quad(lambda x: (x - e) ** 2, e, 1.0)[0]

    def rate(psi: float, y: np.ndarray) -> tuple[float, float]:
        push = lift * (hat * math.cos(psi) - f.tan_delta3 * y[0]) - 2.0 * carried * hat * math.sin(psi)
        return float(y[1]), float(push - damp * y[1] - f.nu_squared * y[0])

    turn = 2.0 * math.pi
    psi = np.linspace(19 * turn, 20 * turn, 64, endpoint=False)
    flap = solve_ivp(rate, (0.0, 20 * turn), (0.0, 0.0), t_eval=psi, rtol=1e-9, atol=1e-13, method="DOP853").y[0]
    found = rate_response(f, flap_frequency_squared(e), rotor.speed, hat * rotor.speed)
    assert found.cosine == pytest.approx(float(2.0 * np.mean(flap * np.cos(psi))), abs=1e-8)
    assert found.sine == pytest.approx(float(2.0 * np.mean(flap * np.sin(psi))), abs=1e-8)


@heads
def test_damping_opposes_and_mirrors(head_id: str) -> None:
    """Every head's rotor damps; the other rotation gives the same numbers in its own azimuths."""
    head = demonstration(head_id)
    one, other = damping(of_head(head)), damping(of_head(mirrored(head)))
    assert one.opposing > 0.0
    assert (one.opposing, one.across) == pytest.approx((other.opposing, other.across), rel=1e-12)


@heads
def test_moment_inflow_makes_the_disc_lag_more(head_id: str) -> None:
    """γ* = γ/(1 + aσ/(16 λ0)) (Johnson, from memory): on a central hinge the lag 16q/γ grows as γ/γ*; gains fall by 0 to 6 %."""
    rotor = of_head(demonstration(head_id))
    f = flapping_of(rotor)
    slow = with_moment_inflow(f)
    assert slow.gamma / f.gamma == pytest.approx(
        1.0 / (1.0 + rotor.lift_slope * rotor.solidity / (16.0 * uniform_inflow(thrust_coefficient(rotor)))), rel=1e-12
    )
    assert 0.94 < slow.gain / f.gain <= 1.0
    more = damping(rotor, moment_inflow=True).opposing / damping(rotor).opposing
    assert 1.30 < more < 1.55
    if head_id == "birch2":
        assert more == pytest.approx(f.gamma / slow.gamma, rel=1e-12)


def test_too_fast_a_rate_is_refused() -> None:
    """Beyond a tenth of the rotor's own speed nothing here holds."""
    with pytest.raises(Refused, match="Rate of turning"):
        rate_response(plain(8.0), 1.0, 40.0, 5.0)
