"""From the rods to the disc by integrating the equation of motion: no lag, lead or δ3 formula anywhere.

Rod heights -> pose of the plate -> links closed exactly at every instant, with the blade where it is
-> pitch -> flapping equation, integrated by scipy.integrate.solve_ivp until it repeats itself. The
equation's coefficients are strip integrals found by scipy.integrate.quad. The low point of the disc
so found is compared with the budget's sum of angles.
"""

import math

import numpy as np
import pytest
from rotorhead.blade.phase import budget_of
from rotorhead.conventions import bearing_of
from rotorhead.head import DEMONSTRATION, Head, demonstration
from rotorhead.head_changes import changed, mirrored
from rotorhead.mechanism.hands import rig_of
from rotorhead.mechanism.links import pitch_now
from rotorhead.mechanism.plate import pose_from_rods
from rotorhead.rotor import Rotor, of_head
from scipy.integrate import quad, solve_ivp

TURN = 2.0 * math.pi
TURNS = 12
AIR, GRAVITY = 1.225, 9.80665

HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
# Two more, so that a trailing horn with δ3 is met too: the horn rides and stands outboard of the hinge.
HEADS["trailing-riding"] = changed(
    demonstration("dogwood5"), {"arm_mm": "-220", "link_foot_ahead_mm": "-218", "horn_station_mm": "290"}
)
HEADS["inboard-horn"] = changed(demonstration("elder6"), {"horn_station_mm": "380", "link_foot_out_mm": "380"})
HEADS |= {f"{name}-mirrored": mirrored(head) for name, head in list(HEADS.items())}


class Blade:
    """A rigid uniform blade on its hinge: the flapping equation's coefficients by quadrature."""

    def __init__(self, rotor: Rotor, aerofoil_from: float) -> None:
        e, radius = rotor.hinge_offset, rotor.radius
        hinge, line = e * radius, rotor.blade_mass / (radius - e * radius)
        inertia = line * quad(lambda r: (r - hinge) ** 2, hinge, radius)[0]
        pull = line * quad(lambda r: (r - hinge) * r, hinge, radius)[0]
        static = line * quad(lambda r: r - hinge, hinge, radius)[0]
        lift = AIR * rotor.lift_slope * rotor.chord * radius**4 / inertia / 2.0

        def strips(of_x: str) -> float:
            weights = {
                "pitch": lambda x: (x - e) * x * x,
                "twist": lambda x: (x - e) * x * x * rotor.twist * (x - 0.75),
                "rate": lambda x: (x - e) * x * (x - e),
                "inflow": lambda x: (x - e) * x,
            }
            return float(lift * quad(weights[of_x], aerofoil_from, 1.0)[0])

        spring = rotor.root_spring / (inertia * rotor.speed**2)
        disc = math.pi * radius**2
        inflow = math.sqrt(rotor.weight / (2.0 * AIR * disc)) / (rotor.speed * radius)
        self.pitch, self.rate = strips("pitch"), strips("rate")
        self.stiffness = pull / inertia + spring
        self.steady = (
            strips("twist") - strips("inflow") * inflow + spring * rotor.precone
            - static * GRAVITY / (inertia * rotor.speed**2)
        )  # fmt: skip

    def turning(self, theta: float, flap: float, rate: float) -> float:
        """β″ of one blade at a pitch θ."""
        return float(self.pitch * theta - self.rate * rate - self.stiffness * flap + self.steady)


