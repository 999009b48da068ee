"""A free spinning disc: how it precesses and nutates, by formula and by an independent rigid-body engine.

Source: steady precession of a fast top, any mechanics text (from memory); figures re-derived.
"""

import math

import mujoco
import numpy as np
import pytest
from rotorhead.blade.flap import flap_frequency_squared, lag_angle
from rotorhead.head import demonstration
from rotorhead.head_changes import changed
from rotorhead.rotor import of_head
from rotorhead.topics import gyro

MASS, RADIUS, SPEED, PUSH = 200.0, 5.0, 40.0, 1000.0
INPUTS = {"push": PUSH, "time": 1.0, "disc_mass": MASS, "disc_radius": RADIUS, "disc_rpm": SPEED}  # SI
NUTATION_PERIOD = 2.0 * math.pi / 80.0


def answers() -> dict[str, float]:
    """The calculator's numbers for this disc."""
    found = gyro.compute(INPUTS, of_head(demonstration("birch2"))).results
    return {k: float(v) for k, v in found.items()}


def test_rate_of_precession() -> None:
    """J1 (re-derived): I = m R²/2 = 2500 kg·m², M/(IΩ) = 0.0100000 rad/s = 0.572958 °/s."""
    found = answers()
    assert found["disc_inertia"] == pytest.approx(2500.0, abs=1e-9)
    assert found["rate"] == pytest.approx(0.01, abs=1e-9)
    assert math.degrees(found["rate"]) == pytest.approx(0.572958, abs=5e-7)


def test_direction_and_nutation() -> None:
    """J2, J3 (re-derived): 90° on from the push; (I_p/I_d)Ω = 2Ω = 80 rad/s."""
    found = answers()
    assert math.degrees(found["direction"]) == pytest.approx(90.0, abs=1e-12)
    assert found["nutation"] == pytest.approx(80.0, abs=1e-12)


def free_disc(torque: float, kick: float, seconds: float) -> tuple[np.ndarray, np.ndarray]:
    """Times, and the disc's axis in the world: spin +z at 40 rad/s, steady torque about +x (N·m),
    `kick` rad/s about x at the start. mujoco, free joint, no gravity."""
    model = mujoco.MjModel.from_xml_string(
        """<mujoco><option timestep="2e-4" gravity="0 0 0" integrator="RK4"/><worldbody><body><freejoint/>
        <inertial pos="0 0 0" mass="200" diaginertia="1250 1250 2500"/></body></worldbody></mujoco>"""
    )
    data = mujoco.MjData(model)
    data.qvel[3], data.qvel[5] = kick, SPEED
    data.xfrc_applied[1, 3] = torque
    steps = round(seconds / 2e-4)
    axis = np.empty((steps, 3))
    for i in range(steps):
        mujoco.mj_step(model, data)
        axis[i] = data.xmat[1].reshape(3, 3)[:, 2]
    return (np.arange(steps) + 1) * 2e-4, axis


def test_engine_precesses_at_the_rate_and_to_the_side_the_formula_says() -> None:
    """J1, J2 with mujoco: push up on the left edge (moment about +x), spin anticlockwise: the axis moves
    toward +x, so the −x edge rises, 90° on in the direction of spin. Averaged over whole nutations."""
    time, axis = free_disc(PUSH, 0.0, 13.0 * NUTATION_PERIOD)
    first, last = time < NUTATION_PERIOD, time >= 12.0 * NUTATION_PERIOD
    drift = (axis[last].mean(axis=0) - axis[first].mean(axis=0)) / (time[last].mean() - time[first].mean())
    rate = answers()["rate"]
    assert drift[0] == pytest.approx(rate, rel=2e-3)
    assert abs(drift[1]) < 2e-3 * rate


def test_engine_never_settles() -> None:
    """J4, J5: the free disc has no damping and no steady tilt: twice the time, twice the tilt."""
    time, axis = free_disc(PUSH, 0.0, 13.0 * NUTATION_PERIOD)
    half = axis[(time >= 6.0 * NUTATION_PERIOD) & (time < 7.0 * NUTATION_PERIOD)].mean(axis=0)
    whole = axis[time >= 12.0 * NUTATION_PERIOD].mean(axis=0)
    assert whole[0] / half[0] == pytest.approx(12.5 / 6.5, rel=2e-3)


def test_engine_nutates_at_twice_its_speed() -> None:
    """J3 with mujoco: a kick makes the axis circle; its angular speed round the circle's centre."""
    time, axis = free_disc(0.0, 0.05, 6.0 * NUTATION_PERIOD)
    centre = (axis[:, :2].max(axis=0) + axis[:, :2].min(axis=0)) / 2.0
    turned = np.unwrap(np.arctan2(axis[:, 1] - centre[1], axis[:, 0] - centre[0]))
    speed = (turned[-1] - turned[0]) / (time[-1] - time[0])
    assert speed == pytest.approx(answers()["nutation"], rel=2e-3)


@pytest.mark.parametrize(
    ("e", "nu2", "delta3", "lag"), [(0.05, None, 0, 84.8248), (0, 1.12**2, 0, 75.7267), (0, 1.0, 30, 60.0)]
)
def test_only_the_blade_moves_off_ninety(e: float, nu2: float | None, delta3: float, lag: float) -> None:
    """J5 (re-derived): offset, spring and δ3 move the flapping phase while precession stays at 90°."""
    stiffness = flap_frequency_squared(e) if nu2 is None else nu2
    found = math.degrees(lag_angle(8.0, e, stiffness, math.tan(math.radians(delta3))))
    assert found == pytest.approx(lag, abs=1e-4)
    assert math.degrees(answers()["direction"]) == 90.0


def test_rate_goes_with_the_push_and_tilt_of_the_blade_does_not() -> None:
    """J5 (re-derived): rate ∝ M/(IΩ) without an equilibrium; the blade's answer is a steady tilt."""
    rotor = of_head(changed(demonstration("alder3"), {"rpm": "355"}))
    one, two = (gyro.compute(INPUTS | {"push": p, "time": t}, rotor).results for p, t in ((500.0, 1.0), (1000.0, 2.0)))
    assert float(two["rate"]) == pytest.approx(2.0 * float(one["rate"]), rel=1e-12)
    assert float(two["after"]) == pytest.approx(4.0 * float(one["after"]), rel=1e-12)
    assert one["flap_tilt"] == two["flap_tilt"]
