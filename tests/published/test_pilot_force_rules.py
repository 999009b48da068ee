"""Forces in the rules and what the pages make of them; hydraulic help; the arithmetic of flying without it.

Rules: 14 CFR parts 25, 27 and 29, Code of Federal Regulations, Title 14, revised as of 1 January 2024 (read).
1 lbf = 4.4482216 N (NIST SP 811, from memory).
"""

import math
import re
from dataclasses import replace
from pathlib import Path

import pytest
from rotorhead.head import DEMONSTRATION, demonstration
from rotorhead.head_changes import changed
from rotorhead.loads.feather import Blade, moments_round
from rotorhead.loads.hands import actuator_force, unboosted
from rotorhead.loads.rods import PlateLoad, link_loads, plate_load, rod_loads
from rotorhead.mechanism.hands import rig_of
from rotorhead.mechanism.plate import Pose
from rotorhead.rotor import Rotor, of_head
from rotorhead.topics import boost
from rotorhead.units import POUND_FORCE_N, PSI_PA
from scipy.optimize import brentq

LBF = 4.4482216
NUMBER = r"\d+(?:\.\d+)?"
# 27.397(a), 29.397(a): limit pilot forces, lbf.
FOOT, FORE_AFT, LATERAL = 130.0, 100.0, 67.0


@pytest.fixture(scope="module")
def page(root: Path) -> str:
    """The page that quotes the rules."""
    return (root / "docs/hands/hydraulics-off.md").read_text(encoding="utf-8")


def row(page: str, start: str) -> list[str]:
    """Cells after the first of the one table row whose first cell begins so."""
    rows = [line for line in page.splitlines() if line.startswith(f"| {start}")]
    assert len(rows) == 1, start
    return [cell.strip() for cell in rows[0].strip("|").split("|")[1:]]


def pounds(text: str) -> list[float]:
    """Every figure followed by lbf."""
    return [float(x) for x in re.findall(rf"({NUMBER}) lbf", text)]


def printed_as(value: float, figure: str) -> bool:
    """A value rounds to the figure at its printed digits."""
    return f"{value:.{len(figure.partition('.')[2])}f}" == figure


def test_both_units_agree_wherever_a_page_of_this_part_gives_both(root: Path) -> None:
    """Pounds and newtons, inches and millimetres side by side are the same to the digits printed."""
    found = 0
    for path in sorted((root / "docs/hands").glob("*.md")):
        text = path.read_text(encoding="utf-8")
        pairs = [(lbf, n, LBF) for lbf, n in re.findall(rf"({NUMBER}) lbf \(({NUMBER}) N\)", text)]
        pairs += [(inch, mm, 25.4) for inch, mm in re.findall(rf"({NUMBER}) in \(({NUMBER}) mm\)", text)]
        for imperial, metric, scale in pairs:
            assert printed_as(float(imperial) * scale, metric), (path.name, imperial, metric)
        # The other way about, the pounds are the rounded ones; half a unit of the newtons besides.
        for n, lbf in re.findall(rf"({NUMBER}) N \(({NUMBER}) lbf\)", text):
            assert float(n) / LBF == pytest.approx(float(lbf), abs=0.5 + 0.5 / LBF), (path.name, n, lbf)
            found += 1
        found += len(pairs)
    assert found >= 20


@pytest.mark.parametrize(("limit", "newtons"), [(FOOT, 578.27), (FORE_AFT, 444.82), (LATERAL, 298.03)])
def test_limit_forces_in_newtons(limit: float, newtons: float) -> None:
    """F1: 27.397(a) in the package's pound-force, to 0.01 N."""
    assert limit * POUND_FORCE_N == pytest.approx(newtons, abs=5e-3)


def test_limit_pilot_forces_on_the_page(page: str) -> None:
    """F1: 27.397(a) = 29.397(a): foot 130, stick 100 fore and aft, 67 lateral; the collective isn't listed."""
    asks, what_for, _ = row(page, "27.397(a), the same in 29.397(a)")
    stick, foot = asks.split("with the foot")
    assert re.search(rf"{FORE_AFT:.0f} lbf \(\d+ N\) fore and aft and {LATERAL:.0f} lbf \(\d+ N\) sideways", stick)
    assert pounds(stick) == [FORE_AFT, LATERAL]
    assert pounds(foot) == [FOOT]
    assert "collective lever isn't listed" in asks
    assert "strength" in what_for


