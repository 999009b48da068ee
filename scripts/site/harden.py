"""The last touch to every page: our script and style, and a policy that lets nothing come from anywhere else."""

from __future__ import annotations

import base64
import hashlib
import html
import json
import re
from pathlib import Path
from urllib.parse import urlsplit

from house.paths import APP
from house.say import TroubleError

ASSETS = Path("assets") / "hd"
SHIM = APP / "node_modules" / "iframe-worker" / "shim" / "index.js"

# Runs before any other script of a page.
FIRST = """\
// The shim for search in a folder takes the place of Worker there; the calculators need the browser's own.
window.handToDiscWorker = window.Worker;
// Where the browser refuses storage, even to name it throws; the theme would stop at its first line.
try {
  void window.localStorage;
} catch (refused) {
  window.handToDiscStorageRefused = true;
  const kept = new Map();
  const standIn = {
    getItem: (key) => kept.get(String(key)) ?? null,
    setItem: (key, value) => void kept.set(String(key), String(value)),
    removeItem: (key) => void kept.delete(String(key)),
    clear: () => kept.clear(),
    key: (index) => [...kept.keys()][index] ?? null,
    get length() { return kept.size; },
  };
  for (const name of ["localStorage", "sessionStorage"]) Object.defineProperty(window, name, { value: standIn });
}
"""

# Inside the search shim's frame, instead of the inline script that the policy would refuse.
FRAME_SCRIPT = "search-frame.js"
INLINE_IN_SHIM = re.compile(r"<html><body><script>postMessage=\$\{(\w+)\};importScripts=\$\{(\w+)\};.*?<\\/script>")

EXTERNAL_LINK = re.compile(r"\s*<link\b[^>]*\bhref=[\"']?(?:https?:)?//[^>]*>")
# Firefox fetches the page it names ahead: bytes nobody asked for, refused by the policy with a line in the console.
NEXT_PAGE = re.compile(r"\s*<link\b[^>]*\brel=[\"']?next[\"']?[^>]*>")
EXTERNAL_SCRIPT = re.compile(r"<script\b[^>]*\bsrc=[\"']?(?:https?:)?//[^>]*>")
INLINE_SCRIPT = re.compile(r"<script\b(?P<attributes>[^>]*)>(?P<text>.*?)</script>", re.DOTALL)
SECTION = re.compile(r'<span class="md-ellipsis">\s*([^<]+?)\s*</span>\s*</a>\s*<label [^>]*for="(__nav_\d+)"')
NO_SKIP = re.compile(r'(<div data-md-component="skip">)\s*(</div>)')
CHARSET = re.compile(r"<meta charset=[\"']?utf-8[\"']?\s*/?>")


def _shim_files() -> dict[str, str]:
    """The search shim of the npm library, its inline script moved to a file of its own.

    A page opened from a folder may not start a worker from a file. The shim runs the search in a hidden frame, into
    which it writes an inline script that holds the folder's path: no hash worked out at build could allow it.
    """
    shim = SHIM.read_text(encoding="utf-8")
    found = INLINE_IN_SHIM.search(shim)
    if found is None:
        raise TroubleError(f"The search shim in {SHIM} is not the one this build knows: look at _shim_files.")
    sender, loader = (_whole_function(shim, f"function {name}(") for name in found.groups())
    frame = (
        f"postMessage={sender};importScripts={loader};\n"
        'addEventListener("error",({error})=>{parent.dispatchEvent(new ErrorEvent("error",'
        '{filename:[...document.scripts].at(-1).src.split("?")[0],error}))});\n'
    )
    beside = 'new URL("search-frame.js",window.handToDiscShim)'
    patched = shim[: found.start()] + f"<html><body><script src=${{{beside}}}><\\/script>" + shim[found.end() :]
    return {
        "iframe-worker.js": f"window.handToDiscShim=document.currentScript.src;\n{patched}",
        FRAME_SCRIPT: frame,
    }


def _whole_function(source: str, start: str) -> str:
    """The function that starts with this text, to its closing brace (this library has no braces in its texts)."""
    depth, first = 0, source.find(start)
    for place in range(source.find("{", first), len(source)):
        depth += {"{": 1, "}": -1}.get(source[place], 0)
        if depth == 0 and first >= 0:
            return source[first : place + 1]
    raise TroubleError(f"The search shim in {SHIM} has no whole {start!r}: look at _shim_files.")


