"""Calculator *rods*: what each rod does for lever and stick."""

from ..conventions import bearing_words
from ..drawing.rods import rod_moves
from ..fields import Answer, Calculator, Case, Drawing, Example, Result, Step, Values
from ..mechanism.hands import rig_of
from ..rotor import Rotor
from ..units import System, show
from .common import HAND_FIGURES, HANDS, LINK_FIGURES, ROD_FIGURES, hands_pose, hands_words

_STILL = 5e-5


def move_words(move: float, system: System) -> str:
    """'up 12.3 mm', 'down 4.0 mm' or 'stays'."""
    if abs(move) < _STILL:
        return "stays"
    return f"{'up' if move > 0 else 'down'} {show('small_length', abs(move), system)}"


def compute(values: Values, rotor: Rotor) -> Answer:
    """Exact moves (m) of every rod from lever half up and stick centred."""
    rig = rig_of(rotor)
    rest = rig.heights(rig.pose(0.5, 0.0, 0.0))
    now = rig.heights(hands_pose(values, rotor))
    moves = [a - b for a, b in zip(now, rest, strict=True)]
    results: dict[str, float | str] = {f"rod_{n}": m for n, m in enumerate(moves, 1)}
    results["most"] = max(moves, key=abs)
    return Answer(results, moves)


def describe(case: Case) -> str:
    """One sentence."""
    moves = case.answer.details
    listed = "; ".join(f"rod {n} {move_words(m, case.units)}" for n, m in enumerate(moves, 1))
    return f"With {hands_words(case.values)}, counted from lever half up and stick centred: {listed}."


def working(case: Case) -> tuple[Step, ...]:
    """The matrix from hands to rods, and its sum for each rod."""
    rig = rig_of(case.rotor)
    lever, forward, left = (case.number(n) for n in ("lever", "stick_forward", "stick_left"))
    steps = [
        Step(
            f"Stick forward puts the plate's low point {bearing_words(case.rotor.forward_low_bearing)}; full stick tilts it "
            f"{case.show('angle', rig.fore_aft, 2)} fore and aft, {case.show('angle', rig.left_right, 2)} to a side.",
            f"rods at {case.show('small_length', case.rotor.rod_radius, 0)} from the mast",
            "rod",
        )
    ]
    for n, (c, f, s) in enumerate(rig.matrix(), 1):
        total = c * (lever - 0.5) + f * forward + s * left
        mm = [case.show("small_length", x) for x in (c, f, s)]
        steps.append(
            Step(
                f"Rod {n}: lever bottom to top {mm[0]}, full stick forward {mm[1]}, full stick left {mm[2]}.",
                f"{mm[0]} × {lever - 0.5:.2f} + {mm[1]} × {forward:.2f} + {mm[2]} × {left:.2f} = "
                f"{case.show('small_length', total)} to first order; exact {case.show('small_length', case.answer.details[n - 1])}"
                .replace("-", "\N{MINUS SIGN}"),
            )
        )  # fmt: skip
    return tuple(steps)


def drawing(case: Case) -> Drawing:
    """Columns with arrows."""
    return rod_moves(
        case.rotor, case.answer.details, case.number("lever"), case.number("stick_forward"), case.number("stick_left"),
        case.units,
    )  # fmt: skip


CALCULATOR = Calculator(
    id="rods",
    title="What each rod does",
    question="What does each rod do when the lever or the stick moves?",
    page="parts/rods.md",
    inputs=HANDS,
    figures_first=(),
    figures=(*ROD_FIGURES, *HAND_FIGURES, *LINK_FIGURES),
    results=(
        *(Result(f"rod_{n}", f"Rod {n} from rest", "small_length", 1) for n in range(1, 7)),
        Result("most", "Greatest move of any rod", "small_length", 1, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={"rod": r"h_i = z_0 + r\,(A\cos\chi_i + B\sin\chi_i)"},
    limits=(
        "The linkage between hand and rod is taken as even: equal steps of the hand give equal steps of the plate. Real bell "
        "cranks add a few per cent.",
        "Rods are long enough that only the height of their upper joints matters.",
        "Lever and stick are each refused beyond their own travel; whether both ends can be reached at once depends on the "
        "head's stops.",
    ),
    sources=("Plane through three points on a circle: elementary geometry; checked against a numerical solve.",),
    examples=(
        Example(
            "Collective alone lifts every rod alike",
            "common practice, no source",
            "birch2",
            {"lever": "100", "stick_forward": "0", "stick_left": "0"},
            {},
            {"rod_1": (15.85, 0.05), "rod_2": (15.85, 0.05), "rod_3": (15.85, 0.05)},
        ),
    ),
)
