"""The policy of every page, in Chromium: what it forbids is refused, from a server and from a folder (Firefox: test_firefox.py)."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from . import oracle
from .conftest import reader_context
from .policy import ATTEMPTS, NOTE_REFUSALS
from .reader import Reader, eventually
from .watch import Watch


@pytest.fixture(scope="module", params=["server", "folder"])
def base(request: pytest.FixtureRequest, address: str, site: Path) -> str:
    return address if request.param == "server" else site.as_uri() + "/"


@pytest.fixture(scope="module")
def visitor(browser: Browser, base: str) -> Iterator[Reader]:
    context = reader_context(browser)
    one = Reader(context.new_page(), Watch(context, base), base)
    one.page.add_init_script(f"({NOTE_REFUSALS})()")
    yield one
    context.close()


@pytest.mark.parametrize("attempt", ATTEMPTS)
def test_what_the_policy_forbids_is_refused(visitor: Reader, attempt: str) -> None:
    expression, directive = ATTEMPTS[attempt]
    visitor.open(f"{oracle.PAGE_OF['phase']}?{attempt.replace(' ', '-')}")
    assert visitor.page.evaluate("window.refusals") == [], "refused something of the site's own"
    visitor.page.evaluate(f"() => {{ {expression}; }}")
    eventually(lambda: directive in "".join(visitor.page.evaluate("window.refusals")), True, visitor.page)
    assert visitor.page.evaluate("[window.reached ?? 0, document.baseURI.includes('elsewhere.invalid')]") == [0, False]
    assert "elsewhere.invalid" not in visitor.page.url


def test_every_document_has_a_policy_before_anything_it_loads(site: Path) -> None:
    for page in site.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        at = text.index('http-equiv="Content-Security-Policy"')
        for loaded in ("<script", "<link", "<img", "<style"):
            assert loaded not in text[:at], f"{page.name}: {loaded} stands before the policy"
        assert "'unsafe-eval'" not in text
        assert "script-src 'self' 'unsafe-inline'" not in text
