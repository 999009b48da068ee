"""Hover of measured model rotors: how far the model is off. It is not tuned to either.

- M. Knight, R.A. Hefner, Static Thrust Analysis of the Lifting Airscrew, NACA TN 626 (1937), tables I to IV: two separate
  transcriptions read, not the scan; abstract read. Untwisted 2 in. blades, R 2.5 ft, NACA 0015, aerofoil from 5 in.;
  a = 5.75 per rad, c_d = 0.0113 + k α², k quoted as 0.75 by two users and 1.25 by others (moves power only).
- F.X. Caradonna, C. Tung, NASA TM-81232 (1981): geometry and 8° point read second-hand, the others from memory.
"""

import math
from dataclasses import replace
from pathlib import Path

import pytest
from rotorhead.flight.power import Polar, figure_of_merit, hovering, untwisted
from rotorhead.head import demonstration
from rotorhead.rotor import Rotor, of_head

BASE = of_head(demonstration("birch2"))
DRAG: Polar = (0.0113, 0.0, 0.75)

# Report values: thrust and torque over ½ρ V_tip² A (twice today's coefficients). Pitch in degrees -> C_T, C_Q.
TABLES: dict[int, dict[int, tuple[float, float]]] = {
    2: {6: (0.00442, 0.000316), 8: (0.00650, 0.000494), 10: (0.00847, 0.000691), 12: (0.00990, 0.000878)},
    3: {6: (0.00548, 0.000474), 8: (0.00833, 0.000735), 10: (0.01125, 0.001048), 12: (0.01370, 0.001357)},
}
LOW_PITCH = {2: {2: 0.000873, 4: 0.00248}, 3: {2: 0.00102, 4: 0.00298}}


def model(blades: int) -> Rotor:
    """The report's rotor."""
    return replace(
        BASE,
        blades=blades,
        radius=0.762,
        chord=0.0508,
        twist=0.0,
        root_cut=5.0 / 30.0,
        lift_slope=5.75,
        hinge_offset=0.0,
    )


@pytest.mark.parametrize(("blades", "solidity"), [(2, 0.04244), (3, 0.06366), (4, 0.08488), (5, 0.10610)])
def test_solidity(blades: int, solidity: float) -> None:
    """C9: σ = N c/(πR), as the report prints it."""
    assert model(blades).solidity == pytest.approx(solidity, abs=5e-6)


@pytest.mark.parametrize("blades", [2, 3])
def test_thrust_of_the_model_rotors(blades: int) -> None:
    """C9: from 6° on C_T within 8 % (found: mean 2.9 and 2.3 %, greatest 4.7 %), C_P within 12 % (mean 3 to 7 %)."""
    thrust, power = [], []
    for degrees, (ct, cq) in TABLES[blades].items():
        found = hovering(model(blades), math.radians(degrees), DRAG)
        thrust.append(abs(found.ct / (ct / 2.0) - 1.0))
        power.append(abs(found.cp / (cq / 2.0) - 1.0))
    assert max(thrust) < 0.08
    assert max(power) < 0.12
    assert sum(thrust) / 4.0 == pytest.approx({2: 0.029, 3: 0.023}[blades], abs=1e-3)
    assert 0.03 < sum(power) / 4.0 < 0.07


@pytest.mark.parametrize("blades", [2, 3])
def test_without_tip_loss_and_root_cut(blades: int) -> None:
    """C9: the plain closed form stays within 12 % (mean 4.0 and 6.5 %, greatest 9.7 and 8.8 %)."""
    errors = [
        abs(untwisted(math.radians(degrees), model(blades).solidity, 5.75).ct / (ct / 2.0) - 1.0)
        for degrees, (ct, _) in TABLES[blades].items()
    ]
    assert max(errors) < 0.12
    assert max(errors) == pytest.approx({2: 0.097, 3: 0.088}[blades], abs=1e-3)
    assert sum(errors) / 4.0 == pytest.approx({2: 0.040, 3: 0.065}[blades], abs=1e-3)


@pytest.mark.parametrize("blades", [2, 3])
def test_low_pitch_is_a_known_miss(blades: int) -> None:
    """C9: below 6° C_T is small and errors reach 20 %; the model is on the high side."""
    for degrees, ct in LOW_PITCH[blades].items():
        assert 0.0 < hovering(model(blades), math.radians(degrees), DRAG).ct / (ct / 2.0) - 1.0 < 0.20


@pytest.mark.parametrize(
    ("degrees", "blades", "printed"), [(8, 2, 0.530), (8, 3, 0.517), (12, 2, 0.561), (12, 3, 0.591)]
)
def test_measured_figure_of_merit(degrees: int, blades: int, printed: float) -> None:
    """C9: what the report's columns come to. The *model* lies 0.014 to 0.051 above them with k = 0.75 (0.02 is met at
    8° with two blades only): power comes out a little low. With k = 1.25 it lies 0.022 below to 0.019 above. Which k
    the report used is unresolved, so no band is asserted for the model beyond what its thrust and power already owe:
    8 % and 12 %."""
    ct, cq = TABLES[blades][degrees]
    measured = figure_of_merit(ct / 2.0, cq / 2.0)
    assert measured == pytest.approx(printed, abs=6e-4)
    found = hovering(model(blades), math.radians(degrees), DRAG).figure_of_merit
    assert 0.92**1.5 / 1.12 < found / measured < 1.08**1.5 / 0.88


@pytest.mark.parametrize(
    ("degrees", "measured", "printed"), [(5, 0.00213, 0.00289), (8, 0.0046, 0.00561), (12, 0.00796, 0.00967)]
)
def test_a_known_miss(degrees: int, measured: float, printed: float) -> None:
    """C10: this rotor's thrust is over-predicted by 36, 22 and 21 %: a limit of the model, never tuned away."""
    rotor = replace(
        BASE, blades=2, radius=1.143, chord=0.1905, twist=0.0, root_cut=1.0 / 6.0, lift_slope=5.73, hinge_offset=0.0
    )
    assert rotor.solidity == pytest.approx(0.106103, abs=5e-7)
    found = hovering(rotor, math.radians(degrees)).ct
    assert found == pytest.approx(printed, abs=5e-6)
    assert 1.10 < found / measured < 1.40


def test_the_page_shows_both_and_the_miss(root: Path) -> None:
    """What stands on the page is what is computed here."""
    page = (root / "docs/flight/lift-and-collective.md").read_text(encoding="utf-8")
    broad = replace(
        BASE, blades=2, radius=1.143, chord=0.1905, twist=0.0, root_cut=1.0 / 6.0, lift_slope=5.73, hinge_offset=0.0
    )
    rows = [(model(n), d, TABLES[n][d][0] / 2.0) for n in (2, 3) for d in (8, 12)]
    rows += [(broad, d, measured) for d, measured in ((5, 0.00213), (8, 0.0046), (12, 0.00796))]
    for rotor, degrees, measured in rows:
        found = hovering(rotor, math.radians(degrees)).ct
        off = f"{100.0 * (found / measured - 1.0):+.0f}%".replace("-", "\N{MINUS SIGN}")
        shown = f"{measured:.5f}" if measured != 0.0046 else "0.0046"
        assert f"| {degrees}° | {shown} | {found:.5f} | {off} |" in page
