"""Where things stand, for every test."""

from __future__ import annotations

from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--long`: ten times the seeds and cases where a test has many (minutes instead of seconds)."""
    parser.addoption("--long", action="store_true", help="more seeds and cases where a test has many")


# Files that take long come first, so that no processor stands idle at the end while another has the last one to do.
SLOW_FIRST = ("browser", "site", "published", "package")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The browser's tests first, each folder in its own order."""
    place = {name: i for i, name in enumerate(SLOW_FIRST)}
    items.sort(key=lambda item: place.get(item.path.relative_to(ROOT / "tests").parts[0], len(place)))


@pytest.fixture(scope="session")
def long(request: pytest.FixtureRequest) -> bool:
    """Whether the long run was asked for."""
    return bool(request.config.getoption("--long"))


@pytest.fixture(scope="session")
def root() -> Path:
    """The checkout."""
    return ROOT


@pytest.fixture(scope="session")
def site() -> Path:
    """The built site; `python3 scripts/test.py` builds it before the tests."""
    folder = ROOT / "site"
    if not (folder / "index.html").exists():
        pytest.fail("There is no built site; run python3 scripts/serve.py --build-only first.")
    return folder