def integrated_low(rotor: Rotor, forward: float, aerofoil_from: float, left: float = 0.0) -> float:
    """Bearing (rad) at which the settled disc is low, stick `forward` and `left` of full travel."""
    rig = rig_of(rotor)
    heights = rig.heights(rig.pose(0.5, forward, left))
    pose, _ = pose_from_rods(rotor.rod_azimuths, rotor.rod_radius, heights, rotor.stationary_scissors)
    blade = Blade(rotor, aerofoil_from)

    def one(psi: float, y: np.ndarray) -> tuple[float, float]:
        return float(y[1]), blade.turning(pitch_now(rotor, pose, psi, 0, float(y[0])), float(y[0]), float(y[1]))

    def see_saw(psi: float, y: np.ndarray) -> tuple[float, float]:
        """Two blades on one hinge: half the difference of their moments; each stands at its precone."""
        up, rate, cone = float(y[0]), float(y[1]), rotor.precone
        near = blade.turning(pitch_now(rotor, pose, psi, 0, cone + up), cone + up, rate)
        far = blade.turning(pitch_now(rotor, pose, psi, 1, cone - up), cone - up, -rate)
        return rate, (near - far) / 2.0

    equation = see_saw if rotor.head.option("type") == "teetering" else one
    psi = np.linspace((TURNS - 1) * TURN, TURNS * TURN, 72, endpoint=False)
    run = solve_ivp(equation, (0.0, TURNS * TURN), (0.05, 0.0), t_eval=psi, rtol=1e-8, atol=1e-10, method="DOP853")
    assert run.success
    cosine, sine = float(np.mean(run.y[0] * np.cos(psi))), float(np.mean(run.y[0] * np.sin(psi)))
    assert math.hypot(cosine, sine) > math.radians(0.5)
    return bearing_of(math.atan2(sine, cosine) + math.pi, rotor.rotation)


@pytest.mark.parametrize("forward", [0.3, 1.0], ids=["stick-30", "stick-100"])
@pytest.mark.parametrize("name", HEADS)
def test_disc_lands_where_the_budget_says(name: str, forward: float) -> None:
    """Within 0.5°, at 30 % and at full forward stick, each head and its mirror."""
    rotor = of_head(HEADS[name])
    found = integrated_low(rotor, forward, rotor.hinge_offset)
    miss = math.degrees(math.remainder(found - budget_of(rotor).disc_low, TURN))
    assert abs(miss) < 0.5


@pytest.mark.parametrize("name", HEADS)
def test_the_disc_goes_where_the_stick_goes(name: str) -> None:
    """Stick left or back: the disc is low a right angle to the left of where stick forward puts it, or
    opposite, within 0.5°, by integration (FAA-H-8083-21B: the disc follows the stick; read)."""
    rotor = of_head(HEADS[name])
    forward = budget_of(rotor).disc_low
    for stick, bearing in (((0.0, 0.3), -math.pi / 2.0), ((-0.3, 0.0), math.pi), ((0.0, -0.3), math.pi / 2.0)):
        found = integrated_low(rotor, stick[0], rotor.hinge_offset, stick[1])
        assert abs(math.degrees(math.remainder(found - forward - bearing, TURN))) < 0.5
    if name in DEMONSTRATION:
        assert abs(math.degrees(math.remainder(forward, TURN))) < 1.0


@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_root_cut_out_moves_the_disc_by_next_to_nothing(head_id: str) -> None:
    """The budget's lift runs from the hinge to the tip; the aerofoil starts farther out. The low point
    differs by less than 0.02° for it."""
    rotor = of_head(HEADS[head_id])
    whole = integrated_low(rotor, 0.3, rotor.hinge_offset)
    cut = integrated_low(rotor, 0.3, max(rotor.root_cut, rotor.hinge_offset))
    assert abs(math.degrees(math.remainder(whole - cut, TURN))) < 0.02


def test_a_wrong_sum_would_be_seen() -> None:
    """The check can fail: a rod set turned by 5° moves the integrated disc by 5°, away from the budget
    of the head as it was."""
    head = demonstration("elder6")
    turned = of_head(changed(head, {"mixing_turn_deg": "5"}))
    moved = integrated_low(turned, 0.3, turned.hinge_offset)
    miss = math.degrees(math.remainder(moved - budget_of(of_head(head)).disc_low, TURN))
    assert abs(miss) == pytest.approx(5.0, abs=0.1)
