"""One whole turn of the head: lengths by a ruler, and every joint against SciPy's solvers and rotations.

The references know nothing of the package's formulas: a ring is a rigid body made of rotations whose scissors point
can't leave its plane, its pose is found by fsolve, the horn's angle by brentq, the flap by integrating its equation.
"""

import math
from collections.abc import Callable
from functools import cache
from itertools import combinations
from typing import Any

import numpy as np
import pytest
from rotorhead.head import DEMONSTRATION, Head, demonstration, from_dict, to_dict
from rotorhead.head_changes import changed, mirrored
from rotorhead.mechanism.links import pitch_now
from rotorhead.motion.setting import Setting
from rotorhead.motion.turn import STEPS, Motion, motion_of
from rotorhead.rotor import of_head
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq, fsolve
from scipy.spatial.transform import Rotation

TURN = 2.0 * math.pi


def with_rods(head: Head, *more: float) -> Head:
    """The head with further rods at these bearings, degrees."""
    data: dict[str, Any] = to_dict(head)
    return from_dict(data | {"rods": [*data["rods"], *({"bearing_deg": b, "stroke_mm": 400} for b in more)]})


HEADS: dict[str, Head] = {i: demonstration(i) for i in DEMONSTRATION}
HEADS |= {f"alder3-{n}-blades": changed(HEADS["alder3"], {"blades": str(n)}) for n in (2, 4, 5, 6, 7, 8)}
HEADS["cedar4-8-blades"] = changed(HEADS["cedar4"], {"blades": "8", "stationary_scissors_bearing_deg": "100"})
HEADS["dogwood5-trailing"] = changed(
    HEADS["dogwood5"],
    {"arm_mm": "-220", "link_foot_ahead_mm": "-218", "horn_station_mm": "290", "drive_scissors_ahead_deg": "-70"},
)
HEADS["cedar4-leading"] = changed(HEADS["cedar4"], {"arm_mm": "185", "link_foot_ahead_mm": "184"})
HEADS["birch2-4-rods"] = with_rods(HEADS["birch2"], 190.0)
HEADS["elder6-4-rods"] = with_rods(HEADS["elder6"], 355.0)
HEADS |= {f"{name}-mirrored": mirrored(head) for n, (name, head) in enumerate(list(HEADS.items())) if n < 5 or n % 2}
HANDS = [(0.5, 0.0, 0.0), (0.5, 1.0, 0.0), (1.0, -0.6, 0.8), (0.0, 0.3, -0.9)]
every_head = pytest.mark.parametrize("name", HEADS)
demonstrations = pytest.mark.parametrize("name", DEMONSTRATION)


@cache
def moved(name: str, hands: tuple[float, float, float], steps: int = STEPS, flying: bool = True) -> Motion:
    """A turn of a head under lever, stick forward, stick left, nothing stretched."""
    return motion_of(of_head(HEADS[name]), Setting(*hands, flying=flying), steps)


def turned(lift: float, roll: float, guide: float) -> Rotation:
    """A ring turned about its guided radius, which is then lifted in the vertical plane through the mast at `guide`."""
    out = Rotation.from_euler("z", guide)
    return out * Rotation.from_euler("y", -lift) * Rotation.from_euler("x", roll) * out.inv()


def solved(miss: Callable[[np.ndarray], Any], unknowns: int) -> np.ndarray:
    """fsolve, started off the answer: it complains when its first guess is as good as it can get."""
    found = fsolve(miss, [0.01] * unknowns, xtol=1e-10)
    assert np.abs(miss(found)).max() < 1e-11
    return np.asarray(found)


def lying(slopes: tuple[float, float], guide: float) -> Rotation:
    """The ring that lies in a plane of these slopes, by fsolve."""

    def miss(unknown: np.ndarray) -> list[float]:
        normal = turned(unknown[0], unknown[1], guide).apply([0.0, 0.0, 1.0])
        return [normal[0] + slopes[0] * normal[2], normal[1] + slopes[1] * normal[2]]

    found = solved(miss, 2)
    return turned(found[0], found[1], guide)


def circle(radius: float, azimuths: list[float]) -> np.ndarray:
    """Places on a flat ring."""
    return radius * np.column_stack([np.cos(azimuths), np.sin(azimuths), np.zeros(len(azimuths))])


def standing(fold: Any, azimuth: float) -> list[np.ndarray]:
    """Ring, apex and anchor of a pair of scissors in space."""
    way = np.array([math.cos(azimuth), math.sin(azimuth), 0.0])
    return [out * way + np.array([0.0, 0.0, up]) for out, up in (fold.ring, fold.apex, fold.anchor)]


