"""Calculator *worksheet*: readings of an inclinometer round the turn -> mean, wave and place, with how sure they are."""

import json
import math
from html import escape

from ..conventions import azimuth_of, bearing_of, bearing_words
from ..drawing.fitted import fitted_wave
from ..fields import Answer, Calculator, Case, Choice, Drawing, Example, Number, Result, Step, Values, fixed
from ..measure.fit import Fit, more_readings
from ..measure.readings import to_csv
from ..rotor import Rotor
from ..units import show
from .readings_input import AT, DROOP, ERROR, as_read, fit_of, plus_minus, readings_text, span_text

# Invented readings: Alder 3's exact linkage with the stick 60 % forward, with a scatter of 0.08°.
_DEFAULT = "0 7.6\n45 2.8\n90 1.0\n135 3.4\n180 8.4\n225 13.1\n270 15.0\n315 12.7"


def compute(values: Values, rotor: Rotor) -> Answer:
    """Least squares, standard errors, what stands out, what more readings would bring."""
    fit = fit_of(values, "readings", "Readings", rotor, values["second"] == "yes")
    planned = more_readings(fit, int(float(values["planned"])))
    greatest = fit.greatest

    def words(quantity: str, si: float, places: int | None = None) -> str:
        return show(quantity, si, "metric", places)

    place = "no clear wave: nowhere"
    if greatest is not None:
        half = greatest.high - greatest.value
        place = f"{bearing_words(bearing_of(greatest.value, rotor.rotation), 1)} ± {words('angle', half, 1)}"
    misfits = ", ".join(f"reading {i + 1}" for i in fit.misfits)
    second = fit.second_amplitude
    return Answer(
        {
            "mean": plus_minus(words, fit.mean),
            "wave": plus_minus(words, fit.amplitude),
            "place": place,
            **({"second_wave": plus_minus(words, second)} if second else {}),
            "scatter": fit.scatter,
            "misfits": f"{misfits}: look again, nothing was left out" if misfits else "none",
            "planned_place": f"± {words('angle', 2.0 * planned.greatest, 1)}"
            if planned.greatest is not None
            else "no clear wave",
            "mean_value": fit.mean.value,
            "wave_value": fit.amplitude.value,
            "wave_error": fit.amplitude.error,
            **({"place_error": greatest.error} if greatest is not None else {}),
        },
        fit,
    )


def describe(case: Case) -> str:
    """One sentence."""
    fit: Fit = case.answer.details
    r = case.answer.results
    where = f" and greatest {r['place']}" if fit.phase_known else "; there is no clear wave in them"
    out = f" {str(r['misfits']).capitalize()}." if fit.misfits else ""
    return (
        f"From {len(fit.readings)} readings: mean pitch {r['mean']}, wave {r['wave']}{where} (95% intervals).{out} A parked head measures what "
        "plate and links ask for, not the lag."
    )


def working(case: Case) -> tuple[Step, ...]:
    """Model, scatter, intervals."""
    fit: Fit = case.answer.details

    def deg(x: float, places: int = 3) -> str:
        return case.show("angle", x, places)

    names = ("mean", "cosine", "sine", "second cosine", "second sine")
    parts = ", ".join(f"{n} {deg(v)}" for n, v in zip(names, fit.coefficients, strict=False))
    source = (
        f"from the residuals, with {fit.freedom} readings to spare (Student's t: {fit.factor:.2f} standard errors hold 95%)"
        if fit.from_residuals else "as stated: too few readings to tell it from the residuals"
    )  # fmt: skip
    tied = max(abs(v) for i, row in enumerate(fit.correlation) for j, v in enumerate(row) if i != j)
    return (
        Step("The wave that leaves the least sum of squares, azimuths from the tail in the direction of rotation.", parts, "wave"),
        Step("Scatter of one reading.", f"{deg(fit.scatter)}, {source}", "scatter"),
        Step("Standard errors of mean, wave and its place.",
             f"{deg(fit.mean.error)}, {deg(fit.amplitude.error)}, {deg(fit.greatest.error, 2) if fit.greatest else 'no clear wave'}"),
        Step("How far mean, cosine and sine are tied to each other by where the readings stand: 0 for even places, 1 where two can't "
             "be told apart.", f"at most {tied:.2f}"),
        Step("A reading stands out when its residual, judged by the other readings, is too large even for the largest of so many.",
             f"{case.answer.results['misfits']}"),
        Step(f"With {case.number('planned'):.0f} even readings of the same scatter the place of the wave would be known to",
             f"{case.answer.results['planned_place']} (95%)"),
    )  # fmt: skip


def _place(case: Case, azimuth: float) -> float:
    """An azimuth as the reader counts places, degrees."""
    return math.degrees(bearing_of(azimuth, case.rotor.rotation) if case.values["at"] == "bearing" else azimuth) % 360.0


