"""Two figures with their errors on one scale: what is meant by agree, doubtful and disagree."""

from ..fields import Drawing
from ..numbers import round_step
from .canvas import Canvas


def two_bars(measured: float, measured_error: float, computed: float, computed_error: float, words: str) -> Drawing:
    """Measured and computed (degrees) as points with bars of one and two standard errors."""
    canvas = Canvas(340, 190, "agreed")
    reach = 2.4 * max(measured_error, computed_error, 0.02) + 0.1 * abs(measured - computed)
    low, high = min(measured, computed) - reach, max(measured, computed) + reach

    def x(value: float) -> float:
        return 24.0 + 292.0 * (value - low) / (high - low)

    step = round_step(high - low)
    places = 0 if step >= 1 else 1 if step >= 0.1 else 2
    level = step * round(low / step)
    while level <= high:
        if level >= low:
            canvas.line(x(level), 26, x(level), 146, "r-faint")
            canvas.text(x(level), 164, f"{level:.{places}f}°".replace("-", "\N{MINUS SIGN}"), "t t-small")
        level += step
    rows = (
        (56.0, measured, measured_error, "measured", "hand"),
        (112.0, computed, computed_error, "computed", "plate"),
    )
    for y, value, error, name, role in rows:
        canvas.line(x(value - 2 * error), y, x(value + 2 * error), y, f"r-{role} thin")
        for k in (1, 2):
            for side in (-1, 1):
                canvas.line(
                    x(value + side * k * error), y - 4 * k, x(value + side * k * error), y + 4 * k, f"r-{role} thin"
                )
        canvas.circle(x(value), y, 5, f"r-{role} fill")
        canvas.text(x(value), y - 14, name, f"t t-small t-halo t-{role}")
    canvas.text(170, 184, "short bars: one standard error, long bars: two", "t t-small")
    return Drawing(canvas.svg(), words)
