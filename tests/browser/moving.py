"""The moving view under a test's eye: where its joints are drawn, and where the package says they are."""

from __future__ import annotations

import math
import time
from collections.abc import Mapping
from functools import cache
from typing import Any

from playwright.sync_api import Locator, expect
from rotorhead import run
from rotorhead.motion.part_words import WORDS
from rotorhead.motion.parts import BY_ID
from rotorhead.motion.scene import scene
from rotorhead.motion.turn import motion_of
from rotorhead.topics import ALL
from rotorhead.topics.motion import setting_of

from . import oracle
from .reader import PATIENCE, Reader

PAGE = oracle.PAGE_OF["motion"]
STEPS = 720  # every half degree is a step of its own: nothing between steps is guessed
TOLERANCE = 0.05  # mm: what straight lines between the browser's 90 steps may be off, as motion/turn.py promises
# Chromium's own word about drawing in three dimensions without a graphics card.
SOFTWARE = "GL Driver Message .*GPU stall due to ReadPixels"

Place = tuple[float, float, float]


def head_and_inputs(base: str = "alder3", mirrored: bool = False, /, **inputs: str) -> str:
    """The fragment of a link that sets these."""
    pairs = [
        f"head={base}",
        *(["mirrored=1"] if mirrored else []),
        *(f"{name}={text}" for name, text in inputs.items()),
    ]
    return "#motion&" + "&".join(pairs)


def calculator(reader: Reader) -> Locator:
    return reader.calculator("motion")


def wake(reader: Reader, fragment: str = "") -> None:
    """Open the page, touch a control as a hand would, wait for the solid view."""
    reader.watch.allow(SOFTWARE)
    reader.open(PAGE, fragment)
    reader.touch("motion")
    reader.state("motion", "live")
    expect(calculator(reader)).to_have_attribute("data-solid", "")


def put(reader: Reader, base: str = "alder3", mirrored: bool = False, /, **inputs: str) -> dict[str, Any]:
    """Set head and inputs through the address; wait until page and package say the same; give the door's answer."""
    answer = oracle.run("motion", base, mirrored, inputs=inputs)
    assert answer["state"] == "result", answer
    # Written to the address by hand or link, the same words would be no change: an empty part makes them one.
    reader.page.evaluate(
        "hash => { location.hash = location.hash === hash ? `${hash}&` : hash; }",
        head_and_inputs(base, mirrored, **inputs),
    )
    reader.shows("motion", answer)
    return answer


def where(reader: Reader) -> dict[str, Any]:
    """Where the view has drawn the joints, mm: x to the right of the machine, y to its nose, z up."""
    found: dict[str, Any] = calculator(reader).evaluate("one => one.stage.view.where()")
    return found


@cache
def _scene(base: str, mirrored: bool, inputs: tuple[tuple[str, str], ...], steps: int) -> dict[str, Any]:
    rotor = run.rotor_of(run.HeadChoice(base, mirrored, {}), "metric")
    values = run.parse_inputs(ALL["motion"], dict(inputs), rotor, "metric")
    return scene(motion_of(rotor, setting_of(values), steps))


def _turned(row: list[float], angle: float) -> list[Place]:
    """Points of a turning part, turned about the mast by an angle in degrees."""
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    points = zip(row[0::3], row[1::3], row[2::3], strict=True)
    return [(x * c - y * s, x * s + y * c, z) for x, y, z in points]


def joints(scene_now: Mapping[str, Any], angle: float) -> dict[str, list[Place]]:
    """A scene's joints at an angle that is one of its steps."""
    step, rest = divmod((angle % 360.0) * scene_now["steps"] / 360.0, 1.0)
    assert rest == 0.0, f"{angle}° is not a step"
    turn = scene_now["sense"] * angle
    rows = {name: _turned(scene_now[name][int(step)], turn) for name in ("feet", "horns", "drive")}
    still = [tuple(rod[end]) for rod in scene_now["rods"] for end in ("foot", "joint")]
    centre = scene_now["centre"]

    def arm(axis: list[float], radius: float) -> Place:
        """Where a ring is held by its scissors: out along its first axis."""
        return centre[0] + radius * axis[0], centre[1] + radius * axis[1], centre[2] + radius * axis[2]

    # Scissors that are off, or have play, hang elsewhere than the ring's arm; else the two are one joint.
    kind = scene_now["kind"]
    axis = _turned(scene_now["ring"][int(step)], turn)[0]
    off = kind in ("drive_off", "play_scissors")
    driven = arm(list(axis), scene_now["ringRadius"]) if off else rows["drive"][0]
    held = (
        arm(scene_now["still"], scene_now["rodRadius"])
        if kind == "stationary_off"
        else tuple(scene_now["stationary"][:3])
    )
    return {
        "rods": still,
        "feet": rows["feet"],
        "horns": rows["horns"],
        "ring": [*rows["feet"], driven],
        "still ring": [*still[1::2], held],
    }


