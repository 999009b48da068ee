"""Calculator *climb*: straight up and straight down -> air through the disc, power, and where momentum theory has no answer."""

import math
from dataclasses import dataclass

from ..drawing.climb import climbing
from ..fields import (
    Answer,
    Calculator,
    Case,
    Chart,
    Choice,
    Drawing,
    Example,
    Line,
    Number,
    Result,
    Step,
    Values,
    fixed,
)
from ..flight.momentum import (
    NO_ANSWER,
    RING_DESCENT,
    axial_power_ratio,
    axial_ratio,
    hover_induced,
    ideal_power,
)
from ..flight.validity import Mark
from ..rotor import Rotor
from ..units import tidy
from .flight_inputs import AIR, INSIDE, MASS, air_of, loaded_with, model_sentence, model_words, weight_of

# The chart goes from the windmill branch to a brisk climb, in speeds of the hover's own downward air.
_FROM, _TO, _STEPS = -2.6, 1.4, 40
_CLIMB = "climb"


@dataclass(frozen=True, slots=True)
class Flow:
    """Hover's induced speed (m/s), climb over it, induced speed over it, and what state that is."""

    hover: float
    ratio: float
    induced: float
    state: str

    @property
    def between(self) -> bool:
        """Whether only a curve through measurements has an answer here."""
        return NO_ANSWER[0] < self.ratio < NO_ANSWER[1]

    @property
    def outside(self) -> tuple[Mark, ...]:
        """What is left out where theory has no answer."""
        if not self.between:
            return ()
        text = (
            "momentum theory has no answer here, for the wake meets the disc again (vortex ring, turbulent wake). The figures are a "
            "curve through measurements, which scatter by a fifth and shake about their mean."
        )
        return (Mark(_CLIMB, self.ratio, 0.0, text),)


def _state(ratio: float) -> str:
    if ratio > 0.0:
        return "climb: the air comes from above"
    if ratio == 0.0:
        return "hover"
    if ratio <= NO_ANSWER[0]:
        return "windmill: the air comes from below"
    return "the wake meets the disc again"


def compute(values: Values, rotor: Rotor) -> Answer:
    """Induced speed at this climb, least power of the disc, and what collective the change of inflow asks for."""
    loaded = loaded_with(rotor, float(values["mass"]))
    density, _ = air_of(values)
    area = math.pi * loaded.radius**2
    hover = hover_induced(loaded.weight, density, area)
    climb = float(values[_CLIMB])
    ratio = climb / hover
    between = "empirical" if values["between"] == "curve" else "refuse"
    induced = axial_ratio(ratio, between)  # type: ignore[arg-type]
    flow = Flow(hover, ratio, induced, _state(ratio))
    tip = loaded.speed * loaded.radius
    through = climb + induced * hover
    results: dict[str, float | str] = {
        "induced": induced * hover,
        "hover_induced": hover,
        "through": through,
        "ratio": ratio,
        "power": ideal_power(loaded.weight, induced * hover, climb),
        "hover_power": ideal_power(loaded.weight, hover),
        "power_ratio": axial_power_ratio(ratio, between),  # type: ignore[arg-type]
        "from_descent": -NO_ANSWER[0] * hover,
        "ring_from": RING_DESCENT,
        "state": flow.state,
        "handbook": _handbook(climb),
        "model": model_words(flow.outside),
    }
    if ratio >= 0.0:
        results["pitch_change"] = 1.5 * (through - hover) / tip
    return Answer(results, flow)


def _handbook(climb: float) -> str:
    if -climb < RING_DESCENT:
        return "no: its descent is slower than 300 ft/min"
    return "descent and airspeed, yes; the third is 20 to 100% of the power in use"


