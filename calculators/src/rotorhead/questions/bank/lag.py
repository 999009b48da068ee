"""Lag: its time, thin air, settling, the order of a blade's turn, and why a rotor is no free spinning disc."""

import math

from ...conventions import TURN, azimuth_of, bearing_of, bearing_words, degrees_text, wrap_turn
from ..model import Amount, Option, Order, Question, Setting, Template, Wrong, around
from .sticks import stick
from .wording import altitude, drawn, text_of

DEGREE = math.radians(1.0)


def _time(setting: Setting) -> Question:
    rotor = setting.rotor
    percent = setting.draw.among((94, 96, 98, 100, 102))
    solved = setting.run("lag")
    speed, lag = rotor.speed * percent / 100.0, solved.value("lag")
    value = lag / speed
    tolerance = 0.05 * value
    wrong = (
        Wrong(solved.value("settle_63"), "lag-is-slowness"),
        Wrong(TURN / speed, "answer-comes-next-turn"),
        Wrong(solved.value("settle_95"), "lag-is-slowness"),
        Wrong(0.0, "disc-answers-at-once"),
    )
    return Question(
        f"On {setting.label} a blade is lowest {setting.show('angle', lag)} of turning after its pitch was least. The rotor turns at "
        f"{setting.show('turn_rate', speed, 0)}. How many seconds lie between the two?",
        Amount(value, "time", tolerance, 4, around(value, tolerance, wrong)),
        f"One turn takes {setting.show('time', TURN / speed)}, and {setting.show('angle', lag)} is {lag / TURN:.3f} of a turn. The lag is "
        f"an angle round the disc; the disc takes {setting.show('time', solved.value('settle_95'), 2)} to take up a new tilt.",
        solved,
    )  # fmt: skip


def _thin_air(setting: Setting) -> Question:
    high = altitude(setting, ((2000, 6500), (2500, 8000), (3000, 10000), (3500, 11500), (4000, 13000), (4500, 15000)))
    sea, solved = setting.run("lag", altitude="0"), setting.run("lag", altitude=text_of(high))
    old, new = sea.value("lag"), solved.value("lag")
    ratio = solved.value("density") / sea.value("density")
    # What a reader sees is to a tenth of a degree: less than that counts as nothing.
    moved = new - old if abs(new - old) > 0.1 * DEGREE else 0.0
    size = abs(moved) or 3.0 * DEGREE
    at, less, more, by_air, ninety = (
        setting.show("angle", x) for x in (old, old - size, old + size, old * ratio, math.pi / 2.0)
    )
    shrinks, grows, stays = f"It falls to {less}", f"It grows to {more}", f"It stays at {at}"
    right = stays if not moved else shrinks if moved < 0.0 else grows
    return Question(
        f"At sea level the lag of {setting.label} is {at}; left to itself a blade would swing {solved.value('nu'):.3f} times a turn. At "
        f"{setting.show('altitude', high)} the air has {setting.show('percent', ratio)} of its density. What is the lag there?",
        drawn(setting, right, (
            Option(shrinks, "thin-air-takes-lag-off"),
            Option(grows, "thin-air-is-later"),
            Option(stays, "lag-is-geometry"),
            Option(f"It falls to {by_air}", "lag-goes-with-the-air"),
            *([Option(f"It is {ninety}, here as everywhere", "lag-is-always-ninety")] if abs(old - math.pi / 2.0) > 0.2 * DEGREE else []),
        )),
        f"Thinner air damps less, so whatever stiffness the blade has beyond its spin weighs more and takes the lag further from 90°. "
        f"{'Here there is hardly any, and the lag stays' if not moved else f'Here the lag goes from {at} to ' + setting.show('angle', new)}.",
        solved,
    )  # fmt: skip


def _settle(setting: Setting) -> Question:
    air = altitude(setting, ((0, 0), (1000, 3500), (2000, 6500), (3000, 10000)))
    solved = setting.run("lag", altitude=text_of(air))
    third = solved.value("settle_turns") / 3.0
    times, percent = setting.draw.among(((2, "86"), (3, "95"), (4, "98")))
    value = third * times
    tolerance = 0.07 * value
    wrong = (
        Wrong(third * float(percent) / 63.2, "settles-at-an-even-rate"),
        Wrong(solved.value("lag"), "settled-after-the-lag"),
        Wrong(TURN, "answer-comes-next-turn"),
    )
    return Question(
        f"The stick of {setting.label} is moved and held, in the air of {setting.show('altitude', air) if air else 'sea level'}. After "
        f"{setting.show('turns', third)} of the rotor the disc has made 63% of its way to the new tilt; in as many turns again it makes 63% of "
        f"what is then left, and so on. After how many turns has it made about {percent}% of its way?",
        Amount(value, "turns", tolerance, 2, around(value, tolerance, wrong)),
        f"Each {setting.show('turns', third)} leave 37% of what was left: {', '.join(f'{100 * (1 - math.exp(-n)):.0f}%' for n in range(1, times + 1))}. "
        f"That is {times} times as long.",
        solved,
    )