def package(angle: float, base: str = "alder3", mirrored: bool = False, /, **inputs: str) -> dict[str, list[Place]]:
    """Where the package puts the joints with the rotor turned by an angle, worked out for just that angle."""
    return joints(_scene(base, mirrored, tuple(sorted(inputs.items())), STEPS), angle)


def drawn(seen: Mapping[str, Any]) -> dict[str, list[Place]]:
    """What the view says of its joints, under the package's names; a link's lower end is its foot."""
    return {
        "rods": [tuple(end) for rod in seen["rods"] for end in rod],
        "feet": [tuple(link[0]) for link in seen["links"]],
        "horns": [tuple(horn) for horn in seen["horns"]],
        "ring": [tuple(eye) for eye in seen["eyes"]],
        "still ring": [tuple(eye) for eye in seen["stillEyes"]],
        "link tops": [tuple(link[1]) for link in seen["links"]],
    }


def differences(seen: Mapping[str, Any], wanted: Mapping[str, list[Place]]) -> dict[str, float]:
    """Joints that stand off their place by more than the tolerance, mm."""
    found = drawn(seen)
    far: dict[str, float] = {}
    for name, places in {**wanted, "link tops": wanted["horns"]}.items():
        if len(found[name]) != len(places):
            return {f"{name}: {len(found[name])} drawn, {len(places)} wanted": math.inf}
        for i, (a, b) in enumerate(zip(found[name], places, strict=True)):
            if math.dist(a, b) > TOLERANCE:
                far[f"{name} {i + 1}"] = round(math.dist(a, b), 3)
    return far


def stands(
    reader: Reader, angle: float, base: str = "alder3", mirrored: bool = False, /, **inputs: str
) -> dict[str, Any]:
    """Wait until every joint is drawn where the package puts it; give what is drawn."""
    inputs.pop("rotor_angle", None)
    wanted = package(angle, base, mirrored, **inputs)
    seen = where(reader)
    end = time.monotonic() + PATIENCE
    while differences(seen, wanted) and time.monotonic() < end:
        reader.page.wait_for_timeout(50)
        seen = where(reader)
    far = differences(seen, wanted)
    assert far == {}, f"{far}: drawn at {seen['angle']}°, wanted at {angle}°"
    assert abs(seen["angle"] - angle % 360.0) < 0.01
    return seen


def bearing(place: Place) -> float:
    """Degrees clockwise from the nose, seen from above."""
    return math.degrees(math.atan2(place[0], place[1])) % 360.0


def press(reader: Reader, name: str) -> None:
    calculator(reader).get_by_role("button", name=name, exact=True).click()


def field(reader: Reader, name: str) -> Locator:
    """The text box or list of a field, wherever it is folded away."""
    return reader.box("motion", name).locator("input.hd-text, select.hd-choice")


def trace(reader: Reader) -> Locator:
    return calculator(reader).locator(".hd-trace")


def tells(reader: Reader, part: str) -> None:
    """The tour tells of this part, and leads to a page there is."""
    told = BY_ID[part]
    tour = calculator(reader).locator("[data-part=tour]")
    for text in (told.label, *WORDS[told.id]):
        expect(tour).to_contain_text(text)
    expect(tour.locator(".hd-part-turns, .hd-part-stays")).to_have_text(
        "turns with the rotor" if told.turns else "stays with the fuselage"
    )
    link = tour.get_by_role("link", name="Its page")
    address = link.evaluate("one => one.href")
    assert reader.page.request.get(address).ok, address