def test_least_share_of_the_limit_forces_on_the_page(page: str) -> None:
    """F2: 27.395: not less than 0.60 of 27.397 (60, 40.2, 78 lbf), and any single failure of the boost;
    27.399: three-quarters, in the same direction and in opposition."""
    asks = row(page, "27.395")[0]
    assert "at least 0.60 of them" in asks
    figures = re.search(r"of them: (\d+), (\d+) and (\d+) lbf", asks)
    assert figures
    shares = [0.60 * f for f in (FORE_AFT, LATERAL, FOOT)]
    assert shares == pytest.approx([60.0, 40.2, 78.0], abs=1e-9)
    assert all(printed_as(s, f) for s, f in zip(shares, figures.groups(), strict=True))
    assert "any single failure of the boost" in asks
    dual = row(page, "27.399")[0]
    assert "three-quarters" in dual
    assert "same direction" in dual
    assert "against each other" in dual


def test_cranks_wheels_and_levers_on_the_page(page: str) -> None:
    """F3: 27.397(b)(1): [(1 + R)/3] × 50 lbf, R in inches, 50 to 100 by hand (130 by foot), within 20° of the
    plane; R 1, 2, 5, 6 give 33.3 raised to 50, 50, 100, 116.7 cut to 100. (25.405 cuts at 150: another rule.)"""
    radii = [float(x) for x in re.findall(r"(\d+) in \(", "".join(row(page, "Radius, by hand")))]
    forces = pounds("".join(row(page, "Limit force")))
    assert radii == [1.0, 2.0, 5.0, 6.0]
    bare = [(1.0 + r) / 3.0 * 50.0 for r in radii]
    assert bare == pytest.approx([33.3, 50.0, 100.0, 116.7], abs=0.05)
    assert forces == pytest.approx([min(max(b, 50.0), 100.0) for b in bare], abs=1e-9)
    formula = next(line for line in page.splitlines() if line.startswith("> limit force"))
    assert formula.startswith("> limit force = (1 + *R*) / 3 × 50 lbf, but at least 50 lbf")
    assert pounds(formula) == [50.0, 50.0, 100.0, 130.0]
    before = page[: page.index(formula)].rstrip().splitlines()[-1]
    assert "27.397(b)(1)" in before
    assert "within 20°" in before
    assert "**not** for the collective lever" in before


def test_what_must_be_there_when_boost_fails_on_the_page(page: str) -> None:
    """F5: 27.695, 29.695; the words in quotation marks are the rule's; 27.141(b)(3) gives no figure."""
    asks = row(page, "27.695, 29.695")[0]
    assert "“continued safe flight and landing”" in asks
    assert "“extremely improbable”" in asks
    for part in ("at once", "single failure in the power portion", "failure of all engines", "second power portion"):
        assert part in asks
    strength = row(page, "27.141(b)(3)")[0]
    assert "exceptional skill, alertness or strength" in strength
    assert not pounds(strength)


def test_the_aeroplane_table(page: str) -> None:
    """F8: 25.143(d), an aeroplane rule, used for size only: pitch, roll, yaw; what the calculator compares with."""
    table = {"short, two hands": [75, 50], "short, one hand": [50, 25], "short, foot": [150], "long": [10, 5, 20]}
    for start, figures in table.items():
        assert pounds(" ".join(row(page, f"{start} |"))) == figures, start
    assert pytest.approx(10.0 * LBF, rel=1e-7) == boost.SUSTAINED_PULL
    assert pytest.approx(5.0 * LBF, rel=1e-7) == boost.SUSTAINED_SIDE
    assert "rules for **aeroplanes**" in page


def test_actuator(page: str) -> None:
    """F10 (re-derived): 1000 psi on 1.0 in bore less 0.5 in rod: 589.0486 lbf by pounds, 2620.219 N in SI."""
    by_pounds = 1000.0 * math.pi / 4.0 * (1.0**2 - 0.5**2)
    assert by_pounds == pytest.approx(589.0486, abs=5e-5)
    assert by_pounds * LBF == pytest.approx(2620.219, abs=5e-4)
    ours = actuator_force(1000.0 * PSI_PA, 0.0254, 0.0127, 1.0)
    assert ours == pytest.approx(2620.219, abs=5e-4)
    assert ours == pytest.approx(by_pounds * LBF, rel=1e-7)
    assert actuator_force(1000.0 * PSI_PA, 0.0254, 0.0127) == pytest.approx(0.9 * ours, rel=1e-12)
    assert "589 lbf (2620 N)" in page