def describe(case: Case) -> str:
    """One sentence."""
    a, r, flow = case.show, case.result, case.answer.details
    assert isinstance(flow, Flow)
    climb = case.number(_CLIMB)
    way = (
        f"Climbing at {a('climb_rate', climb)}"
        if climb > 0.0
        else f"Sinking at {a('climb_rate', -climb)}"
        if climb < 0.0
        else "In the hover"
    )
    power = r("power")
    does = (
        f"the disc takes at least {a('power', power)}, against {a('power', r('hover_power'))} in the hover"
        if power >= 0.0
        else f"the air gives the disc {a('power', -power)}; in the hover it took {a('power', r('hover_power'))}"
    )
    down = r("through")
    through = f"{a('speed', abs(down), 1)} {'down' if down >= 0.0 else 'up'}"
    return f"{way} the rotor gives the air {a('speed', r('induced'), 1)}, and {through} goes through the disc; {does}.{model_sentence(flow.outside)}"


def working(case: Case) -> tuple[Step, ...]:
    """Hover, ratio, branch, power, pitch."""
    a, r, flow = case.show, case.result, case.answer.details
    assert isinstance(flow, Flow)
    branch = "curve" if flow.between else "climb" if flow.ratio >= 0.0 else "windmill"
    steps = [
        Step("Air sent down in the hover.",
             f"√({a('force', weight_of(case.number('mass')))} / (2 × density × disc area)) = {a('speed', flow.hover, 2)}", "hover"),
        Step("Climb over that; a descent is negative.",
             f"{tidy(case.number(_CLIMB), 2)} m/s / {flow.hover:.2f} m/s = {tidy(flow.ratio, 3)}"),
        Step("Air the rotor gives, over the hover’s: " + flow.state + ".", f"{flow.induced:.4f}", branch),
        Step("Least power of the disc: thrust times the air that goes through it.",
             f"{a('power', r('power'), 1)}, {tidy(r('power_ratio'), 3)} times the hover’s {a('power', r('hover_power'), 1)}", "power"),
        Step("Where it has no answer: descents up to twice the hover’s speed of the air.", a("climb_rate", r("from_descent"))),
        Step("Is this inside what the model can tell?", model_sentence(flow.outside).strip() or INSIDE),
    ]  # fmt: skip
    if flow.ratio >= 0.0:
        steps.insert(4, Step(
            "Collective for the changed inflow, at the same thrust and rotor speed (even inflow; an estimate).",
            f"1.5 × ({a('speed', r('through'), 2)} − {a('speed', flow.hover, 2)}) / tip speed = {a('angle', r('pitch_change'), 2)}",
            "pitch"))  # fmt: skip
    return tuple(steps)


def drawing(case: Case) -> Drawing:
    """The rotor from the side."""
    r, flow = case.result, case.answer.details
    assert isinstance(flow, Flow)
    climb, through = case.number(_CLIMB), r("through")
    rate = case.show("climb_rate", abs(climb))
    return climbing(
        climb, through, 2.2 * flow.hover, flow.between,
        (f"{'climbs' if climb > 0.0 else 'sinks'} at {rate}" if climb else "stands",
         f"air through the disc: {case.show('speed', abs(through), 1)} {'down' if through >= 0.0 else 'up'}"),
        flow.state[0].upper() + flow.state[1:],
    )  # fmt: skip


def chart(case: Case) -> Chart:
    """Air through the disc and air given, over climb."""
    flow = case.answer.details
    assert isinstance(flow, Flow)
    xs = [_FROM + (_TO - _FROM) * i / _STEPS for i in range(_STEPS + 1)]
    given = [axial_ratio(x, "empirical") * flow.hover for x in xs]
    here = case.number(_CLIMB)
    rates = tuple(x * flow.hover for x in xs)
    return Chart(
        f"Air over climb; down to {case.show('climb_rate', -2.0 * flow.hover, 0)} a curve through measurements",
        "climb", rates, "speed of the air, down", "speed",
        (Line("given by the rotor", "disc", tuple(given)),
         Line("through the disc", "pitch", tuple(g + v for g, v in zip(given, rates, strict=True)))),
        cursor=here if rates[0] <= here <= rates[-1] else None, every=5, x_quantity="climb_rate", cursor_field=_CLIMB,
    )  # fmt: skip


