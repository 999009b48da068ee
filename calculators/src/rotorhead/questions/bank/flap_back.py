"""Flap-back and the stick: where the disc is high, what still hands do, which cyclic answers, the roll at low speed."""

import math

from ...blade.flap import flapping_of
from ...conventions import advancing_side, after_side, azimuth_of, bearing_of, bearing_words, degrees_text
from ...drawing.rose import predict_rose
from ...fields import Step
from ...flight.hover import thrust_coefficient
from ...rotor import SEA_LEVEL_DENSITY
from ...units import KNOT_M_PER_S
from ..model import Bearing, Option, Question, Setting, Template, Wrong, around_turn
from ..ways import HANDBOOK, worked
from .sides import BRISK, unequal_air
from .wording import airspeed, drawn, knots

DEGREE = math.radians(1.0)
SPEED, STICK = "speed", "stick"
BLOWBACK = f"{HANDBOOK}, pp. 2-20, 2-21 (read): with speed the nose rises, and the cyclic goes forward."
TRANSVERSE = f"{HANDBOOK}, p. 2-23 (read): transverse flow, a slight roll on the way to about 20 knots; anticlockwise to the right."


def _highest(setting: Setting) -> Question:
    from ...flight.flapper import flap_blade

    rotor = setting.rotor
    speed = airspeed(setting, BRISK)
    lag = flapping_of(rotor).lag
    flap = unequal_air(rotor, flap_blade(rotor, SEA_LEVEL_DENSITY), speed / (rotor.speed * rotor.radius))
    value = bearing_of(math.atan2(flap.sine, flap.cosine), rotor.rotation)
    strong, weak = (bearing_of(quarters * math.pi / 2.0, rotor.rotation) for quarters in (1.0, 3.0))
    tolerance = 9.0 * DEGREE
    wrong = (
        Wrong(strong, "highest-where-lift-is-most"),
        Wrong(value + math.pi, "speed-tilts-it-forward"),
        Wrong(weak, "sides-taken-for-each-other"),
        Wrong(bearing_of(azimuth_of(strong, rotor.rotation) - lag, rotor.rotation), "wrong-way-of-turning"),
    )
    steps = (
        Step("The lift is greatest straight out on the advancing side; the lag on from there.", f"{bearing_words(strong)}, {degrees_text(lag, 0)}"),
        Step(f"The flap model at {setting.show('airspeed', speed)}, with equal pitch, even inflow and no cone: highest.", bearing_words(value)),
    )  # fmt: skip
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above, and flies straight ahead at {setting.show('airspeed', speed)}. In thought the pitch is the same all round and the blades don’t "
        f"cone. A blade’s lift is greatest {bearing_words(strong)}; the lag is {degrees_text(lag, 0)}. Mark where the disc is highest.",
        Bearing(value, tolerance, around_turn(value, tolerance, wrong)),
        f"The lag counts from the greatest lift, in the direction of rotation. So the disc tilts back{'' if abs(lag - math.pi / 2.0) < 5.0 * DEGREE else ', and on this head to one side as well'}.",
        worked(setting, "speed", steps, BLOWBACK, speed=knots(speed)),
        predict_rose(rotor.rotation).svg,
    )  # fmt: skip


def _still(setting: Setting) -> Question:
    from ...flight.held import hands_held

    rotor = setting.rotor
    speed = airspeed(setting, (0.08, 0.1, 0.12, 0.15))
    back = hands_held(rotor, speed, SEA_LEVEL_DENSITY).back
    size = setting.show("angle", abs(back))
    right, other = (f"Back, by about {size}", f"Forward, by about {size}")
    if back < 0.0:
        right, other = other, right
    steps = (
        Step("The hover’s pitch, collective and cyclic; air along the disc, inflow by a named model with more of it at the rear (after Drees).", setting.show("airspeed", speed)),
        Step("The flap model: how far the disc has gone back from where it stood in the hover.", setting.show("angle", back)),
    )  # fmt: skip
    return Question(
        f"{setting.label} hovers. In thought lever and stick are held just there, the mast stays upright, and the machine is taken up to "
        f"{setting.show('airspeed', speed)}, straight ahead. Which way has the disc tilted against the mast, fore and aft?",
        drawn(setting, right, (
            Option(other, "speed-tilts-it-forward"),
            Option(f"Neither way: it has gone down on the {after_side(rotor.rotation)} by {size}", "low-on-the-weak-side"),
            Option("Neither way: the hands are still, and so is the disc", "hands-still-disc-still"),
        )),
        f"The {advancing_side(rotor.rotation)} side has more air. A blade rises there, and is highest about a quarter of a turn later, at the nose.",
        worked(setting, "speed", steps, BLOWBACK, speed=knots(speed), hands="held"),
    )  # fmt: skip


