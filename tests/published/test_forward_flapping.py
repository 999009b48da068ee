"""Flapping in forward flight: printed figures, integration in time, strips summed by brute force.

Closed set: H. Glauert, ARC R&M 1111 (abstract read); A. Gessow and G.C. Myers; W. Johnson, Helicopter Theory, ch. 5 (from
memory); figures re-derived outside this project. D8, measured flapping: no table could be read in a stored copy, so
there is none here.
"""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.blade.flap import flap_damping, flap_frequency_squared, flapping_of, inflow_moment, pitch_moment
from rotorhead.faults import Refused
from rotorhead.flight.balance import Balance, balance, closed_balance, solve, strip_balance
from rotorhead.flight.flapper import Flap, FlapBlade, Pitch, flap_blade
from rotorhead.flight.inflow import Stream, stream
from rotorhead.flight.power import uniform_collective
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.rotor import of_head
from scipy.integrate import solve_ivp

PLAIN = FlapBlade(8.0, 1.0)
EIGHT = Pitch(math.radians(8.0))
AIR = 1.225
# Everything on: hinge offset, spring, δ3, twist, root cut, tip loss, both gradients, weight.
RICH = FlapBlade(6.5, flap_frequency_squared(0.05) + 0.02, 0.05, 0.3, math.radians(-9.0), 0.4, 0.15, 0.97, -0.004)
RICH_AIR = Stream(0.25, 0.021, 0.015, 0.9, -0.5)
RICH_PITCH = Pitch(math.radians(10.0), math.radians(2.0), math.radians(-5.0))


def degrees(flap: Flap) -> tuple[float, ...]:
    """All parts in degrees."""
    return tuple(math.degrees(part) for part in flap.parts)


def test_flapping_without_cyclic() -> None:
    """D1: μ 0.2, λ 0.02, θ0 8°, γ 8, ν 1, uniform inflow: 6.79211, −3.88602, −1.77572°."""
    found = closed_balance(PLAIN, Stream(0.2, 0.02)).flap(EIGHT)
    assert degrees(found) == pytest.approx((6.79211, -3.88602, -1.77572), abs=5e-6)