def _round(setting: Setting) -> Question:
    rotor = setting.rotor
    hand = stick(setting, (30, 40, 50, 60))
    solved = setting.run("disc", lever="50", **hand.inputs)
    f, h, low = solved.case.answer.details
    great, lowest = h.greatest, azimuth_of(low, rotor.rotation)
    places = {
        "its pitch is least": great + math.pi,
        "it is at its lowest": lowest,
        "its pitch is greatest": great,
        "it is at its highest": lowest + math.pi,
    }
    # The turn is begun half-way between two of the four, so that none of them lies at its beginning.
    starts = sorted(wrap_turn(place) for place in places.values())
    index = setting.draw.below(4)
    start = starts[index] + 0.5 * wrap_turn(starts[(index + 1) % 4] - starts[index])
    order = sorted(places, key=lambda name: wrap_turn(places[name] - start))
    begin = bearing_words(bearing_of(start, rotor.rotation))
    pitch_at, low_at = (
        bearing_words(bearing_of(places[name], rotor.rotation))
        for name in ("its pitch is least", "it is at its lowest")
    )
    return Question(
        f"{setting.label} turns {rotor.rotation}, seen from above. Its stick is held {hand.words}: a blade’s pitch is least {pitch_at}, and "
        f"the lag is {setting.show('angle', f.lag, 0)}. Follow one blade for a turn, beginning {begin}. What comes first, what next?",
        Order(tuple(f"{name[0].upper()}{name[1:]}" for name in order), "least-pitch-is-disc-low"),
        f"From least pitch it goes on down and is lowest {setting.show('angle', f.lag, 0)} later, {low_at}; half a turn from each of the two comes "
        "its opposite.",
        solved,
    )


def _gyro(setting: Setting) -> Question:
    seconds = setting.draw.step(2, 6, 1)
    hand = stick(setting, (20, 30, 40), ("forward", "back"))
    gyro = setting.run("gyro", time=text_of(seconds), push="1000")
    disc = setting.run("disc", lever="50", **hand.inputs)
    lag = setting.run("lag")
    tilt = setting.show("angle", disc.value("tilt"))
    settled = setting.show("time", lag.value("settle_95"), 2)
    return Question(
        f"A free spinning disc, pushed steadily for {seconds:.0f} s, has tilted {setting.show('angle', gyro.value('after'), 1)} and is still "
        f"tilting. On {setting.label}, in still air, the stick is put {hand.words} and held for as long, the fuselage held still. What does the "
        "rotor’s disc do?",
        drawn(setting, f"It tilts {tilt}, nearly all of it within {settled}, and stays", (
            Option("It goes on tilting as long as it is held, further and further", "disc-keeps-tilting"),
            Option(f"It tilts {tilt} within {settled}, and comes back to level", "disc-comes-back"),
            Option(f"It tilts {tilt}, and the low side wanders round it", "low-side-wanders"),
            Option(f"It swings past {tilt} and back, with nothing to calm it", "nothing-damps-the-disc"),
        )),
        f"Air damps the blades’ flapping, so each place of the stick has its tilt. The gyroscope tells the direction, a "
        f"quarter turn on; here the lag is {degrees_text(lag.value('lag'))}.",
        gyro,
    )  # fmt: skip


TEMPLATES = (
    Template("lag-in-seconds", "lag", 1, "that lag is an angle, and how short it is in time", "number", ("lag",), _time),
    Template("lag-in-thin-air", "lag", 3, "what takes the lag away from 90°", "choice", ("lag",), _thin_air),
    Template("turns-to-settle", "lag", 2, "how a new tilt settles", "number", ("lag",), _settle),
    Template("one-blades-turn", "lag", 2, "what a blade does after its least pitch", "order", ("disc",), _round),
    Template("not-a-free-disc", "lag", 2, "what a gyroscope explains and what it doesn’t", "choice", ("gyro", "disc", "lag"), _gyro),
)  # fmt: skip
