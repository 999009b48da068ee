"""What is painted, as numbers: contrast by WCAG 2.2's formula (relative luminance), pixels that differ between two pictures."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any

import numpy as np
from PIL import Image
from playwright.sync_api import Locator, Page

Grey = np.ndarray[Any, np.dtype[np.float32]]

_PARTS = np.arange(256) / 255.0
_LINEAR = np.where(_PARTS <= 0.04045, _PARTS / 12.92, ((_PARTS + 0.055) / 1.055) ** 2.4).astype(np.float32)
# A table for each of red, green and blue: a long page has twenty million pixels.
_TABLES = [_LINEAR * np.float32(weight) for weight in (0.2126, 0.7152, 0.0722)]


def luminance(png: bytes) -> Grey:
    """Relative luminance of each pixel, 0 to 1 (WCAG 2.2, definition of relative luminance)."""
    red, green, blue = (np.asarray(part) for part in Image.open(io.BytesIO(png)).convert("RGB").split())
    return np.asarray(_TABLES[0][red] + _TABLES[1][green] + _TABLES[2][blue])


def contrast(one: Any, other: Any) -> Any:
    """The contrast ratio of two luminances, 1 to 21 (WCAG 2.2, definition of contrast ratio)."""
    return (np.maximum(one, other) + 0.05) / (np.minimum(one, other) + 0.05)


def picture(page: Page, at: Locator, grown: float = 0.0) -> Grey:
    """What is painted where an element stands, and so far round it."""
    box = at.bounding_box()
    assert box is not None
    clip: Any = {
        "x": max(0.0, box["x"] - grown),
        "y": max(0.0, box["y"] - grown),
        "width": box["width"] + 2 * grown,
        "height": box["height"] + 2 * grown,
    }
    return luminance(page.screenshot(clip=clip))


def changed(page: Page, at: Locator, change: Callable[[], Any], grown: float = 0.0) -> int:
    """How many pixels differ by at least 3:1 once something has changed (WCAG 2.2, 1.4.11: what tells a state apart)."""
    at.scroll_into_view_if_needed()
    before = picture(page, at, grown)
    change()
    after = picture(page, at, grown)
    rows, columns = (min(a, b) for a, b in zip(before.shape, after.shape, strict=True))
    return int(np.count_nonzero(contrast(before[:rows, :columns], after[:rows, :columns]) >= 3.0))


def legible(page: Page, at: Locator) -> bool:
    """Whether an element's word stands out from what is right behind it, 4.5:1 (WCAG 2.2, 1.4.3)."""
    at.scroll_into_view_if_needed()
    clip = at.evaluate("""one => {
      const range = document.createRange();
      range.selectNodeContents(one.firstChild);
      const { x, y, width, height } = range.getBoundingClientRect();
      return { x: x + 1, y: y + 2, width: width - 2, height: height - 4 };
    }""")
    word = luminance(page.screenshot(clip=clip))
    return bool(contrast(word.max(), word.min()) >= 4.5)
