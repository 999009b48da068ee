"""How the induced flow is spread over the disc in forward flight: λ(x, ψ) = λ + λ_i (kx x cos ψ + ky x sin ψ).

kx > 0: more downwash toward the tail; ky < 0: less on the advancing side. Named first-harmonic models, from J.G.
Leishman, Principles of Helicopter Aerodynamics, 2nd ed., table 3.1, and R.T.N. Chen, NASA TM-102219 (abstract read),
both from memory. That table prints Pitt and Peters as 15π/23; their matrix gives 15π/32, used here. Left out: free
wake and tip vortices. In the hover every gradient is zero.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from ..faults import refuse
from .edgewise import Inflow, glauert_inflow

Gradient = tuple[float, float]


def _uniform(_: Inflow) -> Gradient:
    return 0.0, 0.0


def _coleman(flow: Inflow) -> Gradient:
    """kx = tan(χ/2)."""
    return math.tan(flow.skew / 2.0), 0.0


def _drees(flow: Inflow) -> Gradient:
    """kx = (4/3)(1 − cos χ − 1.8μ²)/sin χ, ky = −2μ."""
    if flow.mu == 0.0:
        return 0.0, 0.0
    chi = flow.skew
    return 4.0 / 3.0 * (1.0 - math.cos(chi) - 1.8 * flow.mu**2) / math.sin(chi), -2.0 * flow.mu


def _payne(flow: Inflow) -> Gradient:
    """kx = (4/3)(μ/λ)/(1.2 + μ/λ)."""
    return 4.0 / 3.0 * flow.mu / (1.2 * flow.total + flow.mu), 0.0


def _white_blake(flow: Inflow) -> Gradient:
    """kx = √2 sin χ."""
    return math.sqrt(2.0) * math.sin(flow.skew), 0.0


def _howlett(flow: Inflow) -> Gradient:
    """kx = sin² χ."""
    return math.sin(flow.skew) ** 2, 0.0


def _pitt_peters(flow: Inflow) -> Gradient:
    """kx = (15π/32) tan(χ/2)."""
    return 15.0 * math.pi / 32.0 * math.tan(flow.skew / 2.0), 0.0


MODELS: Final[dict[str, Callable[[Inflow], Gradient]]] = {
    "uniform": _uniform, "coleman": _coleman, "drees": _drees, "pitt_peters": _pitt_peters, "payne": _payne,
    "white_blake": _white_blake, "howlett": _howlett,
}  # fmt: skip
DEFAULT_MODEL: Final = "drees"


def gradient(flow: Inflow, model: str = DEFAULT_MODEL) -> Gradient:
    """(kx, ky) of a named model; the skew angle uses the total inflow. Unknown names are refused."""
    if model not in MODELS:
        raise refuse("inflow", f"Inflow: “{model[:40]}” must be one of {', '.join(MODELS)}.")
    return MODELS[model](flow)


@dataclass(frozen=True, slots=True)
class Stream:
    """The air a rotor meets: advance ratio, total and induced inflow (positive down), gradient along cos ψ and sin ψ."""

    mu: float
    total: float
    induced: float = 0.0
    kx: float = 0.0
    ky: float = 0.0


def stream(ct: float, mu: float, alpha: float = 0.0, model: str = DEFAULT_MODEL) -> Stream:
    """Glauert's mean inflow and a named gradient; `alpha` (rad) positive nose-down, of the plane the pitch is counted in."""
    flow = glauert_inflow(ct, mu, alpha)
    return Stream(mu, flow.total, flow.induced, *gradient(flow, model))
