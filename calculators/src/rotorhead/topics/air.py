"""Calculator *air*: height and temperature -> what the air there is like, and the height it feels like to the rotor."""

from ..drawing.air import air_here
from ..fields import (
    Answer,
    Calculator,
    Case,
    Chart,
    Choice,
    Drawing,
    Example,
    Line,
    Number,
    Result,
    Step,
    Values,
    fixed,
)
from ..flight import atmosphere
from ..rotor import SEA_LEVEL_DENSITY, Rotor
from .air_inputs import WARMER
from .flight_inputs import places

_DENSITIES = (0.0, 6000.0)


def compute(values: Values, rotor: Rotor) -> Answer:
    """Standard atmosphere at the pressure altitude, shifted in temperature; density altitude."""
    altitude = float(values["altitude"])
    if values["height_as"] == "setting":
        altitude += atmosphere.pressure_altitude(float(values["setting"]))
    standard = atmosphere.standard_temperature(altitude)
    warmer = float(values["outside"]) - standard if values["temperature_as"] == "outside" else float(values["warmer"])
    density = atmosphere.density(altitude, warmer)
    return Answer({
        "density": density,
        "density_altitude": atmosphere.density_altitude(density),
        "share": density / SEA_LEVEL_DENSITY,
        "pressure_altitude": altitude,
        "pressure": atmosphere.pressure(altitude),
        "temperature": standard + warmer,
        "standard": standard,
        "warmer_found": warmer,
        "sound": atmosphere.speed_of_sound(altitude, warmer),
    })  # fmt: skip


def describe(case: Case) -> str:
    """One sentence."""
    a = case.show
    return (
        f"At a pressure altitude of {a('altitude', case.result('pressure_altitude'))} and "
        f"{a('temperature', case.result('temperature'), 0)} the air has a density of {a('density', case.result('density'))}, "
        f"{case.result('share') * 100:.0f}% of what it has at sea level in standard air; to the rotor that is a height of "
        f"{a('altitude', case.result('density_altitude'))}."
    )


def working(case: Case) -> tuple[Step, ...]:
    """Pressure altitude, temperature, pressure, density, sound, density altitude."""
    a, r = case.show, case.result
    height = case.number("altitude")
    steps = []
    if case.values["height_as"] == "setting":
        steps.append(Step(
            "Pressure altitude: height above sea level and the altitude that the setting has in standard air.",
            f"{a('altitude', height)} + {a('altitude', r('pressure_altitude') - height)} = "
            f"{a('altitude', r('pressure_altitude'))}"))  # fmt: skip
    return (
        *steps,
        Step("Standard temperature there, and how much warmer the air is.",
             f"{a('temperature', r('standard'))}; {a('temperature', r('temperature'))} is "
             f"{a('temperature_difference', r('warmer_found'), 1)} more", "temperature"),
        Step("Pressure depends on the pressure altitude alone.", a("air_pressure", r("pressure")), "pressure"),
        Step("Density of dry air (SI units).",
             f"{r('pressure'):.0f} / (287.05 × {r('temperature'):.2f}) = {r('density'):.4f}", "density"),
        Step("Speed of sound, by the temperature alone.", a("speed", r("sound"), 1), "sound"),
        Step("Density altitude: where standard air is as thin as this.",
             a("altitude", r("density_altitude")), "density_altitude"),
    )  # fmt: skip


def drawing(case: Case) -> Drawing:
    """Both altitudes on a scale, and how much air is in a box."""
    r = case.result
    return air_here(r("pressure_altitude"), r("density_altitude"), r("share"), case.units)


def chart(case: Case) -> Chart:
    """Density over pressure altitude, in standard air and in air as much warmer as this."""
    xs = places("altitude", *_DENSITIES, 12, case.units)
    here = case.result("pressure_altitude")
    warmer = case.result("warmer_found")
    return Chart(
        "Density of the air over pressure altitude", "pressure altitude", xs, "density", "density",
        (Line("air as much warmer as here", "disc", tuple(atmosphere.density(x, warmer) for x in xs)),
         Line("standard air", "structure", tuple(atmosphere.density(x) for x in xs))),
        cursor=here if xs[0] <= here <= xs[-1] else None, every=2, x_quantity="altitude",
        cursor_field="altitude" if case.values["height_as"] == "pressure" else "",
    )  # fmt: skip


