"""Firefox as Debian ships it, driven over WebDriver BiDi (a W3C standard it speaks itself, so no driver is needed).

Only what the tests use; the protocol's own names stand in the calls. Everything a page says besides its words is kept: errors,
the console, requests, and what its policy forbade.
"""

from __future__ import annotations

import contextlib
import json
import re
import subprocess
import tempfile
import threading
import time
from collections import deque
from pathlib import Path
from typing import Any

from websockets.sync.client import connect

from .policy import NOTE_REFUSALS
from .reader import PARTS, PATIENCE, REWRITTEN

_LISTENING = re.compile(r"WebDriver BiDi listening on (ws://\S+)")
# A browser under test asks nobody for anything: updates, studies, lists, portals.
_SETTINGS: dict[str, Any] = {
    "app.normandy.enabled": False,
    "app.update.auto": False,
    "browser.contentblocking.category": "custom",
    "browser.newtabpage.enabled": False,
    "browser.safebrowsing.downloads.remote.enabled": False,
    "browser.safebrowsing.update.enabled": False,
    "browser.shell.checkDefaultBrowser": False,
    "browser.startup.homepage_override.mstone": "ignore",
    "browser.startup.page": 0,
    "datareporting.policy.dataSubmissionEnabled": False,
    "dom.push.connection.enabled": False,
    "extensions.systemAddon.update.enabled": False,
    "extensions.update.enabled": False,
    "intl.accept_languages": "en-GB",
    "media.gmp-manager.updateEnabled": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "network.dns.disablePrefetch": True,
    "services.settings.server": "data:,none",
    "toolkit.telemetry.enabled": False,
    "ui.prefersReducedMotion": 1,
    "webgl.force-enabled": True,
}


class Fox:
    """One Firefox with a profile of its own; `page()` opens a tab in a fresh set of storage."""

    def __init__(self, program: Path) -> None:
        self._stack = contextlib.ExitStack()
        # The last of what it says to a terminal, for whoever looks into a failure.
        self.words: deque[str] = deque(maxlen=200)
        self._listener: threading.Thread | None = None
        profile = Path(self._stack.enter_context(tempfile.TemporaryDirectory(prefix="fox-")))
        lines = [f"user_pref({json.dumps(name)}, {json.dumps(value)});" for name, value in _SETTINGS.items()]
        (profile / "user.js").write_text("\n".join(lines), encoding="utf-8")
        self._process = subprocess.Popen(
            [
                str(program),
                "--headless",
                "--no-remote",
                "--profile",
                str(profile),
                "--remote-debugging-port",
                "0",
            ],
            stderr=subprocess.PIPE,
            stdout=subprocess.DEVNULL,
            text=True,
        )
        self._stack.callback(self._stop)
        self._line = self._stack.enter_context(connect(f"{self._address()}/session", max_size=None, open_timeout=30))
        self._number = 0
        self.events: list[dict[str, Any]] = []
        self.version = str(self.send("session.new", capabilities={})["capabilities"]["browserVersion"])
        self.send("session.subscribe", events=["log.entryAdded", "network.beforeRequestSent"])
        self.send("script.addPreloadScript", functionDeclaration=NOTE_REFUSALS)

    def _address(self) -> str:
        assert self._process.stderr is not None
        for line in self._process.stderr:
            found = _LISTENING.search(line)
            if found:
                # Somebody must read on: a browser that can't get rid of its words stands still.
                self._listener = threading.Thread(target=self.words.extend, args=(self._process.stderr,), daemon=True)
                self._listener.start()
                return found[1]
        raise AssertionError("Firefox ended before it listened.")

    def send(self, method: str, **params: Any) -> dict[str, Any]:
        """One command; events that arrive meanwhile are kept."""
        self._number += 1
        self._line.send(json.dumps({"id": self._number, "method": method, "params": params}))
        while True:
            said = json.loads(self._line.recv(timeout=120))
            if said.get("type") == "event":
                self.events.append(said)
            elif said.get("id") == self._number:
                assert said["type"] == "success", said
                return dict(said["result"])

    def page(self, width: int = 1280, height: int = 900) -> FoxPage:
        user = self.send("browser.createUserContext")["userContext"]
        tab = self.send("browsingContext.create", type="tab", userContext=user)["context"]
        self.send("browsingContext.setViewport", context=tab, viewport={"width": width, "height": height})
        return FoxPage(self, tab)

    def _stop(self) -> None:
        self._process.terminate()
        self._process.wait(30)
        if self._listener:
            self._listener.join(30)
        if self._process.stderr:
            self._process.stderr.close()

    def end(self) -> None:
        self._stack.close()


