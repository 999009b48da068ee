"""Calculator *plate*: rod heights <-> height, tilt and low point of the plate, and the pitch it asks for."""

import math
from collections.abc import Callable

from ..conventions import HALF_TURN, azimuth_of, bearing_of, bearing_words
from ..drawing.side import side_view
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values, fixed
from ..mechanism.hands import rig_of
from ..mechanism.links import harmonics, pitch_round
from ..mechanism.plate import Pose, plane_through, pose_from_rods, pose_from_tilt, rod_heights
from ..rotor import Rotor
from .common import LINK_FIGURES, ROD_FIGURES, within_links


def _rod_default(index: int) -> Callable[[Rotor], float]:
    def height(rotor: Rotor) -> float:
        if index >= len(rotor.rod_azimuths):
            return 0.0
        rig = rig_of(rotor)
        return rig.heights(rig.pose(0.6, 0.5, 0.0))[index] * 1000.0

    return height


def _rod_applies(index: int) -> Callable[[Values, Rotor], bool]:
    return lambda values, rotor: values["from"] == "rods" and index < len(rotor.rod_azimuths)


def _from_pose(values: Values, rotor: Rotor) -> bool:
    return values["from"] == "pose"


def _fourth(values: Values, rotor: Rotor) -> bool:
    return values["from"] == "rods" and values["extra"] == "yes"


def _from_rods(values: Values, rotor: Rotor) -> bool:
    return values["from"] == "rods"


def compute(values: Values, rotor: Rotor) -> Answer:
    """Exact and first-order pose; collective and cyclic of a blade held level; rods when asked from a pose."""
    results: dict[str, float | str] = {}
    angles = list(rotor.rod_azimuths)
    if values["from"] == "rods":
        heights = [float(values[f"rod_{n}"]) for n in range(1, len(angles) + 1)]
        if values["extra"] == "yes":
            angles.append(azimuth_of(float(values["extra_bearing"]), rotor.rotation))
            heights.append(float(values["extra_height"]))
        pose, residual = pose_from_rods(angles, rotor.rod_radius, heights, rotor.stationary_scissors)
        linear = plane_through(angles, rotor.rod_radius, heights)
        results["residual"] = residual
    else:
        low = azimuth_of(float(values["low"]), rotor.rotation)
        pose = pose_from_tilt(float(values["height"]), float(values["tilt"]), low)
        heights = list(rod_heights(pose, angles, rotor.rod_radius, rotor.stationary_scissors))
        linear = plane_through(angles, rotor.rod_radius, heights)
        for n, h in enumerate(heights, 1):
            results[f"rod_{n}_height"] = h
    level = pose.tilt < 1e-9
    harmonic = harmonics(
        within_links(lambda: pitch_round(rotor, pose, 36), "rod_1" if values["from"] == "rods" else "height")
    )
    low_bearing = bearing_of(pose.low_azimuth, rotor.rotation)
    results |= {
        "height_exact": pose.height,
        "height_linear": linear.height,
        "tilt_exact": pose.tilt,
        "tilt_linear": linear.tilt,
        "low_bearing": "level, no low point" if level else bearing_words(low_bearing, 1),
        "low_bearing_linear": "level, no low point" if linear.tilt < 1e-9
        else bearing_words(bearing_of(linear.low_azimuth, rotor.rotation), 1),
        "collective_pitch": harmonic.mean,
        "cyclic_pitch": harmonic.amplitude,
        "least_bearing": "the same all round" if harmonic.amplitude < 1e-9
        else bearing_words(bearing_of(harmonic.greatest + HALF_TURN, rotor.rotation), 1),
    }  # fmt: skip
    return Answer(results, (pose, linear, heights))


def describe(case: Case) -> str:
    """One sentence."""
    r = case.answer.results
    tilt = case.result("tilt_exact")
    extra = ""
    if "residual" in r and case.values["extra"] == "yes":
        extra = f" The rods disagree by {case.show('small_length', case.result('residual'), 2)}: one is too many to fit them all."
    stands = f"The plate stands at {case.show('small_length', case.result('height_exact'))}"
    if tilt < 1e-9:
        return f"{stands} and level: every blade gets {case.show('angle', case.result('collective_pitch'))} of pitch.{extra}"
    return (
        f"{stands}, tilted {case.show('angle', tilt, 2)} and low {r['low_bearing']}: "
        f"{case.show('angle', case.result('collective_pitch'))} of collective and "
        f"{case.show('angle', case.result('cyclic_pitch'))} of cyclic pitch, least {r['least_bearing']}.{extra}"
    )


