"""Lead and lag of the blades, and the tail rotor in the hover: statics and integrals done again here.

Parents: W. Johnson, Helicopter Theory; A.R.S. Bramwell, Helicopter Dynamics (from memory); FAA-H-8083-21B (text read).
"""

import math

import numpy as np
import pytest
from rotorhead.faults import Refused
from rotorhead.flight.flapper import Flap
from rotorhead.flight.hub import tilt_moment
from rotorhead.flight.lead_lag import coriolis, lag_frequency_squared, lead_lag
from rotorhead.flight.power import hover_performance
from rotorhead.flight.tail import tail_rotor, tail_thrust
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.rotor import of_head
from scipy.integrate import quad
from scipy.optimize import brentq

FLAP = Flap(math.radians(3.0), math.radians(2.0), math.radians(-1.0))


@pytest.mark.parametrize("e", [0.01, 0.04, 0.1])
def test_lag_frequency(e: float) -> None:
    """Restoring moment of the pull about the mast: e∫(x − e)dm over ∫(x − e)²dm, by quadrature (uniform blade)."""
    exact = e * quad(lambda x: x - e, e, 1.0)[0] / quad(lambda x: (x - e) ** 2, e, 1.0)[0]
    assert lag_frequency_squared(e) == pytest.approx(exact, rel=1e-10)
    assert lag_frequency_squared(e, 400.0, 100.0, 20.0) == pytest.approx(exact + 0.01, rel=1e-10)


def test_lag_frequencies_are_where_common_practice_has_them() -> None:
    """Soft in plane, 0.2 to 0.3 per turn for lag hinges at 3 to 5 % (Johnson, from memory)."""
    assert 0.2 < math.sqrt(lag_frequency_squared(0.03)) < 0.3
    assert 0.2 < math.sqrt(lag_frequency_squared(0.05)) < 0.3


def test_coriolis_amplitudes() -> None:
    """2ββ′ sampled round the turn and taken apart by FFT (numpy)."""
    psi = np.arange(64) * 2.0 * math.pi / 64
    beta = FLAP.coning + FLAP.cosine * np.cos(psi) + FLAP.sine * np.sin(psi)
    rate = -FLAP.cosine * np.sin(psi) + FLAP.sine * np.cos(psi)
    waves = np.abs(np.fft.rfft(2.0 * beta * rate)) / 32.0
    assert coriolis(FLAP) == pytest.approx((waves[1], waves[2]), rel=1e-12)
    assert waves[3] == pytest.approx(0.0, abs=1e-15)


def test_steady_lag_is_where_the_moments_balance() -> None:
    """A blade lagging by ζ about a hinge at eR: every piece is pulled straight out from the mast; found by brentq."""
    rotor = of_head(demonstration("dogwood5"))
    found = lead_lag(rotor, 700e3, FLAP)
    e, r = rotor.hinge, rotor.radius
    line = rotor.blade_mass / (r - e)
    drag = 700e3 / rotor.speed / rotor.blades * (0.75 * r - e) / (0.75 * r)

    def left_over(lag: float) -> float:
        # Pull on a piece at s from the hinge: dm Ω² times its place; its moment about the hinge is dm Ω² e s sin ζ.
        pull = quad(lambda s: line * rotor.speed**2 * e * s * math.sin(lag), 0.0, r - e)[0]
        return float(pull - drag)

    exact = brentq(left_over, 0.0, 0.5)
    # sin ζ = ζ within 0.2 % at 5°.
    assert found.steady_lag == pytest.approx(exact, rel=3e-3)


def test_swing_by_the_equation_of_motion() -> None:
    """ζ″ + ν_ζ² ζ = 2ββ′ solved harmonic by harmonic; moment = I Ω² times it."""
    rotor = of_head(demonstration("alder3"))
    found = lead_lag(rotor, 250e3, FLAP)
    first, second = coriolis(FLAP)
    assert found.swing_1 == pytest.approx(first / (1.0 - found.frequency**2), rel=1e-12)
    assert found.swing_2 == pytest.approx(second / (4.0 - found.frequency**2), rel=1e-12)
    scale = rotor.flap_inertia * rotor.speed**2
    assert (found.moment_1, found.moment_2) == pytest.approx((first * scale, second * scale), rel=1e-9)


def test_nothing_to_hold_the_blade() -> None:
    """A teetering head's blades have no lag hinge (FAA-H-8083-21B, p. 4-2, read); near resonance no answer."""
    with pytest.raises(Refused, match="Lag hinge"):
        lead_lag(of_head(demonstration("birch2")), 70e3, FLAP)
    rotor = of_head(demonstration("alder3"))
    spring = (1.0 - lag_frequency_squared(0.03)) * rotor.flap_inertia * rotor.speed**2
    with pytest.raises(Refused, match="too near 1"):
        lead_lag(rotor, 250e3, FLAP, spring=spring)


def test_tail_rotor_thrust() -> None:
    """P/(Ω l): torque over arm."""
    assert tail_thrust(300e3, 40.0, 7.5) == pytest.approx(1000.0)
    with pytest.raises(Refused, match="Power"):
        tail_thrust(math.nan, 40.0, 7.5)


@pytest.mark.parametrize("turned", [False, True], ids=["as-drawn", "mirrored"])
@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_sideways_balance(head_id: str, turned: bool) -> None:
    """Forces and moments written out again. Sides: anticlockwise rotors drift right and hang left side low (FAA-H-8083-21B,
    ch. 2 "translating tendency", read); mirrored for clockwise ones. 4 to 12 % of the weight (common practice, no source)."""
    head = demonstration(head_id)
    rotor = of_head(mirrored(head) if turned else head)
    power, moment = hover_performance(rotor, rotor.weight).power, tilt_moment(rotor).total
    found = tail_rotor(rotor, power, moment, 1.2 * rotor.radius, 0.6)
    assert found.thrust * 1.2 * rotor.radius * rotor.speed == pytest.approx(power, rel=1e-12)
    assert rotor.weight * (found.disc_tilt + found.bank) == pytest.approx(found.thrust, rel=1e-12)
    assert moment * found.disc_tilt == pytest.approx(found.thrust * 0.6, rel=1e-12)
    assert 0.04 < found.total_tilt < 0.12
    right_first = rotor.rotation == "anticlockwise"
    assert (found.push_side, found.tilt_side) == (("right", "left") if right_first else ("left", "right"))


def test_a_tail_rotor_level_with_a_teetering_hub_banks_nothing() -> None:
    """Push and thrust's tilt then act at one height: the fuselage hangs level (statics)."""
    rotor = of_head(demonstration("birch2"))
    found = tail_rotor(rotor, 70e3, tilt_moment(rotor).total, height=rotor.mast_above_cg)
    assert found.bank == pytest.approx(0.0, abs=1e-15)


def test_absurd_distances_are_refused() -> None:
    """A tail rotor on so short an arm would have to push with more than a quarter of the weight."""
    rotor = of_head(demonstration("alder3"))
    with pytest.raises(Refused, match="over weight"):
        tail_rotor(rotor, 250e3, 6e4, arm=0.5)
