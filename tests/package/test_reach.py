"""What the hands reach before a rod stops, against brute force: every place of the stick tried, first order and exact."""

import json
import math
from functools import cache
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rotorhead import door
from rotorhead.conventions import TURN
from rotorhead.head import DEMONSTRATION, Head, demonstration, from_dict, to_dict
from rotorhead.head_changes import mirrored
from rotorhead.mechanism.hands import rig_of
from rotorhead.mechanism.reach import (
    gate_edge,
    hands_for_moves,
    inverse,
    lever_range,
    mixing,
    rod_moves,
    stick_limit,
    stick_region,
)
from rotorhead.rotor import Rotor, of_head

MANY = settings(max_examples=100, deadline=None, database=None, derandomize=True)
# Bearings of sets of rods: even, a right-angled set, four and five of them (they then hold the ring too firmly).
SETS = {"own": (), "square": (80, 170, 260), "four": (20, 110, 200, 290), "five": (0, 60, 150, 210, 300)}
HEADS = [(h, turned) for h in DEMONSTRATION for turned in (False, True)]
every_head = pytest.mark.parametrize(("head_id", "turned"), HEADS, ids=[f"{h}{'-mirrored' * t}" for h, t in HEADS])
every_set = pytest.mark.parametrize("rods", list(SETS))
heads = st.sampled_from([(h, r) for h in DEMONSTRATION for r in SETS])
directions = st.floats(0.0, TURN) | st.integers(0, 8).map(lambda i: i * TURN / 8.0)
shares = st.lists(st.floats(0.2, 1.5), min_size=5, max_size=5)


@cache
def rotor_of(head_id: str, rods: str = "own", turned: bool = False) -> Rotor:
    """A demonstration head, on other rods if asked for."""
    head: Head = demonstration(head_id)
    if SETS[rods]:
        described = to_dict(head) | {"rods": [{"bearing_deg": b, "stroke_mm": 120} for b in SETS[rods]]}
        head = from_dict(described)
    return of_head(mirrored(head) if turned else head)


def strokes_of(rotor: Rotor, parts: list[float]) -> list[float]:
    """Strokes as shares of what full collective with full stick asks of each rod."""
    return [part * need for part, need in zip(parts, rig_of(rotor).stroke_needed(), strict=False)]


def room(rotor: Rotor, strokes: list[float], lever: float, stick: np.ndarray) -> np.ndarray:
    """Least room any rod has left, m, at many places of the stick (rows: forward, left); first order, by numpy."""
    matrix = np.array(mixing(rotor))
    moves = matrix[:, :1] * (lever - 0.5) + matrix[:, 1:] @ stick.T
    return np.asarray(np.min(np.array(strokes)[:, None] / 2.0 - np.abs(moves), axis=0))


@every_set
@pytest.mark.parametrize("head_id", DEMONSTRATION)
def test_inverse(head_id: str, rods: str) -> None:
    """inverse × matrix = identity; for three rods the other way about too, for more it is what least squares leaves:
    a projection on what three hands can ask (numpy's pseudo-inverse)."""
    rotor = rotor_of(head_id, rods)
    matrix, back = np.array(mixing(rotor)), np.array(inverse(rotor))
    assert back @ matrix == pytest.approx(np.eye(3), abs=1e-12)
    assert back == pytest.approx(np.linalg.pinv(matrix), rel=1e-9, abs=1e-9)
    through = matrix @ back
    assert through @ through == pytest.approx(through, abs=1e-12)
    assert round(float(np.trace(through))) == 3
    if len(rotor.rod_azimuths) == 3:
        assert through == pytest.approx(np.eye(3), abs=1e-12)


@MANY
@given(head=heads, hands=st.tuples(st.floats(0.0, 1.0), st.floats(-1.0, 1.0), st.floats(-1.0, 1.0)))
def test_moves_tell_the_hands(head: tuple[str, str], hands: tuple[float, float, float]) -> None:
    """What the hands ask of any set of rods tells the hands again; one of four rods pulled off alone is shared out."""
    rotor = rotor_of(*head)
    moves = rod_moves(rotor, *hands)
    assert hands_for_moves(rotor, moves) == pytest.approx((hands[0] - 0.5, *hands[1:]), abs=1e-12)
    pulled = (moves[0] + 0.002, *moves[1:])
    expected = np.linalg.lstsq(np.array(mixing(rotor)), np.array(pulled), rcond=None)[0]
    assert hands_for_moves(rotor, pulled) == pytest.approx(expected, abs=1e-9)


