"""What the canvas of a field over the disc must show: colours at places, compared with the one array that Python made."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from html import unescape
from typing import Any

# Colours at places of the canvas, and those of the bands in the key. Read from a copy: reading the canvas itself again and
# again makes the browser warn.
COLOURS = """([field, places, names]) => {
  const box = field.closest("hd-calculator");
  const canvas = field.querySelector("canvas");
  const copy = Object.assign(document.createElement("canvas"), { width: canvas.width, height: canvas.height });
  const pen = copy.getContext("2d", { willReadFrequently: true });
  pen.drawImage(canvas, 0, 0);
  const seen = places.map(([x, y]) => [...pen.getImageData(Math.round(x * copy.width), Math.round(y * copy.height), 1, 1).data]);
  const bands = names.map((name) => {
    pen.fillStyle = getComputedStyle(field).getPropertyValue(name).trim();
    pen.fillRect(0, 0, 1, 1);
    return [...pen.getImageData(0, 0, 1, 1).data];
  });
  return [seen, bands, canvas.getBoundingClientRect().width];
}"""


def field_text(answer: dict[str, Any]) -> str:
    """The field's data in an answer of the door, as the element carries them."""
    html = str(answer["parts"]["field"])
    return unescape(html.partition('data-field="')[2].partition('"')[0])


def field_data(answer: dict[str, Any]) -> dict[str, Any]:
    """The same, read."""
    data: dict[str, Any] = json.loads(field_text(answer))
    return data


def calm_places(data: dict[str, Any]) -> list[tuple[int, int, int]]:
    """(station, column, band) where the whole neighbourhood lies well inside one band, away from figures and hatching."""
    levels, rows = data["levels"], data["rows"]
    found = []
    for i in range(3, len(rows) - 3):
        for k in range(72):
            near = [rows[i + a][(k + b) % 72] for a in (-1, 0, 1) for b in (-1, 0, 1)]
            if None in near or k % 9 in (0, 1, 8):
                continue
            bands = {sum(v >= level for level in levels) for v in near}
            if len(bands) == 1 and (band := bands.pop()) < len(levels):
                found.append((i, k, band))
    return found


def places_of(data: dict[str, Any], calm: Sequence[tuple[int, int, int]], width: float) -> list[list[float]]:
    """Those places as shares of a canvas so many pixels wide."""
    radius = 0.5 - 24.0 / width
    step = (data["outer"] - data["inner"]) / len(data["rows"])
    places = []
    for i, k, _ in calm:
        station, bearing = data["inner"] + (i + 0.5) * step, math.radians(5.0 * k)
        places.append([0.5 + radius * station * math.sin(bearing), 0.5 - radius * station * math.cos(bearing)])
    return places


def band_names(data: dict[str, Any]) -> list[str]:
    """The custom properties with the bands' colours."""
    return [f"--hd-band-{b}" for b in range(len(data["levels"]) + 1)]


def differ(seen: Sequence[Sequence[int]], bands: Sequence[Sequence[int]], calm: Sequence[tuple[int, int, int]]) -> int:
    """At how many places the colour seen isn't the band's."""
    return sum(
        max(abs(a - b) for a, b in zip(colour[:3], bands[band][:3], strict=True)) > 6
        for colour, (_, _, band) in zip(seen, calm, strict=True)
    )