# F11: the plank of G1 at 10° and 40 rad/s on horns of 0.15 m; 0.03 m of plate for a metre of lever.
PLANK = Blade(50.0 * 0.5**2 / 12.0, 50.0 * 0.06**2 / 12.0, 50.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


def geared_rotor(blades: int) -> Rotor:
    """A head whose plate rises 9 mm for 300 mm of lever; found by trying its greatest collective pitch."""

    def rotor(high: float) -> Rotor:
        head = changed(demonstration("birch2"), {
            "arm_mm": "150", "link_foot_ahead_mm": "150", "pitch_at_plate_zero_deg": "10", "lever_travel_mm": "300",
            "collective_low_deg": "8.3", "collective_high_deg": f"{high:.9f}",
        })  # fmt: skip
        return replace(of_head(head), speed=40.0, blades=blades)

    def gap(high: float) -> float:
        rig = rig_of(rotor(high))
        return rig.lever_high - rig.lever_low - 0.009

    return rotor(float(brentq(gap, 11.0, 13.0, xtol=1e-10)))


@pytest.mark.parametrize(
    ("blades", "plate", "lever"), [(2, 3745.50, 112.37), (3, 5618.25, 168.55), (4, 7491.00, 224.73)]
)
def test_by_hand_arithmetic(blades: int, plate: float, lever: float) -> None:
    """F11 (re-derived): 3 blades press with 5618.25 N and ask 168.55 N (37.89 lbf) of the lever; 2 and 4 in proportion.

    Link, plate and lever as the package has them: no air, no cyclic, so no stick.
    """
    rotor = geared_rotor(blades)
    moments = [p.total for p in moments_round(rotor, PLANK, math.radians(10.0), 0.0, 0.0, 0.0)]
    links = link_loads(rotor, moments, math.radians(10.0), 0.0, 0.0)
    load = plate_load(rotor, links, 0)
    assert load.down == pytest.approx(plate, abs=5e-3)
    hands = unboosted(rotor, load)
    assert hands.lever == pytest.approx(lever, abs=5e-3)
    assert hands.stick == pytest.approx(0.0, abs=1e-9)
    assert hands.lever_felt - hands.lever == pytest.approx(2.0 * rotor.head["stick_friction_N"], abs=1e-9)
    if blades == 3:
        assert hands.lever / LBF == pytest.approx(37.89, abs=5e-3)


def test_by_hand_arithmetic_on_the_page(root: Path) -> None:
    """F11 on the page about the lever, to its digits."""
    page = (root / "docs/hands/lever-by-itself.md").read_text(encoding="utf-8")
    assert "281 N·m on horns of 0.15 m press with 5618 N" in page
    assert "0.03 m for a metre of lever, that is 169 N (38 lbf)" in page


@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_hands_by_virtual_work(head_id: str) -> None:
    """What a hand does over a small move is what the rods' loads do over theirs (elementary).

    Stick centred, the plate loaded toward the place that stick forward lowers; rod heights exact. A step of 1e-4 of
    the travel, taken both ways, leaves errors of 1e-8.
    """
    rotor = of_head(demonstration(head_id))
    rig, step = rig_of(rotor), 1e-4
    toward = rig.forward_azimuth
    load = PlateLoad(700.0, 40.0 * math.cos(toward), 40.0 * math.sin(toward))
    rods = rod_loads(rotor, load)
    hands = unboosted(rotor, load)

    def work(poses: list[Pose]) -> float:
        low, high = (rig.heights(pose) for pose in poses)
        return sum(r * (h - g) for r, g, h in zip(rods, low, high, strict=True))

    level = -rig.lever_low / (rig.lever_high - rig.lever_low)
    raised = work([rig.pose(level - step, 0.0, 0.0), rig.pose(level + step, 0.0, 0.0)])
    assert raised / (2.0 * step * rotor.head["lever_travel_mm"] / 1000.0) == pytest.approx(hands.lever, rel=1e-7)
    pushed = work([rig.pose(level, step, 0.0), rig.pose(level, -step, 0.0)])
    assert pushed / (2.0 * step * rotor.head["stick_travel_mm"] / 2000.0) == pytest.approx(hands.stick, rel=1e-7)
