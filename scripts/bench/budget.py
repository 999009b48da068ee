"""A measured figure against its budget: printed, and kept for the page of speeds when record.py asks for it."""

from __future__ import annotations

import json
import os
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

# A JSON file that gets a row for each figure; set by record.py.
RECORD = "HAND_TO_DISC_RECORD"


@dataclass(frozen=True)
class Figure:
    """What was measured, in `unit`, and the most it may be; `how` says how it was measured."""

    what: str
    value: float
    unit: str
    budget: float
    how: str

    @property
    def within(self) -> bool:
        return self.value <= self.budget


def judged(figures: Sequence[Figure]) -> int:
    """Print each with its verdict, record them where that is asked for; 1 when one is over its budget."""
    for one in figures:
        digits = 2 if one.budget < 2 else 1
        verdict = "within the budget" if one.within else "OVER THE BUDGET"
        print(f"{one.what}: {one.value:.{digits}f} of at most {one.budget:g} {one.unit}: {verdict}".replace("  ", " "))
    kept = os.environ.get(RECORD)
    if kept:
        path = Path(kept)
        rows = json.loads(path.read_text(encoding="utf-8")) if path.is_file() else []
        rows = [row for row in rows if row["what"] not in {one.what for one in figures}]
        path.write_text(json.dumps([*rows, *map(asdict, figures)], indent=1, ensure_ascii=False), encoding="utf-8")
    return 0 if all(one.within for one in figures) else 1
