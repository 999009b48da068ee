"""Shared by the tests of the flight calculators: heads with typed figures, calculators run on typed texts."""

from rotorhead.fields import Case
from rotorhead.head import demonstration
from rotorhead.head_changes import changed
from rotorhead.mechanism.assembly import assembled
from rotorhead.rotor import Rotor
from rotorhead.run import run
from rotorhead.topics import named
from rotorhead.units import System


def rotor_of(head_id: str, **changes: str) -> Rotor:
    """A demonstration head with figures as a reader types them."""
    return assembled(changed(demonstration(head_id), changes))


def case(name: str, rotor: Rotor, system: System = "metric", **inputs: str) -> Case:
    """A calculator run on typed texts."""
    return run(named(name), inputs, rotor, system)
