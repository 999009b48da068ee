"""The calculators, one file each; `ALL` has them in the order of the chain and imports each when asked for.

Importing lazily keeps the browser's first download small: it fetches the calculator a page carries and no
other (scripts/site/parts.py).
"""

from collections.abc import Iterator, Mapping
from importlib import import_module
from typing import Final

from ..faults import refuse
from ..fields import Calculator

IDS: Final = (
    "phase", "rods", "plate", "pitch", "lag", "disc", "gyro",
    "reach", "scissors", "joint", "links", "link-load", "rod-load", "shake", "boost",
    "hover", "air", "climb", "coning", "speed", "stick", "control-power", "delta-three", "lead-lag",
    "motion", "wheel",
    "describe", "worksheet", "setups", "agree", "beside",
)  # fmt: skip


def module_of(name: str) -> str:
    """The module that declares a calculator: 'link-load' stands in link_load.py."""
    return name.replace("-", "_")


def named(name: str) -> Calculator:
    """A calculator by id, or `Refused` naming those there are."""
    if name not in IDS:
        raise refuse("calculator", f"There is no calculator “{name[:40]}”; there are {', '.join(IDS)}.")
    found: Calculator = import_module(f"{__name__}.{module_of(name)}").CALCULATOR
    return found


class _Calculators(Mapping[str, Calculator]):
    """All calculators by id, each imported on first use."""

    def __getitem__(self, name: str) -> Calculator:
        if name not in IDS:
            raise KeyError(name)
        return named(name)

    def __iter__(self) -> Iterator[str]:
        return iter(IDS)

    def __len__(self) -> int:
        return len(IDS)


ALL: Final[Mapping[str, Calculator]] = _Calculators()
