"""Inputs and phrases the calculators of measured readings share."""

from collections.abc import Callable

from ..faults import Fault, Refused
from ..fields import Choice, Number, Text, Values, fixed
from ..measure.fit import Estimate, Fit, harmonic_fit
from ..measure.readings import Reading, corrected
from ..measure.typed import Place, parse_readings
from ..rotor import Rotor

Show = Callable[[str, float, int | None], str]
LONGEST = 2500

AT = Choice("at", "Places are given as", (("bearing", "bearings of the blade, clockwise from the nose"),
                                         ("azimuth", "azimuths, from the tail in the direction of rotation")), "bearing")  # fmt: skip
ERROR = Number(
    "error", "One reading is good to", "angle", 0.005, 5, (0.05, 1, 0.05), fixed(0.1), 2,
    "standard error; used when there are too few readings to tell", group="More",
)  # fmt: skip
DROOP = Number(
    "droop", "The blade droops or cones by", "angle", -15, 15, (-6, 6, 0.5), fixed(0.0), 1,
    "the inclinometer lies along the chord; the readings are corrected for it", group="More",
)  # fmt: skip


def readings_text(name: str, label: str, default: str, help_text: str = "place and reading, one pair a line") -> Text:
    """A list of readings."""
    return Text(name, label, LONGEST, default, help_text)


def as_read(values: Values, name: str, label: str, rotor: Rotor, droop: float = 0.0) -> tuple[Reading, ...]:
    """The readings in a text, put right for a droop (rad); its faults carry the input's own name."""
    at: Place = "bearing" if values["at"] == "bearing" else "azimuth"
    try:
        return corrected(parse_readings(str(values[name]), at, rotor.rotation), droop)
    except Refused as refused:
        raise Refused([Fault(name, f"{label}: {f.text.removeprefix('Readings: ')}") for f in refused.faults]) from None


def fit_of(values: Values, name: str, label: str, rotor: Rotor, second: bool = False) -> Fit:
    """The wave through a text of readings."""
    readings = as_read(values, name, label, rotor, float(values["droop"]))
    try:
        return harmonic_fit(readings, second, float(values["error"]))
    except Refused as refused:
        raise Refused(
            [Fault(f.field if f.field in values else name, f"{label}: {f.text}") for f in refused.faults]
        ) from None


def plus_minus(show: Show, estimate: Estimate, places: int = 2) -> str:
    """'8.03° ± 0.06°': the 95 % interval."""
    return f"{show('angle', estimate.value, places)} ± {show('angle', estimate.high - estimate.value, places)}"


def span_text(low: float, high: float, places: int) -> str:
    """'150.0 to 250.0' as it is typed into a field; one number where both ends read alike, which is no range."""
    least, most = f"{low:.{places}f}", f"{high:.{places}f}"
    return least if least == most else f"{least} to {most}"