def drawing(case: Case) -> Drawing:
    """Readings and wave."""
    fit: Fit = case.answer.details
    places = [_place(case, r.azimuth) for r in fit.readings]
    by_bearing = case.values["at"] == "bearing"
    turn = [math.radians(5.0 * i) for i in range(72)]
    curve = [math.degrees(fit.at(azimuth_of(a, case.rotor.rotation) if by_bearing else a)) for a in turn]
    return fitted_wave(
        places, [math.degrees(r.angle) for r in fit.readings], curve, fit.misfits,
        "bearing of the blade, degrees" if by_bearing else "azimuth, degrees",
        f"The readings and the wave through them. {describe(case)}",
    )  # fmt: skip


def _csv(case: Case) -> str:
    """The readings as they were typed, not put right for droop, places as the reader counts them."""
    rotation = case.rotor.rotation if case.values["at"] == "bearing" else None
    return to_csv(as_read(case.values, "readings", "Readings", case.rotor), rotation)


def table(case: Case) -> str:
    """Reading by reading; and what can be taken into the head."""
    fit: Fit = case.answer.details
    rows = ""
    for i, (reading, residual) in enumerate(zip(fit.readings, fit.residuals, strict=True)):
        note = "stands out" if i in fit.misfits else ""
        cells = (f"{_place(case, reading.azimuth):.1f}°", case.show("angle", reading.angle, 2),
                 case.show("angle", fit.at(reading.azimuth), 2), case.show("angle", residual, 2))  # fmt: skip
        mark = ' class="hd-differs"' if note else ""
        rows += f'<tr{mark}><th scope="row">{i + 1}</th>{"".join(f"<td>{escape(c)}</td>" for c in cells)}<td>{note}</td></tr>'
    mean = fit.mean
    use = json.dumps({"pitch_at_plate_zero_deg": span_text(math.degrees(mean.low), math.degrees(mean.high), 2)})
    return (
        '<div class="hd-scroll" tabindex="0" role="region" aria-label="Readings and residuals"><table class="hd-all"><caption>Reading by reading'
        '</caption><thead><tr><th scope="col">No.</th><th scope="col">Place</th><th scope="col">Read</th><th scope="col">Fitted</th>'
        f'<th scope="col">Residual</th><th scope="col">Remark</th></tr></thead><tbody>{rows}</tbody></table></div>'
        f'<p class="hd-use-row"><button type="button" class="hd-button" data-use="{escape(use)}">Use the mean in my head</button> '
        "as “Blade pitch with the horn level”, if the plate stood at height 0.</p>"
        f'<div class="hd-csv" hidden data-csv="{escape(_csv(case))}"></div>'
    )


CALCULATOR = Calculator(
    id="worksheet",
    title="Inclinometer worksheet",
    question="What do these readings say, and how sure is it?",
    page="own/inclinometer.md",
    inputs=(
        readings_text("readings", "Readings", _DEFAULT, "place and reading in degrees, one pair a line, in any order"),
        AT,
        Choice("second", "Look for a second wave", (("no", "no"), ("yes", "yes: two waves a turn besides")), "no"),
        ERROR,
        DROOP,
        Number("planned", "If you took this many readings", "count", 3, 72, (4, 48, 1), fixed(16.0), 0, group="More"),
    ),
    figures_first=(),
    figures=(),
    results=(
        Result("mean", "Mean pitch", "words"),
        Result("wave", "Wave", "words"),
        Result("place", "Pitch is greatest", "words"),
        Result("second_wave", "Second wave", "words"),
        Result("scatter", "Scatter of one reading", "angle", 2),
        Result("misfits", "Stands out", "words"),
        Result("planned_place", "With that many readings, its place", "words"),
        Result("mean_value", "Mean", "angle", 3, main=False),
        Result("wave_value", "Wave, amplitude", "angle", 3, main=False),
        Result("wave_error", "Standard error of the wave", "angle", 3, main=False),
        Result("place_error", "Standard error of its place", "angle", 2, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "wave": r"\theta(\psi) = \theta_0 + c\cos\psi + s\sin\psi",
        "scatter": r"s^2 = \frac{\sum e_i^2}{n - p}",
    },
    limits=(
        "A parked head measures plate to pitch: lead, gain, evenness. It can't measure the lag: no blade is flapping.",
        "Readings are taken as independent and equally good. Something that shifts all of them alike, such as a blade's twist or a bent "
        "datum, shows in nothing but the mean; a mast that leans by a degree puts a wave of a degree into them.",
        "The place of a wave that is not much larger than its error is not known at all; then no place is given.",
    ),
    sources=("ISO/IEC Guide 98-3 (GUM), 5.1.2 and annex H.3; outliers: any text on regression (from memory).",),
    examples=(
        Example("Four readings", "arithmetic: mean of the four, half the differences across", "alder3",
                {"readings": "0 10.2\n90 6.1\n180 5.8\n270 9.9", "at": "azimuth"}, {},
                {"mean_value": (8.0, 1e-9), "wave_value": (math.hypot(2.2, 1.9), 1e-9)}),
    ),
    extra={"readings": table},
)  # fmt: skip