@every_head
def test_every_rigid_part_keeps_its_lengths(name: str) -> None:
    """Links, arms of both scissors and rods over the whole turn: to a nanometre, where 0.01 mm is asked."""
    rotor = of_head(HEADS[name])
    for hands in HANDS:
        m = moved(name, hands)
        links = np.linalg.norm(np.array(m.horns) - np.array(m.feet), axis=2)
        assert links.shape == (STEPS, rotor.blades)
        assert np.abs(links - HEADS[name]["link_mm"] / 1000.0).max() < 1e-9
        for pair, folds in (("drive", m.drive), ("stationary", (m.stationary,))):
            ring_arm, anchor_arm = (HEADS[name][f"{pair}_scissors_{end}_arm_mm"] / 1000.0 for end in ("ring", "anchor"))
            for f in folds:
                assert math.dist(f.ring, f.apex) == pytest.approx(ring_arm, abs=1e-9)
                assert math.dist(f.apex, f.anchor) == pytest.approx(anchor_arm, abs=1e-9)
        # A head does not say how long its rods are: the view takes 0.85 of their radius, the same for every pose.
        for rod in m.rods:
            assert math.dist(rod.joint, rod.foot) == pytest.approx(0.85 * HEADS[name]["rod_radius_mm"] / 1e3, abs=1e-9)


@every_head
def test_feet_and_drive_scissors_sit_on_one_rigid_ring(name: str) -> None:
    """Distances between the feet, and from each to the scissors' joint, are those of a flat ring, at every step."""
    rotor, head = of_head(HEADS[name]), HEADS[name]
    lead = math.atan2(head["link_foot_ahead_mm"], head["link_foot_out_mm"])
    drive = math.radians(head["drive_scissors_ahead_deg"])
    radius = math.hypot(head["link_foot_out_mm"], head["link_foot_ahead_mm"]) / 1000.0
    flat = circle(radius, [*(k * TURN / rotor.blades + lead for k in range(rotor.blades)), drive])
    for hands in HANDS[1:]:
        m = moved(name, hands)
        for feet, fold in list(zip(m.feet, m.drive, strict=True))[::5]:
            points = [*np.array(feet), standing(fold, drive)[0]]
            for i, j in combinations(range(len(points)), 2):
                assert math.dist(points[i], points[j]) == pytest.approx(math.dist(flat[i], flat[j]), abs=1e-9)


@every_head
def test_rods_stand_on_one_rigid_ring_at_the_heights_asked(name: str) -> None:
    """Distances between the joints and to the stationary scissors' joint are those of a flat ring."""
    rotor = of_head(HEADS[name])
    flat = circle(rotor.rod_radius, [*rotor.rod_azimuths, rotor.stationary_scissors])
    for hands in HANDS:
        m = moved(name, hands)
        points = np.array([*(r.joint for r in m.rods), standing(m.stationary, rotor.stationary_scissors)[0]])
        for i, j in combinations(range(len(points)), 2):
            assert math.dist(points[i], points[j]) == pytest.approx(math.dist(flat[i], flat[j]), abs=1e-9)
        for rod, azimuth in zip(m.rods, rotor.rod_azimuths, strict=True):
            assert rod.joint[2] == pytest.approx(rod.height, abs=1e-9)
            assert rod.foot[:2] == pytest.approx(
                (rotor.rod_radius * math.cos(azimuth), rotor.rod_radius * math.sin(azimuth)), abs=1e-12
            )
        assert m.apart == 0.0


@every_head
def test_axes_of_both_rings_are_unit_square_and_in_the_plate(name: str) -> None:
    """Elementary geometry."""
    for hands in HANDS:
        m = moved(name, hands)
        normal = np.array([-m.pose.p, -m.pose.q, 1.0])
        for i, (d, e) in [(0, m.still), *((i, m.ring[i]) for i in range(0, STEPS, 5))]:
            here = normal if (d, e) == m.still else Rotation.from_euler("z", -i * TURN / STEPS).apply(normal)
            assert np.linalg.norm(d) == pytest.approx(1.0, abs=1e-12)
            assert np.linalg.norm(e) == pytest.approx(1.0, abs=1e-12)
            assert np.dot(d, e) == pytest.approx(0.0, abs=1e-12)
            cross = np.cross(d, e)
            assert cross == pytest.approx(here / np.linalg.norm(here), abs=1e-12)