@every_head
def test_first_order_moves_against_the_exact_ring(head_id: str, turned: bool) -> None:
    """Rod heights of the rigid ring with its scissors leave the matrix by less than r tan³ τ (both the tangent for the
    sine and the joint's error are of that order), about 1 mm at full stick; the stick's limit by that over the slope."""
    rotor = rotor_of(head_id, turned=turned)
    rig, strokes = rig_of(rotor), [0.8 * s for s in rotor.rod_strokes]
    middle = rig.heights(rig.pose(0.5, 0.0, 0.0))

    def exact(lever: float, forward: float, left: float) -> np.ndarray:
        heights = rig.heights(rig.pose(lever, forward, left))
        return np.array([h - m for h, m in zip(heights, middle, strict=True)])

    worst = 0.0
    for lever in (0.0, 0.6, 1.0):
        for i in range(8):
            a = i * TURN / 8 + 0.1
            c, s = math.cos(a), math.sin(a)
            off = np.abs(exact(lever, c, s) - rod_moves(rotor, lever, c, s))
            bound = rotor.rod_radius * math.tan(rig.pose(lever, c, s).tilt) ** 3
            assert float(off.max()) < bound
            worst = max(worst, float(off.max()))
            tried = np.linspace(0.0, 1.0, 81)
            fits = [bool(np.all(np.abs(exact(lever, t * c, t * s)) <= np.array(strokes) / 2.0)) for t in tried]
            found = stick_limit(rotor, strokes, lever, a)
            if found.rod:
                _, f, g = mixing(rotor)[found.rod - 1]
                reach = float(tried[fits.index(False) - 1]) if False in fits else 1.0
                assert reach == pytest.approx(found.stick, abs=1 / 80 + bound / abs(f * c + g * s))
            else:
                # By its own stop: all of it fits, or all but what the exact ring takes off at the end.
                slopes = [abs(f * c + g * s) for _, f, g in mixing(rotor)]
                assert tried[fits.index(False) if False in fits else -1] > 1.0 - 1 / 40 - bound / max(slopes)
    assert worst < 0.0015


@MANY
@given(head=heads, parts=shares, lever=st.floats(0.0, 1.0), toward=directions, square=st.booleans())
def test_stick_limit_by_trying(
    head: tuple[str, str], parts: list[float], lever: float, toward: float, square: bool
) -> None:
    """The furthest of 4001 places along a direction at which every rod has room; the rod named is out of room there
    (or keeps the stick from every place), and 0 means the stick's own stop."""
    rotor = rotor_of(*head)
    strokes, edge = strokes_of(rotor, parts), gate_edge(toward, square=square)
    tried = np.linspace(0.0, edge, 4001)
    places = np.stack([tried * math.cos(toward), tried * math.sin(toward)], axis=1)
    left = room(rotor, strokes, lever, places)
    furthest = float(tried[np.flatnonzero(left >= 0.0)[-1]]) if np.any(left >= 0.0) else 0.0
    found = stick_limit(rotor, strokes, lever, toward, square=square)
    if not np.any(left >= 0.0) and float(left.max()) > -1e-5:
        return  # so narrow a gap between two rods falls between the places tried
    assert found.stick == pytest.approx(furthest, abs=edge / 4000 + 1e-9)
    if found.rod == 0:
        assert found.stick == edge
    else:
        c, f, s = mixing(rotor)[found.rod - 1]
        slope = f * math.cos(toward) + s * math.sin(toward)
        move = c * (lever - 0.5) + found.stick * slope
        # At its stroke's end; or beyond it, when no place is reached at all.
        beyond = abs(move) - strokes[found.rod - 1] / 2.0
        assert beyond == pytest.approx(0.0, abs=1e-12) or (beyond > 0.0 and found.stick == 0.0)


def inside(outline: list[tuple[float, float]], x: float, y: float) -> bool:
    """Whether a place lies in a convex outline given anticlockwise."""
    return bool(outline) and all(
        (u - a) * (y - b) - (v - b) * (x - a) >= -1e-12
        for (a, b), (u, v) in zip(outline, [*outline[1:], outline[0]], strict=True)
    )


@settings(max_examples=40, deadline=None, database=None, derandomize=True)
@given(head=heads, parts=shares, lever=st.floats(0.0, 1.0), square=st.booleans())
def test_region_by_trying_the_whole_field(
    head: tuple[str, str], parts: list[float], lever: float, square: bool
) -> None:
    """961 places of the stick: in the outline exactly when every rod has room and the stick's own stop allows it.
    The round stop is drawn with 72 sides: places closer to it than their sagitta (1 - cos 2.5°) are left out."""
    rotor = rotor_of(*head)
    strokes = strokes_of(rotor, parts)
    outline = stick_region(rotor, strokes, lever, square=square)
    steps = np.linspace(-1.003, 1.003, 31)
    field = np.array([(x, y) for x in steps for y in steps])
    size = np.max(np.abs(field), axis=1) if square else np.hypot(field[:, 0], field[:, 1])
    left = room(rotor, strokes, lever, field)
    for (x, y), own, rods in zip(field, size, left, strict=True):
        if abs(own - 1.0) > 0.001 and abs(rods) > 1e-9:
            assert inside(outline, x, y) == (own < 1.0 and rods > 0.0), (x, y)


