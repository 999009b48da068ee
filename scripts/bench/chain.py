"""Speed of the exact chain, of forward flight and of every calculator, in CPython.

    .build/venv/bin/python scripts/bench/chain.py

Budgets: 72 azimuths of five blades, links closed exactly, within 3 ms; a whole trim in forward flight with its map of
angles of attack within 5 ms. Ends with 1 when one is broken.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "calculators" / "src"))

from budget import Figure, judged
from rotorhead.flight.balance import strip_balance
from rotorhead.flight.flapper import Pitch, flap_blade
from rotorhead.flight.inflow import stream
from rotorhead.flight.stick_trim import stick_trim
from rotorhead.head import demonstration
from rotorhead.mechanism.assembly import assembled
from rotorhead.mechanism.hands import rig_of
from rotorhead.mechanism.links import pitches_now
from rotorhead.render import parts
from rotorhead.rotor import of_head
from rotorhead.run import run
from rotorhead.topics import ALL

BUDGET_MS = 3.0
FLIGHT_BUDGET_MS = 5.0


def median_ms(work: Callable[[], object], times: int = 60) -> float:
    """Median of `times` runs, after a warm-up."""
    work()
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        spent.append(time.perf_counter() - start)
    return 1000.0 * statistics.median(spent)


def main() -> int:
    """Print a table; 1 when the budget is broken."""
    rotor = assembled(demonstration("dogwood5"))
    pose = rig_of(rotor).pose(0.6, 0.4, -0.3)
    turn = [i * 6.283185307179586 / 72 for i in range(72)]

    def chain() -> list[list[float]]:
        return [pitches_now(rotor, pose, mast) for mast in turn]

    spent = median_ms(chain)
    print(f"exact chain, 72 azimuths × 5 blades: {spent:.2f} ms (budget {BUDGET_MS:.0f} ms)")
    flying = of_head(demonstration("dogwood5"))
    blade, air = flap_blade(flying, 1.225), stream(0.006, 0.3, 0.1)
    flight = {
        "trim at 60 m/s with its map": median_ms(lambda: stick_trim(flying, 60.0)),
        "trim at 10 m/s, written out": median_ms(lambda: stick_trim(flying, 10.0)),
        "flapping summed round the turn": median_ms(lambda: strip_balance(blade, air).flap(Pitch(0.15, 0.03, -0.1))),
        "the same, five harmonics": median_ms(lambda: strip_balance(blade, air, 5).flap(Pitch(0.15, 0.03, -0.1))),
    }
    for name, took in flight.items():
        print(f"forward flight, {name}: {took:.2f} ms (budget {FLIGHT_BUDGET_MS:.0f} ms)")
    for name, calculator in ALL.items():
        whole = median_ms(lambda c=calculator: parts(c, run(c, {}, rotor)), 20)  # type: ignore[misc]
        print(f"  {name:8s} answer with drawing and working: {whole:.2f} ms")
    return judged([
        Figure("Exact chain, 72 azimuths and five blades", spent, "ms", BUDGET_MS, "in CPython"),
        Figure("Slowest answer of forward flight", max(flight.values()), "ms", FLIGHT_BUDGET_MS, "in CPython"),
    ])  # fmt: skip


if __name__ == "__main__":
    sys.exit(main())
