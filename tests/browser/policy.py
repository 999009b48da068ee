"""What nobody who wrote something into a page may bring about: tried in both browsers, from a server and from a folder.

Each attempt is a JavaScript expression, run as the test's own code, which a browser lets past the page's policy; what it adds to
the page is not let past. Beside it stands the directive that must refuse it.
"""

from __future__ import annotations

from typing import Final

ELSEWHERE: Final = "https://elsewhere.invalid/"
_ADD: Final = "(() => {{ const one = document.createElement('{tag}'); {set}; document.{place}.append(one); {then} }})()"


def _added(tag: str, set_: str, place: str = "body", then: str = "") -> str:
    return _ADD.format(tag=tag, set=set_, place=place, then=then)


ATTEMPTS: Final = {
    "a script written into the page": (_added("script", "one.textContent = 'window.reached = 1'"), "script-src"),
    "a handler in an attribute": (
        "document.body.insertAdjacentHTML('beforeend', '<img src=\"data:,\" onerror=\"window.reached = 1\">')",
        "script-src",
    ),
    "text run as a program": ("(() => { try { setTimeout('window.reached = 1', 0); } catch {} })()", "script-src"),
    "a script from elsewhere": (_added("script", f"one.src = '{ELSEWHERE}x.js'"), "script-src"),
    "a module from data": (
        _added("script", "one.type = 'module'; one.src = 'data:text/javascript,window.reached=1'"),
        "script-src",
    ),
    "a style sheet from elsewhere": (
        _added("link", f"one.rel = 'stylesheet'; one.href = '{ELSEWHERE}x.css'", "head"),
        "style-src",
    ),
    "a picture from elsewhere": (_added("img", f"one.src = '{ELSEWHERE}x.png'"), "img-src"),
    "a frame": (_added("iframe", f"one.src = '{ELSEWHERE}'"), "frame-src"),
    "an object": (_added("object", "one.data = 'data:text/html,<p>x'"), "object-src"),
    "a form sent elsewhere": (
        _added("form", f"one.action = '{ELSEWHERE}'; one.method = 'post'", then="try { one.submit(); } catch {}"),
        "form-action",
    ),
    "data sent elsewhere": (f"fetch('{ELSEWHERE}', {{ mode: 'no-cors' }}).catch(() => 0)", "connect-src"),
    "a line held open": (
        f"(() => {{ try {{ new WebSocket('{ELSEWHERE}'.replace('https', 'wss')); }} catch {{}} }})()",
        "connect-src",
    ),
    "another base for every address": (_added("base", f"one.href = '{ELSEWHERE}'", "head"), "base-uri"),
}

# Noted by each document, since a refusal is no error of the page.
NOTE_REFUSALS: Final = """() => {
  window.refusals = [];
  document.addEventListener("securitypolicyviolation", (one) => window.refusals.push(one.effectiveDirective));
}"""