def _cyclic(setting: Setting) -> Question:
    from ...flight.balance import balance
    from ...flight.flapper import flap_blade
    from ...flight.inflow import stream

    rotor = setting.rotor
    speed = airspeed(setting, BRISK)
    ct = thrust_coefficient(rotor)
    air = stream(ct, speed / (rotor.speed * rotor.radius))
    level, _ = balance(flap_blade(rotor, SEA_LEVEL_DENSITY), air).pitch_for(ct, 0.0, 0.0)
    least = bearing_of(math.atan2(-level.sine, -level.cosine), rotor.rotation)
    strong, weak = advancing_side(rotor.rotation), after_side(rotor.rotation)
    less, more = (strong, weak) if level.sine < 0.0 else (weak, strong)
    wave = setting.show("angle", math.hypot(level.cosine, level.sine))
    steps = (
        Step("The flap model turned round: the wave of pitch that keeps the disc square to the mast.", f"{wave} each way, least {bearing_words(least)}"),
        Step("Its two parts: less on the advancing side; and less at the nose or the tail.",
             f"{setting.show('angle', -level.sine)} on the {strong}; {setting.show('angle', abs(level.cosine))} {'at the nose' if level.cosine > 0.0 else 'at the tail'}"),
    )  # fmt: skip
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above. At {setting.show('airspeed', speed)} its disc would tilt back. Which change of the blades’ pitch holds it, in the main, and "
        "which stick makes it?",
        drawn(setting, f"Less on the {less}, more on the {more}: stick forward", (
            Option(f"Less on the {less}, more on the {more}: stick to the {less}", "stick-to-the-strong-side"),
            Option(f"More on the {less}, less on the {more}: stick back", "stick-follows-the-disc"),
            Option("Less at the nose, more at the tail: stick forward", "least-pitch-is-disc-low"),
        )),
        f"It takes off what the faster air puts on. Here the wave is {wave} each way, least {bearing_words(least)}.",
        worked(setting, "speed", steps, BLOWBACK, speed=knots(speed)),
    )  # fmt: skip


def _transverse(setting: Setting) -> Question:
    from ...flight.held import hands_held

    rotor = setting.rotor
    speed = setting.draw.among((12, 14, 16, 18, 20)) * KNOT_M_PER_S
    bent, even = (
        hands_held(rotor, speed, SEA_LEVEL_DENSITY, model=model).toward_advancing for model in ("drees", "uniform")
    )
    strong, weak = advancing_side(rotor.rotation), after_side(rotor.rotation)
    right, other = (strong, weak) if bent > even else (weak, strong)
    size = setting.show("angle", abs(bent - even))
    steps = (
        Step("Disc gone to the advancing side since the hover, hands held: with the inflow even, and with more of it at the rear (after Drees).",
             f"{setting.show('angle', even, 2)}; {setting.show('angle', bent, 2)}"),
    )  # fmt: skip
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above, and gathers speed out of the hover. At about {setting.show('airspeed', speed)} air hardly goes down through the front of its disc, but "
        "well through the rear. What does this difference of front and rear do, and what answers it?",
        drawn(setting, f"A roll to the {right}; stick to the {other}", (
            Option(f"A roll to the {other}; stick to the {right}", "slow-roll-is-weak-side"),
            Option("The nose rises, for the front lifts more; stick forward", "highest-where-lift-is-most"),
            Option("Nothing new: on the whole the air goes down evenly", "inflow-is-even"),
        )),
        f"The blades lift more at the nose and are highest about a quarter of a turn later, on the {other}. By the model the disc tilts {size} to the {right} for it.",
        worked(setting, "speed", steps, TRANSVERSE, speed=knots(speed), hands="held"),
    )  # fmt: skip


def _faster(setting: Setting) -> Question:
    from ...flight.inflow import DEFAULT_MODEL
    from ...flight.trim import balanced, hands_for

    rotor = setting.rotor
    slow, fast = airspeed(setting, (0.08, 0.1, 0.12)), airspeed(setting, (0.18, 0.2, 0.22, 0.24))
    first, then = (balanced(rotor, speed, SEA_LEVEL_DENSITY, None, DEFAULT_MODEL) for speed in (slow, fast))
    forward, further = (hands_for(rotor, state.pitch)[1] for state in (first, then))
    at, new, behind = (setting.show("percent", share) for share in (forward, further, 0.5 * forward))
    steps = (
        Step("Level flight: disc from weight and drag, pitch from the balance of flapping, stick by this head’s rigging.", f"{setting.show('airspeed', slow)}: {at} forward; {setting.show('airspeed', fast)}: {new}"),
        Step("Disc against the horizon, nose down.", f"{setting.show('angle', first.disc.tilt)}; {setting.show('angle', then.disc.tilt)}"),
    )  # fmt: skip
    return Question(
        f"In level flight at {setting.show('airspeed', slow)} the stick of {setting.label} stands {at} of its way forward. Where does it stand in steady level flight at "
        f"{setting.show('airspeed', fast)}?",
        drawn(setting, f"Further forward, at {new}", (
            Option("About in the middle: it was forward only to get going", "stick-forward-to-get-going"),
            Option(f"At {at} again: the lever makes the speed", "stick-and-speed-are-apart"),
            Option(f"Further back, at {behind}, to hold the nose up", "faster-is-further-back"),
        )),
        "Drag has to be pulled against, by a disc tilted further; and the faster air would tilt it back. Both take stick forward.",
        worked(setting, "stick", steps, BLOWBACK, speed=knots(fast)),
    )  # fmt: skip


TEMPLATES = (
    Template("disc-high-with-speed", "flap-back", 2, "where the disc is high with speed: lift, lag, direction of rotation", "mark", (SPEED,), _highest),
    Template("hands-held-still", "flap-back", 1, "what speed does to the disc with the hands still", "choice", (SPEED,), _still),
    Template("cyclic-against-flap-back", "flap-back", 2, "which cyclic pitch holds the disc at speed", "choice", (SPEED,), _cyclic),
    Template("roll-at-low-speed", "flap-back", 3, "which way transverse flow rolls the machine", "choice", (SPEED,), _transverse),
    Template("stick-with-speed", "flap-back", 1, "where the stick stands at more speed", "choice", (STICK,), _faster),
)  # fmt: skip
