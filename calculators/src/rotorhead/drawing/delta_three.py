"""The horn and the flap hinge from above: the angle between them is delta-three."""

import math

from ..conventions import degrees_text, sense
from ..fields import Drawing
from ..rotor import Rotor
from .canvas import Canvas

_X, _Y = 44.0, 128.0


def tied_horn(rotor: Rotor) -> Drawing:
    """Mast, flap hinge, feathering axis and horn to scale, the blade pointing to the right; ahead is where it is going."""
    canvas = Canvas(340, 262, "delta")
    # A blade on the right side moves up the page when the rotor turns anticlockwise.
    up = sense(rotor.rotation)
    delta = math.atan(rotor.tan_delta3)
    reach = max(rotor.horn_station, rotor.hinge, 0.25 * abs(rotor.arm), 0.02)
    scale = min(170.0 / reach, 84.0 / max(abs(rotor.arm), 0.02))
    hinge_x, horn_x, horn_y = _X + scale * rotor.hinge, _X + scale * rotor.horn_station, _Y + up * scale * rotor.arm
    canvas.circle(_X, _Y, 9, "r-structure")
    canvas.text(_X, _Y + (26 if horn_y < _Y else -18), "mast", "t t-small")
    canvas.line(_X + 9, _Y, 322, _Y, "r-structure blade")
    canvas.text(322, _Y + (18 if up < 0 else -8), "blade", "t t-small", "end")
    canvas.line(hinge_x, _Y - 26, hinge_x, _Y + 26, "r-disc")
    canvas.text(hinge_x, _Y - up * 42 + 4, "flap hinge", "t t-small t-disc t-halo")
    canvas.line(horn_x, _Y, horn_x, horn_y, "r-pitch")
    canvas.circle(horn_x, horn_y, 5, "r-plate fill")
    beyond = math.copysign(1.0, horn_y - _Y)
    canvas.text(
        horn_x + 10, horn_y + 4 + beyond * 6, "end of the horn, on its link", "t t-small t-plate t-halo", "start"
    )
    if rotor.horn_rides and abs(delta) > math.radians(0.5):
        canvas.line(hinge_x, _Y, horn_x, horn_y, "r-plate thin")
        canvas.line(hinge_x, _Y, hinge_x, horn_y, "r-faint")
        at = 0.6
        words_x = hinge_x + at * (horn_x - hinge_x) / 2
        canvas.text(words_x, _Y + at * (horn_y - _Y) * 1.25, degrees_text(delta), "t t-strong t-halo")
    canvas.arrow(300, _Y + up * 40, 300, _Y + up * 76, "r-structure")
    canvas.text(292, _Y + up * 62 + 4, "ahead", "t t-small", "end")
    if not rotor.horn_rides:
        words = "the horn doesn’t ride with the flap: no tie"
    elif abs(delta) < math.radians(0.05):
        words = "level with the hinge: no tie"
    else:
        amount = degrees_text(math.radians(abs(rotor.tan_delta3)), 2)
        words = f"1° up {'takes' if delta > 0 else 'puts'} {amount} of pitch {'off' if delta > 0 else 'on'}"
    canvas.text(170, 252, words, "t t-small t-pitch")
    return Drawing(
        canvas.svg(),
        f"Flap hinge, feathering axis and horn from above, nose up the page, the blade pointing right: the line from the hinge to the "
        f"end of the horn leans {degrees_text(delta)} from square. {words[0].upper()}{words[1:]}.",
    )
