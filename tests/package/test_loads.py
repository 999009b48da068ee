"""From the blade's moment to the rods: statics done again in the ground frame, waves by FFT, closed forms, properties.

Statics of a plate and sums over equal blades are elementary; what else a check leans on stands beside it.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import mirrored
from rotorhead.loads.feather import Blade, Parts, blade_of, moments_round, parts_at, section_moment, steps_for
from rotorhead.loads.hands import actuator_of, boosted
from rotorhead.loads.rods import amplitudes, link_load, link_loads, plate_load, rod_loads, rods_round
from rotorhead.mechanism.hands import height_for_pitch
from rotorhead.mechanism.links import pitch_now
from rotorhead.mechanism.plate import Pose
from rotorhead.rotor import Rotor, of_head
from rotorhead.topics import shake
from scipy.integrate import quad
from scipy.special import jv

HEADS = [(head_id, turned) for head_id in DEMONSTRATION for turned in (False, True)]
every_head = pytest.mark.parametrize(("head_id", "turned"), HEADS, ids=[f"{h}{'-mirrored' * t}" for h, t in HEADS])
# Mean, cosine and sine of the pitch (rad) and airspeed (m/s): nothing zero, nothing symmetric.
STATE = (math.radians(9.0), math.radians(2.0), math.radians(-5.0), 55.0)


def rotor_of(head_id: str, turned: bool = False) -> Rotor:
    """A demonstration head, or the same turning the other way."""
    head = demonstration(head_id)
    return of_head(mirrored(head) if turned else head)


def rich(rotor: Rotor) -> Blade:
    """A blade with everything on it. Friction's square wave puts every odd wave a turn into the link's load."""
    return blade_of(rotor, mass_behind=0.012, air_ahead=-0.006, weights=0.01, spring=150.0, friction=8.0)


def rich_links(rotor: Rotor) -> list[float]:
    """Link loads round the turn for that blade and state."""
    moments = [p.total for p in moments_round(rotor, rich(rotor), *STATE)]
    return link_loads(rotor, moments, *STATE[:3])


def on_the_ground(rotor: Rotor, radius: float, azimuth: float) -> tuple[float, float]:
    """A place as (right, forward) seen from above, nose forward: azimuth from the tail with the rotation."""
    right = math.sin(azimuth) if rotor.rotation == "anticlockwise" else -math.sin(azimuth)
    return radius * right, -radius * math.cos(azimuth)


@every_head
def test_plate_in_equilibrium_at_every_azimuth(head_id: str, turned: bool) -> None:
    """Forces and moments of links and rods balance, in the ground frame with bearings, foot by foot.

    A link pushes the plate down where its foot stands: out along its blade and ahead of it, as a ruler has it.
    """
    rotor = rotor_of(head_id, turned)
    links = rich_links(rotor)
    n = len(links)
    rods = rods_round(rotor, links)
    bearings = [math.radians(r.bearing_deg) for r in rotor.head.rods]
    places = [(rotor.rod_radius * math.sin(b), rotor.rod_radius * math.cos(b)) for b in bearings]
    matrix = np.array([[1.0, 1.0, 1.0], *zip(*places, strict=True)])
    for i in range(n):
        wanted = np.zeros(3)
        for k in range(rotor.blades):
            azimuth = math.tau * (i / n + k / rotor.blades)
            out = on_the_ground(rotor, rotor.link_foot_out, azimuth)
            ahead = on_the_ground(rotor, rotor.link_foot_ahead, azimuth + math.pi / 2.0)
            load = links[(i + k * n // rotor.blades) % n]
            wanted += load * np.array([1.0, out[0] + ahead[0], out[1] + ahead[1]])
        assert rods[i] == pytest.approx(
            list(np.linalg.solve(matrix, wanted)), rel=1e-9, abs=1e-9 * max(map(abs, links))
        )


@every_head
def test_only_multiples_of_the_blade_count_reach_the_rods(head_id: str, turned: bool) -> None:
    """FFT of each rod's load: all other waves below 1e-9 of the greatest, though the link has them."""
    rotor = rotor_of(head_id, turned)
    links = rich_links(rotor)
    own = np.abs(np.fft.rfft(links))
    assert min(own[1], own[2], own[3]) > 1e-3 * own[0]
    for rod in zip(*rods_round(rotor, links), strict=True):
        waves = np.abs(np.fft.rfft(rod))
        others = [w for h, w in enumerate(waves) if h % rotor.blades]
        assert max(others) < 1e-9 * max(waves)
        assert waves[rotor.blades] > 1e-5 * waves[0]


