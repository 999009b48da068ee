"""The propeller ("tennis-racket") moment of a blade, against closed forms, a sum over the blade and a rigid-body engine.

The plank of G1: 50 kg, chord 0.5 m, 0.06 m thick, spread evenly, 40 rad/s, pitch 10°, no air.
Formula: (I_c − I_t) Ω² sin θ cos θ (Johnson; Bramwell; from memory). Figures re-derived.
"""

import math
import re
from dataclasses import replace
from pathlib import Path

import mujoco
import numpy as np
import pytest
from rotorhead.head import demonstration
from rotorhead.head_changes import changed
from rotorhead.loads.feather import Blade, blade_of, parts_at, propeller
from rotorhead.loads.rods import amplitudes, link_load
from rotorhead.rotor import Rotor, of_head
from scipy.special import ellipk

MASS, CHORD, THICK, SPEED, PITCH, HORN = 50.0, 0.5, 0.06, 40.0, math.radians(10.0), 0.150
ALONG, ACROSS = MASS * CHORD**2 / 12.0, MASS * THICK**2 / 12.0
QUARTER = 0.25 * CHORD


def plank_rotor() -> Rotor:
    """The plank on Birch 2's hub, its horn level at 10°; radii of gyration are chord and thickness over √12."""
    head = changed(demonstration("birch2"), {
        "blade_mass_kg": str(MASS), "chordwise_radius_of_gyration_m": f"{CHORD / math.sqrt(12.0):.9f}",
        "thickness_radius_of_gyration_m": f"{THICK / math.sqrt(12.0):.9f}", "pitching_moment_coefficient": "0",
    })  # fmt: skip
    return replace(of_head(head), speed=SPEED, arm=HORN, pitch_level=PITCH)