CALCULATOR = Calculator(
    id="climb",
    title="Climb and descent",
    question="What does the air do in a climb, and straight down?",
    page="flight/climb-and-descent.md",
    inputs=(
        Number(_CLIMB, "Climb", "climb_rate", -60, 60, (-30, 15, 0.5), fixed(3.0), 1, "negative is down"),
        Choice("between", "Where theory has no answer", (("none", "say so"), ("curve", "show a curve through measurements")), "none"),
        MASS,
        *AIR,
    ),
    figures_first=(),
    figures=("rpm", "radius_m"),
    results=(
        Result("through", "Air through the disc, down", "speed", 1),
        Result("induced", "… of it given by the rotor", "speed", 1),
        Result("power_ratio", "Least power, times the hover’s", "ratio", 2),
        Result("power", "Least power of the disc", "power", 0),
        Result("pitch_change", "Collective, against the hover", "angle", 1),
        Result("state", "State", "words"),
        Result("model", "Inside the model?", "words"),
        Result("handbook", "Handbook’s conditions of the vortex ring", "words", main=False),
        Result("hover_induced", "Air sent down in the hover", "speed", 1, main=False),
        Result("hover_power", "Least power in the hover", "power", 0, main=False),
        Result("ratio", "Climb over the hover’s air", "ratio", 2, main=False),
        Result("from_descent", "No answer from the hover down to a descent of", "climb_rate", 1, main=False),
        Result("ring_from", "The handbook’s descent", "climb_rate", 1, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "hover": r"v_h = \sqrt{\frac{W}{2\rho A}}",
        "climb": r"\frac{v_i}{v_h} = -\frac{x}{2} + \sqrt{\frac{x^2}{4} + 1},\quad x = \frac{V_c}{v_h} \ge 0",
        "windmill": r"\frac{v_i}{v_h} = -\frac{x}{2} - \sqrt{\frac{x^2}{4} - 1},\quad x \le -2",
        "curve": r"\frac{v_i}{v_h} = 1 - 1.125x - 1.372x^2 - 1.718x^3 - 0.655x^4",
        "power": r"P = W\,(V_c + v_i)",
        "pitch": r"\Delta\theta \approx \frac{3}{2}\,\frac{(V_c + v_i) - v_h}{\Omega R}",
    },
    limits=(
        "Straight up and down only, in still air. With airspeed the wake is swept away, and none of the middle part is true.",
        "The least power of a disc: what drags the blades, and the losses of a real inflow, come on top. Not for planning a flight.",
        "Between the hover and twice its downward air momentum theory has no answer. Asked for, a curve through measurements stands there: "
        "they scatter by a fifth, and the real flow shakes.",
        "The collective of a climb is an estimate with even inflow. How autorotation is flown, and where its blades stall, is not in it.",
    ),
    sources=(
        "Rankine and Froude (any text); J.G. Leishman, Principles of Helicopter Aerodynamics, ch. 2 (from memory).",
        "FAA-H-8083-21B, p. 11-9 (read): conditions of the vortex ring state.",
    ),
    examples=(
        Example("Air of 10 m/s in the hover: climbing at 5 m/s it is 7.807764 m/s, 1.280776 times the power", "momentum theory, re-derived",
                "alder3", {"climb": "5", "mass": "2461.33684"}, {},
                {"induced": (7.807764, 1e-5), "power_ratio": (1.280776, 1e-5), "hover_induced": (10.0, 1e-5)}),
        Example("Sinking at 25 m/s: 5 m/s, and the air gives twice the power that the hover took", "momentum theory, re-derived", "alder3",
                {"climb": "-25", "mass": "2461.33684"}, {}, {"power_ratio": (-2.0, 1e-5), "induced": (5.0, 1e-4)}),
    ),
    chart=chart,
)  # fmt: skip