def test_region_that_leaves_out_the_centre() -> None:
    """Short strokes on two rods, lever up: the stick must be held to the side that lowers them, and only a part of the
    field away from the centre is reached."""
    rotor = rotor_of("birch2")
    strokes = strokes_of(rotor, [0.8, 0.42, 0.42])
    outline = stick_region(rotor, strokes, 1.0)
    assert len(outline) >= 3
    assert not inside(outline, 0.0, 0.0)
    assert all(room(rotor, strokes, 1.0, np.array([place]))[0] > -1e-12 for place in outline)
    assert stick_region(rotor, strokes_of(rotor, [0.2] * 3), 1.0) == []
    assert all(stick_limit(rotor, strokes_of(rotor, [0.2] * 3), 1.0, i * TURN / 36).stick == 0.0 for i in range(36))


@MANY
@given(head=heads, parts=shares, forward=st.floats(-1.0, 1.0), left=st.floats(-1.0, 1.0))
def test_lever_range_by_trying(head: tuple[str, str], parts: list[float], forward: float, left: float) -> None:
    """The lowest and highest of 2001 lever positions at which every rod has room; none when they cross over."""
    rotor = rotor_of(*head)
    strokes = strokes_of(rotor, parts)
    tried = np.linspace(0.0, 1.0, 2001)
    matrix = np.array(mixing(rotor))
    moves = matrix[:, :1] * (tried - 0.5) + (matrix[:, 1:] @ [forward, left])[:, None]
    fits = tried[np.all(np.abs(moves) <= np.array(strokes)[:, None] / 2.0, axis=0)]
    found = lever_range(rotor, strokes, forward, left)
    if not len(fits):
        assert found.high - found.low < 1 / 2000
        return
    assert (found.low, found.high) == pytest.approx((float(fits[0]), float(fits[-1])), abs=1 / 2000)
    assert (found.low_rod == 0) == (found.low == 0.0)
    assert (found.high_rod == 0) == (found.high == 1.0)


@pytest.mark.parametrize("degrees", range(0, 360, 15))
def test_edge_of_the_stick_s_own_stop(degrees: int) -> None:
    """Round: 1 everywhere. Square: the greater of the two movements is 1, so √2 in the corners."""
    a = math.radians(degrees)
    assert gate_edge(a, square=False) == 1.0
    edge = gate_edge(a, square=True)
    assert max(abs(edge * math.cos(a)), abs(edge * math.sin(a))) == pytest.approx(1.0, rel=1e-15)
    if degrees % 90 == 45:
        assert edge == pytest.approx(math.sqrt(2.0), rel=1e-12)


def answered(head_id: str, turned: bool, inputs: dict[str, str]) -> dict[str, Any]:
    """Results of the calculator by name."""
    head = {"base": head_id, "mirrored": turned, "changes": {}}
    reply = json.loads(door.answer(json.dumps({"op": "run", "calculator": "reach", "head": head, "inputs": inputs})))
    assert reply["state"] == "result", reply
    return {r["name"]: r["value"] for r in reply["results"]}


@every_head
def test_a_square_stop_asks_more_than_the_strokes_have(head_id: str, turned: bool) -> None:
    """Strokes made for the round stop give all of it (common practice, no source); in a square one's corners they
    don't, as the page says, and what is left is the least over the edge of the square, corners tried closely."""
    full = {"lever": "100", "stick_forward": "100", "stick_left": "0"}
    assert answered(head_id, turned, full)["full_full"] == pytest.approx(100.0, abs=1e-9)
    rotor = rotor_of(head_id, turned=turned)
    square = answered(head_id, turned, {**full, "gate": "square"})["full_full"] / 100.0
    least = 2.0
    for a in np.linspace(0.0, TURN, 361):
        edge = 1.0 / max(abs(math.cos(a)), abs(math.sin(a)))
        tried = np.linspace(0.0, 1.0, 501)
        places = edge * np.stack([tried * math.cos(a), tried * math.sin(a)], axis=1)
        for lever in (0.0, 1.0):
            fits = np.flatnonzero(room(rotor, list(rotor.rod_strokes), lever, places) >= -1e-12)
            least = min(least, float(tried[fits[-1]]))
    assert square < 1.0
    assert square == pytest.approx(least, abs=0.005)


def test_no_place_of_the_lever_is_told_in_words() -> None:
    """With strokes so short that the stick's place alone is too much, there is no range to name."""
    found = answered("alder3", False, {"stick_forward": "100", "stroke_share": "30"})
    assert (found["lever_low"], found["lever_high"]) == ("no position", "no position")
