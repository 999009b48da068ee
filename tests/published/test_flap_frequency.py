"""Flap frequency against hinge offset, by the printed table and by an independent rigid-body engine."""

import math

import mujoco
import numpy as np
import pytest
from rotorhead.blade.flap import flap_frequency_squared

# B12 (re-derived): uniform blade, no spring.
OFFSETS = (0.0, 0.01, 0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.10)
FREQUENCIES = (1.0, 1.00755, 1.01519, 1.02293, 1.03078, 1.03872, 1.04678, 1.06322, 1.08012)

# B13: bands of ν by kind of head (Johnson, ch. 5; Leishman, ch. 4; from memory), and the offset of a
# uniform blade that has that ν: e = (ν² − 1)/(ν² + 0.5) (re-derived).
EQUIVALENT = [
    (1.02, 0.02623), (1.03, 0.03902), (1.04, 0.05159), (1.08, 0.09986), (1.10, 0.12281), (1.12, 0.14501),
    (1.15, 0.17695),
]  # fmt: skip


@pytest.mark.parametrize(("e", "nu"), list(zip(OFFSETS, FREQUENCIES, strict=True)))
def test_frequency_of_a_uniform_blade(e: float, nu: float) -> None:
    """B12, printed to 1e-5."""
    assert math.sqrt(flap_frequency_squared(e)) == pytest.approx(nu, abs=5e-6)


@pytest.mark.parametrize(("e", "wrong"), [(0.04, 1.02956), (0.10, 1.07238)])
def test_the_small_offset_form_is_not_used(e: float, wrong: float) -> None:
    """B12: √(1 + 3e/2) is the small-e form; the exact one differs visibly."""
    assert math.sqrt(1.0 + 1.5 * e) == pytest.approx(wrong, abs=5e-6)
    assert math.sqrt(flap_frequency_squared(e)) - wrong > 1e-3


@pytest.mark.parametrize(("nu", "e"), EQUIVALENT)
def test_equivalent_offset(nu: float, e: float) -> None:
    """B13: both ways, printed to 1e-5 of e (worth 1.2e-5 of ν at most)."""
    assert (nu**2 - 1.0) / (nu**2 + 0.5) == pytest.approx(e, abs=5e-6)
    assert math.sqrt(flap_frequency_squared(e)) == pytest.approx(nu, abs=1e-5)


def rod_on_a_shaft(e: float) -> float:
    """Flap frequency over shaft speed of a thin rod of length R(1 − e) hinged at eR, released at 0.5°.

    mujoco, no gravity, no air: R = 5 m, 30 rad/s kept by a shaft a million times heavier.
    """
    length, mass, speed = 5.0 * (1.0 - e), 10.0, 30.0
    across = mass * length**2 / 12.0
    model = mujoco.MjModel.from_xml_string(
        f"""<mujoco><option timestep="2e-4" gravity="0 0 0" integrator="RK4"/><worldbody><body>
        <joint type="hinge" axis="0 0 1" armature="1e9"/>
        <inertial pos="0 0 0" mass="1" diaginertia="1 1 1"/>
        <body pos="{5.0 * e} 0 0"><joint type="hinge" axis="0 -1 0"/>
        <inertial pos="{length / 2.0} 0 0" mass="{mass}" diaginertia="1e-6 {across} {across}"/>
        </body></body></worldbody></mujoco>"""
    )
    data = mujoco.MjData(model)
    data.qvel[0], data.qpos[1] = speed, math.radians(0.5)
    steps = 6500
    flap = np.empty(steps)
    for i in range(steps):
        flap[i] = data.qpos[1]
        mujoco.mj_step(model, data)
    before = np.nonzero((flap[:-1] > 0.0) & (flap[1:] <= 0.0))[0]
    crossings = (before + flap[before] / (flap[before] - flap[before + 1])) * model.opt.timestep
    period = (crossings[-1] - crossings[0]) / (len(crossings) - 1)
    return float(2.0 * math.pi / period / speed)


@pytest.mark.parametrize("e", [0.0, 0.04, 0.10])
def test_frequency_against_a_rigid_body_engine(e: float) -> None:
    """B12: mujoco, which knows nothing of the formula. 0.5° of swing costs 2e-5 of the frequency."""
    assert math.sqrt(flap_frequency_squared(e)) == pytest.approx(rod_on_a_shaft(e), abs=5e-5)