CALCULATOR = Calculator(
    id="air",
    title="Air",
    question="What is the air like up there, and what height does it feel like to the rotor?",
    page="flight/hover-and-height.md",
    inputs=(
        Choice("height_as", "Height given as",
               (("pressure", "pressure altitude"), ("setting", "height above sea level and altimeter setting")), "pressure"),
        Number("altitude", "Height", "altitude", -500, 7000, (0, 5000, 50), fixed(1500.0), 0),
        Number("setting", "Altimeter setting (QNH)", "air_pressure", 900, 1080, (960, 1050, 1), fixed(1013.25), 2,
               applies=lambda values, rotor: values["height_as"] == "setting"),
        Choice("temperature_as", "Temperature given as",
               (("warmer", "difference from standard"), ("outside", "outside air temperature")), "warmer"),
        Number("warmer", WARMER.label, "temperature_difference", -50, 50, (-30, 40, 1), fixed(15.0), 0,
               applies=lambda values, rotor: values["temperature_as"] == "warmer"),
        Number("outside", "Outside air temperature", "temperature", -60, 55, (-40, 45, 1), fixed(20.0), 0,
               applies=lambda values, rotor: values["temperature_as"] == "outside"),
    ),
    figures_first=(),
    figures=(),
    results=(
        Result("density_altitude", "Density altitude", "altitude", 0),
        Result("density", "Density", "density", 3),
        Result("share", "… of that at sea level", "percent", 0),
        Result("temperature", "Temperature", "temperature", 1),
        Result("pressure", "Pressure", "air_pressure", 0),
        Result("sound", "Speed of sound", "speed", 0),
        Result("pressure_altitude", "Pressure altitude", "altitude", 0, main=False),
        Result("standard", "Standard temperature there", "temperature", 1, main=False),
        Result("warmer_found", "Warmer than standard by", "temperature_difference", 1, main=False),
    ),
    compute=compute,
    describe=describe,
    working=working,
    drawing=drawing,
    equations={
        "temperature": r"T_{\mathrm{std}} = 288.15 - 0.0065\,h",
        "pressure": r"p = 101325\left(\frac{T_{\mathrm{std}}}{288.15}\right)^{5.2559}",
        "density": r"\rho = \frac{p}{R\,T}",
        "sound": r"a = \sqrt{1.4\,R\,T}",
        "density_altitude": r"h_\rho = \frac{288.15}{0.0065}\left(1 - \left(\frac{\rho}{1.225}\right)^{0.23497}\right)",
    },
    limits=(
        "Dry air. Moist air is a little thinner: saturated at 30 °C by about 1.5%, as if some 150 m higher.",
        "Heights are pressure altitudes (geopotential); a tape measure would give 0.05% more at 3000 m.",
        "The air is taken as warmer or colder by as much at every height. A cold altimeter reads too high: not in it.",
    ),
    sources=(
        "ISO 2533:1975, standard atmosphere (constants from memory); compared with the table “U.S. Standard Atmosphere” in a "
        "mechanical engineers’ handbook (read).",
    ),
    examples=(
        Example("Standard air at 1000 m", "ISO 2533 (constants from memory), re-derived", "alder3", {"altitude": "1000", "warmer": "0"}, {},
                {"density": (1.111642, 1e-6), "temperature": (8.5, 1e-9), "pressure": (898.7457, 1e-4),
                 "density_altitude": (1000.0, 1e-6)}),
        Example("3000 m by the tape, 2998.58 m geopotential: 0.7012 bar, 268.66 K, 0.9093 kg/m³, 328.6 m/s",
                "Mechanical Engineers’ Handbook, vol. 4, table 6, U.S. Standard Atmosphere (read)", "alder3",
                {"altitude": "2998.58", "warmer": "0"}, {},
                {"density": (0.9093, 5.1e-5), "temperature": (268.66 - 273.15, 5e-3), "pressure": (701.2, 0.05), "sound": (328.6, 0.05)}),
        Example("5000 ft: 41.17 °F, 12.2277 psi", "table of the standard atmosphere (read) and ISO 2533, re-derived", "alder3",
                {"altitude": "1524", "warmer": "0"}, {}, {"density": (1.055546, 1e-6), "temperature": ((41.17 - 32.0) / 1.8, 3e-3),
                                           "pressure": (843.073, 1e-3)}),
    ),
    chart=chart,
)  # fmt: skip