@settings(deadline=None)
@given(st.floats(0.01, 0.4), st.floats(-0.02, 0.06), st.floats(2.0, 14.0))
def test_the_classical_set(mu: float, inflow: float, pitch: float) -> None:
    """a1 = 2μ(4θ0/3 − λ)/(1 − μ²/2), b1 = (4/3)μ a0/(1 + μ²/2), a0 = (γ/8)(θ0(1 + μ²) − 4λ/3) (from memory); a1 = −β1c, b1 = −β1s."""
    theta = math.radians(pitch)
    found = closed_balance(PLAIN, Stream(mu, inflow)).flap(Pitch(theta))
    a0 = theta * (1.0 + mu * mu) - 4.0 * inflow / 3.0
    assert found.coning == pytest.approx(a0, rel=1e-9, abs=1e-12)
    assert -found.cosine == pytest.approx(
        2.0 * mu * (4.0 * theta / 3.0 - inflow) / (1.0 - mu * mu / 2.0), rel=1e-9, abs=1e-12
    )
    assert -found.sine == pytest.approx(4.0 / 3.0 * mu * a0 / (1.0 + mu * mu / 2.0), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize(
    ("model", "b1s", "coning", "b1c"),
    [("uniform", -0.331, 4.971, -0.860), ("coleman", -1.475, 4.971, -0.860), ("drees", -1.837, 4.980, -1.117),
     ("pitt_peters", -2.016, 4.971, -0.860)],
)  # fmt: skip
def test_low_speed_lateral_flapping(model: str, b1s: float, coning: float, b1c: float) -> None:
    """D3: μ 0.05, C_T 0.006, σ 0.08, a 5.7, γ 8: uniform inflow gives a fraction of the lateral flapping."""
    air = stream(0.006, 0.05, 0.0, model)
    theta = 6.0 * 0.006 / (0.08 * 5.7) + 1.5 * air.total
    assert math.degrees(theta) == pytest.approx(8.36687, abs=5e-6)
    assert air.total == pytest.approx(0.0447214, abs=5e-8)
    assert degrees(closed_balance(PLAIN, air).flap(Pitch(theta))) == pytest.approx((coning, b1c, b1s), abs=5.5e-4)


@pytest.mark.parametrize(
    ("mu", "sine", "coning", "cosine"),
    [(0.1, -1.87601, 6.30198, 0.83608), (0.2, -3.59274, 5.83405, 1.52524), (0.3, -5.03300, 5.17891, 1.98236)],
)
@pytest.mark.parametrize("nu2", [1.0, 1.2])
def test_cyclic_that_keeps_the_disc_level(mu: float, sine: float, coning: float, cosine: float, nu2: float) -> None:
    """D5: θ0 8°, λ 0.02, γ 8; ν 1 as printed. With ν² = 1.2 the level disc needs the same cyclic sine and less cosine,
    by the lower coning (formula printed beside the table). Put back in, the disc is level to round-off."""
    blade = replace(PLAIN, nu_squared=nu2)
    equations = closed_balance(blade, Stream(mu, 0.02))
    pitch, cone = equations.level_pitch(EIGHT.mean)
    assert math.degrees(pitch.sine) == pytest.approx(sine, abs=5e-6)
    assert math.degrees(cone) * nu2 == pytest.approx(coning, abs=5e-6 * nu2)
    assert math.degrees(pitch.cosine) * nu2 == pytest.approx(cosine, abs=5e-6 * nu2)
    again = equations.flap(pitch)
    assert (again.cosine, again.sine) == pytest.approx((0.0, 0.0), abs=1e-15)
    assert again.coning == pytest.approx(cone, rel=1e-12)


def test_cyclic_for_an_inflow_gradient() -> None:
    """D5: a gradient adds kx λ_i/(1 + μ²/2) to θ1c and ky λ_i/(1 + 1.5μ²) to θ1s; the lower coning of ky comes on top."""
    mu, bent = 0.2, 0.015
    plain, cone = closed_balance(PLAIN, Stream(mu, 0.02)).level_pitch(EIGHT.mean)
    pitch, coned = closed_balance(PLAIN, Stream(mu, 0.02, bent, 1.1, -0.4)).level_pitch(EIGHT.mean)
    assert pitch.sine - plain.sine == pytest.approx(-0.4 * bent / (1.0 + 1.5 * mu * mu), rel=1e-9)
    by_coning = 4.0 / 3.0 * mu * (coned - cone) / (1.0 + mu * mu / 2.0)
    assert pitch.cosine - plain.cosine - by_coning == pytest.approx(1.1 * bent / (1.0 + mu * mu / 2.0), rel=1e-9)


@settings(deadline=None)
@given(st.floats(0.001, 0.3), st.floats(0.1, 2.0))
def test_more_downwash_at_the_tail_rolls_to_the_advancing_side(mu: float, kx: float) -> None:
    """A7: FAA-H-8083-21B, p. 2-23 (read), anticlockwise: "slightly to the right"; left cyclic counters (θ1c > 0)."""
    plain = closed_balance(PLAIN, Stream(mu, 0.03, 0.03))
    bent = closed_balance(PLAIN, Stream(mu, 0.03, 0.03, kx))
    assert bent.flap(EIGHT).sine < plain.flap(EIGHT).sine <= 0.0
    assert bent.level_pitch(EIGHT.mean)[0].cosine > plain.level_pitch(EIGHT.mean)[0].cosine >= 0.0


def test_flap_back() -> None:
    """A4, A5: FAA-H-8083-21B, pp. 2-19 to 2-21 (read): with speed the disc tilts back; most upward flap *speed* on the
    advancing side (β′ = −β1c sin ψ there); more forward cyclic the faster (θ1s < 0)."""
    back, forward = [], []
    for mu in (0.0, 0.1, 0.2, 0.3):
        equations = closed_balance(PLAIN, Stream(mu, 0.02))
        back.append(equations.flap(EIGHT).cosine)
        forward.append(equations.level_pitch(EIGHT.mean)[0].sine)
    assert back == sorted(back, reverse=True)
    assert back[-1] < 0.0
    assert forward == sorted(forward, reverse=True)
    assert math.degrees(back[2]) == pytest.approx(-3.886, abs=5e-4)
    assert math.degrees(forward[2]) == pytest.approx(-3.593, abs=5e-4)


def test_a_rigid_rotor_rolls_to_the_retreating_side() -> None:
    """A4 (i): blades that can't flap (ν very large) at μ 0.2: the flap moment is greater on the advancing side, so that the
    aircraft rolls toward the retreating side: β1s > 0 while it stays tiny."""
    rigid = closed_balance(replace(PLAIN, nu_squared=1e6), Stream(0.2, 0.02)).flap(EIGHT)
    assert 0.0 < rigid.sine < 1e-5
    assert rigid.coning > 0.0


def in_time(blade: FlapBlade, air: Stream, pitch: Pitch, harmonics: int, reversal: bool) -> list[float]:
    """Harmonics of the settled flapping: scipy.integrate.solve_ivp over 14 turns, strips summed by Gauss–Legendre."""
    nodes, weights = np.polynomial.legendre.leggauss(24)

    def moment(psi: float, beta: float, rate: float) -> float:
        c, s = math.cos(psi), math.sin(psi)
        edges = [blade.start, blade.tip]
        cut = -air.mu * s
        if blade.start < cut < blade.tip:
            edges.insert(1, cut)
        total = 0.0
        for low, high in pairwise(edges):
            x = low + (nodes + 1.0) / 2.0 * (high - low)
            theta = pitch.mean + pitch.cosine * c + pitch.sine * s - blade.tan_delta3 * beta + blade.twist * (x - 0.75)
            ut = x + air.mu * s
            up = air.total + air.induced * x * (air.kx * c + air.ky * s) + (x - blade.e) * rate + air.mu * beta * c
            lift = (np.abs(ut) if reversal else ut) * (ut * theta - up)
            total += float(np.sum((x - blade.e) * lift * weights)) * (high - low) / 2.0
        return blade.gamma / 2.0 * total + blade.steady - blade.nu_squared * beta

    turn = 2.0 * math.pi
    psi = np.linspace(13 * turn, 14 * turn, 128, endpoint=False)
    run = solve_ivp(lambda t, y: (y[1], moment(t, y[0], y[1])), (0.0, 14 * turn), (0.05, 0.0), t_eval=psi,
                    rtol=1e-8, atol=1e-10, method="DOP853", max_step=0.05)  # fmt: skip
    flap = run.y[0]
    found = [float(np.mean(flap))]
    for h in range(1, harmonics + 1):
        found += [float(2.0 * np.mean(flap * np.cos(h * psi))), float(2.0 * np.mean(flap * np.sin(h * psi)))]
    return found


def test_printed_time_integration() -> None:
    """D1: integrated in time without cutting harmonics off: 6.79087, −3.89436, −1.80110°, second harmonics −0.197, +0.062.
    The package with five harmonics gives these, and so does an integration done here; one harmonic is within 0.03°."""
    air = Stream(0.2, 0.02)
    five = degrees(strip_balance(PLAIN, air, 5, reversed_flow=False).flap(EIGHT))
    assert five[:3] == pytest.approx((6.79087, -3.89436, -1.80110), abs=1e-5)
    assert five[3:5] == pytest.approx((-0.197, 0.062), abs=5e-4)
    here = [math.degrees(x) for x in in_time(PLAIN, air, EIGHT, 2, False)]
    assert five[:5] == pytest.approx(here, abs=2e-5)
    assert degrees(closed_balance(PLAIN, air).flap(EIGHT)) == pytest.approx(five[:3], abs=0.03)


@pytest.mark.parametrize("reversal", [False, True])
def test_everything_on_against_time_integration(reversal: bool) -> None:
    """Offset, spring, δ3, twist, root cut, tip loss, gradients, weight and reversed flow at μ 0.25: five harmonics of the
    package against solve_ivp (independent reference) to 1e-4°."""
    found = degrees(strip_balance(RICH, RICH_AIR, 5, 720, reversal).flap(RICH_PITCH))
    there = [math.degrees(x) for x in in_time(RICH, RICH_AIR, RICH_PITCH, 3, reversal)]
    assert found[:7] == pytest.approx(there, abs=1e-4)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.0, 0.4), st.floats(0.0, 0.15), st.floats(-0.3, 0.6), st.floats(-0.25, 0.1), st.floats(3.0, 12.0))