@every_head
def test_plate_is_where_fsolve_puts_a_rigid_ring_on_its_rods(name: str) -> None:
    """Three rods: height, lift and roll by scipy.optimize.fsolve. The rods' heights and the joints found from it."""
    rotor = of_head(HEADS[name])
    flat = circle(rotor.rod_radius, list(rotor.rod_azimuths))
    for hands in HANDS:
        m = moved(name, hands)
        heights = np.array([r.height for r in m.rods])

        def miss(unknown: np.ndarray, heights: np.ndarray = heights) -> np.ndarray:
            ring = turned(unknown[1], unknown[2], rotor.stationary_scissors)
            return np.asarray(unknown[0] + ring.apply(flat[:3])[:, 2] - heights[:3])

        z, lift, roll = solved(miss, 3)
        ring = turned(lift, roll, rotor.stationary_scissors)
        normal = ring.apply([0.0, 0.0, 1.0])
        found = (z, -normal[0] / normal[2], -normal[1] / normal[2])
        assert (m.pose.height, m.pose.p, m.pose.q) == pytest.approx(found, abs=1e-9)
        joints = ring.apply(flat) + np.array([0.0, 0.0, z])
        assert np.array([r.joint for r in m.rods]) == pytest.approx(joints, abs=1e-9)


@every_head
def test_feet_are_where_rotations_put_them(name: str) -> None:
    """The rotating ring as a rigid body of scipy rotations, its scissors point in the plane that turns with the mast."""
    rotor = of_head(HEADS[name])
    flat = circle(rotor.ring_radius, [k * TURN / rotor.blades + rotor.lead for k in range(rotor.blades)])
    for hands in HANDS[1:3]:
        m = moved(name, hands)
        for i in range(0, STEPS, 9):
            mast = i * TURN / STEPS
            ring = lying((m.pose.p, m.pose.q), mast + rotor.drive_scissors)
            back = Rotation.from_euler("z", -mast)
            feet = (back * ring * back.inv()).apply(flat) + np.array([0.0, 0.0, m.pose.height])
            assert np.array(m.feet[i]) == pytest.approx(feet, abs=1e-9)
            axes = back.apply(
                ring.apply(circle(1.0, [mast + rotor.drive_scissors, mast + rotor.drive_scissors + TURN / 4]))
            )
            assert np.array(m.ring[i]) == pytest.approx(axes, abs=1e-9)


def horn_end(head: Head, rise: float, eta: float, flap: float) -> np.ndarray:
    """Upper end of a link in its blade's frame: feathered about the span, then flapped about the hinge; rotations only."""
    horn = Rotation.from_euler("x", eta).apply([head["horn_station_mm"] / 1e3, head["arm_mm"] / 1e3, 0.0])
    if head.option("horn_rides_with_flap") == "yes":
        hinge = np.array([head["hinge_offset"] * head["radius_m"], 0.0, 0.0])
        horn = hinge + Rotation.from_euler("y", -flap).apply(horn - hinge)
    return np.asarray(horn + np.array([0.0, 0.0, rise]))


@every_head
def test_horns_stand_where_brentq_closes_the_link(name: str) -> None:
    """|horn − foot| = link for the blade as flapped; the pitch, and where the link's upper end is."""
    rotor, head = of_head(HEADS[name]), HEADS[name]
    across = (head["horn_station_mm"] - head["link_foot_out_mm"], head["arm_mm"] - head["link_foot_ahead_mm"])
    rise = math.sqrt(head["link_mm"] ** 2 - across[0] ** 2 - across[1] ** 2) / 1000.0
    for hands in HANDS[1:3]:
        m = moved(name, hands)
        for i in range(0, STEPS, 17):
            for k in range(rotor.blades):
                outward = Rotation.from_euler("z", k * TURN / rotor.blades)
                foot, flap = outward.inv().apply(m.feet[i][k]), m.flap[i][k]

                def miss(eta: float, foot: np.ndarray = foot, flap: float = flap) -> float:
                    return float(np.linalg.norm(horn_end(head, rise, eta, flap) - foot)) - head["link_mm"] / 1000.0

                eta = float(brentq(miss, -1.0, 1.0, xtol=1e-13))
                assert m.pitch[i][k] == pytest.approx(math.radians(head["pitch_at_plate_zero_deg"]) + eta, abs=1e-9)
                assert m.horns[i][k] == pytest.approx(tuple(outward.apply(horn_end(head, rise, eta, flap))), abs=1e-9)


