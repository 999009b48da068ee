"""What a page says besides its words: console, errors nobody caught, requests. All of it is judged at a test's end."""

from __future__ import annotations

import re

from playwright.sync_api import BrowserContext, ConsoleMessage, Request, Response, WebError

# The test library's own word where it keeps the offline copy out, so that every test meets the pages themselves.
BLOCKED = re.compile("Service Worker registration blocked by Playwright")


class Watch:
    """Listens to everything that happens in one browser context."""

    def __init__(self, context: BrowserContext, own: str) -> None:
        self._own = own
        self._allowed: list[re.Pattern[str]] = []
        self._faults: list[str] = []
        self.requests: list[str] = []
        context.on("console", self._console)
        context.on("weberror", self._error)
        context.on("request", self._request)
        context.on("response", self._response)

    def _console(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning", "assert") and not BLOCKED.search(message.text):
            self._faults.append(f"console {message.type}: {message.text}")

    def _error(self, error: WebError) -> None:
        self._faults.append(f"error nobody caught: {error.error}")

    def _request(self, request: Request) -> None:
        self.requests.append(request.url)
        if not request.url.startswith((self._own, "data:", "blob:", "about:")):
            self._faults.append(f"request to elsewhere: {request.url}")

    def _response(self, response: Response) -> None:
        if response.status >= 400:
            self._faults.append(f"response {response.status}: {response.url}")

    def allow(self, pattern: str) -> None:
        """A fault this test brings about itself, or that the browser and not the site reports."""
        self._allowed.append(re.compile(pattern))

    @property
    def runtime(self) -> list[str]:
        """Requests for the Python runtime so far."""
        return [url for url in self.requests if "/assets/hd/runtime/" in url or "payload.js" in url]

    def faults(self) -> list[str]:
        """What was not allowed."""
        return [fault for fault in self._faults if not any(p.search(fault) for p in self._allowed)]

    def judge(self) -> None:
        """Fail unless everything was quiet; then start anew."""
        faults = self.faults()
        self._faults.clear()
        self._allowed.clear()
        assert not faults, "\n".join(faults)