def test_summed_and_written_out_agree(mu: float, e: float, delta3: float, twist: float, gamma: float) -> None:
    """Without reversed flow the two ways to the coefficients are one, for flap, thrust and pitch alike."""
    blade = FlapBlade(gamma, flap_frequency_squared(e), e, delta3, twist, 0.4, max(e, 0.1), 0.97, -0.003)
    air = replace(RICH_AIR, mu=mu)
    one, other = closed_balance(blade, air), strip_balance(blade, air, reversed_flow=False)
    flap = one.flap(RICH_PITCH)
    assert other.flap(RICH_PITCH).parts == pytest.approx(flap.parts, abs=1e-12)
    assert other.thrust(RICH_PITCH, flap) == pytest.approx(one.thrust(RICH_PITCH, flap), abs=1e-13)
    pitch, _ = other.pitch_for(one.thrust(RICH_PITCH, flap), flap.cosine, flap.sine)
    assert (pitch.mean, pitch.cosine, pitch.sine) == pytest.approx(
        (RICH_PITCH.mean, RICH_PITCH.cosine, RICH_PITCH.sine), abs=1e-10
    )


def test_reversed_flow_only_where_it_reaches_the_blade() -> None:
    """Up to μ = root cut the written-out balance is exact, and chosen; beyond it the summed one is. At the border they
    meet. What reversed flow changes at μ 0.3 is under 0.1° here."""
    assert balance(RICH, replace(RICH_AIR, mu=0.15)).moment == closed_balance(RICH, replace(RICH_AIR, mu=0.15)).moment
    below = closed_balance(RICH, replace(RICH_AIR, mu=0.15)).flap(RICH_PITCH).parts
    assert strip_balance(RICH, replace(RICH_AIR, mu=0.15)).flap(RICH_PITCH).parts == pytest.approx(below, abs=1e-12)
    fast = replace(RICH_AIR, mu=0.3)
    with_it, without = (
        degrees(balance(RICH, fast).flap(RICH_PITCH)),
        degrees(closed_balance(RICH, fast).flap(RICH_PITCH)),
    )
    assert with_it != pytest.approx(without, abs=1e-4)
    assert with_it == pytest.approx(without, abs=0.1)