@every_head
def test_pitch_is_that_of_the_calculators(name: str) -> None:
    """View and calculators share one linkage: every blade, every third step, flapping and held level."""
    rotor = of_head(HEADS[name])
    for flying in (True, False):
        m = moved(name, HANDS[2], STEPS, flying)
        assert flying or not any(x for row in m.flap for x in row)
        for i in range(0, STEPS, 3):
            for k in range(rotor.blades):
                there = pitch_now(rotor, m.pose, i * TURN / STEPS, k, m.flap[i][k])
                assert m.pitch[i][k] == pytest.approx(there, abs=1e-12)


@pytest.mark.parametrize("name", [*DEMONSTRATION, "elder6-mirrored", "dogwood5-trailing"])
@pytest.mark.parametrize(("hands", "within"), [((0.5, 1.0, 0.0), 0.25), ((1.0, 0.8, 0.6), 0.75)])
def test_flap_is_what_integrating_the_equation_settles_to(
    name: str, hands: tuple[float, float, float], within: float
) -> None:
    """β″ + M_β̇ β′ + ν² β = M_θ θ(ψ, β), the link closed at every instant, by solve_ivp; strip integrals by quad.

    First harmonic within 0.25° with the lever at its middle, within 0.75° at its end: the motion's own answers the pitch
    commanded to a level blade, and a coned blade on a leaning link gets a little more or less. The mean is given to the
    integration: what lifts the blade on average is another test's subject (hover)."""
    rotor, m = of_head(HEADS[name]), moved(name, hands)
    e, radius = rotor.hinge_offset, rotor.radius
    hinge, line = e * radius, rotor.blade_mass / (radius - e * radius)
    inertia = line * quad(lambda r: (r - hinge) ** 2, hinge, radius)[0]
    lift = 1.225 * rotor.lift_slope * rotor.chord * radius**4 / inertia / 2.0
    by_pitch = lift * quad(lambda x: (x - e) * x * x, e, 1.0)[0]
    by_rate = lift * quad(lambda x: (x - e) ** 2 * x, e, 1.0)[0]
    stiff = line * quad(lambda r: (r - hinge) * r, hinge, radius)[0] / inertia
    stiff += rotor.root_spring / (inertia * rotor.speed**2)
    flaps = np.array([row[0] for row in m.flap])
    mean, pitch_mean = float(flaps.mean()), float(np.mean([row[0] for row in m.pitch]))

    def rate(psi: float, y: np.ndarray) -> tuple[float, float]:
        flap = float(y[0])
        moment = by_pitch * (pitch_now(rotor, m.pose, psi, 0, flap) - pitch_mean)
        return float(y[1]), float(moment - by_rate * y[1] - stiff * (flap - mean))

    psi = np.arange(STEPS) * TURN / STEPS
    run = solve_ivp(rate, (0.0, 11 * TURN), (mean, 0.0), t_eval=10 * TURN + psi, rtol=1e-7, atol=1e-9, method="DOP853")
    found, ours = (2.0 * np.mean(x * np.exp(1j * psi)) for x in (run.y[0], flaps))
    assert abs(found) > math.radians(2.0)
    assert abs(found - ours) < math.radians(within)
    # All blades fly the same path, each when it gets there.
    for k in range(rotor.blades):
        own = 2.0 * np.mean(np.array([row[k] for row in m.flap]) * np.exp(1j * (psi + k * TURN / rotor.blades)))
        assert abs(own - ours) < 1e-9


@demonstrations
@pytest.mark.parametrize("hands", [(0.5, 1.0, 0.0), (1.0, 0.8, 0.6), (0.0, -1.0, 0.0), (1.0, 0.0, -1.0)])
def test_going_straight_between_steps_is_off_by_less_than_a_twentieth_of_a_millimetre(
    name: str, hands: tuple[float, float, float]
) -> None:
    """Halfway between two steps against a turn in twice as many."""
    coarse, fine = moved(name, hands), moved(name, hands, 2 * STEPS)
    pairs = [(np.array(coarse.feet), np.array(fine.feet)), (np.array(coarse.horns), np.array(fine.horns))]
    folds = [np.array([[f.ring, f.apex, f.anchor] for f in m.drive]) for m in (coarse, fine)]
    for steps, halves in [*pairs, (folds[0], folds[1])]:
        between = (steps + np.roll(steps, -1, axis=0)) / 2.0
        assert np.linalg.norm(between - halves[1::2], axis=-1).max() < 0.05e-3