class FoxPage:
    """A tab: open, ask for values, press keys, and judge what it said besides."""

    def __init__(self, fox: Fox, tab: str) -> None:
        self._fox = fox
        self._tab = tab
        # Patterns of what a test brings about itself.
        self.allowed: list[str] = []
        self._begun = len(fox.events)

    def open(self, address: str) -> None:
        self._fox.send("browsingContext.navigate", context=self._tab, url=address, wait="complete")

    def back(self) -> None:
        self._fox.send("browsingContext.traverseHistory", context=self._tab, delta=-1)

    def run(self, expression: str, *arguments: Any) -> Any:
        """A JavaScript expression's value (awaited), or a function's with these arguments; plain data only."""
        call = f"({expression})({', '.join(map(json.dumps, arguments))})" if arguments else f"({expression})"
        answer = self._fox.send(
            "script.evaluate",
            expression=f"(async () => JSON.stringify((await {call}) ?? null))()",
            target={"context": self._tab},
            awaitPromise=True,
        )
        assert answer["type"] == "success", answer.get("exceptionDetails", {}).get("text")
        return json.loads(answer["result"]["value"])

    def until(self, expression: str, wanted: Any = True, patience: float = PATIENCE * 2) -> None:
        """Wait until an expression has this value."""
        end = time.monotonic() + patience
        while (seen := self.run(expression)) != wanted and time.monotonic() < end:
            time.sleep(0.05)
        assert seen == wanted, expression

    def press(self, selector: str, *keys: str) -> None:
        """Focus an element as a script may, then press real keys (WebDriver's code points) on it."""
        self.run("(s) => { document.querySelector(s).focus(); }", selector)
        actions = [{"type": kind, "value": key} for key in keys for kind in ("keyDown", "keyUp")]
        self._fox.send(
            "input.performActions", context=self._tab, actions=[{"type": "key", "id": "keys", "actions": actions}]
        )

    def click(self, selector: str) -> None:
        """A real click in the middle of an element."""
        x, y = self.run(
            """(s) => { const one = document.querySelector(s); one.scrollIntoView({ block: "center" });
            const box = one.getBoundingClientRect(); return [box.x + box.width / 2, box.y + box.height / 2].map(Math.round); }""",
            selector,
        )
        actions = [
            {"type": "pointerMove", "x": x, "y": y},
            {"type": "pointerDown", "button": 0},
            {"type": "pointerUp", "button": 0},
        ]
        self._fox.send(
            "input.performActions", context=self._tab, actions=[{"type": "pointer", "id": "hand", "actions": actions}]
        )

    def shows(self, calculator: str, parts: dict[str, str]) -> None:
        """Wait until a calculator shows exactly these parts of an answer."""
        wanted = self.run(REWRITTEN, parts)
        self.until(f"({PARTS})(document.querySelector('hd-calculator[name=\"{calculator}\"]'))", wanted)

    def requests(self) -> list[str]:
        """Addresses this tab and its workers have asked for."""
        found = [one["params"]["request"]["url"] for one in self._mine("network.beforeRequestSent")]
        return [str(url) for url in found]

    def _mine(self, method: str) -> list[dict[str, Any]]:
        return [one for one in self._fox.events[self._begun :] if one["method"] == method]

    def faults(self) -> list[str]:
        """Errors and warnings since this tab was opened, and what the page's policy forbade on the document that is open."""
        entries = [one["params"] for one in self._mine("log.entryAdded")]
        said = [
            f"{one['level']}: {one['text']}"
            for one in entries
            if one["level"] in ("error", "warn") and one["type"] in ("javascript", "console")
        ]
        refused = [str(one) for one in self.run("window.refusals ?? []")]
        return [one for one in said + refused if not any(re.search(pattern, one) for pattern in self.allowed)]

    def close(self) -> None:
        self._fox.send("browsingContext.close", context=self._tab)