@pytest.mark.parametrize("mu", [0.2, 0.3, 0.4])
def test_seventy_two_azimuths_are_enough(mu: float) -> None:
    """Against 7200 azimuths: within 1e-5 rad, reversed flow and all."""
    air = replace(RICH_AIR, mu=mu)
    fine = strip_balance(RICH, air, 1, 7200).flap(RICH_PITCH).parts
    assert strip_balance(RICH, air).flap(RICH_PITCH).parts == pytest.approx(fine, abs=1e-5)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.0, 0.2), st.floats(3.0, 12.0))
def test_still_air_gives_the_hover(e: float, gamma: float) -> None:
    """μ -> 0: the coefficients are M_θ, M_β̇ and M_λ of the hovering blade."""
    blade = FlapBlade(gamma, flap_frequency_squared(e), e, start=e)
    found = closed_balance(blade, Stream(0.0, 0.05, 0.05)).moment
    half = gamma / 2.0
    assert half * found.pitch[0][0] == pytest.approx(pitch_moment(gamma, e), rel=1e-9)
    assert half * found.flap[2][1] == pytest.approx(flap_damping(gamma, e), rel=1e-9)
    assert -half * found.constant[0] == pytest.approx(0.05 * inflow_moment(gamma, e), rel=1e-9)