def working(case: Case) -> tuple[Step, ...]:
    """Plane, tilt, exact ring, pitch."""
    pose: Pose
    pose, linear, heights = case.answer.details
    listed = ", ".join(case.show("small_length", h) for h in heights)
    bearings = ", ".join(f"{r.bearing_deg:.0f}°" for r in case.rotor.head.rods)
    if len(heights) > len(case.rotor.rod_azimuths):
        bearings += f", {math.degrees(case.number('extra_bearing')):.0f}°"
    steps = [
        Step(f"Rods at bearings {bearings}, all {case.show('small_length', case.rotor.rod_radius, 0)} from the mast, stand at:",
             listed, "plane"),
        Step("First order: the plane through these heights.",
             f"height {case.show('small_length', linear.height, 2)}, tilt {case.show('angle', linear.tilt, 3)}", "tilt"),
        Step("Exact: a rigid ring whose joints move inward as it tilts and whose scissors point stays in its plane.",
             f"height {case.show('small_length', pose.height, 2)}, tilt {case.show('angle', pose.tilt, 3)}"),
        Step("Through the pitch links, closed exactly all round, blades held level:",
             f"mean {case.show('angle', case.result('collective_pitch'), 2)}, cyclic "
             f"{case.show('angle', case.result('cyclic_pitch'), 2)}"),
    ]  # fmt: skip
    if len(heights) > 3 and "residual" in case.answer.results:
        steps.append(Step("More than three rods: the plane of least squares; the rods disagree by",
                          case.show("small_length", case.result("residual"), 2) + " (root mean square)"))  # fmt: skip
    return tuple(steps)


def drawing(case: Case) -> Drawing:
    """Side view of the pose."""
    return side_view(case.rotor, case.answer.details[0], 0.0, case.units)


CALCULATOR = Calculator(
    id="plate",
    title="Rods and plate",
    question="Where do the rods put the plate, and what pitch does that ask for?",
    page="parts/swashplate.md",
    inputs=(
        *(
            Number(f"rod_{n}", f"Rod {n} height", "small_length", -400, 400, (-120, 120, 0.5), _rod_default(n - 1), 1,
                   "of its joint on the ring, above plate height 0", applies=_rod_applies(n - 1))
            for n in range(1, 7)
        ),
        Number("height", "Plate height", "small_length", -300, 300, (-80, 80, 0.5), fixed(5.0), 1, applies=_from_pose),
        Number("tilt", "Plate tilt", "angle", 0, 30, (0, 15, 0.1), fixed(5.0), 1, applies=_from_pose),
        Number("low", "Low point at a bearing of", "angle", 0, 360, (0, 359, 1), fixed(0.0), 0,
               "clockwise from the nose", applies=_from_pose, bearing=True),
        Choice("from", "Start from", (("rods", "rod heights"), ("pose", "height, tilt and low point")), "rods"),
        Choice("extra", "A further rod under the ring", (("no", "no"), ("yes", "yes: more rods than it takes")), "no",
               group="One rod too many", applies=_from_rods),
        Number("extra_bearing", "It stands at a bearing of", "angle", 0, 360, (0, 359, 1), fixed(300.0), 0, group="One rod too many",
               applies=_fourth, bearing=True),
        Number("extra_height", "Its height", "small_length", -400, 400, (-120, 120, 0.5), fixed(1.0), 1, group="One rod too many",
               applies=_fourth),
    ),
    figures_first=(),
    figures=(*ROD_FIGURES, *LINK_FIGURES),
    results=(
        Result("height_exact", "Plate height, exact", "small_length", 1),
        Result("tilt_exact", "Tilt, exact", "angle", 2),
        Result("low_bearing", "Low point, exact", "words"),
        Result("collective_pitch", "Collective pitch", "angle", 1),
        Result("cyclic_pitch", "Cyclic pitch", "angle", 1),
        Result("least_bearing", "Commanded pitch is least", "words"),
        Result("height_linear", "Plate height, first order", "small_length", 1),
        Result("tilt_linear", "Tilt, first order", "angle", 2),
        Result("low_bearing_linear", "Low point, first order", "words"),
        Result("residual", "The rods disagree by", "small_length", 2, main=False),
        *(Result(f"rod_{n}_height", f"Rod {n} height", "small_length", 1) for n in range(1, 7)),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "plane": r"z(\chi) = z_0 + r\,(A\cos\chi + B\sin\chi)",
        "tilt": r"\tan\tau = \sqrt{A^2 + B^2}",
    },
    limits=(
        "The plate's centre slides on the mast without play; play in joints adds to every figure.",
        "First order and exact differ by up to 0.3° of tilt and 0.6° of bearing at 12° of tilt with unevenly spaced rods.",
        "Blades are held level here, as on a parked machine; flapping with delta-three takes pitch off.",
    ),
    sources=("Plane through three points: elementary geometry; checked against a numerical solve.",),
    examples=(
        Example(
            "Three rods 120° apart, uneven heights",
            "elementary geometry (independent linear solve)",
            "birch2",
            {"rod_1": "10", "rod_2": "-2", "rod_3": "4"},
            {"rod_radius_mm": "200", "rods.1.stroke_mm": "150", "rods.2.stroke_mm": "150", "rods.3.stroke_mm": "150"},
            {"height_linear": (4.0, 1e-6), "tilt_linear": (1.983991, 1e-6)},
        ),
    ),
)  # fmt: skip
