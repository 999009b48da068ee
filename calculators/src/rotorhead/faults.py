"""What is wrong with what a reader entered: sentences, all at once, each with its field."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing refused: the field it belongs to and a sentence for the reader.

    `field` names an input of a calculator, or a figure of the head when `head` is true.
    """

    field: str
    text: str
    head: bool = False


class Refused(ValueError):
    """Raised when something entered cannot be used; carries every fault found, never just one."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__(" ".join(fault.text for fault in self.faults))


def refuse(field: str, text: str, *, head: bool = False) -> Refused:
    """A refusal with a single fault."""
    return Refused([Fault(field, text, head)])