@pytest.mark.parametrize("turned", [False, True], ids=["as-drawn", "mirrored"])
@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_cyclic_in_the_hover_is_the_chains(head_id: str, turned: bool) -> None:
    """On every head and its mirror the hover's first harmonics are `Flapping.response` (lift from the hinge, no tip loss)."""
    head = demonstration(head_id)
    rotor = of_head(mirrored(head) if turned else head)
    blade = replace(flap_blade(rotor, AIR, 1.0), start=rotor.hinge_offset)
    found = closed_balance(blade, Stream(0.0, 0.05)).flap(RICH_PITCH)
    chain = flapping_of(rotor).response(RICH_PITCH.cosine, RICH_PITCH.sine)
    assert (found.cosine, found.sine) == pytest.approx(chain, rel=1e-9)


def test_thrust_in_still_air_is_the_uniform_inflow_formula() -> None:
    """C7: the balance with e 0, no cut, no tip loss gives C_T back at θ75 = 6C_T/(σa) + 1.5√(C_T/2)."""
    ct = 0.007
    blade = replace(PLAIN, solidity_slope=0.08 * 5.7)
    equations = closed_balance(blade, stream(ct, 0.0))
    pitch = Pitch(uniform_collective(ct, 0.08, 5.7))
    assert equations.thrust(pitch, equations.flap(pitch)) == pytest.approx(ct, rel=1e-12)


def test_teetering_holds_its_coning() -> None:
    """Only odd harmonics move a teetering hinge: coning and second harmonic are held (physics of the see-saw, no source);
    δ3 then answers to the teeter alone. The first harmonics still hang on the coning that is held."""
    blade = flap_blade(of_head(demonstration("birch2")), AIR)
    assert blade.held == pytest.approx(math.radians(2.5))
    found = strip_balance(blade, stream(0.002, 0.2, 0.05), 3).flap(RICH_PITCH)
    assert found.coning == blade.held
    assert found.higher[:2] == (0.0, 0.0)
    assert found.higher[2:] != (0.0, 0.0)
    stiffer = replace(blade, tan_delta3=0.5)
    more = closed_balance(stiffer, Stream(0.0, 0.03)).flap(Pitch(0.1))
    assert (more.cosine, more.sine) == (0.0, 0.0)
    still = Balance.thrust(closed_balance(stiffer, Stream(0.0, 0.03)), Pitch(0.1), more)
    assert still == pytest.approx(closed_balance(blade, Stream(0.0, 0.03)).thrust(Pitch(0.1), more), rel=1e-12)


@pytest.mark.parametrize("size", [1, 2, 5, 7])
def test_small_systems_against_numpy(size: int) -> None:
    """The elimination against numpy.linalg.solve; one without an answer is refused."""
    rng = np.random.default_rng(size)
    matrix, right = rng.normal(size=(size, size)), rng.normal(size=size)
    assert solve(matrix.tolist(), right.tolist()) == pytest.approx(list(np.linalg.solve(matrix, right)), rel=1e-9)
    with pytest.raises(Refused, match="no answer"):
        solve([[0.0] * size for _ in range(size)], [1.0] * size)


def test_outside_the_model_it_refuses() -> None:
    """Advance ratio and density."""
    for make in (closed_balance, strip_balance):
        with pytest.raises(Refused, match="Advance ratio"):
            make(PLAIN, Stream(0.41, 0.02))
    with pytest.raises(Refused, match="Air density"):
        flap_blade(of_head(demonstration("alder3")), 0.2)
