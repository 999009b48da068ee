"""Tables that stand between paragraphs like figures, for the chosen head."""

from html import escape

from .mechanism.reach import inverse, mixing
from .rotor import Rotor
from .units import System, from_si, show, tidy


def mixing_matrix(rotor: Rotor, system: System) -> str:
    """What each rod does for the hands, and what the hands must do for each rod alone."""

    def mm(x: float) -> str:
        return escape(show("small_length", x, system))

    rows = "".join(
        f'<tr><th scope="row">Rod {n}</th>' + "".join(f"<td>{mm(x)}</td>" for x in row) + "</tr>"
        for n, row in enumerate(mixing(rotor), 1)
    )
    per = from_si("small_length", 1.0, system)
    unit = "mm" if system == "metric" else "in"
    names = ("lever", "stick forward", "stick left")
    scale = 1.0 if system == "metric" else 0.1
    back = "".join(
        f'<tr><th scope="row">{name}</th>'
        + "".join(f"<td>{tidy(100.0 * x / per * scale, 2)}%</td>" for x in row)
        + "</tr>"
        for name, row in zip(names, inverse(rotor), strict=True)
    )
    rods = "".join(f'<th scope="col">rod {n}</th>' for n in range(1, len(rotor.rod_azimuths) + 1))
    step = f"1 {unit}" if system == "metric" else f"0.1 {unit}"
    return (
        '<table class="hd-matrix"><caption>From hands to rods</caption><thead><tr><td></td><th scope="col">lever, bottom to top</th>'
        f'<th scope="col">full stick forward</th><th scope="col">full stick left</th></tr></thead><tbody>{rows}</tbody></table>'
        f'<table class="hd-matrix"><caption>Back from rods to hands: {step} of each rod alone</caption>'
        f"<thead><tr><td></td>{rods}</tr></thead><tbody>{back}</tbody></table>"
    )