def plank(**changes: float) -> Blade:
    """The plank alone in no air, second moments from chord and thickness."""
    still = Blade(ALONG, ACROSS, MASS, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    return replace(still, **changes)


def body(behind: float = 0.0, weights: float = 0.0, cone: float = 0.0, thick: float = THICK,
         hinge: float = 2.5, span: float = 1.0) -> tuple[mujoco.MjModel, mujoco.MjData]:  # fmt: skip
    """A shaft turning about z and a box free to feather about its span axis x; nose is +y. No gravity.

    The engine finds the box's inertia from its size and mass. `weights`: two balls of that mass at 0.12 m
    square to the chord. `cone` (rad) tilts the span axis up at `hinge` m from the shaft.
    """
    balls = "".join(
        f'<geom type="sphere" size="0.01" mass="{weights}" pos="0 0 {side * 0.12}"/>' for side in (1, -1) if weights
    )
    model = mujoco.MjModel.from_xml_string(
        f"""<mujoco><compiler angle="radian" boundmass="0"/><option gravity="0 0 0" integrator="RK4" timestep="1e-4">
        <flag contact="disable"/></option><worldbody><body><joint type="hinge" axis="0 0 1" armature="1e9"/>
        <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
        <body pos="{hinge} 0 0" euler="0 {-cone} 0"><joint type="hinge" axis="1 0 0"/>
        <geom type="box" size="{span / 2} {CHORD / 2} {thick / 2}" mass="{MASS}" pos="{span / 2} {-behind} 0"/>{balls}
        </body></body></worldbody></mujoco>"""
    )
    data = mujoco.MjData(model)
    data.qvel[0] = SPEED
    return model, data


def holding_torque(pitch: float, **shape: float) -> float:
    """Torque about the span axis (N·m, nose-up) that keeps the blade at a pitch while the shaft turns evenly."""
    model, data = body(**shape)
    data.qpos[1] = pitch
    data.qacc[:] = 0.0
    mujoco.mj_inverse(model, data)
    return float(data.qfrc_inverse[1])


def summed_pull(pitch: float, thick: float, behind: float = 0.0) -> float:
    """Moment (N·m, nose-up) of the outward pull on every bit of the plank about its span axis, by sum.

    3-point Gauss rule over chord and thickness: exact for the products of coordinates met here. The pull on a
    bit is dm Ω² straight away from the shaft, at any distance along the span (2.7 m here).
    """
    nodes, weights = np.polynomial.legendre.leggauss(3)
    total = 0.0
    for along, w1 in zip(nodes * CHORD / 2.0 - behind, weights, strict=True):
        for across, w2 in zip(nodes * thick / 2.0, weights, strict=True):
            bit = np.array([2.7, along * math.cos(pitch) - across * math.sin(pitch),
                            along * math.sin(pitch) + across * math.cos(pitch)])  # fmt: skip
            pull = MASS * w1 * w2 / 4.0 * SPEED**2 * np.array([bit[0], bit[1], 0.0])
            total += float(np.cross(bit, pull)[0])
    return total


def test_plank() -> None:
    """G1 (re-derived): I_c 1.0416667, I_t 0.015; 280.91254 N·m; thin 285.01679; 1872.750 N at 0.15 m."""
    rotor = plank_rotor()
    blade = blade_of(rotor)
    assert blade.inertia_chord == pytest.approx(1.0416667, abs=5e-8)
    assert blade.inertia_thickness == pytest.approx(0.015, abs=1e-9)
    parts = parts_at(rotor, blade, 0.0, PITCH, 0.0, 0.0, 0.0)
    assert parts.propeller == pytest.approx(280.91254, abs=5e-6)
    assert parts.total == pytest.approx(parts.propeller, abs=1e-12)
    assert propeller(ALONG, SPEED, PITCH) == pytest.approx(285.01679, abs=5e-6)
    assert link_load(rotor, parts.total, PITCH) == pytest.approx(1872.750, abs=5e-4)


@pytest.mark.parametrize("degrees", [-12.0, 3.0, 10.0, 45.0, 70.0])
def test_plank_against_a_rigid_body_engine_and_a_sum(degrees: float) -> None:
    """G1: the engine's holding torque (printed: +280.912544 N·m at 10°), and minus the pull's own moment.

    Positive: a blade at a positive pitch has to be held up, so left alone it goes flat.
    """
    pitch = math.radians(degrees)
    ours = propeller(ALONG - ACROSS, SPEED, pitch)
    assert ours == pytest.approx(holding_torque(pitch), rel=1e-9)
    assert ours == pytest.approx(-summed_pull(pitch, THICK), rel=1e-9)
    assert propeller(ALONG, SPEED, pitch) == pytest.approx(-summed_pull(pitch, 0.0), rel=1e-9)
    if degrees == 10.0:
        assert holding_torque(pitch) == pytest.approx(280.912544, abs=5e-7)


def test_it_does_not_matter_how_far_out_the_blade_is() -> None:
    """G1: the formula holds no radius; nor does the engine's answer."""
    near, far = (holding_torque(PITCH, hinge=h, span=s) for h, s in ((0.1, 0.5), (6.0, 4.0)))
    assert near == pytest.approx(far, rel=1e-9)


def test_axis_at_the_quarter_chord() -> None:
    """G2 (re-derived): mass centre 0.25 c behind the axis, I_c + m (0.25 c)²: 498.7794 N·m, thin.

    The package's radius of gyration is about the blade's own mass centre, as G1's is.
    """
    rotor = plank_rotor()
    blade = replace(blade_of(rotor, mass_behind=QUARTER), coning=0.0)
    assert blade.inertia_chord == pytest.approx(ALONG + MASS * QUARTER**2, rel=1e-8)
    thin = replace(blade, inertia_thickness=0.0)
    assert parts_at(rotor, thin, 0.0, PITCH, 0.0, 0.0, 0.0).total == pytest.approx(498.7794, abs=5e-5)
    assert -summed_pull(PITCH, 0.0, QUARTER) == pytest.approx(498.7794, abs=5e-5)
    whole = parts_at(rotor, blade, 0.0, PITCH, 0.0, 0.0, 0.0).total
    assert whole == pytest.approx(holding_torque(PITCH, behind=QUARTER), rel=1e-7)


def test_mass_behind_the_axis_of_a_coned_blade() -> None:
    """x β₀ Ω² ∫ r dm turns the nose up: the engine, blade flat, coned 0.001 rad from its hinge to the tip.

    sin and cos of that angle are worth 5e-7 of it; the engine holds the nose down, so its torque is negative.
    """
    rotor = plank_rotor()
    rotor = replace(rotor, hinge_offset=0.04)
    blade = plank(mass_behind=0.02, coning=1e-3)
    span = rotor.radius - rotor.hinge
    held = holding_torque(0.0, behind=0.02, cone=1e-3, hinge=rotor.hinge, span=span)
    assert held < 0.0
    assert parts_at(rotor, blade, 0.0, 0.0, 0.0, 0.0, 0.0).offset == pytest.approx(held, rel=1e-6)


def test_greatest_at_45_degrees() -> None:
    """G3 (re-derived): I_c Ω²/2 = 833.3333 N·m; nothing flat and nothing upright."""
    assert propeller(ALONG, SPEED, math.radians(45.0)) == pytest.approx(833.3333, abs=5e-5)
    curve = [propeller(ALONG, SPEED, math.radians(d / 10.0)) for d in range(901)]
    assert max(range(901), key=curve.__getitem__) == 450
    assert curve[0] == 0.0
    assert curve[900] == pytest.approx(0.0, abs=1e-9)


def own_rhythm(thick: float, start: float) -> float:
    """How often a box let go at a small pitch feathers in a turn of the shaft: zero crossings of the engine's run."""
    model, data = body(thick=thick)
    data.qpos[1] = start
    steps = 10_000
    pitch = np.empty(steps)
    for i in range(steps):
        pitch[i] = data.qpos[1]
        mujoco.mj_step(model, data)
    before = np.nonzero((pitch[:-1] > 0.0) & (pitch[1:] <= 0.0))[0]
    crossings = (before + pitch[before] / (pitch[before] - pitch[before + 1])) * model.opt.timestep
    period = float(crossings[-1] - crossings[0]) / (len(crossings) - 1)
    return 2.0 * math.pi / period / SPEED


def small_swing(blade: Blade) -> float:
    """The same from the package's two parts: feathering once a turn, √(stiffness/inertia) over rotor speed."""
    rotor, tiny = plank_rotor(), 1e-5
    parts = [parts_at(rotor, blade, i * math.tau / 72, 0.0, tiny, 0.0, 0.0) for i in range(72)]
    stiff = amplitudes([p.propeller for p in parts], 1)[1]
    return math.sqrt(stiff / amplitudes([p.inertia for p in parts], 1)[1])


def test_an_unsprung_blade_feathers_nearly_once_a_turn() -> None:
    """G4 (re-derived): Ω√((I_c − I_t)/(I_c + I_t)) = 0.985702 Ω; thin, exactly 1.

    Let go at θ₀ the swing is a pendulum's in 2θ, slower by π/(2 K(sin² θ₀)) (elliptic integral): 1.9e-5 at
    0.5°. With that the engine and the package agree to 1e-6, its step.
    """
    assert small_swing(plank()) == pytest.approx(0.985702, abs=5e-7)
    assert small_swing(plank(inertia_thickness=0.0)) == pytest.approx(1.0, abs=1e-9)
    start = math.radians(0.5)
    slower = math.pi / (2.0 * float(ellipk(math.sin(start) ** 2)))
    assert own_rhythm(THICK, start) == pytest.approx(small_swing(plank()) * slower, abs=1e-6)
    thin = plank(inertia_thickness=MASS * 1e-3**2 / 12.0)
    assert own_rhythm(1e-3, start) == pytest.approx(small_swing(thin) * slower, abs=1e-6)


def test_balance_weights() -> None:
    """G5 (re-derived): two of 0.5 kg at 0.12 m square to the chord take 3.940072 N·m off at 10° and 40 rad/s."""
    rotor = plank_rotor()
    bare, weighted = plank(), plank(weights=2.0 * 0.5 * 0.12**2)
    parts = [parts_at(rotor, b, 0.0, PITCH, 0.0, 0.0, 0.0).total for b in (bare, weighted)]
    assert parts[0] - parts[1] == pytest.approx(3.940072, abs=5e-7)
    assert holding_torque(PITCH) - holding_torque(PITCH, weights=0.5) == pytest.approx(3.940072, abs=5e-7)
    assert parts_at(rotor, weighted, 0.0, 0.0, 0.01, 0.0, 0.0).inertia == pytest.approx(
        -(ALONG + ACROSS + 0.0144) * SPEED**2 * 0.01, rel=1e-12
    )


@pytest.mark.parametrize(
    ("printed", "value"),
    [("281 N·m", 280.91254), ("(207 lbf·ft)", 280.91254 / 1.3558179), ("1.042 kg·m²", ALONG),
     ("0.015 kg·m²", ACROSS), ("0.986 a turn", 0.985702), ("3.9 N·m", 3.940072), ("(2.9 lbf·ft)", 3.940072 / 1.3558179)],
)  # fmt: skip
def test_the_page_prints_these(root: Path, printed: str, value: float) -> None:
    """G1, G4, G5 on the page, to its digits; 1 lbf·ft = 1.3558179 N·m (NIST SP 811, from memory)."""
    page = (root / "docs/hands/flattening.md").read_text(encoding="utf-8")
    assert re.sub(r"<[^>]+>", "", page).count(printed) == 1
    number = re.search(r"[\d.]+", printed)
    assert number
    places = len(number.group().partition(".")[2])
    assert f"{value:.{places}f}" == number.group()