@pytest.mark.parametrize("wave", range(10))
@pytest.mark.parametrize("blades", range(2, 9))
def test_what_one_wave_of_the_links_becomes(blades: int, wave: int) -> None:
    """Σ cos h(ψ + 2πk/N) = N cos hψ if N divides h, else 0; the moments take h ± 1 instead, with half the weight.

    Two blades: one a turn becomes a steady moment and an equal one twice a turn; three and more: steady only.
    """
    rotor, n = rotor_of("cedar4"), blades * 16
    loads = [
        plate_load(rotor, [math.cos(wave * math.tau * i / n - 0.7) for i in range(n)], k, blades) for k in range(n)
    ]
    size, neighbours = blades * rotor.ring_radius / 2.0, {wave + 1, abs(wave - 1)}
    for series, whole, waves in (
        ([p.down for p in loads], float(blades), {wave}),
        ([p.along for p in loads], size, neighbours),
        ([p.across for p in loads], size, neighbours),
    ):
        found = np.abs(np.fft.rfft(series))[1 : n // 2] * 2.0 / n
        expected = [whole if h in waves and h % blades == 0 else 0.0 for h in range(1, n // 2)]
        assert found == pytest.approx(expected, abs=1e-12 * blades)
    steady = np.mean([[p.down, p.along, p.across] for p in loads], axis=0)
    toward = 0.7 + rotor.lead
    assert steady[0] == pytest.approx(blades * math.cos(0.7) if wave == 0 else 0.0, abs=1e-12)
    moment = [size * math.cos(toward), size * math.sin(toward)] if wave == 1 else [0.0, 0.0]
    assert list(steady[1:]) == pytest.approx(moment, abs=1e-12)


def test_amplitudes_are_those_of_an_fft() -> None:
    """numpy's FFT of any even series."""
    series = list(np.random.default_rng(7).normal(size=72))
    theirs = np.abs(np.fft.rfft(series))[:13] * 2.0 / 72
    theirs[0] = sum(series) / 72
    assert [abs(a) for a in amplitudes(series)] == pytest.approx([abs(float(t)) for t in theirs], abs=1e-12)


@pytest.mark.parametrize("blades", range(2, 9))
def test_shake_for_other_blade_counts(blades: int) -> None:
    """The calculator's amplitude of N a turn in the worst rod, summed again by its closed form.

    Rods 120° apart at r: R_i = F/3 + (2/3r)(M · unit vector to the rod); waves h all cosines of the blade's azimuth.
    """
    rotor = rotor_of("alder3")
    loads = [100.0 / (h + 1.0) for h in range(shake.HIGHEST + 1)]
    below, above = loads[blades - 1], loads[blades + 1]
    worst = 0.0
    for rod in rotor.rod_azimuths:
        # cos h ψ at the foot's azimuth ψ + lead, against the rod: waves N from h = N ∓ 1, half each.
        turn = rod - rotor.lead
        arm = 2.0 / 3.0 * rotor.ring_radius / rotor.rod_radius
        wave = loads[blades] / 3.0 + arm / 2.0 * (below * np.exp(-1j * turn) + above * np.exp(1j * turn))
        worst = max(worst, abs(blades * wave))
    assert shake.rod_amplitude(rotor, loads, blades) == pytest.approx(worst, rel=1e-10)


def test_more_than_three_rods_share_with_the_least_squares() -> None:
    """Equally stiff rods: numpy's least-norm solution."""
    rotor = replace(rotor_of("alder3"), rod_azimuths=(0.1, 1.3, 2.9, 4.0, 5.5))
    load = plate_load(rotor, rich_links(rotor), 5)
    rows = np.array([[1.0, rotor.rod_radius * math.cos(x), rotor.rod_radius * math.sin(x)] for x in rotor.rod_azimuths])
    share = np.linalg.lstsq(rows.T, np.array([load.down, load.along, load.across]), rcond=None)[0]
    assert rod_loads(rotor, load) == pytest.approx(list(share), rel=1e-9)


@pytest.mark.parametrize("cyclic", [1e-4, 0.05, 0.15])
@pytest.mark.parametrize("mean", [0.0, 0.14])
@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_inertia_and_flattening_nearly_cancel(head_id: str, mean: float, cyclic: float) -> None:
    """First harmonic of both, exactly: Ω²(−(I_c + I_t) θ₁ + (I_c − I_t) cos 2θ₀ J₁(2θ₁)), since
    sin(2θ₀ + 2θ₁ cos ψ) has the first harmonic 2 cos 2θ₀ J₁(2θ₁) (Jacobi and Anger); −2 I_t Ω² θ₁ when all is small.
    A tenth of either at most is left over on these heads, as the page about it says."""
    rotor = rotor_of(head_id)
    blade = blade_of(rotor)
    ic, it, square = blade.inertia_chord, blade.inertia_thickness, rotor.speed**2
    parts = moments_round(rotor, blade, mean, 0.0, cyclic, 0.0)
    both = amplitudes([p.inertia + p.propeller for p in parts], 1)[1]
    left = square * (-(ic + it) * cyclic + (ic - it) * math.cos(2.0 * mean) * float(jv(1, 2.0 * cyclic)))
    assert both == pytest.approx(abs(left), rel=1e-9)
    assert left < 0.0
    assert both < 0.10 * (ic + it) * square * cyclic
    if mean == 0.0 and cyclic == 1e-4:
        assert both == pytest.approx(2.0 * it * square * cyclic, rel=1e-6)


@pytest.mark.parametrize("forward", [0.0, 30.0, 75.0])
@pytest.mark.parametrize("azimuth", [0.0, 1.0, math.pi / 2.0, 4.0, 1.5 * math.pi])
def test_moment_of_the_sections(azimuth: float, forward: float) -> None:
    """½ρ c² C_m ∫ (Ωr + V sin ψ)² dr by adaptive quadrature."""
    rotor = rotor_of("dogwood5")

    def strip(r: float) -> float:
        return 0.5 * 1.1 * rotor.chord**2 * -0.013 * (rotor.speed * r + forward * math.sin(azimuth)) ** 2

    whole = quad(strip, rotor.root_cut * rotor.radius, rotor.radius, epsabs=0.0, epsrel=1e-12)[0]
    assert section_moment(rotor, -0.013, azimuth, forward, 1.1) == pytest.approx(whole, rel=1e-11)


@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_link_load_by_virtual_work(head_id: str) -> None:
    """Vertical pull at the foot = moment × change of pitch for a rise of a level plate (exact linkage, central step).

    M/(a cos η) is exact with the horn level, whatever the lean. Elsewhere it leaves out the part tan η · (lean ahead),
    which is found here to the last figure: under a thousandth on these heads.
    """
    rotor, step = rotor_of(head_id), 1e-5
    for key in ("collective_low_deg", "pitch_at_plate_zero_deg", "collective_high_deg"):
        pitch = math.radians(rotor.head[key])
        height = height_for_pitch(rotor, pitch)
        a, b = (pitch_now(rotor, Pose(height + d, 0.0, 0.0), 0.0) for d in (-step, step))
        eta = pitch - rotor.pitch_level
        ahead = rotor.arm * math.cos(eta) - rotor.link_foot_ahead
        up = rotor.arm * math.sin(eta) + rotor.link_rise - height
        left_out = math.tan(eta) * ahead / up
        assert link_load(rotor, 50.0, pitch) == pytest.approx(50.0 * (b - a) / (2 * step) * (1 - left_out), rel=1e-7)
        assert abs(left_out) < 1e-3


def test_lift_spring_and_friction() -> None:
    """Elementary: lift ahead of the axis holds the nose up by itself (weight/blades × distance, so less to supply); a
    spring asks for k × the angle from where it is relaxed; friction asks for its moment in the sense of the movement.

    Pitch 0.1 − 0.05 sin ψ falls while the blade passes the tail, rises over the nose, and rests at ψ = 90°.
    """
    rotor = rotor_of("alder3")
    blade = blade_of(rotor, air_ahead=0.01, spring=200.0, friction=7.0, moment_coefficient=0.0)
    tail, side, nose = (parts_at(rotor, blade, a, 0.1, 0.0, -0.05, 60.0) for a in (0.0, math.pi / 2.0, math.pi))
    assert tail.air == pytest.approx(-2050.0 * 9.80665 / 3.0 * 0.01, rel=1e-12)
    relaxed = math.radians(rotor.head["pitch_at_plate_zero_deg"])
    assert side.spring == pytest.approx(200.0 * (0.05 - relaxed), rel=1e-12)
    assert (tail.friction, side.friction, nose.friction) == (-7.0, 0.0, 7.0)


def test_help_on_leaves_friction_only() -> None:
    """Birch 2 has no actuators; with help a hand feels friction alone (the head's; twice that at the lever)."""
    assert actuator_of(rotor_of("birch2")) == 0.0
    hands = boosted(rotor_of("alder3"))
    assert (hands.lever, hands.stick, hands.lever_felt, hands.stick_felt) == (0.0, 0.0, 12.0, 6.0)


small = st.floats(-0.25, 0.25)
heads = st.sampled_from(DEMONSTRATION)
scales = st.floats(0.2, 4.0)


def parts_tuple(p: Parts) -> tuple[float, ...]:
    """Parts in order."""
    return (p.inertia, p.propeller, p.air, p.offset, p.spring, p.friction)


@given(heads, small, small, small, st.floats(0.0, 80.0))
@settings(max_examples=30, deadline=None)
def test_mirrored_head_has_the_same_loads(head_id: str, mean: float, cosine: float, sine: float, speed: float) -> None:
    """Rod by rod: the mirror changes places, not forces. A horn on the other side turns every sign."""
    series = []
    one = rotor_of(head_id)
    for rotor in (one, rotor_of(head_id, turned=True), replace(one, arm=-one.arm)):
        moments = [p.total for p in moments_round(rotor, rich(one), mean, cosine, sine, speed)]
        series.append(np.array(rods_round(rotor, link_loads(rotor, moments, mean, cosine, sine))))
    size = float(np.abs(series[0]).max())
    assert np.abs(series[1] - series[0]).max() <= 1e-9 * size
    assert np.abs(series[2] + series[0]).max() <= 1e-9 * size


@given(heads, st.floats(0.0, math.tau), small, small, small, st.floats(0.0, 80.0), scales)
@settings(max_examples=60, deadline=None)
def test_scaling(
    head_id: str, azimuth: float, mean: float, cosine: float, sine: float, forward: float, s: float
) -> None:
    """Inertia and flattening in proportion to the second moments; all but spring, friction and lift to Ω² (speed along
    with it, so that the advance ratio stays); flattening and inertia turn their sign with the pitch."""
    rotor = rotor_of(head_id)
    blade = replace(rich(rotor), air_ahead=0.0)
    plain = parts_at(rotor, blade, azimuth, mean, cosine, sine, forward)
    heavy = replace(
        blade,
        inertia_chord=s * blade.inertia_chord,
        inertia_thickness=s * blade.inertia_thickness,
        weights=s * blade.weights,
    )
    faster = replace(rotor, speed=s * rotor.speed)
    found = parts_tuple(parts_at(rotor, heavy, azimuth, mean, cosine, sine, forward))
    quick = parts_tuple(parts_at(faster, blade, azimuth, mean, cosine, sine, s * forward))
    down = parts_tuple(parts_at(rotor, blade, azimuth, -mean, -cosine, -sine, forward))
    own = parts_tuple(plain)
    assert found[:2] == pytest.approx([s * x for x in own[:2]], rel=1e-12)
    assert found[2:] == own[2:]
    assert quick[:4] == pytest.approx([s * s * x for x in own[:4]], rel=1e-12)
    assert quick[4] == own[4]
    assert down[:2] == pytest.approx([-x for x in own[:2]], rel=1e-12)
    assert plain.total == pytest.approx(sum(own), rel=1e-12, abs=1e-9)


@given(st.integers(2, 8))
def test_steps_put_every_blade_on_a_step(blades: int) -> None:
    """At least 72 a turn; any other number is refused."""
    assert steps_for(blades) % blades == 0
    assert steps_for(blades) >= 72
    with pytest.raises(ValueError, match="no multiple"):
        plate_load(rotor_of("alder3"), [1.0] * (blades * 9 + 1), 0, blades)