def policy(page: str) -> str:
    """The Content-Security-Policy of one page, with the hashes of the theme's own inline scripts."""
    hashes = []
    for script in INLINE_SCRIPT.finditer(page):
        attributes = script["attributes"]
        if re.search(r"\bsrc\s*=", attributes) or "application/json" in attributes:
            continue
        digest = hashlib.sha256(script["text"].encode("utf-8")).digest()
        hashes.append(f"'sha256-{base64.b64encode(digest).decode()}'")
    rules = {
        "default-src": ["'none'"],
        # WebAssembly may be compiled; text may not be run as script.
        "script-src": ["'self'", "'wasm-unsafe-eval'", *dict.fromkeys(hashes)],
        "worker-src": ["'self'", "blob:"],
        "style-src": ["'self'", "'unsafe-inline'"],
        "img-src": ["'self'", "data:", "blob:"],
        "connect-src": ["'self'"],
        "font-src": ["'self'"],
        "manifest-src": ["'self'"],
        "base-uri": ["'none'"],
        "form-action": ["'none'"],
    }
    return "; ".join(f"{name} {' '.join(sources)}" for name, sources in rules.items())


def _root_from(page: Path, site: Path, site_url: str) -> str:
    """From a page to the site's root. The 404 page is shown at any depth, so only a full path helps it."""
    inside = page.relative_to(site)
    if inside.name == "404.html":
        return urlsplit(site_url).path or "/"
    return "/".join([".."] * (len(inside.parts) - 1)) or "."


def _version(path: Path) -> str:
    """Part of a file's hash, for its address: a browser never mixes two builds."""
    return hashlib.sha256(path.read_bytes()).hexdigest()[:8]


def harden_page(page: str, root: str, site_url: str, versions: dict[str, str]) -> str:
    """One page with our metas, script, style and policy, and without links to elsewhere."""
    page = EXTERNAL_LINK.sub(
        lambda link: link[0] if site_url and site_url in link[0] and "stylesheet" not in link[0] else "", page
    )
    page = NEXT_PAGE.sub("", page)
    foreign = EXTERNAL_SCRIPT.search(page)
    if foreign:
        raise TroubleError(f"A page would load a script from elsewhere: {foreign[0]}")
    prefix = "" if root == "." else root.rstrip("/") + "/"
    metas = [f'<meta name="hd-root" content="{html.escape(root)}">']
    if site_url:
        metas.append(f'<meta name="hd-public-url" content="{html.escape(site_url)}">')
    assets = prefix + ASSETS.as_posix()
    ours = [
        f'<link rel="manifest" href="{prefix}manifest.webmanifest">',
        f'<link rel="apple-touch-icon" href="{assets}/icon-192.png">',
        f'<link rel="stylesheet" href="{assets}/app.css?v={versions["app.css"]}">',
        f'<script src="{assets}/app.js?v={versions["app.js"]}" defer></script>',
    ]
    charset = CHARSET.search(page)
    if charset is None or "</head>" not in page:
        raise TroubleError("The theme's page has no charset or no head: harden.py does not know it.")
    security = f'<meta http-equiv="Content-Security-Policy" content="{policy(page)}">'
    top = "\n      ".join([charset[0], security, *metas])
    page = page[: charset.start()] + top + page[charset.end() :]
    # The theme's search is a dialog without a name; readers of screens need one.
    page = page.replace(
        'data-md-component="search" role="dialog"', 'data-md-component="search" role="dialog" aria-label="Search"'
    )
    # Sections that have a page of their own get a list that is labelled by nothing; several can't be told apart.
    for name, label in SECTION.findall(page):
        page = page.replace(f'aria-labelledby="{label}_label"', f'aria-label="{name.strip()}"')
    # The page for addresses that lead nowhere has no list of headings: the theme gives it no way past the menu.
    if NO_SKIP.search(page) and "<h1>" in page:
        page = NO_SKIP.sub(r'\1<a href="#content" class="md-skip">Skip to content</a>\2', page)
        page = page.replace("<h1>", '<h1 id="content">', 1)
    return page.replace("</head>", "\n".join(["", *ours, "</head>"]), 1)


def write(site: Path, site_url: str) -> None:
    """Write the small scripts and go over every page of the built site."""
    target = site / ASSETS
    texts = {"first.js": FIRST, **_shim_files(), "public-url.js": _public_url_script(site_url)}
    for name, text in texts.items():
        (target / name).write_text(text, encoding="utf-8", newline="\n")
    versions = {name: _version(target / name) for name in ("app.js", "app.css")}
    for path in sorted(site.rglob("*.html")):
        page = path.read_text(encoding="utf-8")
        root = _root_from(path, site, site_url)
        path.write_text(harden_page(page, root, site_url, versions), encoding="utf-8", newline="\n")


def _public_url_script(site_url: str) -> str:
    """A file that whoever publishes the folder can edit without building again."""
    return (
        "// Where this folder is published, for links and QR codes, like https://example.org/rotor/\n"
        f"window.handToDiscPublicUrl = {json.dumps(site_url)};\n"
    )
